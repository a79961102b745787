# The Counter: what the clerk reads.
name = &Name
phone = &Phone
tv = T&V system
copies = &Copies on
needed_by = Needed &by
rush = Rus&h
cold = Came in c&old
tax_exempt = Tax e&xempt
tax_exempt_why = Why no tax is charged
hint_tax_exempt = the reason, or the number of the certificate
tax_exempt_accepted = the reason or the number of the certificate is accepted, in at most 120 characters
deposit = &Deposit taken
book = Book the order
book_key = Ctrl+Return
sign = Sign first   { $keys }
# While the customer signs.
sign_wait = Waiting for a signature (F9). Esc goes back.
sign_done = Signed. Ctrl+Return books it, Esc goes back.
sign_signature = Book
sign_spoken = &Said so
sign_paper = On pape&r
sign_missing = { $name } has not signed on the Customer side yet. If they would rather not, Alt+S keeps that they said so, and Alt+R has the paper signed.
sign_again = The order has changed, so what was signed does not count. Ctrl+S has it signed again.
ask =
    { $of ->
        [1] Ask the customer
       *[other] Ask the customer, { $n } of { $of }
    }
ask_worth =
    { $of ->
        [1] Ask the customer · narrows it by { $hours } h
       *[other] Ask the customer, { $n } of { $of } · narrows it by { $hours } h
    }
ask_row = Row { $row }: { $text }
answer = &{ $n }  { $words }
answer_means = { $words }: { $means }
later = &0  Ask later
how_many = How &many
how_many_name = How many tapes of the row the answer is for
how_many_of = {" "}of { $tapes }
tell = Say this before taking money
tell_row = { $count } × { $words }
told = &Told, and agreed   { $keys }
told_about = { $which }: { $sentences }
keys = Keys for the tapes
key_1 = Return
key_1_does = Use it
key_2 = Down
key_2_does = Next row
key_3 = Esc
key_3_does = Leave the cell as it was
booked = Order { $number } is booked: { $tapes } for { $name }. The claim slip, labels and quote are being written.
stored_before = An earlier try was stored after all. { $booked } What stands here now isn't part of it: change that order, or press Book once more to book this as another box.
papers = The papers for order { $number } are in { $folder }.
papers_failed = Order { $number } is booked, but its papers could not be written: { $why } Print them again from Pickup.
booked_head = Booked. Stick the labels on, hand over the slip.
show_slip = Claim &slip
show_labels = &Labels
next_box = Next order
need_tape = There are no tapes yet. One is enough to book an order: how many, and the format.
need_name = Write down who is bringing the tapes, then book the order.
need_told = Tell the customer the sentences below the tapes and check Told (F8), then book the order.
row = Row { $row }: { $sentence }
restored = The order you were taking is back as it was.
deposit_place = Deposit
deposit_accepted = accepted is an amount like { $like }, no more than the { $ceiling } we won't go over without asking
# The one line for an order.
line = All tapes in one line
hint_line = { $keys }  All in one line: 5 vhs t120, hi8 snapped; Ada Fenwick 555-0142
hint_line_rest = { $keys }  All in one line
line_keys = Return adds the rows · who brings them goes behind a semicolon · Tab completes a word · Down shows what may have been meant · Esc goes back to the tapes
line_add = Add the rows
line_left = There are still words in the line below the tapes. Press F6, then Return to add them, or delete them.
line_taken =
    { $wrong ->
        [0] { $tapes ->
                [one] 1 tape was added.
               *[other] { $tapes } tapes were added.
            }
        [one] { $rows ->
                [one] 1 row was added; something in it was not understood and is marked.
               *[other] { $rows } rows were added; something in one of them was not understood and is marked.
            }
       *[other] { $rows } rows were added; in { $wrong } of them something was not understood and is marked.
    }
