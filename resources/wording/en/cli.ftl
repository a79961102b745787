# The command line: what each subcommand and option is for, and what is answered to a person.
help_lists_what_accepted = { $message }. `{ $prog } --help` lists what is accepted.
print_one_json_document = print one JSON document
shop_s_file_database = the shop's file or database
clock_time_without_offset = the clock; a time without offset is the time of this computer
person_acting = the person acting
same_command_carried_out = an id of this command: sent again with the same content it is answered again and not carried out twice
saved_before = This was saved before; it was not saved again.
send_again = { $sentence } To try again without saving it twice, add --command { $command }.
characters_accepted = from 1 to { $longest_text } characters are accepted
one_line_utf_text = one line of UTF-8 text is accepted
iso_time_between_accepted = an ISO 8601 time between 2000 and 2200 is accepted, like 2026-03-02T09:30:00-05:00
date_between_accepted_like = a date between 2000 and 2200 is accepted, like 2026-03-02
whole_number_accepted = a whole number from 0 to { $most } is accepted
careful = Careful: { $caution }
found_accepted = found { $typed }; { $words } from 0 to { $most } are accepted
cassette_transfer_shop_s = The counter of a shop that copies and repairs home-video cassettes.
how_long_cassette_may = how long a cassette may play, and why
share_above_up = a share above 0 and up to 1
share_told = a share above 0, 1 for all of the tape
seconds_cut_takes_away = the seconds that a cut removes
metres_minutes_one_reel = meters and minutes on one reel
full_quote_inventory_stores = the full quote of an inventory; stores nothing
book_job_inventory = book the order of an inventory
put_right_who_brought = correct who brought a box; what is not named stays as it is
give_money_back_paid = give money back that was paid for an order
what_recorded_file_holds = what a recorded file holds: length, blank and silent stretches, trims, checksum
strike_out_last_file = strike out the last file of a tape, attached by mistake
files_job_their_checksums = the files of an order with their checksums
printed_cassette_e_g = as printed on the cassette, e.g. T-120
another_system_fits_shell = another system that fits the shell
share_recorded = share that is recorded
how_share_known_told = how that share is known; told, an estimate, when it is not said
how_far_share_may = how far that share may lie off either way
printed_cassette = as printed on the cassette
one_pack_both_supply = one pack; with both, the supply
other_pack_says_whether = the other pack: says whether both agree with the marking
shell_e_g_vhs = the shell, e.g. vhs
recording_speed = recording speed
tv_system_recording = TV system of the recording
inventory_json_reads_standard = the inventory, JSON; - reads standard input
write_quote_claim_slip = write quote, claim slip and labels there
deposit_taken = deposit taken
minor_units = minor units
attach_tape_recorded = attach it to the tape it was recorded from
write_delivery_list = write the delivery list there
centimetres_tape = centimeters of tape
something_went_wrong_inside = Something went wrong inside the program ({ $name })
details_nothing_half_done = { $sentence }; the details are in { $log }. Nothing half-done was kept.
subcommand_named_accepted = No subcommand was named; accepted: { $subcommands }.
log_could_written_nothing = { $sentence }; the log could not be written. Nothing half-done was kept.
stopped_what_already_reported = Stopped. What was already reported as done is kept, nothing else.
answer_not_written = What you asked for was done, but the answer could not be written ({ $named }). What was to be saved is saved; look it up before you try again.
nothing_changed = { $named }; nothing was changed.
name_readable_file_accepted = the name of a readable file is accepted
folder = a folder
promised = Promised for { $day } ({ $words }){ $held }
would_luck = { $least } to { $most } would be luck
minutes_on_machine = { $span } minutes on the machine
minutes_recorded = { $span } minutes recorded
minutes_end_end_m = { $figure } minutes end to end: { $figure_2 } m at { $figure_3 } mm/s
seconds_removed_seconds_disturbed = { $seconds_removed } seconds removed, { $seconds_disturbed } seconds disturbed
sure = keep a place or a play time though it lies far beyond the end of the tape, because it was really measured
say_sure = To keep it as measured, send it again with --sure.
seconds_removed_only = { $seconds_removed } seconds removed; how many are disturbed is not known
m_minutes_reel = { $metres } m, { $figure } minutes on the reel
tape_run_minutes_minutes = { $span }% of the tape has run: { $span_2 } minutes; { $span_3 } minutes to come
tapes_hours_capture = { $count } tapes, { $span } hours of copying
backlog = ! { $backlog }
own_tapes =
    { $tapes ->
        [0] this price range doesn't rest on any tapes of the shop's own yet
        [one] this price range rests on 1 tape the shop has copied so far
       *[other] this price range rests on { $tapes } tapes the shop has copied so far
    }
