# What is said of the shop's settings and price books: on the screen, on the command line and in history.
the-settings = settings
deck = deck
nothing-to-undo = There is no change of the settings to take back.
no-practice-any-more = This shop has settings of its own, so it cannot become a practice shop.
practice-made = Practice shop made.
changed-meanwhile = { $who } changed the settings while you were at it ({ $what }). Look at them as they are now, then make your change again.
deck-is-playing = Deck { $deck } is playing tape { $code }. Take the tape off before you rename, retire, or remove the deck.
taken-back = Change { $number } taken back.
confirmed = Looked at and confirmed.
difference = { $place }: { $was } → { $now }
the-prices = prices
currency-of-shop = the shop's currency, { $currency }, is accepted
no-prices-to-undo = There is no price book to take back.
prices-taken-back = Price book { $number } taken back.
prices-from = { $name }, in force from { $day }: { $changes }
partner-name-of-its-own = every partner has a name of its own
page-front = the shop's name and address
page-hours = the opening hours
page-decks = the decks
page-people = the people
page-prices = your own prices
page-papers = papers and labels
page-backup = the backups
page-words = your own words
page-formats = what people bring
page-partners = the outside partners
page-findings = findings, repairs, and media of your own
not-set-up = No order can be taken in yet. Still to be filled in: { $pages }. You find them under Shop, or use “tapewright shop set” and “tapewright shop confirm”.
event-not-undone = The last change is not one of the settings ({ $what }). Take it back where it was entered: with the decks, the closed days or the outages.
no-such-page = { $names } are the pages
own-prices = The shop's own prices.
prices-of = Prices from { $day }
option-shop = the shop's settings and prices: show them, change them, write them to a file, read them from one
option-show = show the settings and the prices in force, or what stands at PATH
option-set = change settings or prices; new prices hold from today or from the day of --from
option-remove = take an entry out, such as a deck or opening hours
option-export = write all settings and price books to a file
option-import = put the settings and price books of an exported file in force
option-confirm = keep that somebody looked at these pages of the set-up
option-raise-prices = raise (or, below 0, lower) every price by a percentage
option-history = tell every change of settings and prices
option-undo = take the last change of the settings or prices back
option-missing = tell what is still to be filled in before the first order
option-path = a key with dots, such as front.name, deck.VHS 1.plays or prices.capture.vhs.price
option-pairs = one or more keys, each followed by its new value
option-out = where to write it; - is the screen
option-in = a file that export wrote; - is standard input
option-percent = like 4 or -2.5
option-round = round every price to a multiple of this amount, like 0.50
option-from = the day from which the new prices hold
pairs = changes
pairs-accepted = a key and a value for each change are accepted
history-line = { $at }, { $by }: { $words }
no-history = Nothing has been changed yet.
needed-line = Needed before the first order: { $page } ({ $name }).
later-line = Can wait: { $page } ({ $name }).
all-set-up = Everything is filled in.
nothing-changed = Nothing was changed.
decimal-accepted = found { $found }; a number with a point, like 4 or 0.50, is accepted
# --- titles of the pages
title-front = Who we are
title-hours = Hours and closed days
title-decks = Decks
title-people = People
title-prices = Prices
title-papers = Papers and labels
# --- front page
accent-usual = Oxide red
accent-brick = Brick
accent-plum = Plum
accent-indigo = Indigo
accent-navy = Navy
accent-teal = Teal
accent-forest = Forest green
accent-olive = Olive
accent-slate = Slate
# --- papers page
papers-label-least = at least { $least } mm is accepted, or the codes have no room
papers-label_columns-fit = labels that fit are accepted: together they need { $needed } mm, the sheet is { $room } mm wide
papers-label_rows-fit = labels that fit are accepted: together they need { $needed } mm, the sheet is { $room } mm high
# --- kinds of deck
kinds-kind = kind of deck
kinds-vhs = VHS
kinds-s-vhs = S-VHS, plays VHS as well
kinds-vhs-multi-system = VHS, every TV system
kinds-hi8 = 8 mm: Video8 and Hi8
kinds-digital8 = Digital8, plays Video8 and Hi8 as well
kinds-minidv = MiniDV
kinds-dv-every-size = MiniDV, DVCAM, and HDV
kinds-betamax = Betamax
kinds-u-matic = U-matic
kinds-betacam-sp = Betacam SP, plays Betacam as well
kinds-micromv = MicroMV
kinds-audio-cassette = Audio cassette
kinds-film-scanner = Film scanner, Super 8 and Regular 8
kinds-film-scanner-16mm = Film scanner, 16 mm
kinds-slide-scanner = Slide scanner
kinds-flatbed-scanner = Flatbed scanner for prints
kinds-disc-drive = Disc drive, CD and DVD
kinds-short-vhs = VHS
kinds-short-s-vhs = S-VHS
kinds-short-vhs-multi-system = VHS multi
kinds-short-hi8 = 8 mm
kinds-short-digital8 = Digital8
kinds-short-minidv = MiniDV
kinds-short-dv-every-size = DV
kinds-short-betamax = Betamax
kinds-short-u-matic = U-matic
kinds-short-betacam-sp = Betacam SP
kinds-short-micromv = MicroMV
kinds-short-audio-cassette = Audio
kinds-short-film-scanner = Film
kinds-short-film-scanner-16mm = Film 16 mm
kinds-short-slide-scanner = Slides
kinds-short-flatbed-scanner = Prints
kinds-short-disc-drive = Discs
# --- decks
findings-booked = Tapes were booked with “{ $words }”, so it cannot be removed. Retire it instead: it is not offered anymore, and what was booked stays readable.
formats-booked = Things were booked under “{ $format }”, so it cannot be removed. Retire it instead: it is not offered anymore, and what was booked stays readable.
decks-is-retired = Deck { $deck } is retired. Bring it back on the Decks page of Shop first.
# --- price book: its rows and its CSV file
option-prices-out = write the price book in force to a CSV file for a spreadsheet
option-prices-in = put the price book of a CSV file in force, from the day in it or that of --from
option-prices-in-file = a file that prices-out wrote, changed in a spreadsheet or not; - is standard input
prices-row-name = name of the price book
prices-row-remark = remark
prices-row-invented = invented example prices
prices-row-currency = currency
prices-row-valid_from = valid from
prices-row-minimum = smallest order
prices-row-rush = rush, of the work
prices-row-deposit = deposit, of the total
prices-row-ceiling = over the estimate
prices-row-inspection_fee = inspection fee
prices-row-storage_fee = storage fee
prices-row-flat = flat price, added for the risk
prices-row-rounding = round what is owed to
prices-row-cancel = calling an order off
prices-row-tax = tax
prices-row-further_tax = another tax
prices-row-quote_valid_days = days a quote holds
prices-row-quantity_break = off each tape
prices-heads = a first row with { $heads }, in any order, is accepted
prices-cells = at most { $count } cells in a row are accepted
prices-csv = a CSV file with commas (RFC 4180) is accepted
prices-once = a code is needed, once for each part
prices-stays-empty = this cell stays empty
prices-cell-place = { $file }, row { $row }, { $column }
prices-row-place = { $file }, row { $row }
# --- fields of the pages
choice-accepted = one of those offered is accepted, such as { $few }
# --- front page, its fields
front-lead = This stands at the head of every paper. The country fills in currency, time zone, language, paper and holidays, except where you typed something else.
front-name = Name of the shop
front-address = Address, line by line
front-phone = Phone
front-email = E-mail
front-email-hint = If customers may write to you
front-tax_number = Tax number
front-tax_number-hint = If it has to stand on your papers
front-country = Country
front-currency = Currency
front-currency-words = { $code } – { $name }
front-timezone = Time zone
front-language = Language, figures and dates
front-language-part = { $name } (texts stay English where not yet translated)
front-greeting = Greeting at the head of a paper
front-greeting-hint = Such as: We treat every tape as if it were our own.
front-closing = Closing sentence
front-closing-hint = Such as: Thank you for trusting us with your memories.
front-welcome = Greeting on the Customer side
front-welcome-hint = Such as: Good to see you. Have a seat while we count your tapes.
front-accent = Color of the shop
front-logo = Logo
front-logo-none = No picture yet. Papers show the name alone.
front-logo-choose = Choose a picture
front-logo-remove = Remove it
front-logo-files = Pictures (*.png *.jpg *.jpeg)
front-logo-accepted = a picture file in PNG or JPEG is accepted
front-logo-shown = The logo, { $wide } by { $high } pixels
# --- hours page
hours-closed = closed
hours-whole-country = The whole country
hours-region = { $name } ({ $code })
hours-lead = Type the hours of each day like { $whole }, or with a lunch break like { $parted }; leave a day empty when you are closed.
hours-accepted = hours like { $whole }, or { $parted } with a break, or “closed” are accepted
hours-country = Public holidays of
hours-holiday-region = Region
hours-holiday = { $day } ({ $name })
hours-coming = Closed next: { $days }.
hours-no-holidays = Open on public holidays.
hours-closed-days = Your own closed days, one on each line
hours-closed-days-hint = Such as: Dec 24
hours-past-closing = Minutes a tape may play on after closing
hours-confidence = How sure a promised day has to be
# --- papers page, its fields
papers-paper = Paper
papers-size-letter = Letter (8.5 × 11 in)
papers-size-a4 = A4 (210 × 297 mm)
papers-quote = Quote
papers-claim_slip = Claim slip
papers-labels = Labels
papers-when-yes = Show at once
papers-when-ask = When asked for
papers-when-no = Not at all
papers-when-lead = When an order is booked, each paper is made and shown at once, made and shown when you ask for it, or not made at all.
papers-claim_slip_on = Claim slip printed on
papers-slip-sheet = The paper above
papers-slip-roll = Roll paper (slip printer)
papers-roll_width_mm = Width of the roll, mm
papers-stock = Labels in use
papers-stock-usual = The common sheet of this paper
papers-stock-sheet = A sheet of my own measures
papers-stock-single = One label after the other (label printer with a roll)
papers-label_columns = Labels across
papers-label_rows = Labels down
papers-label_width_mm = Label width, mm
papers-label_height_mm = Label height, mm
papers-label_left_mm = Left margin, mm
papers-label_top_mm = Top margin, mm
papers-label_gap_across_mm = Gap across, mm
papers-label_gap_down_mm = Gap down, mm
papers-label_start = First label left on the sheet
papers-length-accepted = a length in millimeters is accepted
papers-test = Test print
papers-roll-test = Test print of the roll
papers-scanner_prefix = What your scanner types before each code (leave empty if nothing)
papers-scanner-means = A scanner is told from typing by its speed. If yours is slow, set it to begin each code with a sign like ~, and type that sign here.
papers-test-lead = The test print has a frame and a number on every label. Print it on plain paper and hold it against a sheet of labels.
# --- my shop
# Every page of the settings is saved, and its last change undone, by these two.
save = Save   F6
undo = Undo the last change of settings   F7
own-nothing = Nothing is changed.
own-will-change = From now on, if you save:
own-stays = What was quoted, promised and printed before stays as it was.
own-logo-changed = Another logo
own-logo-removed = No logo any more
own-history = Changes so far
own-saved = Saved.
own-undone = The last change is taken back.
# --- people
people-name = name
people-pin = PIN
people-pin-accepted = 4 to 12 digits are accepted
people-name-of-their-own = everyone needs a name of their own
people-one-owner = at least one person must be allowed to change the settings
people-may-not =
    { $n ->
        [one] { $who } may not { $what }. { $names } can; sign in as { $names }.
       *[other] { $who } may not { $what }. { $names } can; sign in as one of them.
    }
