"""The programs that the power is cut under. Each says a line when something is done for good.

``head SEQ DIGEST``: a step was stored, up to this line of history. ``paper NAME SHA-256``: a paper was
written. ``backup NAME``, ``kept NAME``: a copy was made. ``restored``: a backup took the place of the shop.
"""

from __future__ import annotations

CHECKPOINT_PAGES = 200
"""Pages of the log after which it is copied into the file; fewer than usual, so that a short run is cut in
that copying too."""

_BEGIN = """
import hashlib, os, sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from sqlalchemy import select
from core.services import backup, jobs, paper_files
from core.services.records_door import Shop
from core.store.shop_files import durable_files
from core.store.shop_tables import EventRow

root, without, *rest = Path(sys.argv[1]), *sys.argv[2:]
NOW = datetime(2026, 3, 3, 14, 0, tzinfo=UTC)
if without in ("flush", "flush_folder"):  # the guard is out
    setattr(durable_files, without, lambda path: None)

def say(*words):
    os.write(1, (" ".join(map(str, words)) + "\\n").encode())

def name(path):
    return Path(path).relative_to(root)

def head(unit):
    lines = select(EventRow.seq, EventRow.digest).order_by(EventRow.seq.desc())
    return unit.session.execute(lines.limit(1)).one()

def tell_head(shop):
    say("head", *shop.ask(head))

stored = Shop.run
def run(shop, step, /, *arguments, **named):
    result = stored(shop, step, *arguments, **named)
    tell_head(shop)
    return result
Shop.run = run

stored_once = Shop.once
def once(shop, command, step, /, *arguments, **named):
    result = stored_once(shop, command, step, *arguments, **named)
    tell_head(shop)
    return result
Shop.once = once

def hurry(shop, pages):
    connection = shop.database.writing.raw_connection()  # the pool holds this one only
    connection.execute(f"PRAGMA wal_autocheckpoint={pages}")
    if without in ("NORMAL", "OFF"):
        connection.execute(f"PRAGMA synchronous={without}")
    connection.close()
"""

BOOKINGS = (
    _BEGIN
    + f"""
from tests.support.booked import Clock, quoted
with Shop.open(root / "shop.sqlite", clock=Clock(), who="till", create=False) as shop:
    hurry(shop, {CHECKPOINT_PAGES})
    quote = quoted(shop)
    for _ in range(int(rest[0])):
        shop.run(jobs.book, quote)
"""
)
"""A till books equal boxes."""

DAY = (
    _BEGIN
    + f"""
from core.services import invented_shop
opened = Shop.open
def open_and_hurry(*arguments, **named):
    shop = opened(*arguments, **named)
    hurry(shop, {CHECKPOINT_PAGES})
    return shop
Shop.open = open_and_hurry
written = paper_files.write
def write(folder, stem, data):
    path = written(folder, stem, data)
    say("paper", name(path), hashlib.sha256(data).hexdigest())
    return path
paper_files.write = write
invented_shop._Play._record = lambda *_: None  # a recording is no record of the shop
invented_shop.make(root / "day", datetime(2026, 3, 12, 22, 0, tzinfo=UTC))
"""
)
"""A whole day of an invented shop, from its first start: every kind of step, with its papers."""

FIRST_START = (
    _BEGIN
    + """
folder = paper_files.prepare(root / "papers" / "march")
for n in range(3):
    data = bytes([65 + n]) * 3000 + b"%%EOF"
    say("paper", name(paper_files.write(folder, f"slip-{n}", data)), hashlib.sha256(data).hexdigest())
with Shop.open(root / "new" / "folder" / "shop.sqlite", who="owner") as shop:
    from core.services.own_shop import shop_document
    shop.run(shop_document.set_texts, [("front.name", "The Reel")])
"""
)
"""Papers in a new folder, then a shop in another."""

MIGRATION = (
    _BEGIN
    + """
from core.services import decks
with Shop.open(root / "shop.sqlite", clock=lambda: NOW, who="till", create=False) as shop:
    tell_head(shop)
    for copy in root.glob("shop-before-*.sqlite"):
        say("kept", name(copy))
    deck = shop.ask(decks.settings).decks[0].name
    shop.run(decks.broke_down, deck)
    shop.run(decks.back_in_service, deck)
"""
)

BACKUPS = (
    _BEGIN
    + """
from core.services import decks
from core.services.own_shop import backup_places, shop_document
from core.store.shop_files import dump_files
with Shop.open(root / "shop.sqlite", clock=lambda: NOW, who="till", create=False) as shop:
    (root / "stick").mkdir()
    durable_files.flush_folder(root)
    kept = {"first": root / "stick", "keep": 2, "keep_days": 0, "keep_weeks": 0, "keep_years": 0}
    shop.run(shop_document.set_texts, [(f"backup.{key}", str(value)) for key, value in kept.items()])
    deck = shop.ask(decks.settings).decks[0].name
    for n in range(4):
        say("backup", name(shop.backup(root / "by" / "hand")))
        shop.run(decks.broke_down if n % 2 == 0 else decks.back_in_service, deck)
        NOW += timedelta(hours=30)
        (copy,) = backup_places.keep_up(shop, at_once=True).files
        say("newest", name(copy))
    with shop.database.reading.connect() as connection:
        say("backup", name(dump_files.write(connection, root / "stick" / "dump.jsonl", NOW)))
"""
)

RESTORES = (
    _BEGIN
    + """
from core.services.restoring import restored_shop
for n, file in enumerate(sorted((root / "stick").iterdir())):
    done = restored_shop.restore(root / "shop.sqlite", file, now=NOW, who="owner")
    say("restored", n, name(done.kept))
    with Shop.open(root / "shop.sqlite", clock=lambda: NOW, who="till", create=False) as shop:
        tell_head(shop)
"""
)
"""Each backup of the folder ``stick`` put back, one after the other."""

MOVES = (
    _BEGIN
    + """
from core.services.shop_places import shop_move
with Shop.open(root / "old" / "shop.sqlite", clock=lambda: NOW, who="owner", create=False) as shop:
    shop_move.move(shop, str(root / "new" / "shop.sqlite"))
    say("moved")
"""
)

ERASURE = (
    _BEGIN
    + """
from core.services.privacy import erasures
Shop.run, Shop.once = stored, stored_once  # what is said here is said once all of it is done
with Shop.open(root / "shop.sqlite", clock=lambda: NOW, who="owner", create=False) as shop:
    gone = shop.once("erasure", erasures.erase_rows, "000018").answer
    erasures.clean_up(shop, gone, [root / "papers"])
    say("erased")
"""
)
