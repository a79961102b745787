"""A shop that is moved with its files, and a customer who is erased, while the power goes out."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

from core.model.errors import NoShopYet, Refused, TapewrightError
from core.services.records_door import Shop
from core.store.shop_files import dump
from tests.power_cuts import cut_programs, cut_scenarios
from tests.power_cuts.cut_scenarios import NOW, SHOP, Scenario
from tests.power_cuts.system_calls import Cut
from tests.support.booked import opened
from tests.support.named_everywhere import TOLD, a_year_ago

FILES = {"papers/slip-000018.pdf": b"%PDF" + bytes(3000) + b"%%EOF", "photos/ab.png": b"png" * 900}


def _with_files(empty: Path, root: Path) -> None:
    (root / "old").mkdir()
    cut_scenarios.booked(empty, root / "old", 3).shop.close()
    for name, data in FILES.items():
        (root / "old" / name).parent.mkdir()
        (root / "old" / name).write_bytes(data)


def _of_moves(root: Path, cut: Cut) -> Iterator[str]:
    """The old shop is whole, or says where it went and the new one is whole, with all its files."""
    old, new = root / "old", root / "new"
    there = _rows(new / SHOP)
    try:
        before = _rows(old / SHOP)
    except Refused:
        if there is None:
            yield "the old shop says that it was moved, and there is no new one"
            return
        before = there
    if before is None:
        yield "the old shop is gone"
    if there is not None and there != before:
        yield "the new shop opens and is not the old one"
    if cut.said and there is None:
        yield "it was moved and is not there"
    for name, data in FILES.items():
        if (old / name).read_bytes() != data:
            yield f"{name} of the old shop is gone"
        if there is not None and (new / name).read_bytes() != data:
            yield f"{name} did not come along"


def _rows(path: Path) -> list[tuple[str, str]] | None:
    """All rows but the mark of a move; None where there is no shop. Refused for one that was moved."""
    try:
        with Shop.open(path, clock=lambda: NOW, create=False) as shop:
            assert shop.verify() == ()
            with shop.database.reading.begin() as connection:
                rows = [row for row in dump.rows(connection, NOW) if row[0] != "change_numbers"]
            return rows
    except NoShopYet:
        return None


def _with_somebody(empty: Path, root: Path) -> None:
    place = root / SHOP
    place.write_bytes(empty.read_bytes())
    with opened(str(place), "sqlite") as desk:
        a_year_ago(desk, root / "papers")
        desk.clock.now += timedelta(hours=1)


def _of_erasure(root: Path, cut: Cut) -> Iterator[str]:
    """Sound whatever happened; once it was said, no byte that is left holds the name."""
    try:
        with Shop.open(root / SHOP, clock=lambda: NOW, create=False) as shop:
            yield from shop.verify()
    except TapewrightError as failure:
        yield f"the shop does not open: {failure.sentence}"
    if cut.said:
        for path in root.rglob("*"):
            if path.is_file() and any(word.encode() in path.read_bytes() for word in TOLD):
                yield f"{path.name} holds somebody who was said to be erased"


MOVES = Scenario("a move with its files", cut_programs.MOVES, _with_files, _of_moves)
ERASURE = Scenario("an erasure", cut_programs.ERASURE, _with_somebody, _of_erasure)
ALL = (MOVES, ERASURE)