people-nobody-may = { $who } may not { $what }, and nobody else may either. Allow somebody on the People page of Shop.
people-to-settings = change the settings
people-to-prices = change prices
people-to-restore = restore a backup
people-to-refund = give money back
people-to-override = override what the program decides
people-to-reports = see reports
people-to-erase = export or erase a customer
people-wrong-pin = That is not the PIN of { $name }. Try again.
people-wait-seconds =
    { $n ->
        [one] Too many wrong PINs. Try again in 1 second.
       *[other] Too many wrong PINs. Try again in { $n } seconds.
    }
people-wait-minutes =
    { $n ->
        [one] Too many wrong PINs. Try again in 1 minute.
       *[other] Too many wrong PINs. Try again in { $n } minutes.
    }
people-new-pin = New PIN of { $name } (nothing for none):{" "}
people-type-pin = PIN of { $name }:{" "}
option-pin = give somebody a PIN, asked for or from TAPEWRIGHT_NEW_PIN; nothing takes it away
option-pin-asked = ask for the PIN of the person acting; without it the PIN is read from TAPEWRIGHT_PIN
option-dry-run = only tell what would change and which open promises would move
people-pin-needed = { $name } has a PIN. Type it with --pin, or put it into TAPEWRIGHT_PIN.
token-name-of-its-own = every token of a person needs a name of its own
system-user-of-one = a computer user can be one person only, and this one is { $name }
people-event-wrong = wrong PIN typed for { $name }
people-event-signed-in = { $name } signed in
people-secret-changed = { $place } changed
# --- what a change touches
effects-none-move = No open promise would move.
effects-some-move =
    { $n ->
        [one] 1 open promise would move
       *[other] { $n } open promises would move
    }{ $late ->
        [0] ; none past the day it was promised for.
        [one] ; 1 of them past the day it was promised for.
       *[other] ; { $late } of them past the day they were promised for.
    }
