# The shop's records: the file or server, copies of it, and the check against the history.

# What a check of the records finds, a sentence each.
audit_tape_unknown = Tape { $code } is in the history but not in the tables.
audit_receipts_missing =
    { $count ->
        [one] 1 receipt in the history is missing from the tables.
       *[other] { $count } receipts in the history are missing from the tables.
    }
audit_donors_missing =
    { $count ->
        [one] 1 kind of donor part in the history is missing from the tables.
       *[other] { $count } kinds of donor parts in the history are missing from the tables.
    }
audit_orders_missing =
    { $count ->
        [one] 1 order is missing; it was number { $missing } to be booked.
       *[other] { $count } orders are missing; the first was number { $missing } to be booked.
    }
# Refusals and findings of the records: the file or server, copies of it, and the check of the history.
tape_history_but_tables = Tape { $code } is in the history but not in the tables.
receipts_history_tables = { $count } receipts of the history are not in the tables.
kinds_donor_history_tables = { $count } kinds of donor of the history are not in the tables.
jobs_missing_first_th = { $count } orders are missing, the first is number { $missing } in the order they were booked.
job_quote_one_agreed = Order { $number }: the quote is not the one that was agreed.
job_receipt_one_signed = Order { $number }: a receipt is not the one that was signed.
job_minor_units_entered = Order { $number }: { $minor } minor units are entered as paid, its history says { $said }.
donors_shelf_history_says = Donors: { $count } × { $kind } on the shelf, its history says { $said }.
tape_but_history_says = Tape { $code }: “{ $name }” is { $value }, but its history says { $get }.
name_file_made_backup = the name of a file made by a backup is accepted
practice_over_real = This is a backup of a practice shop, and the shop here is a real one. The two are never mixed; nothing was changed.
real_over_practice = This is a backup of a real shop, and the shop here is one to practice in. Restore it to a place of its own with --shop; nothing was changed.
of_another_shop =
    { $alike ->
        [yes] This is a backup of another shop, although both are called { $there }.
       *[no] This is a backup of { $comes }, which is another shop than the one here, { $there }.
    } To look at it, restore it to a place of its own with --shop. If it is meant to take the place of the shop here, add --another-shop; what is there now is then kept in a file. Nothing was changed.
damaged = it is damaged: { $problems }
another_program_open_close = Another program has { $path } open ({ $error }). Close it there, then restore; nothing was changed.
sound = it is not sound: { $problems }
lines_do_add_up = its lines do not add up; an unaltered, complete one is accepted
backup_made_tapewright_accepted = a backup made by Tapewright is accepted
shop_sqlite_file_postgresql = a shop is an SQLite file or a postgresql:// address
address_cannot_read = an address that cannot be read
somebody_else_changed_first = Somebody else changed this first; yours was not stored. Look again, then decide.
cannot_used = { $where } cannot be used: { $error }.
somebody_else_stored_same = Somebody else stored the same thing first. Look again, then decide.
row_points_row = a row of { $row } points to a row of { $row_2 } that is not there
copy_sound_thrown_away = The copy of { $source } is not sound: { $problems }. It was thrown away.
history_missing_end = History: { $span } missing at the end.
history_line_does_follow = History: line { $seq } does not follow from the line before it.
job_number = order number
job_shop_number = no order of this shop has that number
tape_shop_code = no tape of this shop has that code
tables_made_tapewright = the tables in it were not made by Tapewright
holds_shop_yet = { $where } holds no shop yet.
shop_file = There is no shop file at { $path }.
written_newer_tapewright_tables = { $where } was written by a newer Tapewright (tables { $found }, this one knows { $head }). Install the newer version; nothing was changed.
update_would_break_links = { $where }: the update would break links between records; nothing was changed.
settings_differ = Version { $number } of the { $part ->
    [prices] prices
   *[shop] settings
    } is not what the history tells.
audit_quote_altered = Order { $number }: the quote is not the one that was agreed on.
audit_receipt_altered = Order { $number }: a receipt is not the one that was signed.
audit_payments_differ = Order { $number }: { $minor } minor units are entered as paid, but its history says { $said }.
audit_donors_differ = Donor parts: { $count } × { $kind } on the shelf, but the history says { $said }.
audit_copy_step_differs = Step { $number } of a copy is not what the history tells.
audit_incident_differs = Line { $number } about a lost or damaged tape is not what the history tells.
audit_tape_differs = Tape { $code }: “{ $name }” is { $value }, but its history says { $get }.
history_line_missing = History: line { $first } is missing.
history_lines_missing = History: lines { $first } to { $last } are missing.
history_end_missing = History: line { $first } is missing at the end.
history_lines_end_missing = History: lines { $first } to { $last } are missing at the end.
history_line_altered = History: line { $seq } ({ $kind }) was altered.
history_line_unlinked = History: line { $seq } does not follow from the line before it.
link_is_broken = a row of { $row } points to a row of { $row_2 } that is not there