altogether_never_above_without =
    { $tax_words ->
        [none] { $money } in all; we won't go over { $spelled } without asking
       *[other] { $money } in all ({ $tax_words }); we won't go over { $spelled } without asking
    }
held = ; held up by { $held_by }
open_jobs = No open orders.
date = no date
promised_2 = promised for { $day }
ready_to_go = ready to be picked up
waits_for_owner = waits for its owner
promise_over_yet = No promised day has passed yet.
job_matches = No order matches.
looked_over_after_repair = ; to be looked over after its repair
donor_parts_shelf = No donor parts are on the shelf.
used = ; used for { $used }
tape_finished_playing_yet = No tape has finished playing yet; the starting beliefs hold.
job_tapes_handed_back =
    { $count ->
        [one] Order { $number }: 1 tape handed back to { $name }
       *[other] Order { $number }: { $count } tapes handed back to { $name }
    }
paid_still_due = paid { $spelled }, still due { $spelled_2 }
take_reuse_label_off = ; take the not-for-reuse label off again
date_can_promised = No date can be promised: { $held_by }
first_now = { $words } { $share } at first, { $now } now
still_here = { "  " }still here: { $tape }
say_new_day_job = promise a new day for an order; the old one stays in the history
how_promises_turned_out = how the promises turned out, and what was counted along the way
deck_broke_down_back = a deck that broke down, or is back
day_shop_stays_shut = a day the shop stays closed though it was to be open
close_shop_plan_day = close the shop by plan, for a day or from one to another
take_closed_days_back = reopen closed days, planned or not; they no longer count
deck_out_service_plan = a deck that is out of service by plan
what_shop_states_failures = what the shop expects of breakdowns, rush orders, and closures; 0 means none
look_order_boxes_more = look for a better order for the queue, one that makes no promise less safe
copy_shop_while_use = copy the shop while it is in use
move_shop = move the whole shop from a file to a PostgreSQL server, or back
move_shop_from = the SQLite file or PostgreSQL URL the shop is in; it stays as it is and can no longer be opened
move_shop_to = a new file, or the URL of an empty database
shop_moved = The shop was moved from { $before } to { $where }. All { $rows } rows were compared and are the same. From now on, open it there.
shop_move_finished = { $where } already held the whole shop from an earlier try: all { $rows } rows were compared and are the same. The shop in { $before } is now marked as moved. From now on, open it in its new place.
put_copy_back_shop = put a copy back in the shop's place
check_database_chain_history = check the database and the chain of history
invented_shop_day_s = makes an invented shop with a day's work in it
why_day_changes = why the day changes
who_heard_how = who was told, and how
day_they_would_rather = the day the customer would rather have
out_back = out or back
what_broke_what_done = what broke, or what was done
out_after_all = cancel it
playing_hours = playing hours
real_hours = real hours
share_opening_days = a share of the opening days
put_boxes_order_found = put the boxes in the order that is found
order_before_last_one = the order before the last one holds again
last_day_if_several = the last day, if there are several
where_make_must_new = where to make it; must be new or empty
only_make_files = only make the files
answer_caller = the answer to a caller
one_tape_station = one tape to a station
confirm_reuse_label_cassette = confirm that the not-for-reuse label is on the cassette
finding_or_own = what was found, by its name here or in the shop's settings
findings_or_own = { $names }, or a finding of the shop's own by its name
take_finding_off_tape = take back a finding: it was wrong, or has been dealt with
everything_happened_one_tape = everything that happened to one tape
open_jobs_date_chance = open orders with their date, its chance, and what holds them up
which_tape_goes_each = which tape goes on each free deck now
what_shop_believed_tapes = what the shop believed of tapes at first, what it has seen since, and what it believes now
record_splice_tape_becomes = record a splice; the tape becomes not for reuse
file_check_does = what was found in the files of a tape, and whether they are signed off
sign_off_does = sign the files of a tape off, so that it can be ready
sign_off_by = who checked them
sign_off_accept = a finding that may stay as it is, with the reason where it says stop; repeatable
undo_sign_off_why = why it is not signed off any more
undo_sign_off_does = withdraw the sign-off of a tape; it is checked again
file_check_line = { $severity }  { $finding }: { $words }
file_check_line_to_do = { $severity }  { $finding }: { $words } { $to_do }
file_check_open =
    { $n ->
        [0] The copy of tape { $code } is fine, but not signed off yet.
        [one] The copy of tape { $code } is not signed off yet. One finding is open: { $names }.
       *[other] The copy of tape { $code } is not signed off yet. { $n } findings are open: { $names }.
    }