effects-moved = Order { $number } ({ $customer }): ready { $now } instead of { $was }. Promised for { $promised }.
effects-late = Order { $number } ({ $customer }): ready { $now } instead of { $was }. That is too late: promised for { $promised }.
effects-stranded =
    { $lack ->
        [people]
            { $n ->
                [one] Order { $number } ({ $customer }): nobody could do the work on 1 of its tapes. Promised for { $promised }.
               *[other] Order { $number } ({ $customer }): nobody could do the work on { $n } of its tapes. Promised for { $promised }.
            }
       *[deck]
            { $n ->
                [one] Order { $number } ({ $customer }): no deck would be left for 1 of its tapes. Promised for { $promised }.
               *[other] Order { $number } ({ $customer }): no deck would be left for { $n } of its tapes. Promised for { $promised }.
            }
    }
effects-no-day = on no day we can name
effects-more =
    { $n ->
        [one] And 1 more.
       *[other] And { $n } more.
    }
effects-drafts =
    { $n ->
        [one] 1 box on a counter is being quoted; its quote is worked out again.
       *[other] { $n } boxes on the counters are being quoted; their quotes are worked out again.
    }
effects-nothing-stored = Nothing was changed: this was a dry run.
effects-working = Working out what this would move…
prices-box-place = box
prices-box-accepted = tapes with commas between them are accepted, like “{ $example }”
# --- first run
first-welcome = Welcome to Tapewright
first-nothing-here = There is no shop here yet. Nothing is stored before you choose.
first-own = &Set up my shop
first-own-means = Your name, hours, decks, people, prices and papers, one page after another. Each can wait. You can quote right away, with example prices.
first-practice = &Practice in the invented shop
first-practice-means = A made-up shop with a day’s work in it, to try things out. Every screen and every paper says so, and nothing of it ever gets among real orders.
first-making-practice = Making the practice shop …
first-no-practice = The practice shop could not be made in { $folder }: { $why }. Make room there, then try again.
first-practice-strip = PRACTICE — an invented shop; nothing here is a real order.
first-practice-title = PRACTICE
first-pages = Setting up your shop
first-page-of = Page { $page } of { $pages }
first-reading = Reading what is there …
first-back = Back   { $keys }
first-later-key = Leave for later   { $keys }
first-next = Save and go on   { $keys }
first-state-needed = needed
first-state-later = can wait
first-state-done = done
first-needed = No order can be taken in before these pages are filled in. Quotes work, with example prices until yours are confirmed.
first-later = Orders can be taken in. What is still open can wait.
first-all-done = Everything is filled in. You can take in orders.
first-fill-in = Fill in: { $page }
first-way-out = Go to “{ $page }”   { $keys }
first-example-prices = Example prices, not the shop’s own yet
title-backup = Backups
title-formats = What people bring
title-findings = What can be wrong
title-words = Our own words
title-partners = Outside partners
# --- backups
backup-made-line = Backup made in { $folder }: { $file }
backup-sound-line = Backup in { $folder } checked and found good: { $file }
backup-unsound-line = Backup in { $folder } checked and found bad: { $file } ({ $why })
backup-thinned-line = { $n ->
        [one] One old backup removed from { $folder }
       *[other] { $n } old backups removed from { $folder }
    }
