"""What is set up before the power is cut under a program, and what must hold when the light is back."""

from __future__ import annotations

import hashlib
import random
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from sqlalchemy import select

from core.model.errors import NoShopYet, TapewrightError
from core.services import backup, invented_shop, jobs
from core.services.records_door import Shop
from core.store.shop_tables import EventRow
from core.store.unit import Unit
from tests.power_cuts import cut_programs
from tests.power_cuts.cut_disk import Model
from tests.power_cuts.system_calls import Cut, Trace, traced
from tests.support.booked import Clock, Desk, line, quoted
from tests.support.older import as_kept_before

SHOP = "shop.sqlite"
NOW = datetime(2026, 3, 20, 14, 0, tzinfo=UTC)
BOXES = 20
OLD_TABLES = "0001"


@dataclass(frozen=True, slots=True)
class Scenario:
    """A program, what lies in its folder at first, and what is wrong with a folder after a cut."""

    name: str
    program: str
    prepare: Callable[[Path, Path], None]
    """Given an empty shop file and the folder."""
    problems: Callable[[Path, Cut], Iterator[str]]
    arguments: tuple[str, ...] = ()

    def trace(self, empty: Path, root: Path, without: str = "nothing") -> Trace:
        """What the program does in the folder ``root``, with a guard left out if one is named."""
        program, *arguments = self.ready(empty, root, without)
        return traced(program, root, *arguments)

    def ready(self, empty: Path, root: Path, without: str = "nothing") -> tuple[str, ...]:
        """Its folder as it lies there at first, and the program with its arguments for `traced_in_turn`."""
        root.mkdir(parents=True)
        self.prepare(empty, root)
        return self.program, without, *self.arguments

    def broken(self, trace: Trace, count: int, seed: int, model: Model, scratch: Path) -> list[str]:
        """Which of ``count`` cuts lost something, each with what is wrong."""
        found = []
        for cut in trace.cuts(count, random.Random(seed), model):
            shutil.rmtree(scratch, ignore_errors=True)
            scratch.mkdir(parents=True)
            cut.remains.lay_out(scratch)
            if wrong := next(self.problems(scratch, cut), None):
                found.append(f"{self.name}, {cut.where}: {wrong}")
        return found


# --- what must hold ----------------------------------------------------------------------


def _said(cut: Cut, word: str) -> list[list[str]]:
    return [words[1:] for each in cut.said if (words := each.split(" "))[0] == word]


def _digests(unit: Unit) -> dict[int, str]:
    return {row.seq: row.digest for row in unit.session.execute(select(EventRow.seq, EventRow.digest))}


def _lost_steps(path: Path, cut: Cut) -> Iterator[str]:
    """The shop opens, is sound, and holds every step that was said to be stored."""
    heads = _said(cut, "head")
    try:
        shop = Shop.open(path, clock=lambda: NOW, create=False)
    except NoShopYet:
        if heads:
            yield "there is no shop"
        return
    except TapewrightError as failure:
        yield f"the shop does not open: {failure.sentence}"
        return
    with shop:
        yield from shop.verify()
        there = shop.ask(_digests)
        for seq, digest in heads[-1:]:
            if there.get(int(seq)) != digest:
                yield f"line {seq} of the history was acknowledged and is gone"


def _lost_papers(root: Path, cut: Cut) -> Iterator[str]:
    for paper, digest in _said(cut, "paper"):
        file = root / paper
        if not file.exists() or hashlib.sha256(file.read_bytes()).hexdigest() != digest:
            yield f"{paper} was written and is not there"
    for file in root.rglob("*.pdf"):
        if not file.name.startswith(".") and not file.read_bytes().rstrip().endswith(b"%%EOF"):
            yield f"{file.name} is half written"


def _lost_copies(root: Path, cut: Cut) -> Iterator[str]:
    """What was said to be copied is there, and every file that looks like a backup is one."""
    must = [name for word in ("backup", "kept") for (name,) in _said(cut, word)]
    must += [name for (name,) in _said(cut, "newest")[-1:]]
    for name in must:
        if not (root / name).exists():
            yield f"{name} was made and is not there"
    for folder in ("stick", "by/hand"):
        for file in (root / folder).glob("[!.]*"):
            try:
                backup.check(file, NOW)
            except TapewrightError as failure:
                yield f"{file.name} is no backup: {failure.sentence}"


def _of_shop(root: Path, cut: Cut) -> Iterator[str]:
    yield from _lost_steps(root / SHOP, cut)


