# Play time, packs and cuts: where figures come from, what is doubtful, what is accepted.
length-of = { $marking }: { $metres } m, { $source }
length-by-marking = { $marking }: { $metres } m at least, the length its marking needs: { $source }
longer-marking = only the marking is known: the tape may run up to { $most } longer; { $source }
longer-published = only its rated length is known: the tape may run up to { $most } longer; { $source }
not-known = what is not known: { $source }
learned = and what the decks of this shop have played
hub = hub radius { $mm } mm, { $source }
thickness = tape { $um } µm, { $source }
thickness-span = the tape may be { $thin } to { $thick } µm thick, { $source }
marking-length = { $marking } is { $metres } m, { $source }
misreading = a reading may be { $mm } mm off (common practice, no source)
no-marking = no marking given: taken as { $marking }
too-full = a full { $marking } reaches { $mm } mm: check the marking or the reading
rough = rough: hub or thickness is from memory
one-side = minutes are of one side
hub-unknown = { $format }: the hub radius is not known, so a radius does not tell the length.
reel-unknown = { $format }: the size of the reel is not known, so a radius cannot be judged.
pack-reaches = a pack of { $format } reaches from the hub, { $hub } mm, to the edge of the reel, { $reel } mm
radius = radius
pack-to_come = pack to come
pack-run = pack run
radius-needed = the radius of one pack is needed, better of both
packs = packs
empty-hubs = two empty hubs hold no tape; one of the packs must be larger
one-pack = Only one pack was read, so its marking cannot be checked.
both-packs = Both packs hold { $low } to { $high } m; readings { $mm } mm off (common practice, no source) and tape of { $thin } to { $thick } µm, { $source }, are in that. No marking is given to compare it with.
packs-agree = Both packs hold { $low } to { $high } m, which agrees with a { $marking }: { $metres } m and at most { $over }% more; readings { $mm } mm off (common practice, no source) and tape of { $thin } to { $thick } µm, { $source }, are in that.
packs-differ = Both packs hold { $low } to { $high } m, but a { $marking } has { $metres } m and at most { $over }% more; readings { $mm } mm off (common practice, no source) and tape of { $thin } to { $thick } µm, { $source }, are in that. Measure again, or read the marking again.
packs-differ-others = Both packs hold { $low } to { $high } m, but a { $marking } has { $metres } m and at most { $over }% more; readings { $mm } mm off (common practice, no source) and tape of { $thin } to { $thick } µm, { $source }, are in that. Measure again, or read the marking again; { $others } would add up.
relock = picture and color take one or two seconds more to lock again (common practice, no source)
in-leader = in the clear leader, which holds no recording
cm-accepted = accepted are 0 to { $most }, the longest { $format } tape
track = track { $mm } mm along the tape, { $source }
track-unknown = how far a track reaches along the tape is not known: at least so much is disturbed
both-sides = lost on both sides of the tape
minutes-from-head = minutes from the head
minutes-run = this tape runs from 0 to { $most } minutes
metres-from-head = meters from the head
metres-run = this tape runs from 0 to { $most } meters
leader-at-ends = the leader lies at the two ends; { $place } in there is program
shell-takes = a { $format } shell takes { $names }
fill-accepted = accepted is the recorded share of the tape, above 0 and up to 1
fill-off-accepted = accepted is how far the share may lie off either way, above 0 and up to 1
sold-as = { $format } is sold as { $names }
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