backup-folder-gone = The backup folder { $folder } can't be reached. Plug in the disk or connect to the network it is on, or choose another folder under Shop, Backups.
backup-folder-locked = Nothing can be written in the backup folder { $folder }. Choose another folder under Shop, Backups, or ask whoever set up this computer.
backup-not-made = No backup was made in { $folder }. { $why }
backup-none-here = There is no backup in { $folder } yet. Make one first.
backup-stays = The backup { $file } could not be removed. Remove it yourself.
backup-file-gone = The backup { $file } is no longer there. Make a new one.
backup-bad = The backup { $file } can't be relied on ({ $why }). Make a new one, and check the disk it is on.
backup-too-old = The last good backup is from { $when }. Make a new one under Shop, Backups.
backup-never = There is no good backup of this shop yet. Make one under Shop, Backups.
backup-advice = Keep two backups: one on another disk in the shop, and one outside it, such as on a disk you take home or a folder that is kept online. A backup on the same disk as the records is lost along with them.
backup-first = First folder
backup-second = Second folder
backup-first-hint = such as a folder on a disk that stays plugged in
backup-second-hint = such as a folder outside the shop
backup-choose = Choose…
backup-choose-first = Choose the first folder
backup-choose-second = Choose the second folder
backup-every_hours = Hours between backups
backup-every_hours-means = The program makes them by itself while it is open.
backup-told_after_hours = Hours until you are told
backup-told_after_hours-means = When the last good backup is older than this, you are told as soon as the program opens.
backup-keep = Backups kept in each folder
backup-keep-means = The newest ones. The last good one always stays.
backup-keep_days = Days kept
backup-keep_days-means = For this many days, the last backup of each day stays too.
backup-keep_weeks = Weeks kept
backup-keep_weeks-means = For this many weeks, the last backup of each week stays too.
backup-keep_years = Years kept
backup-keep_years-means = For this many years, the last backup of each year stays too.
backup-lock = Public key that backups are locked with
backup-lock-hint = nothing: backups are not locked
backup-new-key = Make a key…
backup-key-shown = { $key } is the new key. Its paper is on the screen: print it now, and keep it away from this computer and away from the backups. The key is shown only now and kept nowhere; the file of the paper is deleted when you save or leave this page. Without the key no locked backup can be read: a lost key is lost backups. Once this page is saved, backups are locked.
backup-key-label = The new key of the backups
backup-unlock = Key of the backups
backup-unlock-why = The newest backup is locked. Type or paste its key, which was printed when it was made (spaces don't count), or choose a file that holds it. It is used once and kept nowhere.
backup-unlock-file = From a file…
backup-unlock-file-title = The file with the key of the backups
backup-unlock-try = Unlock and try out
change-backup-lock = Key of the backups
backup-report = What the backup folders hold
backup-looking = Looking at the folders…
backup-no-place = No folder is set yet, so no backups are made. Choose one below.
backup-place = { $number ->
        [1] First folder
       *[other] Second folder
    }
backup-none-made = No good backup yet.
backup-last-made = Last good backup: { $when }.
backup-not-tried = Not tried out yet.
backup-tried-good = Last tried out: { $when }. { $file } can be restored.
backup-tried-bad = Last tried out: { $when }. { $file } can't be relied on.
backup-kept = { $n ->
        [one] 1 backup is kept here.
       *[other] { $n } backups are kept here.
    }
backup-now = Back up now   { $keys }
backup-try = Try out the newest   { $keys }
backup-at-it = Working on it…
backup-touches = Prices, promises and papers don't depend on these settings.
backup-saved = Saved.
backup-made-now = { $n ->
        [one] Backup made.
       *[other] { $n } backups made.
    }
backup-tried-now = { $n ->
        [one] The newest backup can be restored.
       *[other] The newest backup in each folder can be restored.
    }
# --- price book editor
prices-column-head = Part
prices-column-words = What
prices-column-way = How
prices-column-price = Price, { $currency }
prices-column-minimum = At least, { $currency }
prices-column-percent = Percent
prices-column-number = Details
prices-hint-words = the words on the slip
prices-hint-way = by the tape, by started period, by the hour
prices-hint-price = left empty for a format you don’t take in
prices-hint-minimum = the least for one tape; may stay empty
prices-hint-percent = what it is a percentage of stands in the row
prices-hint-number = minutes of a started period, tapes, days, or what a tax is charged on
prices-percent = { $n }%
prices-unit-minutes = { $n } min
prices-unit-tapes =
    { $n ->
        [one] after 1 tape
       *[other] after { $n } tapes
    }
prices-unit-days =
    { $n ->
        [one] 1 day
       *[other] { $n } days
    }
prices-unit-after-days =
    { $n ->
        [one] after 1 day
       *[other] after { $n } days
    }
prices-on-everything = everything
prices-on-copying = copying
prices-on-repair = repair
prices-on-goods = discs and sticks
prices-means-minimum = An order with any work costs at least this, before a tax on top. What is taxed differently from copying comes beside it.
prices-means-rush = Added to copying and repair, not to discs and sticks.
prices-means-deposit = Asked for when the tapes come in; a share of the likely total.
prices-means-cancel = For a whole order that is called off, and the share of what the work called off would have cost before tax. Local law on cancellations comes first.
prices-means-ceiling = You won’t go over the highest figure of the quote plus this much without asking.
prices-means-inspection_fee = For a tape looked over and given back uncopied, where “Outcomes” says so. Not where none of your decks plays it, nor for a commercial recording known at the counter.
prices-means-storage_fee = For an order nobody picks up within these days of hearing it’s ready; local law on unclaimed goods comes first.
prices-means-flat = One sum for the whole order, however long the tapes play: what such orders cost on average, plus this much. Not offered means customers pay by what plays.
prices-storage-example = Picked up after { $days } days: { $money }.
prices-means-rounding = The total with tax stays; what is owed is rounded to this amount, and the difference is shown. 0 means no rounding.
prices-means-tax = On top of the prices, or already in them. Copying includes rush, the smallest order and the inspection fee.
prices-means-quote_valid_days = A quote can be booked for this many days.
prices-means-further_tax = A tax beside the first, on the same prices before tax, never a tax on a tax. Empty words and percent to remove it.
prices-means-quantity_break = Taken off the copying price of each tape after this many, the most expensive tapes first.
prices-part-capture = Copying
prices-part-repair = Repairs
prices-part-media = Copies on
prices-part-dispositions = Outcomes
prices-means-dispositions = What you charge for a tape that ended this way. Nobody pays play time for a tape that was not copied, or anything for one lost or damaged here.
prices-rule-full = play time
prices-rule-full-repairs = play time and repairs
prices-rule-full-inspection = play time and inspection fee
prices-rule-full-repairs-inspection = play time, repairs and inspection fee
prices-rule-played = minutes copied
prices-rule-played-repairs = minutes copied and repairs
prices-rule-played-inspection = minutes copied and inspection fee
prices-rule-played-repairs-inspection = minutes copied, repairs and inspection fee
prices-rule-none = nothing
prices-rule-none-repairs = repairs that were done
prices-rule-none-inspection = inspection fee
prices-rule-none-repairs-inspection = repairs that were done and inspection fee
prices-part-terms = Terms
prices-way-per-tape = by the tape
prices-way-per-unit = by the foot, picture or minute
prices-way-per-period = by started period
prices-way-per-hour = by the hour
prices-way-on-top = on top of the prices
prices-way-inside = inside the prices
prices-way-none = no tax
prices-way-rounding-nearest = the nearest
prices-way-rounding-down = the next below
prices-way-inspection_fee-per-tape = for each tape
prices-way-inspection_fee-per-box = once for the order
prices-way-flat-true = offered
prices-way-flat-false = not offered
prices-way-storage_fee-day = for each day
prices-way-storage_fee-week = for each week begun
prices-accepted-words = one line of words is accepted
prices-accepted-way = one of the ways offered is accepted
prices-accepted-price = an amount like { $example } is accepted
prices-accepted-percent = a percentage from 0 to 100 is accepted (rush and the most over: to 1000)
prices-accepted-number = a whole number is accepted: minutes to 600, days to 365 (of storage: to 3650), tapes to 10000
prices-accepted-on = one of the kinds of charges offered, or everything, is accepted
prices-rising = each step is accepted after more tapes, and at no smaller percent, than the one before
prices-cell = { $what }, { $column }
prices-table = Price table
prices-lead = What you charge. Type over any figure; Return or Tab goes on, Delete empties a cell.
prices-invented = These are example prices, invented for trying things out. Make them yours before you take in an order.
prices-mine = These are &my own prices
prices-from-day = Prices hold &from
prices-from-place = day the prices hold from
prices-raise-percent = &Change all by percent
prices-raise-round = Round to
prices-raise = Change all prices
prices-again = Start over
prices-tax-remark = Remark about tax, on papers
prices-tax-remark-place = remark about tax
prices-accepted-raise = a percentage above -100 and up to 1000 is accepted
prices-take-back = Take the newest back
prices-csv-out = Write a CSV file…
prices-csv-in = Read a CSV file…
prices-csv-filter = CSV files (*.csv)
prices-saved = The prices hold from { $day }. Orders already quoted keep theirs.
prices-back = The newest prices were taken back.
prices-same = Nothing was changed.
prices-csv-written = Prices written to { $file }.
prices-csv-read = Prices read from { $file }. Look at them, then save.
prices-history = Earlier and later prices
prices-history-none = No prices of your own yet.
prices-preview = What changes
prices-preview-lead = Totals with tax, old → new. Orders already quoted keep their prices.
prices-preview-box = Box { $n }
prices-preview-change = { $was } → { $now }
prices-preview-same = { $was }, as before
prices-preview-none = the new prices leave something out
prices-preview-orders = { $count ->
    [0] No orders yet.
    [one] The last order: { $was } → { $now }
   *[other] The last { $count } orders together: { $was } → { $now }
}
prices-preview-orders-same = { $count ->
    [0] No orders yet.
    [one] The last order: { $was }, as before
   *[other] The last { $count } orders together: { $was }, as before
}
prices-preview-list = The last orders at the new prices
prices-preview-wait = Some figures in the table can’t be read yet.
# --- hours page, seasons
hours-season = Hours of the season
hours-season-lead = In a part of each year, such as the summer, other hours may hold in place of those above.
hours-seasons = Parts of the year with other hours
hours-season-add = Add a part of the year with other hours
hours-season-remove = Remove this part of the year
hours-season-name = What you call it
hours-season-name-hint = Such as: Summer
hours-season-unnamed = Other hours
hours-season-first = First day of the season
hours-season-last = Last day of the season
hours-season-needed = hours on at least one weekday are needed; days the shop is closed belong to your own closed days
# --- the page of the decks
decks-lead = The decks tapes are played on. What each plays decides which tapes go on it, and when a tape is ready.
decks-kind = Kind of deck
decks-how-many = How many
decks-how-many-accepted = a whole number from 1 to { $most } is accepted
decks-add = Add
decks-kind-ground = What a kind usually plays is common practice, no source. Change anything below afterward.
decks-list = Your decks
decks-name = Name
decks-plays = Plays these recordings
decks-tv = TV systems (none checked: any)
decks-speeds = Speeds (none checked: any)
decks-in-service = In service
decks-retired = Retired: in no plan anymore; its name stays on what it played
decks-remove = Remove a deck entered by mistake
decks-planned = Out of service by plan { $spans }. Outages are planned under “Closed days and outages.”
decks-in-adapter = { $format }, in an adapter
decks-format = { $format }
decks-state-in = in service
decks-state-out = out of service
decks-state-retired = retired
pages-saved = Saved. From now on everything is planned with it.
pages-undone = The last change is taken back.
# --- the page of the people
people-lead = Enter the people who work here and everyone signs in by name, with a PIN if you give them one. Enter nobody, and whoever is here may do everything.
people-at-once = At the bench at one time
people-lock = Lock after minutes (0: never)
people-file-for-ready = A tape needs a copied file, signed off, before it is ready
# --- copying
copying-lead = Minutes a person is busy with one copy: writing, checking, labeling. They are in every date.
copying-stick = Stick
copying-disc = Disc
copying-drive = Drive
copying-download = Download
# --- handling
handling-lead = Minutes a person is busy with one tape. They are in every date until your own history shows other times; see Shop, “What tapes turn out to be.”
handling-ground = To begin with, the look-over is common practice without a source, loading, unloading and checking are from memory, and the further minutes are an assumption.
handling-look_over = Look over
handling-load = Load
handling-unload = Unload
handling-check = Check, up to two hours
handling-further_hour = Each further hour
handling-whole_check = Every copy is watched from start to end; the check takes as long as the tape plays
# --- calls
calls-check = Ask a caller before anything is said
calls-check-no = nothing: the answer is there at once
calls-check-digits = the last four digits of their phone number
calls-check-pass-phrase = their pass-phrase, or the last four digits
calls-reminders = Remind after days, rising
calls-means = When an order is ready and its owner was told, they are reminded after these days. After the last an order counts as unclaimed. What you may charge for keeping it, and when you may part with it, is for the law where you are to say.
people-new-name = Add somebody by name
people-add = Add
people-list = The people
people-field-name = Name
people-field-may = May do
people-field-does = Works at
people-field-pin = New PIN (4 to 12 digits)
people-has-pin = Has a PIN; type a new one to change it
people-without-pin = Has no PIN: signs in by name alone
people-no-pin = Take the PIN away
people-retired = Does not work here anymore; the name stays on what they did
people-remove = Remove somebody entered by mistake
people-may-settings = change settings
people-may-prices = change prices
people-may-restore = restore a backup
people-may-refund = give money back
people-may-override = override the program
people-may-reports = see reports
people-may-erase = export or erase a customer
people-may-lead = Whoever may change settings may change prices and restore a backup as well.
people-plans = Dates go by the hours of these people and by what they can do. Of those at the bench at one time, whoever is not on the list counts as here all day and able to do everything.
people-field-can = Can, at the bench
people-can-splice = splice and repair
people-can-load = load decks
people-can-check = check copies
people-own-hours = Has hours of their own
people-hours-lead = They count while we are open. Leave a day empty when the person is not here.
people-hours-needed = the hours of one day at least are needed, or no check at “Has hours of their own”
people-not-here = not here
people-does-counter = the counter
people-does-bench = the bench
people-state-pin = has a PIN
people-state-no-pin = no PIN
people-state-retired = no longer here
# --- own words
words-lead = You can say most sentences on your papers and screens your own way. Cautions and the customer's rights stay as they are, but you can add cautions of your own.
words-search = Find a sentence
words-search-hint = part of it, such as: bring this slip
words-found = Sentences found
words-is-own = your own words
words-none-yet = Nothing is said your own way yet. Type part of a sentence above to find it.
words-choose = No sentence like this can be changed.
words-built-in = As it is built in
words-blanks = Keep these blanks, in any order; they are filled in: { $blanks }
words-own = In your own words (empty: as built in)
words-cautions = Cautions of your own, one on each line
words-cautions-means = They are printed on the quote and the claim slip, after the built-in ones. Up to three, with at most 100 characters each.
words-touches = Papers printed before stay as they are. Papers say the new words at once, screens after the program is started again.
words-saved = Saved.
words-preview = See it on paper   { $keys }
words-no-order = There is no open order to show this on. Book one, or practice in the invented shop.
# --- what a change is called, in the words of the pages
change-any = any
change-front-address = Address
change-front-language = Language
change-front-paper = Paper
change-papers-label_stock = Labels in use
change-front-extra_cautions = Cautions of your own
change-copying-stick = Minutes for a stick
change-copying-disc = Minutes for a disc
change-copying-drive = Minutes for a drive
change-copying-download = Minutes for a download
change-handling-look_over = Minutes to look a tape over
change-handling-load = Minutes to load a tape
change-handling-unload = Minutes to unload a tape
change-handling-check = Minutes to check a copy of up to two hours
change-handling-further_hour = Minutes more to check each further hour
change-handling-whole_check = Every copy is watched from start to end
change-work-people = People at the bench at one time
change-work-scanner_prefix = What the scanner types before each code
change-work-proof_to_read = The command line shows nothing to somebody who is not proven
change-work-file_for_ready = A tape needs a copied file before it is ready
change-work-lock_minutes = Minutes until the screens lock
change-work-past_closing_minutes = Minutes a tape may play on after closing
change-work-confidence = How sure a promised day has to be
change-holidays-country = Public holidays of
change-holidays-region = Region of the public holidays
change-holidays-closed = Closed days of your own
change-expected-hours_between_failures = Hours of play between breakdowns
change-expected-hours_to_repair = Hours until a deck is repaired
change-expected-rush_boxes_a_week = Rush orders a week
change-expected-tapes_in_a_rush_box = Tapes in a rush order
change-expected-unplanned_closures = Share of days closed without notice
change-papers-quote = Quote, when an order is booked
change-papers-claim_slip = Claim slip, when an order is booked
change-papers-labels = Labels, when an order is booked
change-backup-first = First backup folder
change-backup-second = Second backup folder
change-words = Own sentence
change-season = Other hours { $season }: { $hours }
change-season-removed = No other hours { $season } anymore
change-day-hours = { $day } { $hours }
season-named = { $name }, { $days }
change-deck-plays = Deck { $name }, plays
change-deck-tv = Deck { $name }, TV systems
change-deck-speeds = Deck { $name }, speeds
change-deck-in_service = Deck { $name }, in service
change-deck-retired = Deck { $name }, retired
change-deck-added = New deck { $name }: { $what }
change-deck-removed = Deck { $name } is removed
change-deck-renamed = Deck { $was } is called { $now } from now on
change-person-may = Allowed for { $name }
change-person-can = Bench work of { $name }
change-person-does = { $name } works at
change-person-pin = PIN of { $name }
change-person-system_users = Computer users of { $name }
change-person-tokens = Tokens of { $name }
change-token-issued = Token “{ $token }” issued to { $name }, good through { $day }
change-token-revoked = Token “{ $token }” of { $name } revoked
change-token-changed = Token “{ $token }” of { $name } replaced, good through { $day }
change-person-hours = { $name } has other hours from now on
change-person-retired = { $name }, no longer here
change-person-added =
    { $n ->
        [0] New: { $name }
       *[other] New: { $name }, may { $what }
    }
change-person-removed = { $name } is removed
change-partner-formats = Partner { $name }, copies
change-partner-price = Partner { $name }, price
change-partner-days = Partner { $name }, days
change-format-added = New under “What people bring”: { $name }, like { $what }
change-format-removed = { $name } is no longer among what people bring
change-format-words = { $name }, what you call it
change-format-like = { $name }, most like
change-format-counted_in = { $name }, counted in
change-format-retired = { $name }, retired
change-format-key = { $name }, { $key }
change-partner-added = New partner { $name }: { $what }
change-partner-removed = Partner { $name } is removed
change-outage-added = Deck { $deck } is out of service { $span }
change-outage-removed = Deck { $deck } is not out of service { $span } after all
change-copying = Copying { $format }
change-priced-repair = Repair { $code }
change-priced-media = Copies on { $code }
change-price-part = { $place }, { $part }
change-disposition = Charged for a tape: { $what }
change-price-play = play time
change-price-repairs = repairs that were done
change-price-inspection = inspection fee
change-price-price = price
change-price-way = how it’s charged
change-price-minutes = minutes of a period
change-price-words = words on the slip
change-price-percent = percent
change-price-mode = on top or inside
change-price-remark = remark on papers
change-partner-name = Partner { $name }, name
# --- outside partners
partners-lead = Somebody outside may copy what no deck of yours can play. The quote, the slip and the papers then name them, with their price and their days; your own total leaves those tapes out. Where two copy the same format, the one further up is named.
partners-new-name = Add a partner by name
partners-add = Add
partners-list = Your partners
partners-name = Name, as it stands on the slip
partners-price = Their price, in words
partners-price-hint = such as: from $40 a tape, they bill you themselves
partners-days = Days they need
partners-formats = They copy these
partners-raise = Move up
partners-remove = Remove this partner
partners-nothing = nothing checked yet

# --- what people bring
formats-lead = Tapes, film, photos, slides, and discs the program knows are there already. Add here what else people bring to you: it is like the nearest one, with a name and a few figures of its own.
formats-like = Most like
formats-add = Add one like it
formats-list = Our own
formats-nearest = Like { $format }
formats-name = What you call it
formats-counted = Counted in
formats-unit = An amount is given in
formats-usual = Usual amounts, with commas
formats-usual-means = What is written on a reel or a box is its amount: “50 ft,” “80 slides,” “60 min.” Of what nobody wrote on, the usual amounts are expected.
formats-figure-feet = Frames to the foot
formats-figure-pieces = Seconds each on the machine
formats-figure-minutes = Tape speed, mm/s (empty: no tape)
formats-pace = Machine minutes a minute (empty: 1)
formats-machines = Which of your machines do it
formats-priced = It has a price in your book; change it under “Prices.”
formats-unpriced = No price yet: save, then enter one under “Prices.” Until then it is quoted as not taken in.
formats-retired = Retired: not offered anymore; what was booked stays readable
formats-remove = Remove one entered by mistake
formats-new = (no name yet)
formats-counted-tape = tapes
formats-counted-reel = reels of film
formats-counted-box = boxes of pictures
formats-counted-disc = discs
formats-unit-nearest = lengths and speeds of the nearest one
formats-unit-feet = feet of film
formats-unit-pieces = pieces
formats-unit-minutes = minutes
formats-state-in = taken in
formats-state-no-machine = no machine yet
formats-state-retired = retired

# --- findings, repairs and media of the shop's own
change-finding = Findings of your own
change-repair = Repairs of your own
change-medium = Sticks and discs of your own
change-finding-added = New finding “{ $name }”: { $what }
change-finding-removed = “{ $name }” is no longer among the findings
change-repair-added = New repair “{ $name }”: { $what }
change-repair-removed = “{ $name }” is no longer among the repairs
change-medium-added = New medium “{ $name }”: { $what }
change-medium-removed = “{ $name }” is no longer among the media
change-own-words = { $name }, what you call it
change-own-told = { $name }, told to the customer
change-own-outcome = { $name }, what it means
change-own-repairs = { $name }, dealt with by
change-own-caution = { $name }, caution at the bench
change-own-minutes = { $name }, minutes
change-own-gigabytes = { $name }, holds
change-own-retired = { $name }, retired
findings-lead = The program knows the usual findings, repairs, and media. Add here what else comes up in your shop. Its own cautions always stay.
findings-kind = What to add
findings-kind-finding = finding
findings-kind-repair = repair
findings-kind-medium = stick or disc
findings-add = Add it
findings-list = Our own
findings-words-finding = What you call it, like “smells of smoke”
findings-words-repair = What is done, like “air out the cassette”
findings-words-medium = What you call it, like “gift box stick”
findings-told = Told to the customer before they pay
findings-outcome = What it means
findings-outcome-plays = it plays
findings-outcome-repair = it plays after a repair
findings-outcome-partly = only part of it can be copied
findings-outcome-cannot = it cannot be played here
findings-repairs = Dealt with by
findings-caution = Caution at the bench, besides those of the program
findings-reuse = Only a splice makes a tape not for reuse, so that is nothing to choose here.
findings-minutes-low = Bench minutes, at least
findings-minutes-likely = Usually
findings-minutes-high = At most
findings-holds = Holds
findings-holds-in = Counted in
findings-in-gigabytes = gigabytes of files, as printed on it
findings-in-minutes = minutes of a recording
findings-sentence = “{ $sentence }”
findings-holds-gb = { $gb } GB
findings-holds-minutes = { $minutes } minutes
findings-bench-minutes = { $low } to { $high } minutes at the bench, usually { $likely }
findings-unpriced = No price yet: save, then enter one under “Prices.” Nothing that needs it can be quoted before.
findings-state-unpriced = no price yet
