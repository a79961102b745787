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

# The form at the bench.
title = Lost or damaged here: for the owner and the insurer. Nothing of it is read out to a caller.
what-to-write = What do you write down?
write-told = The owner was told
write-settled = Settled with the owner
write-added = More about what happened
write-photo = Attach a photo
hint-told = Who was told, and how; the time is kept by itself.
hint-settled = What was agreed, and with whom. A lost tape can be signed for at pickup after this.
hint-added = Anything that helps: where it was last seen, who handled it.
hint-photo = The name of a PNG or JPEG file; it is copied among the shop's photos.
in-your-words = In a few words
write-down = Write it down
print-report = Print the report   Alt+W
printed = The report is at { $path }.
written = Written down for { $title }.
photos-altered = These photos are missing, or are not what was attached: { $names }. Look for a copy in the backup of the shop's folder.

# The list of what is open, on the command line and under Shop.
open-line = { $code }, { $tape }: { $kind ->
        [lost] lost
       *[damaged] damaged here
    }, { $when }: { $words }
open-next = { $next ->
        [tell] Next: tell { $name }, { $phone }.
       *[settle] { $name } knows, { $phone }. Next: settle it with them.
    }
no-phone = no phone number on the order
none-open = Every tape lost or damaged here is settled with its owner.
open-how = Tell each owner, then write down how it was settled. Nothing of this is ever read out to a caller.
open-count = { $count } open
open-go = Go on at the Bench
open-go-to = Go on at the Bench with tape { $code }
