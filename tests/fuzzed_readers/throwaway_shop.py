"""A shop in which something of everything has happened, thrown away after each input that stored something.

What an answer of 2, 3 or 4 leaves must be what was there: no transaction stored (SQLite's ``data_version``),
no file new, gone, longer or renamed in the whole folder, the user's home among it.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from core.model.names import Finding, JobNumber
from core.model.stations import Station
from core.services import jobs, payments
from core.services.own_shop import shop_document
from core.store.shop_files import file_copies
from core.store.sqlite_library import sqlite_module
from tests.sent_again import copy_scenes, step_scenes
from tests.support.booked import Desk, opened, set_up

SHOP = "shop.sqlite"
_OWN = (f"{SHOP}-wal", f"{SHOP}-shm")
"""SQLite's own files beside the shop come and go."""

Listing = frozenset[tuple[str, int, int, int]]


@dataclass(frozen=True, slots=True)
class Standing:
    """What a folder and the shop in it hold at one moment."""

    version: int
    files: Listing

    def told_against(self, before: Standing) -> str:
        """What is not as it was, in a few words; nothing where all is."""
        news = sorted({each[0] for each in self.files ^ before.files})
        stored = ["the records"] if self.version != before.version else []
        return ", ".join([*stored, *news])


class ThrowawayShop:
    """One folder with the shop, the home of its user and the input files; the working folder is there."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.place = folder / "place"
        self._base = folder / "base"
        self.names: Mapping[str, str] = {}
        """Orders and tapes by what is special about them."""
        self._watching: Any = None

    def make(self, inputs: Mapping[str, bytes]) -> None:
        """Lives through everything once; ``inputs`` are the files that lie beside the shop."""
        self._base.mkdir()
        self._live()
        for name, data in inputs.items():
            (self._base / name).write_bytes(data)
        (self._base / "home").mkdir()

    def _live(self) -> None:
        set_up(self._base / SHOP)
        with opened(str(self._base / SHOP), "sqlite") as desk:
            self.names = lived(desk)

    @property
    def where(self) -> str:
        """The shop as it is typed in its folder."""
        return SHOP

    @property
    def untouched(self) -> str:
        """The shop as it was made; nothing is written there."""
        return str(self._base / SHOP)

    def end(self) -> None:
        """Nothing of it is needed any more."""
        self.let_go()

    def renew(self) -> None:
        """Everything as it was made."""
        self.let_go()
        shutil.rmtree(self.place, ignore_errors=True)
        shutil.copytree(self._base, self.place)
        os.chdir(self.place)
        self._watching = self._watched()

    def let_go(self) -> None:
        if self._watching is not None:
            self._watching.close()
            self._watching = None

    def standing(self) -> Standing:
        """What there is now."""
        return Standing(self._version(), frozenset(_listed(self.place, self.place)))

    def _watched(self) -> Any:
        """A connection that notices what others store."""
        return sqlite_module().connect(str(self.place / SHOP), isolation_level=None)

    def _version(self) -> int:
        """Another number after each transaction that stored something."""
        return int(self._watching.execute("PRAGMA data_version").fetchone()[0])


def _listed(folder: Path, root: Path) -> Iterator[tuple[str, int, int, int]]:
    for each in os.scandir(folder):
        found = each.stat(follow_symlinks=False)
        name = os.path.relpath(each.path, root)
        if each.is_dir(follow_symlinks=False):
            yield name, 0, 0, found.st_ino
            yield from _listed(Path(each.path), root)
        elif name not in _OWN:
            yield name, (0 if name == SHOP else found.st_size), _changed_at(name, found), found.st_ino


def _changed_at(name: str, found: os.stat_result) -> int:
    """Not of the shop's file, which a checkpoint of what was stored before may change."""
    return 0 if name == SHOP else found.st_mtime_ns


