# What the papers say.
page_of = Page { $page } of { $pages }
practice = PRACTICE — not a real order

law = Your rights under local consumer law come first; nothing on this paper takes away from them.

figures-between = { $low } to { $high }

outcome-plays = plays as it is
outcome-repair = plays once it is repaired
outcome-partly = plays in part
outcome-not-here = none of our machines plays it; you are not charged for it
tape-not-here = None of our machines plays it
apart-partner = { $tapes } · { $partner }, { $days }
apart-nobody = { $tapes }
apart-days =
    { $n ->
        [one] about 1 day
       *[other] about { $n } days
    }
slip-apart = Not copied here
quote-apart = Not copied here
quote-apart_says = None of our machines plays these. They are not in the price or the date above.
outcome-rights = not copied unless you hold the rights; you are not charged for it
outcome-look = we look at it first and ask you; you are not charged before
outcome-cannot = cannot be played; you are not charged for copying it

station-booked-in = Waiting to be looked over
station-looked-over = Looked over, waiting
station-at-the-bench = Being repaired
station-cleared-to-play = Waiting for a deck
station-playing = Being copied
station-being-checked = Copy being checked
station-ready = Ready for you
station-handed-back = Handed back
station-asking-the-customer = We need to ask you something
station-kept-apart = Kept apart from other tapes
station-cannot-be-played = Could not be played

join-tape = splicing tape on the back
join-adhesive = ordinary adhesive tape
join-leader = the leader fixed to the reel again

tape-recorded_as = recorded as { $format }
tape-copied = Copied: { $length }
became-copied = Copied
became-copied-for = Copied: { $length }
became-copied-in-part = Copied in part
became-copied-in-part-for = Copied in part: { $length }
became-nothing-on-it = Nothing on it, not copied
became-not-wanted = Not copied, as you wished
became-repair-declined = Not repaired, as you wished
became-cannot-be-played = Could not be played here
became-sent-elsewhere = Sent to another shop, and back
became-lost = Lost here
became-damaged = Damaged here
standing-talk_about = We would like to talk to you about it
tape-not_copied = Not copied

promise-no_day = No day yet
promise-chance = { $chance } of being ready by then.

price-what = What
price-quantity = Quantity
price-amount = Amount
price-from = From
price-likely = Most likely
price-to = Up to
price-each = at { $money }
price-net = Before tax
price-tax = Tax
price-gross = Total
price-tax-base = on { $money }
price-rounding = Rounding
price-due = To pay

band-short = NOT FOR REUSE
band-spliced =
    SPLICED —
    NOT FOR REUSE
band-full =
    { $n ->
        [one] NOT FOR REUSE — do not play or record on this cassette again
       *[other] NOT FOR REUSE — do not play or record on these cassettes again
    }
band-meaning = Do not play or record on this cassette again.

quote-title = Quote
quote-for = Quote for { $name }
quote-made =
    { $n ->
        [one] One tape, seen on { $day }
       *[other] { $n } tapes, seen on { $day }
    }
quote-made-reel =
    { $n ->
        [one] One reel of film, seen on { $day }
       *[other] { $n } reels of film, seen on { $day }
    }
quote-made-box =
    { $n ->
        [one] One box of pictures, seen on { $day }
       *[other] { $n } boxes of pictures, seen on { $day }
    }
quote-made-disc =
    { $n ->
        [one] One disc, seen on { $day }
       *[other] { $n } discs, seen on { $day }
    }
quote-made-thing =
    { $n ->
        [one] One item, seen on { $day }
       *[other] { $n } items, seen on { $day }
    }
quote-cost = Most likely
quote-most_likely = With tax. It could be { $between }: nobody knows yet how long the tapes run.
quote-never_over = Never over
quote-never_over_says = without asking you first.
quote-ask_detail = Ask us for the page that shows how the price adds up.
quote-sign_head = Yes, please
quote-sign = I have read this page and agree to it. The tapes are mine, or I may have them copied.
quote-sign_way = I have read this page and agree to the way ticked above. The tapes are mine, or I may have them copied.
quote-sign_line = Signature, date
# --- the ways to agree, side by side on the quote
ways-head = How to agree on the price
ways-by-play = By what they play
ways-by-play-says = { $between }, never over { $money } without asking you.
ways-flat = A flat price
ways-flat-says = { $money } for everything, however long they play. For a tape we can't copy, its share comes off.
ways-play-first = Play first, then choose
ways-play-first-says = We play them and tell you what is on them; then you pick. { $fee } if you pick none.
quote-own_tapes =
    { $tapes ->
        [0] This range rests on no tapes of our own yet.
        [one] This range rests on 1 tape of our own so far.
       *[other] This range rests on { $tapes } tapes of our own so far.
    }
