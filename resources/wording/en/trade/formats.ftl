# Formats by their name in the catalog: name, size (of its shells, in the order of the file), opening, protect, plays, and
# look (the steps of the look-over that this shell does otherwise). A format that is like another has its sentences too.

name-vhs = VHS
size-vhs-1 = full size
opening-vhs-1 = A button on the side of the shell frees the lid (common practice, no source).
opening-vhs-2 = A pin in the middle of the underside frees the reels (common practice, no source).
opening-vhs-3 = Five screws hold the shell (United Visual).
opening-vhs-4 = Refit the top with the lid held up, then close it (common practice, no source).
protect-vhs = Spine, left of the long label: protected when the tab is broken off (Optimus manual).
plays-vhs-1 = VHS: any VHS deck of the right TV system; an S-VHS deck plays it too.
plays-vhs-2 = LP and EP need a deck with that speed; many JVC NTSC decks play LP without recording it; professional decks may be SP only.
plays-vhs-3 = LP played at SP runs 1.5 to 2 times too fast with noise bands (AV Artifact Atlas).
plays-vhs-4 = S-VHS needs an S-VHS deck; a VHS deck with quasi-playback shows it at reduced resolution (from memory). An S-VHS cassette has one extra hole underneath.
plays-vhs-5 = SECAM and MESECAM need a SECAM or multi-system deck; a PAL deck gives monochrome from SECAM (JVC VTG82063 §3).
look-shell-vhs-1 = Look for cracks; five screws hold the shell (United Visual). Tilt it and listen for loose pieces.
look-shell-vhs-2 = Read the label and the print: is it somebody's own recording?
look-lid-vhs-1 = Press the button on the side of the shell and lift the lid.
look-lid-vhs-2 = A loose end, or both ends showing, means that the tape has snapped.
look-reels-vhs-1 = Press the pin in the middle of the underside and turn one reel: the other must follow, evenly and without a sound.

name-s-vhs = S-VHS

name-vhs-c = VHS-C
size-vhs-c-1 = compact
opening-vhs-c-1 = Very small screws. The supply spool is driven, the take-up turns by a gear wheel (from memory).
protect-vhs-c = Small tab, later a slide: protected when the tab is gone or the slide open. Some adapters hide this from the deck (a VHS-C teardown).
plays-vhs-c-1 = A VHS deck with a VHS-C adapter, or a VHS-C camcorder.
plays-vhs-c-2 = S-VHS-C needs an S-VHS deck with the adapter.
look-lid-vhs-c-1 = No source we have says where the latch of this small shell is: look at both ends of the lid, move nothing by force, and leave the lid shut if it does not lift by itself.
look-lid-vhs-c-2 = A loose end, or both ends showing, means that the tape has snapped; the full-size adapter opens the lid too (from memory), but never load a snapped tape into it.
look-reels-vhs-c-1 = The supply spool is driven, the take-up turns by a gear wheel (from memory). Turn the gear wheel gently; the spool must follow, evenly and without a sound.

name-s-vhs-c = S-VHS-C

name-betamax = Betamax
size-betamax-1 = Beta
protect-betamax = Tab on the bottom edge: protected when broken off (from memory).
plays-betamax-1 = A Betamax deck with the speed of the recording; it does not play Betacam, though the small shell is the same.
look-lid-betamax-1 = The lid lies along the long edge. No source we have says where its latch is: look at both ends of the lid, and do not force it.
look-lid-betamax-2 = A loose end, or both ends showing, means that the tape has snapped. A shiny metal piece near an end is its end sensor, not a repair (derived: end-sensing uses conductive foil).
look-reels-betamax-1 = No source we have says how these reels are freed: put a fingertip on one hub and feel whether it turns; do not force it. If it is held, judge by the packs through the window.
look-reels-betamax-2 = Where it turns, the other must follow, evenly and without a sound.