def _of_day(root: Path, cut: Cut) -> Iterator[str]:
    yield from _lost_steps(root / "day" / invented_shop.FILE, cut)
    yield from _lost_papers(root, cut)


def _of_first_start(root: Path, cut: Cut) -> Iterator[str]:
    path = root / "new" / "folder" / SHOP
    yield from _lost_papers(root, cut)
    yield from _lost_steps(path, cut)
    try:
        Shop.open(path).close()
    except TapewrightError as failure:
        yield f"no shop can be started: {failure.sentence}"


def _of_migration(root: Path, cut: Cut) -> Iterator[str]:
    yield from _lost_copies(root, cut)
    yield from _lost_steps(root / SHOP, cut)


def _of_backups(root: Path, cut: Cut) -> Iterator[str]:
    yield from _lost_copies(root, cut)
    yield from _lost_steps(root / SHOP, cut)


def _of_restores(root: Path, cut: Cut) -> Iterator[str]:
    """The old shop or the new one, whole; what was replaced is kept; no number is given twice."""
    if not (root / SHOP).exists():
        yield "no shop is there"
    try:
        shop = Shop.open(root / SHOP, clock=lambda: NOW, create=False)
    except TapewrightError as failure:
        yield f"the shop does not open: {failure.sentence}"
        return
    with shop:
        yield from shop.verify()
        done = _said(cut, "restored")
        count = len(shop.ask(jobs.open_jobs))
        if count not in RESTORED_JOBS[len(done) : len(done) + 2]:
            yield f"after {len(done)} restores there are {count} orders"
        number = shop.run(jobs.book, quoted(shop)).number
        if int(number[:-1]) <= RESTORED_JOBS[0]:
            yield f"the number {number} was given out before"
    for _, kept in done:
        if not (root / kept).exists():
            yield f"{kept} was kept and is not there"
    if list(root.glob(".restoring-*")) or list(root.glob("*.restoring")):
        yield "something of the restore is left over"


# --- what lies there at first ------------------------------------------------------------


RESTORED_JOBS = (5, 1, 3)
"""Orders in the shop at first, and after each restore."""


def _empty_shop(empty: Path, root: Path) -> None:
    shutil.copy(empty, root / SHOP)


def _nothing(empty: Path, root: Path) -> None:
    """Not even a folder."""


def booked(empty: Path, root: Path, boxes: int) -> Desk:
    """An open shop in a folder, with so many orders."""
    clock = Clock()
    shop = Shop.open(shutil.copy(empty, root / SHOP), clock=clock, who="Kim")
    desk = Desk(shop, clock, str(root / SHOP), "sqlite")
    for _ in range(boxes):
        desk.book(line())
    return desk


def _older_shop(empty: Path, root: Path) -> None:
    elsewhere = root.with_name(f"{root.name}-today")
    elsewhere.mkdir()
    desk = booked(empty, elsewhere, 3)
    as_kept_before(desk, str(root / SHOP), OLD_TABLES)
    desk.shop.close()


def _with_backups(empty: Path, root: Path) -> None:
    """A shop with five orders and two backups, of one order and, as a dump, of three."""
    from core.store.shop_files import dump_files

    desk = booked(empty, root, 1)
    desk.shop.backup(root / "stick").rename(root / "stick" / "1.sqlite")
    desk.clock.now += timedelta(hours=1)
    desk.book(line())
    desk.book(line())
    with desk.shop.database.reading.connect() as connection:
        dump_files.write(connection, root / "stick" / "3.jsonl", desk.clock())
    desk.book(line())
    desk.book(line())
    desk.shop.close()


BOOKINGS = Scenario("bookings", cut_programs.BOOKINGS, _empty_shop, _of_shop, (str(BOXES),))
DAY = Scenario("a day of every step, papers", cut_programs.DAY, _nothing, _of_day)
FIRST_START = Scenario("first start and papers", cut_programs.FIRST_START, _nothing, _of_first_start)
MIGRATION = Scenario("migration", cut_programs.MIGRATION, _older_shop, _of_migration)
BACKUPS = Scenario("backups", cut_programs.BACKUPS, _empty_shop, _of_backups)
RESTORES = Scenario("restores", cut_programs.RESTORES, _with_backups, _of_restores)
ALL = (BOOKINGS, DAY, FIRST_START, MIGRATION, BACKUPS, RESTORES)