quote-ceiling = We won't go over { $money } without asking you.
quote-example_prices = Example prices, not this shop’s own yet
quote-ready = When it is ready
quote-tapes = Your tapes
quote-tapes-thing = What you brought
quote-count-thing = How many
quote-count = Tapes
quote-tape = What it is
quote-minutes = Minutes each
quote-expected = What we expect
quote-hours = Copying takes as long as the tapes play: { $likely } hours most likely, { $low } to { $high } hours.
quote-hours-thing = Our machines need { $likely } hours for it most likely, { $low } to { $high } hours.
quote-told = Before you decide
quote-charges = How the price adds up
quote-copies = What you get with your tapes
quote-with_copies = With your tapes you get: { $copies }.
quote-copy = { $count } × { $words }
quote-size = The copies take up about { $low } to { $high } GB.
quote-terms = What we agree to
quote-deposit = Deposit today: { $money }.
quote-ask_first = We won't charge more than { $money } without asking you first.
fee-inspection-per-tape = A tape we look over and don't copy costs { $money } for the inspection.
fee-inspection-per-box = If we look over tapes and don't copy them, the inspection costs { $money } for the order.
# What is charged for an order nobody picks up; $days are those from the day the customer heard it is ready.
fee-storage-day =
    { $days ->
        [one] Please pick up within 1 day of hearing it's ready. After that, storage is { $money } a day, as far as local law on unclaimed goods allows; that law comes first.
       *[other] Please pick up within { $days } days of hearing it's ready. After that, storage is { $money } a day, as far as local law on unclaimed goods allows; that law comes first.
    }
fee-storage-week =
    { $days ->
        [one] Please pick up within 1 day of hearing it's ready. After that, storage is { $money } for each week begun, as far as local law on unclaimed goods allows; that law comes first.
       *[other] Please pick up within { $days } days of hearing it's ready. After that, storage is { $money } for each week begun, as far as local law on unclaimed goods allows; that law comes first.
    }
quote-valid = This quote is good until { $day }.

slip-title = Claim slip
slip-when = When it is ready
slip-ready = Ready by closing time on
slip-name = For
slip-box = We have
slip-tapes =
    { $n ->
        [one] 1 tape
       *[other] { $n } tapes
    }
slip-tapes-reel =
    { $n ->
        [one] 1 reel of film
       *[other] { $n } reels of film
    }
slip-tapes-box =
    { $n ->
        [one] 1 box of pictures
       *[other] { $n } boxes of pictures
    }
slip-tapes-disc =
    { $n ->
        [one] 1 disc
       *[other] { $n } discs
    }
slip-tapes-thing =
    { $n ->
        [one] 1 item
       *[other] { $n } items
    }
slip-cost = Price with tax
slip-cost-plain = Price
slip-deposit = Deposit paid
slip-deposit_paid = Deposit paid: { $money }
slip-booked = Booked in on
slip-bring-thing = To pick up, bring this slip or a photo of it, and something that shows your name. You pay the balance when you get everything back. You get every single one back; we count them with you, one by one.
slip-bring = To pick up, bring this slip or a photo of it, and something that shows your name. You pay the balance when you get the tapes back. You get every tape back; we count them with you, one by one.
slip-ask = Questions? Call { $phone } and read us the order number.
slip-keep = If we find something at the bench that changes the price or the date, we'll call you before we go on.
slip-stub = For the box
slip-stub_ready = Ready by { $day }
slip-rush = RUSH
slip-cut = tear off here

label-title = Labels
label-mould = MOLD
label-nitrate = NITRATE
label-vinegar = VINEGAR
label-sticky = STICKY
label-snapped = SNAPPED
label-off-hub = OFF THE HUB

