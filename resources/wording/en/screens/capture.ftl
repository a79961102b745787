# What is said about a recorded file at the bench.
button = Read its file   Ctrl+O
path = The file copied from this tape
path_hint = Type its name, then press Return
choose = Browse…   Alt+O
choose_title = Choose the file copied from this tape
stop = Stop   Esc
reading = Reading { $name }: { $share }%
strip = The file from start to end
strip_said = { $length } long. { $stretches }
nothing_odd = No blank, frozen, or silent parts.
picture = Picture
sound = Sound
facts = { $length } long, { $size }
keep = Keep { $start } to { $end }; the ends are blank.
keep_all = Keep all of it; neither end is blank.
nothing_kept = The whole file is blank.
bill = { $minutes } minutes to charge
sound_present = The sound is fine.
stretches = Found in the file
attach = Attach to this tape
attached = { $name } is attached to { $title }; it ran { $minutes } min. Check it with Ctrl+B.
attached_blank = { $name } is attached to { $title }. It is blank, so there is nothing to charge.
gigabytes = { $n } GB
megabytes = { $n } MB
not_its_file = { $name } is not its file
struck = { $name } is no longer its file; the history of { $title } still shows it.
files = File
on_card = Copied to { $name }: { $facts }; { $bill }.
sha256 = SHA-256 { $first } { $rest }

# What a file holds, part by part.
stretch-black = { $start } to { $end }: black picture
stretch-blue = { $start } to { $end }: blue screen, no signal
stretch-frozen = { $start } to { $end }: frozen picture
stretch-silent = { $start } to { $end }: no sound

# What the person at the bench must know about it, the most serious first.
breaks-off = The file breaks off at { $at }. Copy the tape again.
breaks-off-early = The file breaks off at { $at }, but it should run { $claimed }. Copy the tape again.
unread =
    { $n ->
        [one] 1 spot in the file could not be read. Watch it before you hand the copy over.
       *[other] { $n } spots in the file could not be read. Watch them before you hand the copy over.
    }
no-picture = This file has no picture.
all-silent = There is no sound: the file is silent from start to end. Check the tape itself before you blame the deck.
no-sound = There is no sound in this file. Check the tape itself before you blame the deck.
partly-silent = The sound drops out: { $places }. Check the tape itself before you blame the deck.
silent-place = { $start } to { $end }
dead-left = The left channel is silent. Check the cable, or copy the right channel over it.
dead-right = The right channel is silent. Check the cable, or copy the left channel over it.
dead-channels = Silent channels: { $channels }. Check the cables.
channel-left = left
channel-right = right

# Files that cannot be read.
name_it = the name of a recorded file is accepted
no-library = Reading recorded files needs PyAV, which is not installed. In the program's folder, run: pip install ".[capture]"
no-library-demo = The sample recording needs PyAV, which is not installed.
not-allowed = You are not allowed to read { $path }.
nothing-there = nothing
no-recording = no picture and no sound that can be read
finished-file = a recorded file is accepted, once the program that made it has closed it
still-written = a file that is still being written
close-first = close it and try again
stopped = Reading the file was stopped; nothing was saved.

# --- what is wrong, in one word on its bar ---
bar-black = black
bar-blue = blue
bar-frozen = frozen
bar-silent = silent