# Backups, and putting them back.
backup = backup
backup_file_accepted = the name of a file made by a backup is accepted
backup_damaged = it is damaged: { $problems }
backup_not_sound = it is not sound: { $problems }
backup_incomplete = its lines don't add up; a complete, unaltered backup is accepted
backup_is_not_ours = a backup made by Tapewright is accepted
copy_not_sound = The copy of { $source } is not sound ({ $problems }) and was thrown away.
lock_not_sound = The locked copy { $file } could not be read back and was thrown away. Check the disk and try again.
backup_is_locked = The backup { $file } is locked. Give its key, which was printed when it was made: in the window where it is asked for under Shop, Backups; typed, with --key and a file that holds it, or in TAPEWRIGHT_BACKUP_KEY.
backup_key = the key of the backups
key_not_shown = something that is not shown here
key_accepted = the key on the paper is accepted, which begins with AGE-SECRET-KEY-1
key_file_accepted = a small file that holds the key on the paper is accepted
other_key_accepted = the key that this backup was locked with is accepted
what_was_entered = what was entered
record_unreadable = Something in the shop’s records was altered and cannot be read. Nothing was changed. Check the records (tapewright verify); if they are damaged, restore a backup.
restore_under_way = A backup is being restored to { $where } right now. Wait until it is done, then try again.
restore_journal_unreadable = The note about a restore beside { $path } is none of ours or damaged: { $journal }. Nothing was changed. Look at what lies in that folder, then move that file away and try again.
restore_not_finished = The backup is ready but could not take the place of { $where } yet ({ $error }). The restore is finished as soon as the shop is opened again; until then nothing can be changed there.
server_in_use = { $n ->
        [one] One other program is connected to { $where }.
       *[other] { $n } other programs are connected to { $where }.
    } What they save while a backup is restored would be lost. Close them, then restore. Nothing was changed.
server_went_on = The shop on the server was at work after { $file } was made, and that work is not in this backup. Make a new backup first, or add --replace to put this one in its place all the same; what is there now is then kept in a file beside the backup. Nothing was changed.
restored_line = { $skipped ->
        [0] Backup { $file } restored
        [one] Backup { $file } restored; one order number given out after it stays unused
       *[other] Backup { $file } restored; { $skipped } order numbers given out after it stay unused
    }
open_elsewhere = Another program has { $path } open ({ $error }). Close it there, then restore. Nothing was changed.

# Opening a shop.
shop = shop
shop_address_accepted = a shop is an SQLite file or a postgresql:// address, in which an @ of the password is written as %40
shop_name = name of the shop in the address
shop_name_accepted = a name is up to { $n } lowercase letters, digits, and hyphens, and begins with a letter, as in ?shop=north
address_is_unreadable = an address that can't be read
sqlite_may_lose_records = SQLite { $version } can lose records when two programs write at once, so the shop was not opened. { $way_out } Nothing was changed.
no_sqlite = This Python comes without SQLite, so the shop can't be opened. { $way_out } Nothing was changed.
install_pysqlite3 = Install a newer one with `{ $python } -m pip install pysqlite3` and start again.
install_python_with_sqlite = Install a Python that comes with SQLite { $sound } or newer (there is no pysqlite3 for { $system }; `python3 -c "import sqlite3; print(sqlite3.sqlite_version)"` tells the version) and start with it, or keep the shop on a PostgreSQL server.
tables_not_ours = the tables in it were not made by Tapewright
no_shop_yet = There is no shop in { $where } yet.
no_shop_at = There is no shop file at { $path }.
shop_is_gone = There was a shop at { $path }, but its file is gone. Plug in the disk it is on or put the file back, or restore a backup of it. No empty shop was started in its place, because it would give out order numbers a second time. To start over all the same, delete { $marker }.
marker_means = There is a shop in { $name }. While this file is here, no empty shop is started when that one is missing.
written_by_newer = { $where } was written by a newer Tapewright (tables { $found }, this one knows { $head }). Install the newer version. Nothing was changed.
update_breaks_links = { $where }: the update would break links between records. Nothing was changed.

clock_is_behind = The clock of this computer says { $now }, but the last entry was made at { $last }. Set the clock right: promised days and backups go by it. What you enter now stands in the history after that entry.
# Moving a shop.
shop_was_moved = This shop was moved to { $where } on { $day } by { $who }. Open it there. What is here stayed as it was then and can't be changed anymore.
place_is_taken = { $where } is not empty. A shop is moved to a new file or an empty database. Nothing was changed.
another_place_accepted = another file or database than the one the shop is in
copy_differs = The copy is not the same as the shop (table { $table }), so it was thrown away. Nothing was changed. Try again; if it happens again, check the records with `tapewright verify`.
other_file_there = { $file } is there already and is another file than the one of the shop. Move it away or choose another place, then try again. The shop stays where it was.
file_copy_differs = The copy of { $file } is not the same, so it was thrown away. The shop stays where it was. Check both disks and try again.
files_were_moved = { $n ->
        [one] 1 paper, photo, or recording was copied along and compared; the old one stays.
       *[other] { $n } papers, photos, and recordings were copied along and compared; the old ones stay.
    }
