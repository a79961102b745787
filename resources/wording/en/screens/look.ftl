# The steps of the look-over, by their key: title, how, light, ask (at the counter), stop.

title-cold = Did it come in from the cold?
how-cold-1 = Feel the shell, and ask how it traveled and where it was kept.
ask-cold = Did it come in from the cold, or from a hot car?

title-mould = Look for mold before you open anything
how-mould-1 = Leave the lid shut. Shine through the window along the edge of the pack and look for bloom, specks or threads.
how-mould-2 = Look at the sleeve as well: stains, specks, or a wavy sleeve are a reason to look twice. Put your nose to neither sleeve nor tape; spores are breathed in.
light-mould = A torch held flat, from the side.
ask-mould = White or colored bloom on the pack, or stains and specks on the sleeve?
stop-mould = Stop here. Bag it, label it, keep it apart, wash your hands; the other steps wait until it is clean.

title-shell = Turn the shell over in your hands
how-shell-1 = Look for cracks and missing screws; tilt it and listen for loose pieces.
how-shell-2 = Read the label and the print: is it somebody's own recording?
light-shell = The light of the room.
ask-shell = Cracked, crushed, rattling? A printed film or record label?

title-protect = Set the record-protect to SAVE
how-protect-1 = Do it before the cassette meets any machine that can record.

title-lid = Open the lid
light-lid = Bench lamp from above.

title-tape = Look at the tape itself
how-tape-1 = Let the light fall almost flat across the tape, and look at its surface and at both edges.
how-tape-2 = Touch nothing but the back, with a lint-free glove.
how-tape-3 = Turn a little further by hand and look again: one bad place is not the whole tape.
light-tape = A raking light: the lamp low, almost along the tape.
ask-tape = Lid open: loose end, loop, crease, scratch or a rippled edge?

title-reels = Free the reels and turn them by hand
light-reels = The light of the room.
ask-reels = Does one reel turn without the other, or is one broken?

title-pack = Look at the packs through the window
how-pack-1 = A good pack is flat and even. Steps, single strands standing out or gaps deform the tape: play such a tape once end to end, in play, before it is recorded (AV Artifact Atlas, citing CCI TB 27).
how-pack-2 = Where the geometry of the shell is known, measure the packs: they tell how far the tape was last run.
light-pack = Light from the other side, through the window.

title-slack = Take up the slack
how-slack-1 = Turn one hub by hand until the tape lies snug, then let the lid close by itself (Kodak; Sony DSR-400).

title-film = Read the can and the edge of the film
how-film-1 = Read the label and the first inches of the edge: SAFETY, a date, a printed title.
how-film-2 = 35 mm film from before about 1952, or of unknown age without SAFETY along its edge, may be nitrate: close the can again and stop.
how-film-3 = White or colored bloom on the edge of the roll is mold: do not unwind it.
light-film = The light of the room.
ask-film = Old 35 mm without SAFETY on its edge? Bloom on the roll? A printed title?
stop-film = Stop here. Close it, do not unwind it, keep it apart; nitrate is not kept here and goes to a specialist, local fire rules go first.

title-base = Look at the first yard of film
how-base-1 = Lay the first yard over a clean glove: torn holes, old splices, film that curls or will not lie flat.
how-base-2 = Where you notice a sour smell as the can is opened, believe it and use an acid test strip; do not put your nose to the reel.
light-base = Bench lamp from above.
ask-base = Torn holes, film that curls, a sour smell, faded color?

title-pictures = Look at a few pictures from different places
how-pictures-1 = Take one from the front, the middle and the end: bloom, pictures stuck together, colors gone to red.
how-pictures-2 = Leave glass mounts and stuck prints as they are.
light-pictures = The light of the room.
ask-pictures = Bloom, stuck pictures, faded color?

title-disc = Turn the disc to the light
how-disc-1 = Scratches, spots, a brown or cloudy edge; a crack means that it goes into no drive.
how-disc-2 = Read the print: is it somebody's own recording?
light-disc = Bench lamp from above.
ask-disc = Scratched, cloudy, cracked? A printed title?

protect-unknown = Where it is on this shell, no source we have says.

no-wait = It is near enough to room temperature: no need to wait.
wait-warm =
    { $hours ->
        [one] Let it warm up in its box for at least { $hours } hour before it is played; if it may be damp, a full day or more.
       *[other] Let it warm up in its box for at least { $hours } hours before it is played; if it may be damp, a full day or more.
    }
wait-cool =
    { $hours ->
        [one] Let it cool down in its box for at least { $hours } hour before it is played.
       *[other] Let it cool down in its box for at least { $hours } hours before it is played.
    }
damp = Damp settles on a cold tape, and a damp tape sticks to the head drum and tears.
