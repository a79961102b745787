# Agreements: their versions, what is refused, what goes into the history, the question about the price.

changed_meanwhile = { $who } changed the agreement of order { $number } in the meantime (version { $n }). Look at it again, then decide.
is_home = Tape { $code } is home already, so it can't be taken out of the agreement.
was_copied = Tape { $code } is copied already, so it stays in the agreement.
not_of_order = Tape { $code } is not in the agreement of order { $number }.
left_out_already = Tape { $code } was taken out of the agreement in version { $n }.
left_out_waits = Tape { $code } was taken out of the agreement in version { $n }. It only waits to be picked up; take it into the order again first.
nothing_to_cancel = Nothing of order { $number } is left to cancel: what is copied or home stays as it is.
nothing_to_amend = Nothing of order { $number } is here any more, so there is nothing to change.
nothing_asked = No tape of order { $number } is waiting for an answer about the price.
asked_about = we are asking about { $codes }
codes_fit =
    { $n ->
        [one] this line has 1 tape, so it can name 1 code at most
       *[other] this line has { $n } tapes, so it can name { $n } codes at most
    }
ceiling_covers = with “go on”, at least { $least } is accepted: the order costs that much already
not_playing = Tape { $code } is not on a deck; it is { $station }. What a deck shows can be entered while the tape plays.
say_what_shows = a speed, a recording or a TV system is accepted

event = { $kind ->
        [settled] agreement settled, version { $n }
        [cancelled] canceled, version { $n } of the agreement
       *[revised] version { $n } of the agreement
    }{ $how ->
        [none] {""}
        [signature] , signed by { $who }
        [paper] , signed on paper by { $who }
       *[spoken] ; { $who } agreed
    }{ $given ->
        [0] {""}
       *[other] : { $reason }
    }
event_ceiling = This comes to { $stands }, and we agreed on { $ceiling } at most: { $over } more. We ask the customer first.
event_left_out = { $playing ->
        [True] taken off the deck and out of the agreement, version { $n }: { $reason }
       *[other] taken out of the agreement, version { $n }: { $reason }
    }
event_added = added to the order
event_described = described anew
event_customer = the order was handed from { $was } to { $now }
event_sent_on = the customer answered; the tape goes on: { $station }
event_deck_shows = the deck shows { $what }; we now expect { $now } minutes, before it was { $was }{ $given ->
        [0] {""}
       *[other] ; { $unfit } does not play it
    }

said_go_on = go on
said_stop = stop at the agreed sum
said_leave = leave this tape
said_return_all = give everything back

# --- what a change is in words
told = { $what }: { $before } → { $after }
part-tape-added = Tape { $code } added
part-tape-left-out = Tape { $code } taken out
part-tape-described = Tape { $code } described anew
part-total = Total, most likely
part-ceiling = Ask before going over
part-given-away = Given away
part-date = Ready by
part-copies = Copies
part-rush = Rush
part-wish = Needed by
part-customer = Customer
yes = yes
no = no
nothing = –
usual_copies = as usual
version = { $kind ->
        [quoted] Version { $n }: booked as quoted
        [agreed] Version { $n }: agreed
        [cancelled] Version { $n }: canceled
        [settled] Version { $n }: settled
       *[revised] Version { $n }: changed
    }
agreed = { $how ->
        [none] { $day }, entered by { $by }; nobody wrote down who agreed.
        [open] { $who } agreed on { $day }; { $by } wrote it down.
        [signature] { $who } signed on { $day }; { $by } was at the counter.
        [paper] { $who } signed on paper on { $day }; { $by } took it.
       *[spoken] { $who } said yes on { $day }; { $by } heard it.
    }
trial = as it would be
about_price = the price
was_settled = Tape { $code } is settled already ({ $disposition }), so it stays in the agreement as it is.
event_released = the price is within what we agreed on again; the tape goes on: { $station }