name-video8 = Video8
size-video8-1 = 8 mm
opening-video8-1 = A small sliding catch frees the lid; look for it at the edge where a MiniDV cassette has none (common practice, no source).
opening-video8-2 = The reel brake is pressed from below (common practice, no source).
opening-video8-3 = Wind by hand with the left reel only, counterclockwise (common practice, no source).
opening-video8-4 = The shell seldom has to be opened: broken ends are usually reachable under the lid (common practice, no source).
protect-video8 = Slide on the back edge: SAVE when the hole is closed, the other way round than on MiniDV (from memory).
plays-video8-1 = Video8: Video8 and Hi8 machines, and many Digital8 camcorders.
plays-video8-2 = Hi8: a Hi8 machine, and many Digital8 camcorders; not a Video8-only machine.
plays-video8-3 = Digital8: a Digital8 machine only (Dalhousie Libraries Digital8).
plays-video8-4 = Most, not all, Digital8 camcorders play analog 8 mm: check its manual.
plays-video8-5 = There is no adapter to a VHS deck (common practice, no source).
look-lid-video8-1 = Slide the small catch back and lift the lid. It is at the edge where a MiniDV cassette has none.
look-lid-video8-2 = A loose end, or both ends showing, means that the tape has snapped: the ends are usually reachable from here.
look-reels-video8-1 = Press the reel brake from below and turn the left reel, the only one to wind by hand, counterclockwise; the other must follow, evenly and without a sound.

name-hi8 = Hi8

name-digital8 = Digital8

name-8mm-unknown = 8 mm, system unknown

name-minidv = MiniDV
size-minidv-1 = mini
opening-minidv-1 = A small sliding catch at one edge frees the lid (common practice, no source).
opening-minidv-2 = The reel brake lets go when the underside is pressed close to the catch of the lid (common practice, no source).
opening-minidv-3 = The shell seldom has to be opened: broken ends are usually reachable under the lid (common practice, no source).
protect-minidv = Slide REC / SAVE: SAVE when the hole is open, the other way round than on 8 mm (Sony DSR-400).
plays-minidv-1 = DV SP: DV, DVCAM, DVCPRO and HDV decks (Bodleian DV 2).
plays-minidv-2 = DV LP: a consumer DV machine, best the one that recorded it; not DVCAM, DVCPRO or professional decks (Bodleian DV 2; Sony DSR-50).
plays-minidv-3 = DVCAM: a DVCAM deck; most MiniDV camcorders do not play it (Dalhousie Libraries MiniDV).
plays-minidv-4 = HDV: an HDV machine of the same type, 1080i or 720p; not a DV-only machine.
plays-minidv-5 = MiniDV cassettes longer than 60 minutes carry a playback caution in a DVCAM deck's manual (Sony DSR-50).
look-lid-minidv-1 = Slide the small catch at the edge back and lift the lid.
look-lid-minidv-2 = A loose end, or both ends showing, means that the tape has snapped: the ends are usually reachable from here.
look-reels-minidv-1 = Press the underside close to the catch, which frees the reels, and turn one: the other must follow, evenly and without a sound.

name-dvcam = DVCAM
size-dvcam-1 = large
size-dvcam-2 = mini
look-lid-dvcam-1 = Slide the small catch at the edge back and lift the lid, as on MiniDV; no source we have says so of the large DV shell, so look for the catch first and do not force the lid.
look-lid-dvcam-2 = A loose end, or both ends showing, means that the tape has snapped: the ends are usually reachable from here.
look-reels-dvcam-1 = Press the underside close to the catch, as on MiniDV, and turn one reel: the other must follow, evenly and without a sound. No source we have says so of the large DV shell: do not force it.

name-hdv = HDV

name-micromv = MicroMV
size-micromv-1 = MicroMV
plays-micromv-1 = A MicroMV camcorder; PAL models play PAL and NTSC, NTSC models NTSC only (from memory).
look-lid-micromv-1 = The whole shell is 46 mm wide and the tape 3.8 mm. No source we have says where its latch is: look with a loupe, and leave the lid shut if it does not lift by itself.
look-lid-micromv-2 = A loose end, or both ends showing, means that the tape has snapped: leave it to somebody with tools for so narrow a tape.
look-reels-micromv-1 = The hubs are too small for a fingertip, and no source we have says how they are freed: leave them, and judge by the packs through the window.

