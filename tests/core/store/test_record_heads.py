"""The head of the history leaves the machine: a rewritten history or an older file is told by it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from core.model.errors import WrongInput
from core.model.stations import Station
from core.papers.handover import receipt
from core.services import backup, decks
from core.services.records_door import Shop
from core.store import history
from core.wording import record_heads
from tests.support import pdf
from tests.support.booked import Desk
from tests.support.typed import READY, Typist, walk


@pytest.mark.parametrize(
    ("typed", "read"), [("A3F2 91BC", "a3f291bc"), ("a3f2-91bc-07de", "a3f291bc07de"), ("0" * 64, "0" * 64)]
)
def test_a_head_is_read_as_it_is_printed(typed: str, read: str) -> None:
    assert record_heads.typed(typed) == read


@pytest.mark.parametrize("typed", ["", "a3f2", "x" * 16, "0" * 65, "a3f2 91bç0"])
def test_anything_else_is_no_head(typed: str) -> None:
    with pytest.raises(ValueError):  # noqa: PT011  # its message is what was typed
        record_heads.typed(typed)


def test_the_name_of_a_copy_tells_the_head(desk: Desk, tmp_path: Path) -> None:
    desk.book()
    head = desk.shop.ask(history.head)
    first, second = desk.shop.backup(tmp_path), desk.shop.backup(tmp_path)
    assert record_heads.in_name(first.name) == record_heads.in_name(second.name) == head[:16]
    assert record_heads.in_name("shop-20260303-140000.sqlite") is None
    backup.check(second, desk.clock())


def test_an_older_copy_under_a_newer_name_is_told(desk: Desk, tmp_path: Path) -> None:
    old = desk.shop.backup(tmp_path)
    desk.book()
    new = desk.shop.backup(tmp_path)
    shutil.copy(old, new)
    backup.check(old, desk.clock())
    with pytest.raises(WrongInput, match="an older file was put in its place"):
        backup.check(new, desk.clock())


def test_a_receipt_tells_the_head_of_all_before_it(file_desk: Desk) -> None:
    job = file_desk.book()
    file_desk.bring_to(job.tapes[0], Station.READY)
    head = file_desk.shop.ask(history.head)
    handed = file_desk.hand_back(job)
    assert handed.head == head
    front = file_desk.shop.ask(decks.settings).front
    assert record_heads.short_head(head) in pdf.words(receipt.render(handed, front))


def test_verify_holds_the_records_against_a_receipt(typed: Typist, codes: list[str], tmp_path: Path) -> None:
    older = shutil.copy(typed.shop, tmp_path / "older.sqlite")
    with Shop.open(older) as shop:
        assert shop.ask(history.holds, "0" * 16) is None
    for station in READY:
        walk(typed, codes[0], station)
    number = record_heads.short_head(typed("verify").document["head"])
    assert typed("verify", "--head", number).code == 0
    assert typed("move", codes[1], "looked-over").code == 0
    held = typed("verify", "--head", number)
    assert held.document["sound"] is True
    shutil.copy(older, typed.shop)
    told = typed("verify", "--head", number)
    assert told.code == 4
    assert number in told.document["problems"][0]
    assert typed("verify").document["sound"] is True
    assert typed("verify", "--head", "nonsense").code == 2
    assert set(typed("verify").document["outside"]) >= {"drafts", "counters"}
