# What each finding means, by its name: seen, means (one sentence for the customer), told (before money is taken), caution (bench);
# also (the bare fact, where a stronger finding decides what is done), covered (where another repair does it too).

seen-snapped = a loose end, or both ends showing under the lid
means-snapped = The tape has snapped: we splice it, copy it once, and after that it must never be played again.
also-snapped-1 = The tape has also snapped.
told-snapped-1 = The tape has snapped. We splice it so that it can be copied once; a moment around the splice is lost.
told-snapped-2 = After that it must never be played or recorded on again: no splice lasts forever, warmth weakens it, and a strip that comes off in a running machine can damage the heads and the rest of the tape.
caution-snapped-1 = Square the ends; splicing tape goes on the back, not on the recorded side. Office tape creeps to the heads.

seen-off-hub = one reel turns alone; common on full-size cassettes, rare on the small ones
means-off-hub = The tape has come off its reel; clipped back it plays as it did before.
also-off-hub-1 = The tape has also come off its hub.
told-off-hub-1 = The tape has come off its hub. Clipped back at the leader it is as good as before; if it has to be taped instead, it must not be used again.
caution-off-hub-1 = Re-clip the leader rather than taping it. If it is taped, record the splice and label the cassette as not for reuse.

seen-chewed = a loop pulled out, usually by a camcorder jam
means-chewed = A machine has chewed the tape, so some seconds will be damaged or missing there.
also-chewed-1 = The tape has also been chewed.
told-chewed-1 = The tape has been chewed. Some seconds will be damaged or missing there. If a piece has to be cut out, the tape must not be used again.
caution-chewed-1 = Cut only what cannot be straightened, and record every cut: it makes the tape not for reuse.

seen-stretched = narrow, curled or wavy tape where it was pulled
means-stretched = The tape is stretched, and picture and sound come back only in part where it is.
also-stretched-1 = The tape is also stretched.
told-stretched-1 = The tape is stretched. Picture and sound come back only in part there. If a piece has to be cut out, the tape must not be used again.
caution-stretched-1 = Contact is lost in bands where the track angle no longer fits; a time-base corrector helps mild cases (AV Artifact Atlas).

seen-creased = a line across or along under a raking light
means-creased = The tape is creased, and a moment of picture and sound is lost at every crease.
also-creased-1 = The tape is also creased.
told-creased-1 = The tape is creased. A crease cannot be ironed out: picture and sound are lost where it runs.
caution-creased-1 = Play once, and clean the heads afterwards: folds hold dirt (AV Artifact Atlas).

seen-scratched = a straight line along the oxide for the whole length
means-scratched = The tape is scratched along its length, and nobody can take that line out of the picture.
also-scratched-1 = The tape is also scratched along its length.
told-scratched-1 = The tape is scratched along its length, usually by a bent part in a player that gave no sign of it. Nobody can restore it: the line stays in the copy. We say so before we take money.
caution-scratched-1 = Copy it as it is; clean the path afterwards, debris can scratch more (AV Artifact Atlas).

seen-edge-damage = a rippled edge
means-edge-damage = The edge of the tape is damaged, so the sound or the picture may be unsteady.
also-edge-damage-1 = The edge of the tape is damaged as well.
told-edge-damage-1 = The edge of the tape is damaged. Sound or picture may be unsteady or missing; little or nothing can be done about it.
caution-edge-damage-1 = Linear sound and control track lie at the edges; the picture may not lock.

seen-mould = white or colored bloom on the pack
means-mould = There is mold on the tape, so we keep it apart and do not play it here.
also-mould-1 = There is also mold on the tape.
told-mould-1 = There is mold on the tape. We keep it apart in a bag and do not play it here; a specialist can be asked, at a price of their own.
told-mould-2 = Please leave it in its bag, do not open it, and do not smell at it: mold harms eyes and lungs, most of all of people with asthma or weak immunity. Local rules on health and waste go first.
caution-mould-1 = Keep apart, bagged and labeled; do not seal in damp tapes. Do not play it before it is cleaned: it throws spores into the room.

seen-sticky = squeal, drag, residue
means-sticky = The tape has become sticky, and playing it would damage it, so a specialist has to look at it.
also-sticky-1 = The tape is also sticky.
told-sticky-1 = The tape sheds and sticks. Playing it would damage it, so we stop here and refer it to a specialist.
told-sticky-2 = Please do not play it at home or rub at it: what it sheds should not be breathed in.
caution-sticky-1 = Stop at once. Baking is temporary and specialist work.