splice-cut = Spliced { $where } from the start with { $how }; { $cm } cm cut away: { $removed } s gone, { $disturbed } s disturbed.
splice-uncut = Spliced { $where } from the start with { $how }; nothing cut away, { $disturbed } s disturbed.
splice-cut-unknown = Spliced { $where } from the start with { $how }; { $cm } cm cut away: { $removed } s are gone. How much beside it is disturbed is not known.
splice-uncut-unknown = Spliced { $where } from the start with { $how }; nothing cut away. How much is disturbed is not known.
splice-leader_start = Spliced in the clear leader at the start of the tape, { $how }. Nothing of the recording is lost. It is the safest kind of splice, but still a splice.
splice-leader_end = Spliced in the clear leader at the end of the tape, { $how }. Nothing of the recording is lost. It is the safest kind of splice, but still a splice.
became-all-checked =
    { $n ->
        [one] Copy checked by { $name }.
       *[other] Copies checked by { $name }.
    }
splice-redone = { $what } This splice was redone; no charge.
splice-at_metres = { $metres } m ({ $minutes })
splice-marked = Labeled { $day }.
splice-unmarked = The not-for-reuse label is not on it yet: please ask us for it.
splice-why = No splice lasts forever, and warmth weakens it. If it comes off while the tape is running, it can damage the machine and the rest of the tape. Watch your copies, and keep the cassette as a keepsake.

repair-done = Done: { $what }.
repair-failed = Tried, but it did not work: { $what }.
repair-part = { $what } ({ $part })
repair-part_from = { $what } ({ $part } from { $where })
repair-looked = Looked over again after the repair on { $day }.

part-shell = shell
part-reel = reel
part-lid = lid
part-screws = screws

receipt-title = Receipt for order
receipt-head = Receipt for order { $number }, { $name }
receipt-handed = Given back on { $day } at { $time } by { $by }
receipt-do_spliced =
    { $n ->
        [one] One of your tapes was spliced. Please never play or record on it again.
       *[other] { $n } of your tapes were spliced. Please never play or record on them again.
    }
receipt-at_home = Careful at home: { $codes }
know-scratched = A scratch shows as a line in the picture; nobody can take it out. Have your player looked at.
know-repair-declined = We left it as it was. Please do not play it: a machine can make the damage worse.
know-nothing-on-it = We played it. If you remember a recording, tell us before anybody records over it.
know-copied-in-part = The rest is lost or too damaged for our machines; keep the tape as it is.
know-cannot-be-played = Please do not try it in a player. If it matters to you, keep it as it is and ask a specialist.
know-sent-elsewhere = Another shop had it and sent it back to us; what they did is on their paper.
know-damaged = We are sorry. What happened and what we agreed on is written down for you, and you are not charged for it.
home-mould = Mold is on this tape. Leave it in its closed bag, away from other tapes, from food, and from anybody with asthma or weak immunity. Do not open it or smell at it; whoever handles it needs gloves and breathing and eye protection. Local rules on health and waste go first; cleaning it is work for a specialist.
home-sticky = This tape sheds. Do not play it, rub at it, or blow on it; do not breathe the dust in, and wash your hands. Local rules on waste go first; a specialist can be asked.
home-nitrate = This film may be nitrate, which burns fiercely, even without air. No heat, no sparks, no closed can, not into the trash or the mail. Local fire rules go first; ask a film archive or a licensed specialist.
home-vinegar = The base of this film is breaking down. Keep it cool and aired, away from other films, and do not smell at it; local rules on health go first.
receipt-do_plain = Your tapes are yours to keep. None of them was spliced.
receipt-do_plain-thing = Everything you brought is yours to keep.
receipt-do_plain_more = Store tapes upright, cool and dry, away from magnets and heaters.
receipt-store = Store tapes upright, cool and dry.
receipt-two_places = First, copy the files to two places, one of them outside your home.
receipt-tapes =
    { $n ->
        [one] The tape you get back
       *[other] All { $n } tapes you get back
    }
receipt-tapes-reel =
    { $n ->
        [one] The reel of film you get back
       *[other] All { $n } reels of film you get back
    }
receipt-tapes-box =
    { $n ->
        [one] The box of pictures you get back
       *[other] All { $n } boxes of pictures you get back
    }
receipt-tapes-disc =
    { $n ->
        [one] The disc you get back
       *[other] All { $n } discs you get back
    }
