# What the Pickup screen says.
ask = Who is picking up?
ask_hint = Order number, name, last phone digits, or scan a tape
ask_scan = Scan each tape as you lay it on the counter. Esc closes the order.
ask_scan_hint = Or press Down and check tapes with Space
start = Type who is picking up, or scan any of their tapes.
# How a pickup goes, while no order is open.
guide = How a pickup goes
guide_1 = 1. Type the order number, the name, or the last digits of the phone; or scan any of their tapes.
guide_2 = 2. Scan each tape as you lay it on the counter. What is still missing stays unchecked.
guide_3 = 3. Say what the slip says, take the balance, let them sign, and hand it all back.
choose = { $count } matching orders — choose with Down and Return
counted = { $checked } of { $all } checked off
none_found = Nothing found for “{ $text }”. Ask for the name on the order, or the last four digits of the phone number
other_job = Tape { $code } belongs to order { $other }, not to order { $job }. Put it back where it belongs; tapes of order { $job } are accepted here.
not_in_job = order { $job } has no such tape
not_ready = { $title } is { $station }, not ready to go. It stays here.
tapes_head = Tapes
copies_head = Copies
whole_job = order { $number }
tell = Say this to them
tell_none = No tape of this order is ready to go home yet.
tell_nothing = The tapes that go home today play and may be used again, but a keepsake is best left alone. Store them upright, cool, and dry.
tell_spliced = “{ $title }” was spliced { $at } minutes in; about { $seconds } s are gone there.
tell_spliced_many = “{ $title }” was spliced in { $count } places; about { $seconds } s are gone in all.
tell_leader = “{ $title }” was spliced in the clear leader; nothing recorded was lost.
tell_repaired = “{ $title }” was repaired and is not for reuse.
tell_why =
    { $count ->
        [one] Please never play or record on it again. A splice lets go with age and heat, and a camera gets hot inside; a loose end can wrap around the heads and ruin tape and camera. Watch the copies, and keep the cassette as a keepsake.
       *[other] Please never play or record on them again. A splice lets go with age and heat, and a camera gets hot inside; a loose end can wrap around the heads and ruin tape and camera. Watch the copies, and keep the cassettes as keepsakes.
    }
tell_cannot-be-played = “{ $title }” could not be played and is not charged for copying.
tell_copied-in-part = “{ $title }” could be copied only in part.
tell_nothing-on-it = There is nothing on “{ $title }”, so nothing was copied and copying is not charged.
tell_not-wanted = “{ $title }” goes home as it is, as you wished. It is not charged.
tell_repair-declined = “{ $title }” was not repaired and not copied, as you wished. Copying is not charged.
tell_sent-elsewhere = “{ $title }” was with another shop and is back.
tell_lost = “{ $title }” is not here. We are sorry. What happened and what we agreed on is written down.
tell_damaged = “{ $title }” was damaged here. We are sorry. What happened and what we agreed on is written down.
tell_apart = “{ $title }” was kept apart from other tapes. Keep it in its bag and away from others.
tell_note = “{ $title }”: { $note }
label_missing = Before it goes: is the not-for-reuse label on { $title } ({ $code })?
label_astray = { $title } ({ $code }) has no splice any more, but a not-for-reuse label is still on it. Take it off before the tape goes.
label_button = The label is on the tape   F8
price_with_tax =
    { $tax ->
        [none] Total
       *[other] Total ({ $tax })
    }
rounding = Rounding
paid_before = Paid before
due = Balance
take_now = Paid now
name = Who signs
pad_clear = Clear
on_paper = They sign the printed receipt instead   Alt+S
hand_back = Hand back   Ctrl+Return
hand_back_these = Hand back { $what }   Ctrl+Return
tapes_many = { $count ->
        [one] 1 tape
       *[other] { $count } tapes
    }
copies_many = { $count ->
        [one] 1 copy
       *[other] { $count } copies
    }
files_button = Write the list of files   F12
files_written = The list of files is at { $path }.
no_files_written = The list of files could not be written to { $folder }: { $why }. Make room there, then press F12 again.
receipt_again = Print the last receipt again   F7
quote_again = Write quote and slip again   F10
quote_written = The quote is at { $path }, the claim slip and the labels beside it.
money_button = Take or refund money   F6
money_amount = Amount
money_why = Why
money_why_hint = paid twice; a copy that did not play
money_paid = Paid so far: { $amount }.
money_take = Take payment   Alt+P
money_give = Refund it   Alt+G
money_taken = Taken: { $amount }. Paid so far: { $paid }.
money_given = Refunded: { $amount }. Paid so far: { $paid }.
nothing_checked = Nothing is checked off yet. Scan each tape as you lay it on the counter, then hand back
nobody_signed = Nobody has signed. Have them sign on the pad, or choose to sign the printed receipt
no_name = who signs
no_name_accepted = the name of the person picking up is needed
money_place = Paid now
money_accepted = an amount like { $like } is accepted
done = Handed back to { $name }: { $what }. The receipt is at { $path }.
stored = Handed back to { $name }: { $what }. Writing the receipt …
no_receipt_written = The tapes are handed back and that is kept. The receipt could not be written to { $folder }: { $why }. Make room there, then press F7.
no_paper = The paper could not be written to { $folder }: { $why }. Make room there, then print it again.
no_receipt = Nothing of order { $number } has been handed back yet, so there is no receipt
labelled = The label is on { $title }.
gone_home = Everything in this order has gone home.
tray_list = Tapes and copies to hand back
tape_code = tape code
signature = { $strokes ->
        [0] Signature: empty
        [one] Signature: signed, 1 stroke
       *[other] Signature: signed, { $strokes } strokes
    }
signature_line = Sign here
signature_how = Sign with a pen, a finger, or the mouse. Delete removes the last stroke.
signature_how_pen = Sign with a pen, a finger, or the mouse.
shown = What they showed, since they are somebody else
shown_hint = a note signed by the customer; the claim slip
named = May collect it: { $who } ({ $said_by } told { $by }).
drop_title = Close this order?
drop_text = Not kept yet: { $what }. If you close order { $number } now, that is lost.
drop_keep = Stay here
drop_drop = Close and lose it
drop_ticks = { $ticks } checked off
drop_ink = the signature
drop_paid = the amount typed
drop_signer = the name typed
drop_shown = what they showed
