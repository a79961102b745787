# The call card, the versions of an agreement, who agreed and how, and the price as it stands.
who = Who agreed
how = How
how-spoken = said so
how-paper = signed on paper
how-signature = signed on the customer side
card = Call about the price
card_button = Call about the price   { $keys }
whom = Call { $name }, { $phone }
no_phone = no phone number on the order
script = “Hello { $name }, this is about your tapes. { $tapes ->
        [one] “{ $tape }” needs
       *[other] { $tapes } of your tapes, “{ $tape }” among them, need
    } more than we expected. If we do everything, it comes to { $stands } with tax; we agreed not to go over { $ceiling } without asking. What would you like us to do?”
choice-go-on = { $key }   Go on: { $price }, at most { $ceiling }{ $day ->
        [none] {""}
       *[other] ; ready { $day }
    }
choice-stop = { $key }   Stop at the agreed amount: { $price }{ $leaves ->
        [0] {""}
        [one] ; 1 tape goes back as is
       *[other] ; { $leaves } tapes go back as is
    }{ $day ->
        [none] {""}
       *[other] ; ready { $day }
    }
choice-leave = { $key }   Leave this tape: { $price }{ $day ->
        [none] {""}
       *[other] ; ready { $day }
    }
choice-return-all = { $key }   Give everything back: { $price }
copy_card = Call about the copies
copy_button = Call about the copies   { $keys }
copy_script = “Hello { $name }, this is about your tapes. { $reason ->
        [pieces] They run longer than we expected: your set takes { $needs } discs, and { $holds } { $holds ->
            [1] is
           *[other] are
        } ordered.
        [file-size] One recording, “{ $tape }”, is longer than the way your drive is formatted lets us put on it.
       *[other] They run longer than we expected and don’t fit on { $own ->
            [yes] your drive
           *[no] what you ordered ({ $copy })
        }: they take at least { $needs } GB, and it holds { $holds } GB.
    } What would you like us to do?”
copy-larger = { $key }   { $copy }{ $more ->
        [more] : { $by } more, { $price } in all
        [less] : { $by } less, { $price } in all
       *[same] : same price
    }{ $day ->
        [none] {""}
       *[other] ; ready { $day }
    }
copy-more = { $key }   { $pieces } × { $copy }{ $more ->
        [more] : { $by } more, { $price } in all
        [less] : { $by } less, { $price } in all
       *[same] : same price
    }{ $day ->
        [none] {""}
       *[other] ; ready { $day }
    }
copy-smaller = { $key }   Smaller files, { $copy }{ $more ->
        [more] : { $by } more, { $price } in all
        [less] : { $by } less, { $price } in all
       *[same] : same price
    }{ $day ->
        [none] {""}
       *[other] ; ready { $day }
    }
copy-download = { $key }   As a download instead{ $more ->
        [more] : { $by } more, { $price } in all
        [less] : { $by } less, { $price } in all
       *[same] : same price
    }{ $day ->
        [none] {""}
       *[other] ; ready { $day }
    }
copy-stick = { $key }   Not on their drive: { $copy }{ $more ->
        [more] : { $by } more, { $price } in all
        [less] : { $by } less, { $price } in all
       *[same] : same price
    }{ $day ->
        [none] {""}
       *[other] ; ready { $day }
    }
copy-reformat = { $key }   Empty their drive and format it anew (everything on it is lost)
copy-split = { $key }   Split long files into parts
copy_esc = The answer is kept with your name and the time. Esc closes the card; the copy goes on waiting.
other_ceiling = With “go on”: another amount to ask before going over (leave empty to take the one above)
esc = The answer is kept with your name and the time. Esc closes the card; the tape goes on waiting.
kept = Saved: what { $name } said about order { $number }.
versions = What was agreed, version by version
close = Esc closes.
print_newest = Print what holds now   Alt+P
holds = { $price } most likely; ask before going over { $ceiling }
within = Order { $number } comes to { $stands } as far as we know; ask before going over { $ceiling }.{ $given ->
        [0] {""}
       *[other] {" "}We give { $away } of it away.
    }
over = Order { $number } comes to { $stands }: { $over } over the { $ceiling } we agreed on. Ask the customer before doing more.
versions_button = What was agreed   F10
cancel_button = Cancel the order   Ctrl+T
amend_button = Change the order   Ctrl+E
cancel_reason = Why it is canceled
cancel_hint = the customer changed their mind
cancel_tapes = Only these tapes (codes with commas; leave empty for all that is not copied yet)
cancel_tapes_hint = 000018 001 4, 000018 002 2
cancel_how = What is copied already stays in the order. The price book may ask a fee.
cancel_save = Cancel the order
canceled_said = Canceled for { $name }: order { $number }, version { $n } of the agreement.
to_call = asks about the price: { $stands } against { $ceiling }
to_call_other = waits for an answer
to_call_copy = their copies no longer fit what was ordered
seen_button = It shows this now   Ctrl+W
seen_said = { $title }: we now expect { $minutes } minutes.
amend_head = Changing order { $number } · version { $n } · Ctrl+N leaves it as it is
amend_reason = &Why it changes
amend_reason_hint = two more tapes found in the attic
amend_wait = What changes appears here as you type.
amend_nothing = Nothing changes.
amend_save = Save the change
amended_said = Changed: order { $number }, version { $n } of the agreement.
known = Was here before:
known_one = { $name }, { $phone } · { $orders ->
        [one] 1 order
       *[other] { $orders } orders
    }   { $key }
amend_changes = What changes