name-u-matic = U-matic
size-u-matic-1 = large
size-u-matic-2 = small (S)
protect-u-matic = Red button in the base: protected when it is taken out (from memory).
plays-u-matic-1 = U-matic SP: an SP deck; a standard U-matic deck plays it with loss. High-band decks do not decode its Dolby C sound.
look-lid-u-matic-1 = The lid is the front of the shell, and heavy. No source we have says where its latch is: look at both ends of the lid, keep fingers out of the gap, and do not force it.
look-lid-u-matic-2 = A loose end, or both ends showing, means that the tape has snapped.
look-reels-u-matic-1 = The two reels turn in opposite directions (from memory). Nothing we have says how they are freed: do not force them.

name-betacam = Betacam
size-betacam-1 = small
size-betacam-2 = large
protect-betacam = Red slide or plug: protected when pushed in or slid (from memory).
plays-betacam-1 = Betacam SP decks play oxide Betacam too (UCLA Library). A Betamax deck does not, though the small shell is the same.
look-lid-betacam-1 = The small shell is that of Betamax, the lid along its long edge (from memory). No source we have says where the latch is: look at both ends of the lid, and do not force it.
look-lid-betacam-2 = A loose end, or both ends showing, means that the tape has snapped.
look-reels-betacam-1 = No source we have says how these reels are freed: feel with a fingertip whether one hub turns; do not force it. If it is held, judge by the packs through the window.
look-reels-betacam-2 = Where it turns, the other must follow, evenly and without a sound.

name-betacam-sp = Betacam SP

name-audio-cassette = audio cassette
size-audio-cassette-1 = compact cassette
protect-audio-cassette = Two tabs on the top edge, one for each side: a side is protected when its tab is broken (common practice, no source).
plays-audio-cassette-1 = Any compact cassette deck; clean and set the head for this tape.
look-lid-audio-cassette-1 = There is no lid: the tape shows along the thick edge. Look at the felt pad and the two rollers too.
look-lid-audio-cassette-2 = A loose end, or both ends showing, means that the tape has snapped.
look-reels-audio-cassette-1 = Nothing locks these reels: turn one hub with a pencil. The other must follow, evenly and without a sound.

name-super-8 = Super 8 film
size-super-8-1 = 50 ft reel
size-super-8-2 = 200 ft reel
size-super-8-3 = 400 ft reel
plays-super-8-1 = A film scanner or projector for Super 8; the perforation is small and lies beside the middle of the frame.
plays-super-8-2 = Regular 8 looks alike: its holes are larger and lie between the frames. A machine for one tears the other.

name-film-8mm = Regular 8 film
size-film-8mm-1 = 50 ft reel
size-film-8mm-2 = 200 ft reel
size-film-8mm-3 = 400 ft reel
plays-film-8mm-1 = A film scanner or projector for Regular 8; the holes are larger than those of Super 8 and lie between the frames.

name-film-9-5mm = 9.5 mm film
size-film-9-5mm-1 = reel
plays-film-9-5mm-1 = A film scanner or projector for 9.5 mm; a single hole lies in the middle between two frames.

name-film-16mm = 16 mm film
size-film-16mm-1 = 100 ft reel
size-film-16mm-2 = 400 ft reel
plays-film-16mm-1 = A film scanner or projector for 16 mm; film with one row of holes (sound) does not run in a machine with teeth on both sides.

name-film-35mm = 35 mm film
size-film-35mm-1 = 400 ft reel
plays-film-35mm-1 = A film scanner for 35 mm, and only film that says SAFETY along its edge.
plays-film-35mm-2 = Film older than about 1952 may be nitrate, which burns even without air: never run it, never store it here. Ask a specialist; local fire rules go first (Kodak: nitrate base was given up in 1951–52).

name-slides = slides
size-slides-1 = tray
plays-slides-1 = A slide scanner; take slides out of glass mounts only if the customer agrees.

name-prints = prints
size-prints-1 = envelope
plays-prints-1 = A flatbed or sheet-fed scanner; old, curled or stuck prints on the flatbed only.

name-optical-disc = CD or DVD
size-optical-disc-1 = 120 mm disc
plays-optical-disc-1 = A disc drive that reads CD and DVD. A copy-protected disc is not copied.
