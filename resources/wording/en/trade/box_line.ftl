# The words of the one line for an order: what may be typed or dictated, with commas between words that mean the same.
# The names of formats, findings, speeds and markings are understood anyway; here stand the other ways to say them.

format-s-vhs = super vhs
format-vhs-c = compact vhs, vhs compact
format-s-vhs-c = super vhs compact, super vhs-c
format-betamax = beta
format-video8 = video 8 mm
format-hi8 = hi8mm, high 8, hi eight, high eight
format-digital8 = digi8, d8, digital eight
format-8mm-unknown = 8 mm, 8 mm tape, 8 mm cassette, 8 mm video, eight millimeter
format-minidv = mini dv, dv
format-u-matic = umatic
format-betacam-sp = beta sp, betasp
format-audio-cassette = audio tape, audio cassette, compact cassette, music cassette
format-super-8 = super 8, super 8 mm, super eight, 8 mm film
format-film-8mm = regular 8, standard 8, double 8, 8 mm film
format-film-9-5mm = 9.5 mm
format-film-16mm = 16 mm
format-film-35mm = 35 mm
format-slides = slide
format-prints = print, photo
format-optical-disc = cd, dvd
plural-endings = s, es

finding-snapped = snap, broken tape, tape broken, torn, ripped
finding-off-hub = off hub, off its hub, off the reel, come off the hub
finding-chewed = chewed up, eaten, mangled
finding-stretched = stretch
finding-creased = crease, crinkled, wrinkled, folded
finding-scratched = scratch, scratches
finding-edge-damage = edge damaged, damaged edge, edges damaged
finding-mould = moldy, mold on it, fungus, mildew
finding-sticky = sticky shed, squeals, squealing
finding-shell-broken = broken shell, cracked shell, shell cracked, cracked, broken case, case broken
finding-reel-broken = broken reel, broken hub, broken spool
finding-lid-damaged = damaged lid, broken lid, lid broken, lid missing, no lid, door broken, broken door
finding-sound-missing = no sound, no audio, without sound
finding-crushed = smashed, crushed to pieces, in pieces
finding-commercial-recording = commercial, store bought, bought tape
finding-torn-perforation = torn perforation, torn sprocket holes
finding-shrunken = shrunk
finding-vinegar = vinegar, smells of vinegar, vinegar syndrome
finding-nitrate = nitrate
finding-faded = faded colors
finding-disc-scratched = scratch, scratched, scratches

speed-sp = standard play
speed-lp = long play
speed-ep = slp, extended play, super long play

count-1 = one, single
count-2 = two, a couple, a couple of, a pair, a pair of
count-3 = three
count-4 = four
count-5 = five
count-6 = six, half a dozen
count-7 = seven
count-8 = eight
count-9 = nine
count-10 = ten
count-11 = eleven
count-12 = twelve, dozen, a dozen, one dozen
count-13 = thirteen
count-14 = fourteen
count-15 = fifteen
count-16 = sixteen
count-17 = seventeen
count-18 = eighteen
count-19 = nineteen
count-20 = twenty
count-21 = twenty one
count-22 = twenty two
count-23 = twenty three
count-24 = twenty four, two dozen
count-25 = twenty five
count-26 = twenty six
count-27 = twenty seven
count-28 = twenty eight
count-29 = twenty nine
count-30 = thirty
count-36 = thirty six, three dozen
count-40 = forty
count-48 = forty eight, four dozen
count-50 = fifty
count-60 = sixty
count-70 = seventy
count-80 = eighty
count-90 = ninety
count-100 = hundred, a hundred, one hundred
times = x, times
articles = a, an
joining = and, plus
recorded-as = as, in, recorded as, recorded in, recorded on
of-them = of them, of these, of those
all-of-them = all, all of them, all of these, all of those, every one, each
label-follows = label, labeled, titled, title
no-label = no label, no labels, unlabeled, without label, without a label
negations = no, not, without, never, none, isn’t, aren’t
fillers = tape, tapes, cassette, cassettes, video, videos, reel of, reels of, box of, boxes of, roll of, rolls of, reel, reels, roll, rolls, box, boxes, of, with, the, at, on, is, are, it is, they are, some tapes, then, also, speed

name-particles = van, von, de, der, den, di, da, la, le, del, della, du, bin, al, y, e, zu, zur, ten, ter

# Heads of columns in a table that is pasted or dropped.
head-count = count, how many, quantity, qty, number, no, pieces, pcs, copies, amount
head-format = format, cassette, cassette type, tape type, type, medium, media, kind, shell
head-marking = marking, length, tape length, printed, minutes, model, size
head-recorded_as = recorded as, recorded, recording, system on tape
head-speed = speed, mode, play speed, sp/lp/ep
head-tv = tv, tv system, standard, video standard, ntsc/pal
head-findings = what is wrong, wrong, condition, damage, findings, finding, problem, problems, defect, defects, fault, state
head-label = label, title, notes, note, description, contents, content, comment, comments, remarks, name on tape

# --- how a line was understood
understood-row = { $count } × { $what }
tapes =
    { $tapes ->
        [one] 1 tape
       *[other] { $tapes } tapes
    }
understood = { $tapes }: { $rows }
rows-apart = { $one } · { $other }
row-details = { $what }, { $details }
for-name = for { $name }
for-phone = for { $phone }
for-name-and-phone = for { $name }, { $phone }
as-recorded = recorded as { $format }
with-label = “{ $label }”
no-format = which kind?
not-understood = “{ $word }” was not understood.
did-you-mean = “{ $word }” was not understood. Did you mean { $offers }?
count-off = “{ $word }” is no count of tapes: 1 to { $most } is accepted.
too-many-of-them = “{ $word }” is more than there are of them.
no-format-named = No kind of cassette is named in “{ $word }”.
line-accepted = an order in words is accepted, like 5 vhs t120, 3 vhs-c, hi8 snapped
line-fault = { $option }, at character { $at }: { $sentence }
file-or-line = either a FILE or --line with an order in words is accepted
only-with-line = { $option } is accepted with --line only; an inventory file names the customer itself
option-line = the tapes in words, like “5 vhs t120, 3 vhs-c, hi8 snapped”, in place of a FILE
option-name = with --line: who brings the tapes
option-tv = with --line: the TV system of the order
unread-cell = { $head }: { $text }
unknown-head = column { $n }
nothing-wrong = ok, okay, fine, good, none, no, nothing, n/a, none seen
rows-found = { $count } rows
rows-accepted = at most { $most } rows are accepted