splice_redone = whether it was redone because the last one was bad, at no charge; if not said, the last look tells
strike_out_splice_entered = strike out a splice entered by mistake, the last one if none is named
confirm_label_which_longer = confirm that a label which no longer belongs on a cassette is off it
record_repair_tried_whether = record a repair that was tried, and whether it held
strike_out_last_repair = strike out the last repair of a tape, entered by mistake
what_look_repaired_tape = what a look at a repaired tape showed: it may go on, or the repair has to be done again
donor_parts_shelf_2 = the donor parts on the shelf
hand_back_all_some = hand back all or some tapes
number_tape_code_name = number, tape code, name, part of a phone
play_time_turned_out = play time as it turned out
word_history = a note for the history
deck_starts_play = the deck it starts to play on
what_done_instead_splice = what was done instead of a splice
speed_deck_showed = the speed the deck showed
recording_deck_found = the recording the deck found
tv_system_deck_found = the TV system the deck found
what_tape_lies = what of the tape it lies in
first_second_splice_lists = the first, second … as `splice` lists them
splice_re_anchor_shell = splice, re-anchor, shell-swap …
did_hold = it did not hold
what_fitted_donor = what was fitted from a donor
part_off_shelf = the part is not off the shelf
ok_again = ok or again
put_parts = put parts there: { $parts }
many_really_lie = how many are really there
why_count_put_right = why the count is put right
where_those_parts = where those parts are from
only_tape_repeatable = only this tape, repeatable
only_copy = only this copy
pen_strokes_json = pen strokes, JSON
money_taken_now = money taken now
write_receipt = write the receipt there
minutes_head = minutes from the head
metres_head = meters from the head
job_booked = Order { $number } is booked
job_handed_back = Order { $number } is handed back
paid_far = Paid so far: { $left }.
command_line = command line
ends_about = { $deck }: { $code } { $name }, ends about { $ends }. { $why }
tape_queue_waits_free = No tape in the queue is waiting for a free deck.
but_papers_could_written = { $done }, but its papers could not be written: { $strerror }.
order_before_holds_again = The queue is back in the order before: { $order }.
stated_reckoned = { $name }: { $figures } entered, { $figures_2 } expected
found_keep_puts_boxes = We found a better order for the queue; --keep puts it in place.
now = as now
nothing_planned = Nothing is planned.
better_order_harms_promise = We found no better order that keeps every promise as safe as now.
out_service_shut = Out of service: { $out }. Closed: { $closed }.
job_read = Order { $number } was read
file_attached_tape_job = No file is attached to a tape of this order.
minutes_charged_sound = { "  " }{ $billable_minutes } minutes to charge; sound { $value }
file_left_tape = No file is left of this tape.
keep_ends_blank = { "  " }keep { $clock } to { $clock_2 }, the ends are blank
told_together_add_correct = give it together with --add or --correct
told_together_correct = give it together with --correct
accepted = accepted: { $parts }
up_parts_accepted = up to { $most_at_once } parts are accepted
cannot_trusted_any_more = { $where } can no longer be trusted: { $problems }. Restore the latest backup that verifies.
rehearse_restore = restore a backup into a scratch place, check all of it and say what is in it; nothing is changed or left behind
rehearsed = { $file } can be restored: { $orders ->
        [0] no orders yet
        [one] 1 order, number { $last }
       *[other] { $orders } orders, the last number { $last }
    }. Its newest entry is from { $entry }.