def lived(desk: Desk) -> dict[str, str]:
    """Orders and tapes of every kind that a subcommand asks for."""
    at = step_scenes.tape_at
    names = {
        "booked": at(desk),
        "snapped": at(desk, Station.BOOKED_IN, Finding.SNAPPED),
        "looked": at(desk, Station.LOOKED_OVER, Finding.OFF_HUB),
        "cleared": at(desk, Station.CLEARED_TO_PLAY),
        "playing": at(desk, Station.PLAYING),
        "checked": at(desk, Station.BEING_CHECKED),
        "ready": step_scenes.ready_order(desk),
        "spliced": step_scenes.spliced(desk),
        "astray": step_scenes.label_astray(desk),
        "bench": step_scenes.at_the_bench(desk),
        "repaired": step_scenes.repaired(desk),
        "lost": step_scenes.lost(desk),
    }
    for name, example in _EXAMPLES.items():
        names[name] = str(example(desk)[1][0])
    names |= _of_copies(desk)
    names |= _of_days(desk)
    ready = desk.shop.ask(jobs.get, JobNumber(names["ready"]))
    names |= {"ready_tape": ready.tapes[0].code, "ready_copy": str(ready.copies[0].id)}
    step_scenes.broken_down(desk), step_scenes.counted_donors(desk)
    names["order"], names["open"] = names["booked"][:6], names["playing"][:6]
    job = desk.book()
    names["apart"], names["apart_tape"] = job.number, job.tapes[0].code
    done = desk.allow(desk.book(name="Bea Holloway", phone="(303) 555-0177"))
    for tape in done.tapes:
        desk.bring_to(tape, Station.READY)
    given = desk.hand_back(done)
    desk.shop.run(payments.take, done.number, given.due_minor)
    names["gone"] = done.number
    names["refunded"] = desk.shop.run(payments.refund, step_scenes.paid(desk)[1][0], 100, note="less").number
    names["asking_tape"] = desk.shop.ask(jobs.get, JobNumber(names["asking"])).tapes[0].code
    desk.shop.run(shop_document.set_texts, [("front.phone", "303 555 0199")])
    step_scenes.reordered(desk)
    return {name: str(value) for name, value in names.items()}


_EXAMPLES = {
    "asking": step_scenes.asking,
    "paid": step_scenes.paid,
    "recorded": step_scenes.recorded,
    "unsigned": step_scenes.unsigned,
    "signed": step_scenes.signed,
}


def _of_days(desk: Desk) -> dict[str, str]:
    """A day the shop is closed, and days a deck is out of service."""
    outage = step_scenes.planned_outage(desk)[1][0]
    closed = step_scenes.closed(desk)
    return {
        "closed": closed.isoformat(),
        "out_first": outage.begins.isoformat(),
        "out_last": outage.ends.isoformat(),
    }


def _of_copies(desk: Desk) -> dict[str, str]:
    found: dict[str, str] = {}
    for name, example in (
        ("make", copy_scenes.to_make),
        ("check", copy_scenes.to_check),
        ("strike", copy_scenes.to_strike),
        ("drive", copy_scenes.to_describe),
        ("large", copy_scenes.too_large),
        ("give", copy_scenes.to_give),
    ):
        _, args, _ = example(desk)
        found[name] = args[0]
        found[f"{name}_item"] = str(args[1] or 1)
        found[f"{name}_tape"] = desk.shop.ask(jobs.get, args[0]).tapes[0].code
    step, args, named = copy_scenes.to_give(desk)
    desk.shop.run(step, *args, **named)
    found["deleted"] = args[0]
    return found


@contextmanager
def at_home(folder: Path) -> Iterator[None]:
    """The environment of a user who lives in ``folder``, and the working folder, put back at the end."""
    kept, stood = dict(os.environ), os.getcwd()
    home = str(folder / "place" / "home")
    for name in tuple(os.environ):
        if name.startswith(("TAPEWRIGHT_", "PG", "XDG_")):
            del os.environ[name]
    of_home = (
        "HOME",
        "XDG_DATA_HOME",
        "XDG_STATE_HOME",
        "XDG_CONFIG_HOME",
        "XDG_CACHE_HOME",
        "XDG_DOCUMENTS_DIR",
    )
    os.environ |= dict.fromkeys(of_home, home)
    os.environ |= {"PGHOST": "127.0.0.1", "PGPORT": "1", "PGCONNECT_TIMEOUT": "1"}
    try:
        yield
    finally:
        os.chdir(stood)
        os.environ.clear()
        os.environ |= kept


def copied_shop(shop: Path, target: Path) -> Path:
    """A copy of the shop as a backup is one."""
    return file_copies.copy_file(shop, target)
