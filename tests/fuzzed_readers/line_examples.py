"""One good command line, or some, of every subcommand; together they use every option it has.

A word in braces is an order or a tape of the throwaway shop. Names of files are those of `input_files`.
"""

from __future__ import annotations

SLOW = frozenset({"demo", "restore", "rehearse-restore", "move-shop", "backup", "completion", "capture"})
"""Subcommands that take a tenth of a second or more when they are carried out: they get a smaller share."""
REFUSED = frozenset({"demo", "move-shop"})
"""Subcommands that are not carried out in this process, for that takes seconds: the processes do it."""

AGREED = "--agreed-by Ada --how spoken"
EXAMPLES: dict[str, tuple[str, ...]] = {
    "playtime": (
        "playtime --format hi8 --marking P6-120 --recorded-as digital8 --speed sp --tv ntsc",
        "playtime --format vhs --fill 0.5 --fill-known read --fill-off 0.1",
    ),
    "cut": ("cut --format vhs --speed sp --tv ntsc --cm 12",),
    "pack": ("pack --format vhs --marking T-120 --radius-mm 32 --take-up-radius-mm 28 --speed sp --tv ntsc",),
    "quote": (
        "quote box.json",
        "quote box.json --paper papers --detail",
        "quote --line '5 vhs t120, 2 of them mouldy, hi8 snapped' --tv ntsc --name Ada --phone 3035550142 "
        "--email ada@example.org",
    ),
    "book": (
        f"book box.json --paper papers --deposit-minor 0 --deposit-by cash --detail {AGREED} --told --sure "
        "--command c-1",
        "book box.json --agreed-by Ada --how signature --signature pen.json",
        "book --line '2 vhs t120' --tv ntsc --name Ada --phone 3035550142 --email ada@example.org",
    ),
    "customers": ("customers Fenwick", "customers 5550142"),
    "correct": (
        "correct {order} --name Bea --phone '+1 303 555 0143' --email bea@example.org --command c-2",
    ),
    "refund": ("refund {paid} --minor 10 --because less --by cash --paper papers --command c-3",),
    "pay": ("pay {order} --minor 100 --kind part --note half --by card --command c-60",),
    "drawer": (
        "drawer --float 10000 --note morning --command c-61",
        "drawer --close 12000 --taken-out 2000 --note counted",
        "drawer",
    ),
    "invoice": ("invoice {order} --command c-62",),
    "invoices": ("invoices {order}",),
    "takings": ("takings", "takings --day 2026-03-02 --to 2026-03-03", "takings --month", "takings --year"),
    "journal": (
        "journal journal.csv --day 2026-03-02 --to 2026-03-03",
        "journal - --month",
        "journal - --year",
    ),
    "job-sheet": ("job-sheet {order} --paper papers",),
    "reminder": ("reminder {ready} --paper papers",),
    "not-saved": ("not-saved {order} --paper papers",),
    "refund-slip": ("refund-slip {refunded} --paper papers",),
    "receipt": ("receipt {gone} --paper papers --roll",),
    "claim-slip": ("claim-slip {order} --paper papers --roll --agreement",),
    "labels": (
        "labels {order} --paper papers --start 1 --marks --single",
        "labels {order} --paper papers --tape {booked}",
    ),
    "amend": (
        f"amend {{apart}} amended.json --ceiling-minor 100000 {AGREED} --because more --based-on 1 "
        "--command c-4",
        "amend {apart} amended.json --ceiling 100000 --agreed-by Ada --how signature --signature pen.json "
        "--reason more --paper papers",
    ),
    "agree": (
        f"agree {{asking}} --choice go-on {AGREED} --because fine --based-on 1 --command c-5",
        "agree {apart} --ceiling-minor 100000 --agreed-by Ada --how signature --signature pen.json "
        "--because x --paper papers",
        "agree {apart} --ceiling 100000 --agreed-by Ada --how spoken --reason x",
        f"agree {{asking}} --choice go-on --tape {{asking_tape}} {AGREED}",
    ),
    "cancel": (
        f"cancel {{apart}} {AGREED} --because 'no more' --based-on 1 --command c-6",
        f"cancel {{apart}} --tape {{apart_tape}} {AGREED} --reason less --paper papers",
        "cancel {apart} --agreed-by Ada --how signature --signature pen.json --because x",
    ),
    "agreement": ("agreement {order} --paper papers",),
    "found": ("found {playing} --speed sp --as vhs --tv pal --command c-7",),
    "to-call": ("to-call",),
    "status": ("status Fenwick", "status {booked}", "status 5550142"),
    "move": (
        "move {booked} looked-over --finding mould --note seen --tell --command c-8",
        "move {checked} ready --minutes 60 --found-speed sp --found-as vhs --found-tv ntsc",
        "move {looked} at-the-bench --sure",
        "move {snapped} looked-over --without-splice 'left as it is'",
        "move {cleared} playing --deck 'VHS 1'",
    ),
    "settle": (
        "settle {booked} nothing-on-it --note blank --tell --command c-9",
        "settle {booked} lost --note gone --when 2026-03-02T09:00:00-05:00",
    ),
    "unsettle": ("unsettle {lost} --because found --command c-10",),
    "incident": (
        "incident {lost} --add 'not there' --when 2026-03-03T09:00:00-05:00 --command c-11",
        "incident {lost} --told 'by phone' --photo photo.png",
        "incident {lost} --settled paid --paper papers",
        "incident {lost}",
    ),
    "incidents": ("incidents",),
    "splice": (
        "splice {snapped} --at-minutes 3 --cut-cm 2 --joined-with tape --in programme --redone no "
        "--command c-12",
        "splice {snapped} --at-metres 3 --cut-cm 2 --joined-with leader --sure",
    ),
    "undo-splice": ("undo-splice {spliced} --because twice --nth 1 --command c-13",),
    "label-off": ("label-off {astray} --command c-14",),
    "repair": (
        "repair {bench} re-anchor --failed --note x --command c-15",
        "repair {bench} shell-swap --part shell",
        "repair {bench} shell-swap --part shell --from-elsewhere drawer",
    ),
    "undo-repair": ("undo-repair {repaired} --because typo --command c-16",),
    "looked": ("looked {repaired} ok --note fine --command c-17",),
    "donors": (
        "donors --add vhs shell 2 --came-from attic --command c-18",
        "donors --correct vhs shell 1 --because counted",
        "donors",
    ),
    "mark": ("mark {spliced} --command c-19",),
    "clear": ("clear {snapped} snapped --note 'it is whole' --command c-20",),
    "history": ("history {booked}",),
    "pickup": (
        "pickup {ready} --signed-by 'Ada Fenwick' --signature pen.json --paper papers --paid-minor 5 "
        "--paid-by cash --command c-21",
        "pickup {ready} --tape {ready_tape} --copy {ready_copy} --partly --signed-by Ada --shown passport",
    ),
    "promises": ("promises",),
    "load-now": ("load-now",),
    "habits": ("habits",),
    "capture": ("capture clip.avi", "capture clip.avi --tape {checked} --sure --command c-22"),
    "undo-capture": ("undo-capture {recorded} --because wrong --command c-23",),
    "files": ("files {order} --paper papers",),
    "file-check": ("file-check {unsigned}",),
    "sign-off": (
        "sign-off {unsigned} --by Kim --command c-24",
        "sign-off {unsigned} --by Kim --accept size=fine",
    ),
    "undo-sign-off": ("undo-sign-off {signed} --because hums --command c-25",),
    "to-tell": ("to-tell --all", "to-tell"),
    "told": ("told {ready} --how phone --result reached --note x --command c-26",),
    "wish": (
        "wish {ready} --told-by phone --collector 'Cy Fenwick' --said-by Ada --command c-27",
        "wish {ready} --pass-phrase",
    ),
    "called": ("called {ready} --caller Ada --said 'nearly ready' --command c-28",),
    "copies": ("copies", "copies {make}"),
    "copy-made": (
        "copy-made {make} {make_item} --files photo.png --command c-29",
        "copy-made {make} {make_item} --tape {make_tape}",
    ),
    "copy-checked": (
        "copy-checked {check} {check_item} --command c-30",
        "copy-checked {check} {check_item} --files photo.png",
    ),
    "undo-copy": ("undo-copy {strike} {strike_item} --because wrong --command c-31",),
    "own-drive": ("own-drive {drive} {drive_item} --gb 64 --file-system exfat --command c-32",),
    "copy-choice": (
        f"copy-choice {{large}} {{large_item}} --choice larger {AGREED} --because x --based-on 2 "
        "--command c-33",
        "copy-choice {large} {large_item} --choice more --agreed-by Ada --how signature --signature pen.json",
    ),
    "download": ("download {give} --link https://files.example.org/1 --until 2026-03-20 --command c-34",),
    "download-deleted": ("download-deleted {deleted} --command c-35",),
    "downloads": ("downloads --due", "downloads"),
    "promise-again": (
        "promise-again {order} --reason 'a deck broke' --agreed-with Ada --day 2026-06-01 --command c-36",
    ),
    "kept": ("kept",),
    "deck": ("deck 'VHS 1' out --because belt --command c-37", "deck 'VHS 2' back"),
    "shut": ("shut 2026-03-04 --because snow --command c-38",),
    "close": ("close 2026-08-03 2026-08-07 --because holiday --command c-39",),
    "reopen": ("reopen {closed} --because 'open after all' --command c-40",),
    "outage": (
        "outage 'VHS 1' 2026-06-08 2026-06-09 --because belts --command c-41",
        "outage 'VHS 1' {out_first} {out_last} --take-back",
    ),
    "expect": (
        "expect --hours-between-failures 300 --hours-to-repair 20 --rush-boxes-a-week 1 "
        "--tapes-in-a-rush-box 5 --unplanned-closures 0.01 --command c-42",
    ),
    "queue": ("queue", "queue --take-back --command c-43", "queue --keep --command c-44"),
    "backup": ("backup copies", "backup copies --check --key key.txt", "backup copies --check"),
    "restore": (
        "restore copy.sqlite --last-number 000018 --replace --another-shop",
        "restore copy.age --key key.txt",
    ),
    "rehearse-restore": ("rehearse-restore copy.dump", "rehearse-restore copy.age --key key.txt"),
    "backup-key": ("backup-key --paper papers --command c-45",),
    "move-shop": ("move-shop shop.sqlite other.sqlite",),
    "verify": ("verify", "verify --head 0000000000000000", "verify --backups"),
    "data-kept": ("data-kept --paper papers",),
    "export-customer": ("export-customer {order} customer.zip --command c-55", "export-customer {order} -"),
    "erase": ("erase {gone} --paper papers --command c-46", "erase {gone} --renew-backups"),
    "renew-backups": ("renew-backups --command c-59",),
    "demo": ("demo --dir made --no-window",),
    "completion": ("completion bash",),
    "desktop-entry": ("desktop-entry --dir entries",),
    "shop show": ("shop show", "shop show front.name", "shop show prices"),
    "shop set": (
        "shop set front.name 'The Reel' front.phone '303 555 0142' --command c-47",
        "shop set prices.deposit.percent 20 --from 2026-04-01",
        "shop set work.people 2 --dry-run",
        "shop set 'deck.VHS 9' '{plays = [\"vhs\"], tv = [\"ntsc\"], speeds = []}'",
    ),
    "shop remove": ("shop remove 'deck.S-VHS' --command c-48", "shop remove 'deck.S-VHS' --dry-run"),
    "shop export": ("shop export out.toml", "shop export"),
    "shop import": ("shop import shop.toml --command c-49", "shop import shop.toml --dry-run"),
    "shop confirm": ("shop confirm hours decks --command c-50",),
    "shop raise-prices": ("shop raise-prices 3 --round 0.25 --from 2026-04-01 --command c-51",),
    "shop prices-out": ("shop prices-out out.csv", "shop prices-out"),
    "shop prices-in": ("shop prices-in prices.csv --from 2026-04-01 --command c-52",),
    "shop history": ("shop history",),
    "shop undo": ("shop undo settings --command c-53", "shop undo"),
    "shop missing": ("shop missing",),
    "shop pin": ("shop pin Kim --command c-54",),
    "shop who": ("shop who",),
    "shop token": (
        "shop token Kim till --until 2026-06-01 --out token.txt --paper papers --command c-56",
        "shop token Kim till",
    ),
    "shop revoke": ("shop revoke Kim till --command c-57",),
    "shop system-user": (
        "shop system-user Kim --command c-58",
        "shop system-user Kim ada/1000@till-1 --take-away",
    ),
}
"""By subcommand, an action of ``shop`` as two words."""
