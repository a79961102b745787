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
page-front = the shop's name and address
page-hours = the opening hours
page-decks = the decks
page-people = the people
page-prices = your own prices
page-papers = papers and labels
page-backup = the backups
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
front-country = Country
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
# --- decks
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
prices-row-rush = rush
prices-row-deposit = deposit
prices-row-ceiling = the most over our highest estimate without asking
prices-row-tax = tax
prices-row-quote_valid_days = how long a quote holds
prices-row-quantity_break = off each tape after so many
prices-heads = a first row with { $heads }, in any order, is accepted
prices-cells = at most { $count } cells in a row are accepted
prices-csv = a CSV file with commas (RFC 4180) is accepted
prices-once = a code is needed, once for each part
prices-stays-empty = this cell stays empty
prices-cell-place = { $file }, row { $row }, { $column }
prices-row-place = { $file }, row { $row }
title-backup = Backups
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
backup-keep-means = Older ones are removed. The last good one always stays.
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
backup-now = Back up now ({ $keys })
backup-try = Try out the newest ({ $keys })
backup-at-it = Working on it…
backup-save = Save ({ $keys })
backup-undo = Undo the last change of settings ({ $keys })
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
