"""The shop each run begins with: a few orders at every point of the work, made once and copied."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

from core.model.stations import Station
from core.services.records_door import Shop
from tests.support.booked import Clock, Desk, line, set_up

_ORDERS: tuple[tuple[Station, str], ...] = (
    (Station.BOOKED_IN, "Ada Fenwick"),
    (Station.CLEARED_TO_PLAY, "Bo Larkin"),
    (Station.PLAYING, "Cy Marsh"),
    (Station.READY, "Ada Fenwick"),
    (Station.READY, "Di Norwood"),
)


@dataclass(frozen=True)
class Begun:
    """The file of the shop, and the codes of its tapes, those of the last order first."""

    file: Path
    codes: tuple[str, ...]


def make(folder: Path) -> Begun:
    """A shop that is set up, with five orders."""
    file = folder / "begun.sqlite"
    set_up(file)
    clock, codes = Clock(), list[str]()
    with Shop.open(file, clock=clock, who="Kim") as shop:
        desk = Desk(shop, clock, str(file), "sqlite")
        for station, name in _ORDERS:
            job = desk.book(line(count=2), line("hi8", marking=None), name=name)
            for tape in job.tapes:
                desk.bring_to(tape, station)
            codes[:0] = [tape.code for tape in job.tapes]
            clock.go_on(minutes=10)
    return Begun(file, tuple(codes))


def copied(begun: Begun, folder: Path, name: str = "shop.sqlite") -> Path:
    """A copy of its own."""
    folder.mkdir(parents=True, exist_ok=True)
    return Path(shutil.copy(begun.file, folder / name))