files_stay = { $n ->
        [one] This recording is too large to copy and stays where it is: { $files }.
       *[other] These recordings are too large to copy and stay where they are: { $files }.
    }
files_unreachable = { $n ->
        [one] This recording is too large to copy, and it can't be read: { $files }. Check the disk it is on.
       *[other] These recordings are too large to copy, and they can't be read: { $files }. Check the disk they are on.
    }
files_elsewhere = { $n ->
        [one] 1 more recording is known by its checksum only; its file stays wherever it is.
       *[other] { $n } more recordings are known by their checksums only; their files stay wherever they are.
    }

# Two people at once.
changed_by_somebody = Somebody else changed this first, so your change was not saved. Look again, then decide.
stored_by_somebody = Somebody else saved the same thing first. Look again, then decide.

# A command that was carried out already.
command = command
command_length = an id of 1 to { $most } characters is accepted
command_of_other_content = Command { $command } was used for something else ({ $who }, { $day }, { $time }), so nothing was saved now. Send this with an id of its own.
command_is_older = Command { $command } was carried out before the program was updated ({ $who }, { $day }, { $time }), so nothing was saved now. Check whether it is what you mean; if not, send this with an id of its own.
command_long_ago = Command { $command } was carried out { $day }, { $time } ({ $who }); its answer isn't kept any more. Nothing was saved now.

# Looking up a number or a code.
order_number = order number
no_such_order = this shop has no order with that number
tape_code = tape code
no_such_tape = this shop has no tape with that code

# What the database complains of.
unusable = { $where } can't be used: { $error }.
file_busy = Another program is writing to { $where } and did not finish in time. Try again. What was saved before is safe.
server_busy = Another till is writing to { $where } and did not finish in time. Try again. What was saved before is safe.
still_read = Somebody still reads the records as they were before this, so the server keeps what was taken out. It is taken out all the same; erase once more when they have ended.
order_erased = The customer of order { $number } was erased, so nothing more is entered for it. Nothing was changed.
file_read_only = { $where } can only be read. Check the permissions of file and folder. What was saved before is safe.
server_read_only = { $where } can only be read, not written. Check the server or the user's rights. What was saved before is safe.
disk_full = The disk that holds { $where } is full. Make room, then try again. What was saved before is safe.
cannot_open = { $where } can't be opened. Check that the folder exists and can be written to.
no_shop_file = { $where } is not a shop file. Choose another file or restore a backup.
file_damaged = { $where } is damaged. Stop working with it and restore the latest backup.
disk_failed = The disk that holds { $where } failed. Stop, check the disk, then verify the records.
wrong_password = { $where } does not accept this user and password. What was saved before is safe.
not_there = { $where } is not there. Check the address and the name of the database.
no_answer = { $where } does not answer. What you were saving may be there or not; trying again won't save it twice.
unreachable = { $where } can't be reached right now. If you were saving something, check whether it is there once the connection is back; trying again won't save it twice.
audit_told_differ = Who was told that orders are ready differs from what the history says.
audit_sign_off_differs = Sign-off { $number } of a copied file differs from what the history says.
audit_wishes_differ = What customers wished for the handover differs from what the history says.
audit_agreement_altered = Order { $number }: version { $n } of the agreement is not the one that was entered.
history_counter_behind = History: the count of lines says { $last }, but there are { $seq }.
audit_counter_behind = The count of orders says { $last }, but order { $newest } is there: the next number would be given twice.
audit_counter_beyond = The count of orders says { $last }: there are not so many numbers.
audit_row_altered = Table “{ $table }”, row { $key }: not as the program wrote it.
audit_row_missing = Table “{ $table }”, row { $key }: it was there and is missing.
audit_row_unknown = Table “{ $table }”, row { $key }: the program did not write it.
audit_unreadable = Some of the records can't be read, so they could not be compared with their history.
audit_outside_events = The lines of history hold their own digests, each with that of the line before.
audit_outside_counters = They move with every step; they are compared with the newest order and the newest line of history.
audit_outside_drafts = What lies on a counter is not booked yet; it is kept every few seconds and proves nothing.
audit_outside_command_answers = They are kept for thirty days so that an answer can be given again; what was done stands in the commands and the history.
audit_outside_change_numbers = They move with every step and only tell windows what to read again; another number makes them read once more.
audit_outside_shop_moves = It stands in a shop that was moved away and cannot be opened; the shop in its new place has no such row.
audit_outside_alembic_version = It names the version of the tables; another one is refused when the shop is opened.
audit_outside_search = The search index holds parts of names and numbers; it is made again from the customers.
audit_head_not_held = The history has no line with the check number { $head }: it was rewritten, or an older file was put in its place.
heads_not_held = { $n ->
        [one] In { $folder } lies the backup { $file }
       *[other] In { $folder } lie { $n } backups, the newest { $file },
    } made from records with the check number { $head }, which the history here does not have: it was rewritten or cut, or an older file was put in its place. (If another shop keeps its backups in the same folder, give each shop its own.)
