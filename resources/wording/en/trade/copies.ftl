# Copies as work: made, checked, handed over; what no longer fits; the customer's own drive; downloads.

# --- refusals ---
not-made = { $copy } (number { $item }) on order { $number } is not made yet. Make it, say so (copy-made { $number } { $item }), then check it.
not-checked = { $copy } (number { $item }) on order { $number } is made, but nobody has checked it. Check that it opens and plays, then say so (copy-checked { $number } { $item }).
not-whole = { $copy }: { $n ->
        [one] tape { $tapes } is
       *[other] tapes { $tapes } are
    } not on it. Say what became of { $n ->
        [one] it
       *[other] them
    } and make the copy again, or hand it over as it is (the receipt then says what is on it).
is-download = A download is not handed over at the counter. Give its link instead (download { $number } { $item }).
checked-already = { $copy } was checked already, by { $by }.
nothing-copied = No tape of order { $number } is copied yet, so there is nothing to put on it.
not-copied = Tape { $code } is not copied, so it can’t be on the copy. Say what became of it first.
file-missing = The file { $name } is not on { $copy }. Make the copy again.
file-unknown = The file { $name } on { $copy } is not one it was made with. Make the copy again, or say what is on it.
files = files
files-accepted = the files read back from the copy are needed
nothing-to-strike = Nothing was entered for { $copy }, so there is nothing to take back.
why-strike = why it is taken back
over = { $copy } is handed over and done with.
drive-first = Nobody has said how large the customer’s drive is and how it is formatted. Look, and enter it (own-drive), then make { $copy }.
too-much = { $copy } holds { $holds } GB, and these files are { $needs } GB. Ask the customer what to do.
file-too-long = The file { $name } is too long for the file system of this drive ({ $copy }). Ask the customer what to do.
no-drive = { $copy } is not made on the customer’s own drive, so there is nothing to enter.
drive-gigabytes = gigabytes
drive-gigabytes-accepted = more than 0 and up to { $most } is accepted
link = link
link-accepted = the address the customer was given is needed, without spaces
until = until
until-accepted = a day from today on is accepted
link-early = Not every copied tape is in the download yet. Make it again with all of them, check it, then give the link.
no-link = No link was given for the download of order { $number }, so there is nothing to delete.
deleted-already = The download of order { $number } was deleted on { $day }.
which-download = { $n ->
        [0] Order { $number } has no download.
       *[other] Order { $number } has { $n } downloads: say which by its number.
    }
not-download = { $copy } is no download.
all-fit = Every copy of order { $number } can be made as it was ordered.
asked-about = we are asking about { $items }
no-way-out = That does not solve it for { $copy }: { $choices } does.

# --- what no longer fits ---
misfit-size = { $copy } holds { $holds } GB, and these tapes take at least { $needs } GB.
misfit-pieces = { $copy }: these tapes take { $needs }, and { $holds } { $holds ->
        [1] is
       *[other] are
    } ordered.
misfit-file-size = { $copy }: the file of tape { $tape } takes { $needs } GB, and as it is now, this drive takes no file over { $holds } GB.
said-larger = { $copy } instead
said-more = { $pieces } × { $copy }
said-smaller = smaller files: { $copy }
said-download = as a download instead: { $copy }
said-stick = not on the own drive but on { $copy }
said-reformat = the drive may be emptied and formatted anew
said-split = long files may be split into parts

# --- lines of history ---
event-made = made: { $copy } with { $tapes }{ $files ->
        [0] {""}
        [one] , 1 file
       *[other] , { $files } files
    }
event-checked = checked: { $copy }
event-struck = { $kind ->
        [link] link taken back
        [checked] check taken back
       *[made] not made after all
    }: { $copy }: { $reason }
event-drive = the customer’s own drive: { $gb } GB, { $system }
event-drive-changed = what was agreed about the drive: { $copy }
event-link = link given, until { $day }
event-deleted = download deleted

# --- names ---
file-system-fat32 = FAT32
file-system-exfat = exFAT
file-system-ntfs = NTFS
file-system-apfs = APFS
file-system-hfs-plus = HFS+
file-system-ext4 = ext4
file-system-other = another file system
state-to-make = to be made
state-made = made, to be checked
state-checked = { $download ->
        [yes] checked, link to be given
       *[no] checked
    }
state-handed-over = { $download ->
        [yes] link given
       *[no] handed over
    }
state-deleted = deleted