backup_key = make a key that backups are locked with from now on; it is shown once and kept nowhere
backup_key_paper = write the key on a paper in DIR
backup_key_file = the file with the key of locked backups (- reads it from standard input); or set TAPEWRIGHT_BACKUP_KEY
key_shown_once = Backups are locked from now on. This is their key; it is shown only now and kept nowhere. Write it down and keep it away from this computer. Without it no locked backup can be read.
    { $key }
restored = Restored.
restored_numbers_unknown = The last order number given out before is not known. If customers hold slips with numbers that are not in this backup, restore it again with --last-number and the highest of them, so that no number is given twice.
restore_another_shop = the backup is meant to take the place of another shop; without this it is refused
restore_replace = on a server: put the backup in place of newer records; refused while anybody else is connected
restore_last_number = the highest order number on any slip, so that numbers go on after it
restored_what_before_kept = Restored. What was there before is kept as { $kept }.
database_chain_history_sound = The database and the chain of history are sound.
tell_version = tell the version and end
no_screen = There is no screen here to open a window on. Name a subcommand, or set DISPLAY or WAYLAND_DISPLAY; `tapewright --help` lists the subcommands.
demo_takes_dir = the invented shop makes a shop of its own; say where with --dir, and open it with --shop afterwards
demo_shop_unused = { $shop } was not touched: the invented shop is made in the folder that --dir names.
completion_of_shell = print what lets a shell complete subcommands and options
desktop_entry_writes = put the program in this user's menu of programs: its desktop entry and icon (Linux)
desktop_entry_dir = the data folder to write to, instead of the user's own
desktop_entry_only_linux = A desktop entry is for Linux. On this system build the one-folder application and put a link to it in the menu.
desktop_entry_no_command = The command { $command } is not there, so nothing could start it. Install the program with `pipx install` or `uv tool install`; nothing was changed.
span = { $low } to { $high }, most likely { $likely }
order_for = Order { $number } for { $name }
chance_now = , { $chance } now
call_first = CALL FIRST: { $line }
kept_of =
    { $n ->
        [one] Of 1 promise at { $low } to { $high }, { $kept } kept; { $luck }
       *[other] Of { $n } promises at { $low } to { $high }, { $kept } kept; { $luck }
    }
days_late =
    { $n ->
        [one] 1 day late
       *[other] { $n } days late
    }
days_late_so_far =
    { $n ->
        [one] 1 day late so far
       *[other] { $n } days late so far
    }
came_from = , from { $source }
not_for_reuse_labelled = ; NOT FOR REUSE, labeled
not_for_reuse_bare = ; NOT FOR REUSE, label not on it yet
queue_as_they_came = Orders are in the queue as they came in.
backup_places = where to put the copy; without it, every place of the settings (backup.first and backup.second)
backup_check = make no copy, but try out the newest one by restoring it into a scratch folder
backup_no_place = The settings name no place for backups. Set one with “tapewright shop set backup.first FOLDER”, or say where to put this one with “tapewright backup FOLDER”.
what_became = what became of a tape that will not be worked on any more
not_settled_any_more = take back what a tape was settled as
note_is_told = the note is for the customer: it may be spoken and printed
lost_or_damaged = what is written down of a tape that was lost or damaged here; settle opens it
incident_add = more about what happened
incident_told = how the owner was told, and who
incident_settled = how it was settled with the owner
incident_when = when that was; without it, only when it was written down is kept
incident_photo = attach a photo, PNG or JPEG, repeatable
incidents_open = tapes lost or damaged and not settled with their owners yet, and what is next for each
incident_paper = write the report for the insurer there
station_and_disposition = { $station } ({ $disposition })
incident_happened = when it was lost or damaged

