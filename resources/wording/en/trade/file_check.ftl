# A copied file held against its tape: what was found, and (do-) what to do about it. Signed off by name.

severity-stop = Stop
severity-look = Look
severity-fine = Fine

whole-fine = The file can be read to its end.
whole-breaks-off = The file breaks off before its end.
do-whole-breaks-off = Copy the tape again.
whole-unread = Spots in the file that could not be read: { $spots }.
do-whole-unread = Watch them; copy the tape again if anything is lost.
not-measured = This file was read before size and frame rate were kept.
do-not-measured = Read the file again, and they will be checked too.

picture-missing = There is no picture in the file.
do-picture-missing = Check the video cable and copy the tape again.
tv-fine = The file is { $file }, the same as the tape.
tv-wrong = The tape is { $tape }, but the file is { $file }.
do-tv-wrong = Set deck and capture to { $tape } and copy the tape again.
tv-doubtful = The order says { $tape }, but the file is { $file }.
do-tv-doubtful = See what the deck shows and note it with the tape. If it really is { $tape }, copy it again.
tv-mixed = { $lines } lines at { $rate } frames a second fit no TV system, so one of the two was converted.
do-tv-mixed = Set deck and capture to the system of the tape and copy it again.
tv-unknown = { $lines } lines at { $rate } frames a second fit neither NTSC nor PAL.
tv-unknown-bare = { $lines } lines fit neither NTSC nor PAL, and the file does not tell its frame rate.
do-tv-unknown-bare = Check the capture settings against the tape.
do-tv-unknown = Check the capture settings against the tape.
tv-untold = The file is { $file }; nobody has noted what the tape is.
do-tv-untold = See what the deck shows and note it with the tape.
size-fine = The picture is { $width } × { $height }, full size.
size-odd = The picture is { $width } × { $height }; full size for { $system } is 720 × { $usual }.
do-size-odd = Copy it again at full size, unless the customer wants it this way.
size-not-hd = The picture is { $width } × { $height }, but the tape is high definition.
do-size-not-hd = Copy it again as it was recorded, unless the customer wants it smaller.
rate-fine = It runs at { $rate } frames a second.
rate-rounded = It runs at { $rate } frames a second instead of { $usual }; picture and sound may drift 3.6 seconds an hour.
do-rate-rounded = Watch the lips near the end. If they are off, copy it again at { $usual }.
rate-odd = It runs at { $rate } frames a second; { $system } has { $usual }.
do-rate-odd = Look for jerky motion. Copy it again at { $usual } if frames are missing.
rate-untold = The file does not tell its frame rate.
do-rate-untold = Watch a minute of it for jerky motion.
aspect-fine = It is shown as { $shape }.
aspect-odd = It is shown { $shape } times as wide as it is high, neither 4:3 nor 16:9.
do-aspect-odd = People will look stretched or squeezed. Set the shape in the file.

sound-fine = The sound is there.
sound-missing = There is no sound.
do-sound-missing = Check the cable, then the tape. If the tape has no sound, note that as found.
sound-known = There is no sound, as noted with the tape.
do-sound-known = Nothing more to do if the tape really is silent.
sound-partly = The sound drops out in places.
do-sound-partly = Listen there on the tape, and copy it again if the tape has sound.
sound-one-side = Channels without any sound: { $n }.
do-sound-one-side = Check the cable, or put the good channel on both.
together-fine = Sound and picture end together.
together-shorter = The sound ends { $seconds } seconds before the picture.
do-together-shorter = Watch the lips near the end. If they are off, copy the tape again.
together-longer = The sound goes on { $seconds } seconds after the picture.
do-together-longer = Watch the lips near the end. If they are off, copy the tape again.

blank-fine = No long blank part.
blank-all = The whole file is blank.
do-blank-all = If the tape is blank too, say that there is nothing on it. If not, copy it again.
blank-inside = Blank in the middle: { $places }.
do-blank-inside = Check that the tape is blank there too.
frozen-inside = Frozen picture: { $places }.
do-frozen-inside = Check that the tape stands still there too; if not, copy it again.
length-fine = { $file } minutes in the file, { $deck } on the deck.
length-short = { $file } minutes in the file, { $deck } on the deck: { $missing } are missing.
do-length-short = Copy what is missing, or the whole tape again.

# Signing off.
by = signed off by
a-name = the name of whoever checked it is accepted
why = why it may stay so
why-withdraw = why it is not signed off any more
finding = finding
needs-file = Tape { $code } has no file yet, and this shop wants one before a tape is ready. Read its file on the Bench, or type: capture FILE --tape { $typed }
not-signed-off =
    { $n ->
        [0] The copy of tape { $code } is not signed off yet. On the Bench press Ctrl+B, or type: sign-off { $typed } --by NAME
       *[other] The copy of tape { $code } is not signed off yet. Look at { $names } first: on the Bench press Ctrl+B, or type: file-check { $typed }
    }
not-signed = The copy of tape { $code } is not signed off.
no-file = Tape { $code } has no file to sign off.
not-there = Tape { $code } is { $station }. Its copy is signed off once it is being checked.
signed-already = The copy of tape { $code } is signed off already, by { $name }.
signs-alone = { $name } has a PIN and signs off alone. Sign in as { $name }, or put in another name.
not-accepted =
    { $given ->
        [0] Accept each finding that is not fine before you sign off tape { $code }. Still open: { $names }.
       *[other] Accept each finding that is not fine before you sign off tape { $code }, and say why where it says stop. Still open: { $names }. A reason is needed for { $stops }.
    }
event-signed =
    { $files ->
        [one] copy signed off by { $name }
       *[other] { $files } files signed off by { $name }
    }
event-accepted =
    { $given ->
        [0] · Accepted: { $finding }
       *[other] · Accepted: { $finding } ({ $why })
    }
event-withdrawn = copy not signed off any more: { $reason }
event-check-again = back to be checked: its copy is not signed off
event-read-again = { $name } was read again