pasted = The pasted table
dropped_accepted = a table (CSV) or an inventory (JSON) with tapes in it is accepted
dropped_empty = no tapes
undo_line = the line
undo_line_taken = rows from the line
undo_pasted = pasted rows
undo_dropped = rows from a file
menu_choose = Show what can be chosen
tool_look = Look over
tool_packs = Measure packs
# The tapes: column heads, what belongs in each, and what the clerk may type.
name_of_slip = Slip
tray = Tapes in this order
told_name = Told
cell = { $column }, row { $row }
column-count = How many
column-format = Format
column-marking = Marking
column-recorded_as = Recorded as
column-speed = Speed
column-tv = TV system
column-findings = What is wrong
column-label = Label
column-minutes = Plays each
head-count = Count
head-recorded_as = Recorded
head-tv = TV
hint-count = How many, or in words: 5 vhs t120
hint-format = What kind of cassette it is
hint-marking = Printed on it: T-120, P6-120, DVM60
hint-recorded_as = Another system on the same kind of cassette, if you know
hint-speed = SP, LP or EP; leave it empty if nobody knows
hint-tv = NTSC or PAL, if this row differs from the rest of the order
hint-findings = Put commas between; F7 comes here from anywhere
hint-label = What the owner wrote on it
aside_not-here = not here
aside_cannot = can't be played
aside_rights = needs the rights
aside_look = to be looked at
unknown = unknown
ntsc_where = the Americas, Japan, Korea
pal_where = most of Europe, Australia, China
size = { $width } × { $height } × { $depth } mm
runs = { $minutes } min at { $speed }
accepted_count = a whole number from 1 to { $most } is accepted
accepted_one = accepted: { $known }
accepted_many = accepted, with commas between: { $known }
accepted_recorded = a { $format } cassette can hold { $known }
accepted_speed = { $system } has { $known }; or leave it empty
accepted_speed_tv = { $system } in { $tv } has { $known }; or leave it empty
accepted_tv = NTSC or PAL is accepted, or leave it empty
label_letters = { $count } letters
accepted_label = up to { $most } letters are accepted
# What undo and redo name.
undo_cell = { $column } in row { $row }
undo_new_row = new row
undo_repeated = row { $row } repeated
undo_removed = row { $row } removed
undo_new_box = new order
undo_answer = answer for row { $row }
undo_look = look-over of row { $row }
undo_packs = packs of row { $row }
undo_name = name
undo_phone = phone
undo_tv = TV system
undo_copies = copies
undo_needed_by = needed by
undo_rush = rush
undo_cold = came in cold
undo_tax_exempt = tax exempt
undo_deposit = deposit
undo_told = told
# What the copies come on, and by when.
hint_copies = files on a stick
hint_needed_by = no rush
copies_place = Copies
needed_by_place = Needed by
on-usb = files on a stick
on-disk = files on a hard disk
on-own-drive = files on their own drive
on-download = files to download
on-dvd-r = files on data DVDs
on-bd-r = files on data Blu-rays
on-own = files on { $medium }
on-own-minutes = copies on { $medium }
codec-own = { $codec } files on { $medium }
codec-usb = { $codec } files on a stick
codec-disk = { $codec } files on a hard disk
codec-own-drive = { $codec } files on their own drive
codec-download = { $codec } files to download
codec-dvd-r = { $codec } files on data DVDs
codec-bd-r = { $codec } files on data Blu-rays
sets = { $n ->
        [one] { $copy }
       *[other] { $n } × { $copy }
    }
disc-dvd = DVDs for a player
disc-bluray = Blu-rays for a player
disc_typed-dvd = DVD-Video
disc_typed-bluray = Blu-ray video
dvd_note = each tape starts its own disc
accepted_copies = for example { $few } are accepted, or up to 20 sets such as 3 × DVD; type a letter to see all
accepted_day = a day like { $day } or { $iso } is accepted, or nothing
accepted_day_range = a day from today on, within three years, is accepted
tapes_count =
    { $count ->
        [one] { $count } tape
       *[other] { $count } tapes
    }
empty_cell = empty
column_tip = { $words }: { $hint }

# --- ways to agree on the price
ways = &Agree on
way = { $n }  { $words }|{ $amount }
way_name = { $words }: { $amount }
way_from = from { $amount }
way-by-play = By what plays
way-flat = Flat price
way-play-first = Play first
way-by-play-means = A range now; charged by what the tapes play, and we ask before going over.
way-flat-means = One price for everything, however long the tapes play.
way-play-first-means = We play the tapes first; the customer then picks which ones to copy.
flat_risk =
    For you: { $expected } on average by what plays, give or take { $deviation }; above the flat price { $often }. One in ten { $worst_is ->
        [loss] loses { $worst }
       *[gain] still gains { $worst }
    } or more; one in ten { $best_is ->
        [loss] loses { $best }
       *[gain] gains { $best }
    } or more.
undo_way = how the price is agreed
# Where the room is too narrow for the slip beside the tapes.
glance = { $amount }, ready by { $day }
glance_no_day = { $amount }