# --- ways to agree on the price
ways = Ways to agree on the price; chosen: { $way }.
way_by_play = - By what the tapes play: { $money }, never above { $ceiling } without asking.
way_flat = - A flat price: { $money } for everything, however long the tapes play.
flat_risk = - Its risk, for you alone: by play it would be { $expected } on average, give or take { $deviation }; it would be more than the flat price { $dearer }. One order in ten gains { $worst } or less, one in ten { $best } or more.
way_play_first = - Play first, then choose: { $money } if nothing is copied, up to { $most } if everything is.
# --- after an order is ready
to_tell = the owners of orders that are ready: whom to tell or remind now
to_tell_all = every order that waits to be picked up
told = record that somebody was told, or was not reached
wish = how a customer wants to be told, who may collect, a pass-phrase
wish_how = how they want to be told
wish_collector = who may collect the order besides them (empty: nobody else)
wish_pass_phrase = agree on a pass-phrase (asked for, or taken from TAPEWRIGHT_PASS_PHRASE; empty: take it back)
wish_said_by = who said so (else the customer)
wish_kept = Kept for order { $number }.
called = note that somebody called about an order
called_caller = who called (else the customer)
called_said = what they were told (else the answer as it is now)
pickup_shown = what somebody else than the customer showed, such as a note
nobody_to_tell = Nobody has to be told anything now.
# --- agreements
amend_does = describe a booked order anew: tapes, copies, wish, rush, customer; the next version of its agreement
agree_does = keep what the customer agreed to: an answer to the question about the price, or a new limit
agree_choice = the answer when the price would go over what was agreed
agree_tape = the tape the answer is about, where several are waiting
cancel_does = call an order off, all that is not copied yet or only some tapes
agreement_does = every version of what was agreed, with what changed, and the price as it stands
agreement_paper = write the page “What has changed” as a PDF
found_does = enter what a deck shows of the tape that plays; minutes and price are estimated anew at once
to_call_does = orders waiting for their owner's answer, whom to call first
agreed_by = who agreed; without it, the customer of the order
agreed_how = how they agreed; without it, by word of mouth
new_ceiling = the most we may charge from now on, in minor units
why_changed = what was agreed, or why it changes
based_on_version = the version that was looked at; refused when there is a newer one
agree_needs = --choice, --ceiling-minor or --because is accepted
no_agreement = nothing to agree to
changed_default = changed as agreed
canceled_default = canceled by the customer
agreement_line = Order { $number } for { $name }: { $stands } as it stands, at most { $ceiling }
agreement_over = { $over } over what was agreed: ask the customer
choice_line = --choice { $choice }: { $price }, at most { $ceiling }; { $leaves ->
        [0] every tape is copied
        [one] 1 tape goes back as it came
       *[other] { $leaves } tapes go back as they came
    }{ $given ->
        [0] {""}
       *[other] ; we give part of it away
    }; { $day ->
        [none] nothing more to wait for
       *[other] ready by { $day }
    }
nobody_to_call = No order is waiting for an answer.
to_call_line = { $number } { $name } { $phone }: { $tapes ->
        [0] { $stands } against { $ceiling }
        [one] 1 tape asks, { $stands } against { $ceiling }
       *[other] { $tapes } tapes ask, { $stands } against { $ceiling }
    }{ $misfit ->
        [none] {""}
       *[other] . { $misfit }
    }
# --- copies
copies_does = the copies of an order: what is on each, how far it is, what no longer fits; without a number, all that are not done
copies_number = the order; without it, every order of which a copy is not done
copy_item = the number of the copy, as “copies” shows it
copy_made_does = record that a copy was made, and what is on it
copy_made_tape = only this tape is on it (repeatable; without it, every copied tape)
copy_made_files = the files on it, read for their checksums (without it, those recorded from its tapes)
copy_checked_does = record that a copy was checked: it opens and plays
copy_checked_files = the files read back from it: they must be the ones it was made with
undo_copy_does = take back the last thing entered for a copy: made, checked, or its link
own_drive_does = enter how large a customer's own drive is and how it is formatted
own_drive_gb = its size as sold, in gigabytes
own_drive_system = how it is formatted
copy_choice_does = a copy that no longer fits what was ordered: what the customer may choose; with --choice, the answer
copy_choice_choice = what the customer chose
copy_choice_line = --choice { $choice }: { $pieces ->
        [one] { $words }
       *[other] { $pieces } × { $words }
    }; { $price } in all ({ $more } more)