receipt-tapes-thing =
    { $n ->
        [one] The item you get back
       *[other] All { $n } items you get back
    }
receipt-code = Code
receipt-tape = What it is
receipt-became = What we did
receipt-found = { $name } ({ $found })
receipt-still_here =
    { $n ->
        [one] One tape is still here
       *[other] { $n } tapes are still here
    }
receipt-still_here-reel =
    { $n ->
        [one] One reel of film is still here
       *[other] { $n } reels of film are still here
    }
receipt-still_here-box =
    { $n ->
        [one] One box of pictures is still here
       *[other] { $n } boxes of pictures are still here
    }
receipt-still_here-disc =
    { $n ->
        [one] One disc is still here
       *[other] { $n } discs are still here
    }
receipt-still_here-thing =
    { $n ->
        [one] One item is still here
       *[other] { $n } items are still here
    }
receipt-not_returned =
    { $n ->
        [one] One tape we could not return
       *[other] { $n } tapes we could not return
    }
receipt-not_returned-reel =
    { $n ->
        [one] One reel of film we could not return
       *[other] { $n } reels of film we could not return
    }
receipt-not_returned-box =
    { $n ->
        [one] One box of pictures we could not return
       *[other] { $n } boxes of pictures we could not return
    }
receipt-not_returned-disc =
    { $n ->
        [one] One disc we could not return
       *[other] { $n } discs we could not return
    }
receipt-not_returned-thing =
    { $n ->
        [one] One item we could not return
       *[other] { $n } items we could not return
    }
receipt-not_returned_says = We are sorry. What happened and what was agreed is written down for you. You are not charged for it.
receipt-copies = Copies you get
receipt-agreed = Agreed since
receipt-agreed_line = { $day }: { $words } ({ $who } to { $by })
receipt-price = What it cost
# $known is 0 where a charge has no price of one.
receipt-charge =
    { $known ->
        [0] { $what }: { $quantity }
       *[other] { $what }: { $quantity } { $each }
    }
receipt-paid = Paid so far
receipt-due = Still to pay
receipt-owed = We owe you
receipt-signed_head = Received
receipt-told_plain = I counted the tapes and copies listed above and received them.
receipt-told_plain-thing = I counted everything listed above and received it.
receipt-told_spliced =
    { $n ->
        [one] I counted the tapes and copies listed above and received them. I was shown the tape labeled “not for reuse” and told why it must never be played or recorded on again.
       *[other] I counted the tapes and copies listed above and received them. I was shown the { $n } tapes labeled “not for reuse” and told why they must never be played or recorded on again.
    }
receipt-check-number = Check number of our records: { $head }
receipt-signed = Signed by { $name }, { $day }, { $time }
receipt-signed_name = Received by { $name }, { $day }, { $time }; no signature was taken on the screen.
receipt-named = Named beforehand to collect for the customer: { $who } ({ $said_by } to { $by }, { $day }).
receipt-shown = { $name } collected for { $customer } and showed: { $what }.

payment-deposit = Deposit, { $day }
payment-balance = Balance, { $day }
payment-refund = Refund, { $day }

files-title = Delivery list
files-head = Files of order { $number }, { $name }
files-made = As of { $day }
files-sum =
    { $n ->
        [one] One file, { $length }, { $size }
       *[other] { $n } files, { $length } altogether, { $size }
    }
files-keep = Keep this list with your copies. The long number under each name tells you, today or ten years from now, whether a file is still exactly the one we gave you.
files-tape = From the tape
files-file = File and its SHA-256
files-length = Length
files-size = Size
files-bytes = { $n } bytes
files-signed = Checked and signed off by { $name }.
files-unchecked = Not checked yet.
files-known = Please note: { $what }
files-gigabytes = { $n } GB
files-megabytes = { $n } MB
files-without =
    { $n ->
        [one] One tape has no file
       *[other] { $n } tapes have no file
    }
copies-head = What is on each copy
copies-on_it = { $n ->
        [0] Nothing is on it.
       *[other] On it: { $tapes }.
    }{ $lacks ->
        [0] {""}
       *[other] {" "}Not on it: { $lacking }.
    }
