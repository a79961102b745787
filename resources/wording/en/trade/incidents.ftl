# Tapes lost or damaged in the shop: lines of the history, refusals. Nothing of it is read out to a caller.

event-lost = lost: { $words }
event-damaged = damaged here: { $words }
event-added = about it: { $words }
event-photo = photo { $photo } attached { $words }
event-told = the owner was told: { $words }
event-settled = settled with the owner: { $words }
event-found = it is over: { $words }
event-released = the order can be finished now

line = what the line tells
lines-accepted = added, told, or settled is accepted
words = what happened
when = when
not-to-come = a moment that has passed is accepted
say-what-happened = say what happened, for the owner and the insurer
none = Tape { $code } was neither lost nor damaged. Settle it as lost or damaged first (settle { $typed } lost, or damaged, with a note that says what happened).
photo = photo
photo-readable = the name of a readable file is accepted
photo-accepted = a PNG or JPEG picture of up to { $most } MB is accepted
photo-not-kept = The photo could not be copied to { $folder }: { $why }. Make room there, then attach it again.
when-with = give it together with --add, --told, or --settled
is-kept = What was said about tape { $code } is kept
when-lost = give it only for a tape that was lost or damaged