seen-shell-broken = cracked, rattles, screws gone
means-shell-broken = The shell is broken, so we move the tape into another one; the recording is not touched.
also-shell-broken-1 = The shell is also broken.
told-shell-broken-1 = The shell is broken. We move the tape into another shell of the same kind; the tape itself is not touched.
caution-shell-broken-1 = Use a donor shell of the same format, and keep the old label with the tape.

seen-reel-broken = a flange in pieces
means-reel-broken = A reel is broken, so we move the tape to another one and tell you if it cannot be used again.
also-reel-broken-1 = A reel is also broken.
told-reel-broken-1 = A reel is broken. We wind the tape over or fit a donor reel; if its end has to be spliced to the new reel, the tape must not be used again.
caution-reel-broken-1 = Clear every piece before winding. A splice to the donor reel is recorded and makes the tape not for reuse.

seen-lid-damaged = lid missing or stuck open
means-lid-damaged = The lid is damaged, so we fit another one; the recording is not touched.
also-lid-damaged-1 = The lid is also damaged.
covered-lid-damaged-1 = The lid is damaged too; the other shell brings its own.
told-lid-damaged-1 = The lid is damaged. We fit one from a donor cassette; the tape itself is not touched.
caution-lid-damaged-1 = Check that the lid opens freely before the cassette meets a deck.

seen-sound-missing = picture plays, no sound, or only in places
means-sound-missing = The sound is missing or comes and goes, and we first look at the tape to see why.
also-sound-missing-1 = The sound is also missing, or comes and goes.
told-sound-missing-1 = The sound is missing or comes and goes. We look at the tape itself; what can be had depends on what is found.
caution-sound-missing-1 = Look at the tape itself before blaming the deck; a wrong playback speed also loses sound.

seen-crushed = shell and tape crushed
means-crushed = The cassette is crushed and often cannot be played; we look at it and ask you before anything is charged.
also-crushed-1 = The cassette is also crushed.
told-crushed-1 = The cassette is crushed. Often such a tape cannot be played; we look at it first and ask before anything is charged.
caution-crushed-1 = Judgment, case by case.

seen-commercial-recording = printed label, film or record company, copy protection
means-commercial-recording = This looks like a recording you can buy, and we copy it only if you hold the rights.
also-commercial-recording-1 = It also looks like a commercial recording, which is copied only for those who hold the rights. Local copyright law goes first.
told-commercial-recording-1 = This looks like a commercial recording. We do not copy it unless you hold the rights; if you do, show us and we quote it. Local copyright law goes first.
caution-commercial-recording-1 = Not copied unless the customer holds the rights; local copyright law goes first, and this is no legal advice. Take the finding off once the rights are shown.

# Film, pictures, discs.
seen-torn-perforation = torn film, torn holes, or an old splice that has come apart
means-torn-perforation = The film is torn; we mend it before it runs, and some frames may be lost there.
also-torn-perforation-1 = The film is also torn, or its holes are.
told-torn-perforation-1 = The film is torn, or its holes are. We mend it before it runs; a few frames may be lost at each place.
caution-torn-perforation-1 = Mend with splicing tape made for this film, holes in line, or leave out a frame; never pull a torn film through a gate.

seen-shrunken = holes that no longer meet the teeth of a gauge, film that curls or will not lie flat
means-shrunken = The film has shrunk, so our machine would tear it; a specialist can be asked.
also-shrunken-1 = The film has also shrunk.
told-shrunken-1 = The film has shrunk and no longer fits the teeth of our machine: running it would tear it. A specialist with a machine without teeth can be asked, at a price of their own.
caution-shrunken-1 = Do not run it over teeth. Keep it cool, dry and aired, away from other film.

seen-vinegar = a sour smell in the room when the can is opened, or an acid test strip that has changed color; do not put your nose to it
means-vinegar = The film base is decaying, so it should be copied soon, and kept away from other film.
also-vinegar-1 = The base of this film is also breaking down, which smells of vinegar: keep it cool, dry and aired, away from your other films.
told-vinegar-1 = The base of this film is breaking down, which smells of vinegar. It cannot be stopped, only slowed by cold: have it copied soon. Picture and steadiness may suffer.
told-vinegar-2 = Keep it cool, dry and aired, and away from your other films: the vapor spreads the decay.
caution-vinegar-1 = Do not smell at the reel. Open it where there is air, gloves on, and keep it apart from other film, not sealed (National Film Preservation Foundation).