copies-made = Made by { $by } on { $day }.
copies-checked = Made by { $by } on { $day }; checked by { $checker } on { $when }.
copies-above =
    { $n ->
        [one] The file is on the list above.
       *[other] { $n } files are on the list above.
    }
copies-file = { $name }, { $size }
files-check_head = How to check a file
files-check = Type one of these lines with the file's name in place of FILE. It answers with 64 letters and digits. If they are the same as on this list (there they take up two lines), the file is unchanged.
files-check_windows = Windows: certutil -hashfile FILE SHA256
files-check_macos = macOS: shasum -a 256 FILE
files-check_linux = Linux: sha256sum FILE
tax-number = Tax number { $number }
key-title = Key of the backups
key-made = Made on { $day }.
key-keep = Keep this page where nobody else finds it, away from the computer and the backups: whoever has it can read every backup of the shop, and without it nobody can restore a locked one.
key-lost = A lost key can't be made again, and its backups are lost along with it. If this page is ever lost, make a new key at once: backups made from then on can be read with that one.
key-use = To try out a backup, type the key where the program asks for it under Shop, Backups. Spaces don't count.
key-restore = To restore one, type the key or scan the code into a file, and run: tapewright restore BACKUP --key FILE
key-public = Backups locked with this key carry the public key { $key }.
secret-keep = Keeping it
secret-use = Using it
secret-fold = Cut or fold here. Nothing is printed below.
token-title = Token of { $person }
token-for = For: { $words }. Good through { $day }.
token-keep = Keep this page where nobody else finds it: whoever has it can work at the command line as { $person }, with every right { $person } has.
token-lost = If it is lost or seen, revoke the token on the People page of Shop. The shop keeps only a digest of it, so this page can't be printed again.
token-use = Scan the code or type the letters into a file that only its program can read, exactly as they are, and give the program --token-file FILE, or put them into TAPEWRIGHT_TOKEN.
token-ends = After its last day it is refused. Issue a new one then, and shred this page.
label-test = Test print of the labels
roll-test = Test print of the roll
roll-test-frame = On a roll { $width } mm wide, the frame is whole and a scanner reads both codes.

incident-title = Report about tape
incident-head-lost = A tape of order { $number } was lost with us
incident-head-damaged = A tape of order { $number } was damaged with us
incident-made = As of { $day }
incident-code = Tape { $code }
incident-owner = Brought in by { $name } on { $day }
incident-what = What happened
incident-when = When
incident-found = Found
incident-found_by = by { $who }, { $when }
incident-told = Owner was told
incident-settled = Settled
incident-not_yet = not yet
incident-lines = Everything that was written down
incident-written = Written down
incident-line = What
incident-by = By
incident-at = it was { $when }
incident-moment = { $day }, { $time }
incident-kind-lost = Lost
incident-kind-damaged = Damaged
incident-kind-added = More about it
incident-kind-photo = Photo, with its SHA-256
incident-kind-told = The owner was told
incident-kind-settled = Settled with the owner
incident-kind-found = It is over
incident-law = Local law and the terms of the shop's insurer come first. Each line was kept as it was written; a mistake gets another line.
# How the price was agreed.
agreed-flat = A flat price, however long your tapes play.
agreed-flat_terms = { $money } is a flat price for everything above, however long your tapes play. For a tape we can't copy, its share comes off. If anything else turns up, such as a repair, we ask you before we charge for it.
agreed-play_first = We play your tapes first, then you pick: { $fee } if you pick none. We won't go over { $money } without asking you.
agreed-play_first_terms = We play your tapes and tell you what is on them. You then pick which ones to copy; if you pick none, you pay { $fee }.
agreed-or_by_play = You could also pay by what the tapes play: { $between }, and never over { $money } without asking you.
agreed-or_flat = You could also choose a flat price: { $money } for everything, however long your tapes play.
agreed-or_play_first = You could also have us play the tapes first and then pick which ones to copy, from { $fee }.
# --- what has changed
changed-title = What has changed
changed-head = Order { $number } for { $name }
changed-reason = Why: { $reason }
changed-price = What it will cost, with tax
changed-nothing = Nothing about the tapes, the price, or the date has changed.
changed-what = What
changed-before = Before
changed-now = Now
changed-more =
    { $n ->
        [one] And 1 more line; ask us for it.
       *[other] And { $n } more lines; ask us for them.
    }
