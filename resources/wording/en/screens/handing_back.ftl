# Tapes handed back to their owner: refusals, and the lines about it in the history.

nothing_chosen = Nothing on order { $number } was chosen to be handed back.
label_astray = Tape { $code } has a not-for-reuse label but no splice. Take the label off before the tape goes.
signed_by = signed by
needs_signer = the name of the person who takes the tapes is needed
signature = signature
stroke_off_pad = a stroke off the pad
points = points from 0 to 1 are accepted
all_gone = All tapes on order { $number } are already home. { $when }
none_ready =
    { $more ->
        [0] No tape on order { $number } is ready to go: { $tapes }.
       *[other] No tape on order { $number } is ready to go: { $tapes }, and { $more } more.
    }
tape_is_at = { $code } is { $station }
other_order = Tape { $code } is on order { $other }, not on order { $number }.
gone_already = Tape { $code } was handed back already. { $when }
not_ready = Tape { $code } is { $station }. A tape can go back when it is { $ready }. Move it first.
needs_label = Tape { $code } is spliced, but nobody has confirmed its not-for-reuse label. Put the label on the tape, confirm it (mark { $typed }), then hand the tape back.
when_signed = { $who } signed for it on { $day } at { $time }; { $by } handed it over.
copy = copy
copies_of_order = order { $number } has these copies: { $copies }
no_copies = order { $number } has no copies
copy_gone = { $copy } (number { $id }) was handed over on { $day }.
paid = paid
paid_bounds = from 0 to the { $due } minor units still due is accepted
event_tape = handed back to { $name }
event_not_returned = not handed back; { $name } signed that it is settled
not_accounted = Tape { $code } has no minutes and no file, and nobody has said what became of it. Say so first (settle { $typed }), then hand it back.
event_pickup = { $tapes ->
        [one] 1 tape
       *[other] { $tapes } tapes
    } and { $copies ->
        [one] 1 copy
       *[other] { $copies } copies
    } handed to { $name }
shown = what they showed
needs_shown = { $name } is not { $customer }, and was not named beforehand: write down what they showed, such as a note or the claim slip
