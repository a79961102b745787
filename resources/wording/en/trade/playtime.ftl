# Play time, packs and cuts: where figures come from, what is doubtful, what is accepted.
length-of = { $marking }: { $metres } m, { $source }
length-by-marking = { $marking }: { $metres } m at least, the length its marking needs: { $source }
longest-of = { $marking } cassettes hold up to { $metres } m: { $source }
longer-marking = only the marking is known: the tape may run up to { $most } longer; { $source }
longer-published = only its rated length is known: the tape may run up to { $most } longer; { $source }
longer-rule = its length is read by rule: the tape may run up to { $most } longer, or a little shorter; { $source }
longer-rule-marking = its marking is read by rule: the tape may run up to { $most } longer, or a little shorter; { $source }
longer-measured = its length is judged by the reel: it may be up to { $most } longer, or a tenth shorter; { $source }
longer-counted = { $source }
piece-takes = { $format }: { $seconds } s each on the machine, { $source }
longer-told = only its minutes were told: the tape may run up to { $most } longer or shorter; { $source }
read-by-rule = { $marking } is not listed; it is read by rule: { $source }
not-known = what is not known: { $source }
learned = plus what this shop's decks have played
hub = hub radius { $mm } mm, { $source }
thickness = tape { $um } µm, { $source }
thickness-span = the tape may be { $thin } to { $thick } µm thick, { $source }
marking-length = { $marking } is { $metres } m, { $source }
misreading = a measurement may be { $mm } mm off (common practice, no source)
no-marking = no marking given, so we assume { $marking }
too-full = a full { $marking } reaches { $mm } mm: check the marking or the measurement
rough = rough: the hub or the thickness is from memory
one-side = minutes are for one side
hub-unknown = { $format }: the hub radius is not known, so a radius does not tell the length.
reel-unknown = { $format }: the size of the reel is not known, so a radius cannot be judged.
pack-reaches = a pack of { $format } reaches from the hub, { $hub } mm, to no more than half the depth of its shell, { $room } mm ({ $source })
radius = radius
pack-to_come = pack still to play
pack-run = pack already played
radius-needed = the radius of one pack is needed; both are better
packs = packs
empty-hubs = two empty hubs hold no tape; one of the packs must be larger
one-pack = Only one pack was measured, so the marking cannot be checked.
both-packs = The two packs hold { $low } to { $high } m together. That allows for a measurement { $mm } mm off (common practice, no source) and tape { $thin } to { $thick } µm thick, { $source }. No marking was given to compare it with.
packs-agree = The two packs hold { $low } to { $high } m together, which agrees with a { $marking }: { $metres } m and at most { $over }% more. That allows for a measurement { $mm } mm off (common practice, no source) and tape { $thin } to { $thick } µm thick, { $source }.
packs-differ = The two packs hold { $low } to { $high } m together, but a { $marking } has { $metres } m and at most { $over }% more. That allows for a measurement { $mm } mm off (common practice, no source) and tape { $thin } to { $thick } µm thick, { $source }. Measure again, or check the marking.
packs-differ-others = The two packs hold { $low } to { $high } m together, but a { $marking } has { $metres } m and at most { $over }% more. That allows for a measurement { $mm } mm off (common practice, no source) and tape { $thin } to { $thick } µm thick, { $source }. Measure again, or check the marking: it could be { $others }.
relock = picture and color take another second or two to settle (common practice, no source)
in-leader = in the clear leader, which holds no recording
cm-accepted = 0 to { $most } is accepted, up to the longest { $format } tape
track = track { $mm } mm along the tape, { $source }
track-unknown = how far a track reaches along the tape is not known, so at least this much is disturbed
both-sides = lost on both sides of the tape
minutes-from-head = minutes from the start of the tape
metres-from-head = meters from the start of the tape
place-from-0 = a place on the tape, from 0 on
leader-at-ends = the leader lies at the two ends; { $place } in is part of the program
shell-takes = a { $format } shell takes { $names }
fill-accepted = the recorded share of the tape is accepted, above 0; 1 is all of it, more than 1 a tape that is longer than its marking says
fill-off-accepted = how far off the share may be either way is accepted, above 0 and up to 1
sold-as = { $format } is sold as { $names }
sold-as-or-read = { $format } is sold as { $names }; we also read { $rules }
rule-span = { $first } to { $last }
# Ways to write "about 75 minutes", with commas between; min and h are always understood.
told-minutes = mins, minute, minutes
told-hours = hr, hrs, hour, hours
told-about = about, approximately, approx, around, roughly, circa, ca
has-speeds = { $format } has { $speeds }
has-speeds-in = { $format } in { $tv } has { $speeds }
place-minutes =
    { $n ->
        [one] 1 minute
       *[other] { $n } minutes
    }
place-metres =
    { $n ->
        [one] 1 meter
       *[other] { $n } meters
    }
speed-of = { $format } { $speed }: { $mm_s } mm/s, { $source }
speed-of-tv = { $format } { $speed } { $tv }: { $mm_s } mm/s, { $source }
fill-beyond = a share above 1 is accepted where the tape is longer than its marking says, up to the longest tape sold in a { $format } shell, { $marking } ({ $source })
