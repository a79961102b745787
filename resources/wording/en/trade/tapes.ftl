# Tapes moved, looked over, played and recorded: refusals, and the lines about them in the history.

# Moves.
gone_home = Tape { $code } was handed back on { $day }; nothing can be added to it.
rest_over_early = before it had warmed up
looked_by_move = looked over after its repair with this move; it may go on
file_counts = { $minutes } min read off the deck; the length of its file counts
needs_look = Tape { $code } was repaired, and nobody has looked it over since. Check the splice, the lid, and how the reels turn, say what you saw, then clear the tape.
still_cold = Tape { $code } came in cold and rests until { $day }, { $time }. { $caution } If it is already as warm as the room, say so in the note and move it again.
not_accounted = Tape { $code } has no minutes and no file yet, so it can't be ready. Give the minutes it played or attach its file; if it was not copied, say what became of it (settle { $typed }).
instead_of_splice = instead of a splice
say_what_was_done = say what was done to the tape
event_moved = { $from } → { $to }
event_on_deck = on { $deck }
event_found = found: { $findings }
event_instead_of_splice = instead of a splice: { $what }
event_deck_showed = the deck showed { $what }
note = note

# What the deck showed.
what_deck_showed = what the deck showed
with_minutes = give it together with the minutes played
minutes_played = minutes played
minutes_above_0 = more than 0 is accepted

# Looked over, packs read.
event_looked_over = looked over, { $looked } of { $of } steps
event_looked_over_note = looked over, { $looked } of { $of } steps; { $note }
event_packs = { $read ->
        [both] packs read: still to come { $to_come } mm, already played { $run } mm
        [to_come] packs read: still to come { $to_come } mm
       *[run] packs read: already played { $run } mm
    }; { $share } of the tape played; { $minutes_run } min played, { $minutes_to_come } min to go
event_packs_disagree = the packs don't match a { $marking }
from_to = { $low } to { $high }

# Files recorded from a tape.
event_file = copied to { $name }, { $length } long, { $minutes } min to charge
event_file_struck = { $name } is not its file: { $reason }
why_strike_file = why the file is taken off the tape
no_file_to_strike = Tape { $code } has no file to take off.
not_played = Tape { $code } is { $station }. A file can be attached only to a tape that has played (one that is { $stations }). Move it on first.
other_tapes_file = { $name } is already attached to tape { $other }, and one file can't come from two tapes. Find out which tape it belongs to; if it is { $code }, take it off the other one first.