seen-nitrate = 35 mm film from before about 1952, or film of unknown age without SAFETY along its edge
means-nitrate = This film may be nitrate, which can catch fire and cannot be put out, so we neither run it nor keep it here.
also-nitrate-1 = This film may also be on nitrate base, which burns fiercely; your local fire rules go first.
told-nitrate-1 = This film may be on nitrate base. Nitrate burns fiercely, even without air, so we neither run it nor keep it here.
told-nitrate-2 = Please do not unwind it, send it by mail or store it at home. Ask a film archive or a specialist who may handle nitrate; your local fire rules go first.
caution-nitrate-1 = Do not run, unwind, test with a flame, seal or store it. No heat, no sparks. Call a specialist; local fire rules go first (Kodak, Storage and Handling of Processed Nitrate Film).

seen-faded = colors gone to red or brown, pale pictures
means-faded = The colors have faded; a copy shows what is left, and some of it can be brought back.
also-faded-1 = The colors have also faded.
told-faded-1 = The colors have faded. A copy shows what is left; some of it can be brought back, not all.
caution-faded-1 = Copy as it is first; corrections go into a second file.

seen-disc-scratched = scratches on the shiny side, spots, or a disc gone brown or cloudy
means-disc-scratched = The disc is scratched or clouded, so parts of it may not be readable.
also-disc-scratched-1 = The disc is also scratched or clouded.
told-disc-scratched-1 = The disc is scratched or clouded. We copy what the drive can read; parts may be missing.
caution-disc-scratched-1 = Wipe from the middle outward with a soft cloth, never in circles; do not put a cracked disc into a drive, it can burst.

# Standing cautions, by their name. Each ends with whose rules go first. Common practice, no source, where none is named.
blades = Blades: eye and hand protection; cut away from the hand. A used blade goes into a sharps container, never loose into the trash; local rules on sharps go first.
springs = Lid and hub springs: eye protection when a shell is opened; local rules on safety at work go first.
mould = Mold: breathing protection, eye protection, gloves, a separate room and machine, wash afterward; never smell at it, spores are breathed in. People with asthma or weak immunity stay away. Local rules on health and hazardous waste go first; a large or wet case is for a licensed specialist.
foil = End foil stops the machine: never splice metallized tape into the program (derived from SMPTE 35M-1997).
small = Very small screws, and a splice here is riskier to the machine than on VHS.
solvent = Isopropyl alcohol is flammable: ventilate, no flame; local rules on hazardous waste go first.
glue = Instant glue (cyanoacrylate): its fumes sting eyes and lungs and settle on tape as a white film. Ventilate, eye protection, gloves, the tape out of the room until it has set; never on skin. Its safety data sheet and local rules go first.
oxide = Dust that a tape sheds (oxide, binder): do not blow it away and do not breathe it in. Wipe it up with a lint-free cloth, gloves and a dust mask, and wash your hands; local rules on health and waste go first.
mains = Opened mains-powered decks: unplugged, and by someone qualified; local rules on electrical work go first.
charge = An unplugged deck can still hold a charge: its power supply can give a dangerous shock long after. Touch nothing in there; only someone licensed or qualified opens and discharges it, by local rules on electrical work.
moving = The drum and the loading parts start without warning and can crush or cut: no hand inside while the deck has power, no loose sleeves, hair, or jewelry. Covers stay on unless someone qualified takes them off; local rules on safety at work go first.

# --- a finding of the shop's own, where another one decides what is done
also-own = It was also noted: { $finding }.
# The same hazards on one line, under a heading that says whose rules go first.
brief-heading = Careful. Local rules and safety sheets go first.
brief-blades = Blades: eye and hand protection; used ones into a sharps container.
brief-springs = Lid and hub springs: eye protection when the shell is opened.
brief-mould = Mold: mask, eye protection, gloves, a separate room; not with asthma; never smell at it.
brief-foil = End foil stops the machine: never splice it into the program.
brief-small = Very small screws; a splice here is riskier than on VHS.
brief-solvent = Isopropyl alcohol burns: air, and no flame.
brief-glue = Instant glue: air, eye protection, gloves; the tape out of the room.
brief-oxide = Dust the tape sheds: do not blow or breathe it; wipe, gloves, mask.
brief-mains = Mains: an opened deck is unplugged, and for someone qualified only.
brief-charge = An unplugged deck can hold a charge: only someone licensed or qualified opens it.
brief-moving = Drum and loading parts: no hand inside while the deck has power; only someone qualified opens it.
