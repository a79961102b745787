# Decks in and out of service, the shop's settings, what it expects: refusals and lines of the history.

deck = deck
no_such_deck = this shop has { $decks }
no_decks = this shop has no decks
deck_is_playing = Deck { $deck } is playing tape { $code }. Take the tape out before you remove the deck.
event_settings = decks, hours, or people changed
out_already = Deck { $deck } is already out of service.
in_service_already = Deck { $deck } is already in service.
what_happened = what broke or was done
event_out =
    { $given ->
        [0] { $deck } broke down
       *[other] { $deck } broke down: { $words }
    }
event_back =
    { $given ->
        [0] { $deck } is back in service
       *[other] { $deck } is back in service: { $words }
    }
outage_planned_already = { $deck } is already planned to be out of service { $span }. Cancel that first, or choose other days.
outage_not_planned = { $deck } is not planned to be out of service { $span }; somebody has canceled it already.
outage_is_over = { $deck } was out of service { $span }. That is over and stays on record.
why = why
event_outage_planned =
    { $given ->
        [0] { $deck } planned out of service { $span }
       *[other] { $deck } planned out of service { $span }: { $reason }
    }
event_outage_canceled =
    { $given ->
        [0] { $deck } no longer planned out of service { $span }
       *[other] { $deck } no longer planned out of service { $span }: { $reason }
    }
out_of_service = Deck { $deck } is out of service. Choose another one.
does_not_play = Deck { $deck } does not play { $systems }. Choose another one.
named_to_play = name a deck only for a tape that starts playing
is_taken = Deck { $deck } is playing tape { $code }. Take that tape out first, or choose another deck.

broke_down =
    { $given ->
        [0] { $deck } broke down on { $day }
       *[other] { $deck } broke down on { $day }: { $reason }
    }

event_expected = expects a breakdown every { $between } hours of play and { $repair } hours until it is fixed, { $rush } rush orders a week of { $tapes } tapes, { $closed }% of opening days lost
hours_to_repair = hours until a deck is back
repair_takes_time = a deck that breaks down is out for a while: more than 0 hours are accepted
tapes_in_rush = tapes in a rush order
rush_holds_a_tape = a rush order has at least one tape: 1 or more is accepted
expected_changed_meanwhile = Somebody else changed what the shop expects while you were typing, so yours was not saved ({ $fields }). Look again, then decide.
figure_clash = { $what }: now { $now }, yours { $yours }
