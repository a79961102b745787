# What became of a tape, by the name of its disposition: the sentence at the counter while it is decided (counter),
# what the shop does next (next); then lines of the history and refusals.

counter-copied = The tape is copied. You get the tape and the copies back.
counter-copied-in-part = Only part of the tape could be copied. We tell you which part, and you get the tape back.
counter-nothing-on-it = We played the tape and there is nothing on it. You get it back as it is, and we don't charge for copying it.
counter-not-wanted = Then we leave this tape as it is, and don't charge for it. You get it back with the others.
counter-repair-declined = Then we don't repair this tape. It stays as it is, is not copied, and is not charged.
counter-cannot-be-played = We can't play this tape here. You get it back as it is, and we don't charge for copying it.
counter-sent-elsewhere = Another shop had this tape, and it is back with us. What they made and what they charge comes with it.
counter-lost = We can't find this tape. We are sorry; we write down what happened, and we won't charge for it.
counter-damaged = This tape was damaged here. We are sorry; we write down what happened, and we won't charge for it.

next-copied = Hand it back with the copies.
next-copied-in-part = Say which part was copied, then hand it back with the copies.
next-nothing-on-it = Hand it back as it is, and say that there is nothing on it.
next-not-wanted = Hand it back as it is.
next-repair-declined = Hand it back as it is, and say that it was not repaired.
next-cannot-be-played = Hand it back as it is, and say why it can't be played here.
next-sent-elsewhere = Hand it back with what the partner made.
next-lost = Tell the owner, write down when, and settle it with them. Look again before you do.
next-damaged = Tell the owner before they come, write down when, then hand it back.

told-to-customer = For the customer
told-to-us = For us

event-settled =
    { $given ->
        [0] settled: { $disposition }
       *[other] settled: { $disposition }; { $note }
    }
event-reopened = no longer { $disposition }: { $reason }
why-reopen = why it is opened again
not-settled = Nobody has settled yet what became of tape { $code }.
settled-so = Tape { $code } is settled already: { $disposition }.
settled-otherwise = Tape { $code } is settled already: { $disposition }. Open it again first and say why.
nothing-copied = Tape { $code } can't be settled as { $disposition }: no minutes and no file are on record. Give the minutes it played, or attach its file.
