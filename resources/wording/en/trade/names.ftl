# Findings, stations and joins as a person says them within a sentence.
finding-snapped = snapped
finding-off-hub = off the hub
finding-chewed = chewed
finding-stretched = stretched
finding-creased = creased
finding-scratched = scratched
finding-edge-damage = edge damage
finding-mould = mold
finding-sticky = sticky
finding-shell-broken = shell broken
finding-reel-broken = reel broken
finding-lid-damaged = lid damaged
finding-sound-missing = sound missing
finding-crushed = crushed
finding-commercial-recording = commercial recording
finding-torn-perforation = torn film
finding-shrunken = shrunken film
finding-vinegar = vinegar smell
finding-nitrate = may be nitrate
finding-faded = faded
finding-disc-scratched = scratched disc
station-booked-in = booked in
station-looked-over = looked over
station-at-the-bench = at the bench
station-cleared-to-play = cleared to play
station-playing = playing
station-being-checked = being checked
station-ready = ready
station-handed-back = handed back
station-asking-the-customer = asking the customer
station-kept-apart = kept apart
station-cannot-be-played = cannot be played
join-tape = splicing tape on the back
join-adhesive = household adhesive tape
join-leader = leader re-anchored
donorpart-shell = shell
donorpart-reel = reel
donorpart-lid = lid
donorpart-screws = screws

# How the order of a caller was found.
matched-number = number
matched-tape-code = tape code
matched-name = name
matched-phone = phone
matched-similar-name = a similar name

# What became of a tape.
disposition-copied = copied
disposition-copied-in-part = copied in part
disposition-nothing-on-it = nothing on it
disposition-not-wanted = not wanted
disposition-repair-declined = repair declined
disposition-cannot-be-played = cannot be played
disposition-sent-elsewhere = sent elsewhere and back
disposition-lost = lost
disposition-damaged = damaged here
