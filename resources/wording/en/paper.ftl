# What the papers say.
page_of = Page { $page } of { $pages }

law = Your rights under local consumer law come first; nothing on this paper takes away from them.

figures-between = { $low } to { $high }

outcome-plays = plays as it is
outcome-repair = plays once it is repaired
outcome-partly = plays in part
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
station-kept-apart = Kept apart because of mold
station-cannot-be-played = Could not be played

join-tape = splicing tape on the back
join-adhesive = household adhesive tape
join-leader = leader fixed to the reel again

tape-recorded_as = recorded as { $format }
tape-copied = Copied, { $length }
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
quote-cost = What it will cost
quote-most_likely = Most likely, with tax. It can be { $between }: nobody knows yet how long the tapes run.
quote-ceiling = We ask before we go beyond { $money }.
quote-ready = When it is ready
quote-tapes = Your tapes
quote-count = Tapes
quote-tape = What it is
quote-minutes = Min each
quote-expected = What we expect
quote-hours = Copying takes as long as the tapes play: { $likely } hours most likely, { $low } to { $high } hours.
quote-told = Please know before you decide
quote-charges = What it is made of
quote-copies = What you get besides your tapes
quote-copy = { $count } × { $words }
quote-size = The copies take up about { $low } to { $high } GB.
quote-terms = What we agree on
quote-deposit = Deposit today: { $money }.
quote-ask_first = We do not charge more than { $money } without asking you first.
quote-valid = This quote holds until { $day }.

slip-title = Claim slip
slip-when = When it is ready
slip-ready = Ready by the close of
slip-name = For
slip-box = In our care
slip-tapes =
    { $n ->
        [one] 1 tape
       *[other] { $n } tapes
    }
slip-cost = Price with tax
slip-deposit = Deposit paid
slip-booked = Booked in on
slip-bring = To collect, bring this slip or a photo of it, and something that shows your name. The balance is paid when the tapes are handed back; you get every tape back, counted one by one.
slip-ask = Questions? Call { $phone } and read us the number.
slip-keep = If we find something on the bench that changes price or date, we call you before we go on.
slip-stub = For the box
slip-stub_ready = Ready by { $day }
slip-rush = RUSH
slip-cut = tear off here

label-title = Labels

splice-head =
    { $n ->
        [one] The tape we cut and joined
       *[other] The { $n } tapes we cut and joined
    }
splice-cut = Joined about { $where } from the start with { $how }; { $cm } cm cut away. { $removed } s of the recording are gone, { $disturbed } s are disturbed.
splice-uncut = Joined about { $where } from the start with { $how }; nothing cut away. { $disturbed } s of the recording are disturbed.
splice-leader_start = Re-joined in the clear leader at the start of the tape, { $how }. Nothing of the recording is lost. It is the safest kind of splice, but still a splice.
splice-leader_end = Re-joined in the clear leader at the end of the tape, { $how }. Nothing of the recording is lost. It is the safest kind of splice, but still a splice.
splice-at_metres = { $metres } m ({ $minutes })
splice-marked = The label “not for reuse” was put on this cassette on { $day }.
splice-unmarked = The label “not for reuse” is not on this cassette yet: ask us for it.
splice-why_head = Why not play it once more?
splice-why = No splice lasts forever, and warmth weakens it. If the strip comes off while the tape is running, it can damage the heads of the machine and the rest of the tape. Watch your copies instead; the cassette is a keepsake now.

repair-head =
    { $n ->
        [one] What else we did to one tape
       *[other] What else we did to { $n } tapes
    }
repair-done = Done: { $what }.
repair-failed = Tried, without success: { $what }.
repair-part = { $what } ({ $part })
repair-part_from = { $what } ({ $part } from { $where })
repair-looked = Looked over again after the repair on { $day }.

part-shell = shell
part-reel = reel
part-lid = lid
part-screws = screws

receipt-title = Receipt for job
receipt-head = Receipt for job { $number }, { $name }
receipt-handed = Handed back on { $day } at { $time } by { $by }
receipt-do_spliced =
    { $n ->
        [one] One of your tapes was spliced. Keep it, but please never play or record on it again.
       *[other] { $n } of your tapes were spliced. Keep them, but please never play or record on them again.
    }
receipt-do_spliced_more =
    { $n ->
        [one] It carries this sign on the cassette. If you give it away, tell the next person. Store all your tapes upright, cool and dry.
       *[other] They carry this sign on the cassette. If you give them away, tell the next person. Store all your tapes upright, cool and dry.
    }
receipt-do_plain = Your tapes are yours to keep. None of them was cut or joined.
receipt-do_plain_more = Store them upright in their boxes, cool and dry, away from magnets and heaters.
receipt-two_places = Before you put anything away: copy the files to two places, one of them outside your home.
receipt-tapes =
    { $n ->
        [one] The tape you get back
       *[other] All { $n } tapes you get back
    }
receipt-code = Code
receipt-tape = What it is
receipt-became = What became of it
receipt-where = Where it stands
receipt-still_here =
    { $n ->
        [one] One tape is still here
       *[other] { $n } tapes are still here
    }
receipt-copies = Copies handed over
receipt-price = What it cost
receipt-paid = Paid in all
receipt-due = Still to pay
receipt-owed = We owe you
receipt-signed_head = Received
receipt-told_plain = I have counted the tapes and copies listed above and received them.
receipt-told_spliced =
    { $n ->
        [one] I have counted the tapes and copies listed above and received them. I was shown the tape marked “not for reuse” and told why it must never be played or recorded on again.
       *[other] I have counted the tapes and copies listed above and received them. I was shown the { $n } tapes marked “not for reuse” and told why they must never be played or recorded on again.
    }
receipt-signed = Signed by { $name }, { $day }, { $time }
receipt-signed_name = Received by { $name }, { $day }, { $time }; no signature was taken on the screen.

payment-deposit = Deposit, { $day }
payment-balance = Balance, { $day }
payment-refund = Paid back, { $day }

files-title = Delivery list
files-head = Files of job { $number }, { $name }
files-made = As of { $day }
files-sum =
    { $n ->
        [one] One file, { $length }, { $size }
       *[other] { $n } files, { $length } in all, { $size }
    }
files-keep = Keep this list with your copies. The long number under each name tells, in ten years as today, whether a file is still exactly the one we gave you.
files-tape = From the tape
files-file = File and its SHA-256
files-length = Length
files-size = Size
files-bytes = { $n } bytes
files-gigabytes = { $n } GB
files-megabytes = { $n } MB
files-without =
    { $n ->
        [one] From one tape there is no file
       *[other] From { $n } tapes there is no file
    }
files-check_head = How to check a file
files-check = Type one of these lines with the file's name in place of FILE. When the 64 signs it answers are those on this list, the two lines read as one, the file is unchanged.
files-check_windows = Windows: certutil -hashfile FILE SHA256
files-check_macos = macOS: shasum -a 256 FILE
files-check_linux = Linux: sha256sum FILE