download_does = give the link of a download: the copy is handed over with it
download_link = the address the customer was given
download_until = the last day on which the files can be downloaded
download_item = the number of the copy, where the order has several downloads
download_deleted_does = record that the files of a download were deleted
downloads_does = the downloads that are still there, the earliest last day first
downloads_due = only those past their last day, which are to be deleted
downloads_line = { $number } { $name }: { $link }, until { $day }{ $due ->
        [yes] : delete it
       *[no] {""}
    }
no_downloads = There is no download to look after.
no_copies_open = Every copy is made and checked.
copies_head = Order { $number } for { $name }{ $written ->
        [yes] : the tapes are done, the copies are being written
       *[no] {""}
    }
copies_line = { $item }  { $pieces ->
        [one] { $words }
       *[other] { $pieces } × { $words }
    }: { $state }{ $tapes ->
        [0] {""}
        [one] ; 1 tape on it
       *[other] ; { $tapes } tapes on it
    }{ $files ->
        [0] {""}
        [one] , 1 file
       *[other] , { $files } files
    }{ $lacks ->
        [0] {""}
       *[other] ; not on it: { $lacking }
    }
pickup_partly = a copy may go with only some of the tapes on it; the receipt says which
customer_was_told = the customer was told every warning of the quote; kept with the order
who_was_here = customers who were here before, by a part of the name or number
name_or_phone = at least three letters of the name, or digits of the number
known_customer = { $name }, { $phone } · { $orders ->
        [one] 1 order
       *[other] { $orders } orders
    }
no_phone = no phone number
nobody_known = Nobody who was here before is called “{ $query }” or has such a number.
verify_head = a check number from a receipt or from the name of a backup; the history must still hold it
verify_backups = another folder with backups of this shop, such as one outside it; what their names say is compared with the history, as it is for the folders of the settings
verify_check_number = Check number of the records: { $head }
head_accepted = found { $typed }; 8 to 64 digits from 0 to 9 and a to f are accepted
data_kept = what is kept of customers, why, and for how long
export_customer = all that is kept of one customer, as one file
customer_named = an order number, a phone number, or the whole name
export_customer_file = where the JSON goes; - prints it
erase = take a customer out of the records for good; the books stay
erase_papers = another folder in which their papers lie
erase_renew = then make a new backup in every place and remove the older ones that still hold the customer
renew_backups = make and check a new backup in every place, then remove the older ones that hold somebody who was erased
restored_erased_again = { $n ->
        [one] 1 order is of somebody who was erased after this backup was made; they were erased again.
       *[other] { $n } orders are of people who were erased after this backup was made; they were erased again.
    }
data_kept_paper = write it as a PDF into this folder
private_arguments = Other users of this computer can see what you type here. Names, numbers and notes of a customer can be read from a file instead (@FILE), or from standard input (-), one line for each -.
private_unreadable = { $file } cannot be read; the name of a readable file is accepted
private_empty = nothing was found in { $place }; one line of text is accepted
pay = take money for an order
paid_how = how it was paid
drawer = what should be in the cash drawer; with a count: keeps it
drawer_float = minor units counted before the first customer
drawer_close = minor units counted at the end of the day
drawer_taken_out = minor units of them taken to the bank or the safe
invoice = invoice what an order costs now, or credit what it costs less than was invoiced
invoices = the invoices and credit notes of an order
takings = what was taken and invoiced, today or on the days that are named
journal = the postings of some days as CSV, for an accountant
journal_file = where they go; - for standard output
span_day = the first day; today without
span_month = the whole month of that day
span_year = the whole year of that day
span_to = the last day
quoted = The box was quoted
write_quote = write the quote there
quote_detail = with a second page that says how the price adds up
write_refund = write the slip of the refund there
paper_there = write the paper there
paper_job-sheet = the job sheet for the bench: codes, what was found, what to do, lines to write on
paper_labels = labels for the tapes of an order
paper_claim-slip = the claim slip again
paper_receipt = the receipt of the last pickup again
paper_refund-slip = the slip of the last refund again
paper_reminder = a letter that an order is ready and waits
paper_not-saved = what could not be saved and why, for relatives and insurers
on_roll = on roll paper, as wide as the shop's
labels_tape = only these tapes
labels_start = the first label of the sheet that is still there
labels_marks = only the not-for-reuse labels
labels_single = each label on a page of its own, as wide and high as the shop's
slip_agreement = with the drop-off agreement: on the same page where both fit, else beside it