changed-terms = Everything else stays as we agreed. We won't go over the amount above without asking you.
changed-sign = { $name }, { $day }
tape-left_out = Not copied, as agreed. Nothing is charged for it.
# --- the drop-off agreement
agreement-title = What we agreed
agreement-head = Order { $number } for { $name }
agreement-taken = Taken in on { $day }, { $time }, by { $by }
agreement-told = What { $by } told you before you decided
agreement-change = If something changes later, we write down what you said, when, and how; the page “What has changed” shows it line by line.
agreement-yes = I have read this and agree to it. The tapes are mine, or I may have them copied.
agreement-sign = Signature of { $name }, date
agreement-signed = { $how ->
        [signature] { $name } signed on { $day }; { $by } was at the counter.
        [paper] { $name }, { $day }
       *[spoken] { $name } agreed at the counter on { $day }; { $by } took it. Sign above if you like it in writing.
    }
agreement-copies = Two copies: one for you, one stays with us.
# --- the job sheet for the bench
bench-title = Job sheet
bench-copies = To be made: { $copies }.
bench-cautions = Careful at the bench
bench-all = All tapes
bench-caution = { $tapes }: { $caution }
bench-to_do = The tape, what was found, what to do
bench-found = What you find
bench-write_played = Plays
bench-write_found = Found
bench-write_by = By, date
# --- the refund slip
refund-title = Refund for order
refund-head = Refund for order { $number }, { $name }
refund-given = Given on { $day } at { $time } by { $by }
refund-back = Money back
refund-because = Why: { $why }
refund-before = Paid before
refund-after = Paid now
refund-received = I got this money back.
# --- the reminder
reminder-title = Reminder for order
reminder-ready = Your tapes are ready for you
reminder-ready-thing = What you brought is ready for you
reminder-order = Order { $number }
reminder-told = We told you so on { $day }. If our letters crossed, please forget this one.
reminder-bring = To pick up, bring your claim slip or this letter, and something that shows your name. You get every single one back; we count them with you.
reminder-call = Can't come? Call { $phone }: somebody else can pick up for you if you tell us who.
reminder-storage = Storage so far
reminder-storage_says = As far as local law on unclaimed goods allows; that law comes first.
# --- the statement of what could not be saved
unsaved-title = What could not be saved, order
unsaved-head = What could not be saved of order { $number }, and why
unsaved-sum =
    { $n ->
        [0] Everything that was to be copied of { $all ->
            [one] the 1 tape
           *[other] the { $all } tapes
        } could be copied.
        [one] Of 1 tape out of { $all }, all or some could not be saved.
       *[other] Of { $n } tapes out of { $all }, all or some could not be saved.
    }
unsaved-tape = Tape
unsaved-what = What became of it
unsaved-why = Why
unsaved-seconds = { $seconds } s were cut away at splices
unsaved-incident = On { $day } in our shop: { $words }
unsaved-declined = The owner did not want it repaired.
unsaved-means = This is what we found with our tools and our machines. It is no appraisal of worth, and another workshop may find more.
unsaved-sign = For { $shop }, date
why-snapped = The tape had snapped.
why-off-hub = The tape had come off its hub.
why-chewed = A machine had chewed the tape.
why-stretched = The tape was stretched.
why-creased = The tape was creased; picture and sound are lost where a crease runs.
why-scratched = The tape was scratched along its length. The line stays in the picture; nobody can take it out.
why-edge-damage = The edge of the tape was damaged, so that sound or picture are unsteady or missing.
why-mould = Mold was on the tape. It was kept apart and not played here, for the sake of people and of other tapes.
why-sticky = The tape shed and stuck; playing it would have damaged it further.
why-shell-broken = The shell was broken.
why-reel-broken = A reel was broken.
why-lid-damaged = The lid was damaged.
why-sound-missing = The sound was missing, or came and went.
why-crushed = The cassette was crushed.
why-commercial-recording = It holds a recording that somebody else has the rights to.
why-torn-perforation = The sprocket holes of the film were torn.
why-shrunken = The film had shrunk.
why-vinegar = The base of the film was breaking down.
why-nitrate = The film may be nitrate, which only licensed specialists handle.
why-faded = The pictures had faded.
why-disc-scratched = The disc was scratched.
