"""What is missing before a box is booked, without a window: one thing at a time, the typed text first."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from core.model.errors import WrongInput
from core.model.typed_draft import TypedBox, TypedRow
from core.wording.messages import say
from core.wording.typed_amounts import typed_amount
from gui.counter.booking_check import first_obstacle
from gui.counter.deposit_amount import read_deposit
from gui.counter.typed_box import read_box
from tests.support import invented_job

TODAY = date(2026, 3, 3)
BOX = TypedBox(rows=(TypedRow("1", "VHS"),), name="Ada Fenwick")
QUOTE = invented_job.quote()


def test_a_complete_box_has_nothing_in_its_way() -> None:
    assert first_obstacle(read_box(BOX, TODAY), QUOTE, is_told=True) is None


def test_a_cell_that_cannot_be_read_comes_first_and_is_named_with_its_row() -> None:
    box = replace(BOX, rows=(*BOX.rows, TypedRow("1", "VHS", "T-999")), name="")
    obstacle = first_obstacle(read_box(box, TODAY), QUOTE, is_told=False)
    assert obstacle is not None
    assert (obstacle.row, obstacle.field) == (1, "marking")
    assert obstacle.sentence.startswith("Row 2: ")


def test_a_field_beside_the_tray_is_named_without_a_row() -> None:
    obstacle = first_obstacle(read_box(replace(BOX, needed_by="never"), TODAY), QUOTE, is_told=True)
    assert obstacle is not None
    assert (obstacle.row, obstacle.field) == (None, "needed_by")
    assert not obstacle.sentence.startswith("Row")


@pytest.mark.parametrize(
    ("name", "has_quote", "is_told", "place", "key"),
    [
        ("", False, False, (0, "count"), "need_tape"),
        ("", True, False, (None, "name"), "need_name"),
        ("Ada Fenwick", True, False, (None, "told"), "need_told"),
    ],
)
def test_then_tapes_then_the_name_then_what_must_be_told(
    name: str, has_quote: bool, is_told: bool, place: tuple[int | None, str], key: str
) -> None:
    reading = read_box(replace(BOX, name=name), TODAY)
    obstacle = first_obstacle(reading, QUOTE if has_quote else None, is_told)
    assert obstacle is not None
    assert (obstacle.row, obstacle.field, obstacle.sentence) == (*place, say("counter", key))


@pytest.mark.parametrize(("typed", "minor"), [("", 0), ("40", 4000), ("$ 12.50", 1250), ("0.05", 5)])
def test_a_deposit_is_read_as_people_type_it(typed: str, minor: int) -> None:
    assert read_deposit(typed, QUOTE.price) == minor


@pytest.mark.parametrize("typed", ["much", "1.234", "-5", "999999999", "12,50", "1,2,3"])
def test_what_is_no_deposit_is_refused_with_the_ceiling(typed: str) -> None:
    with pytest.raises(WrongInput, match="Deposit: found"):
        read_deposit(typed, QUOTE.price)


# ISO 4217: the dollar has two decimals, the yen none, the dinar of Kuwait three.
@pytest.mark.parametrize(("currency", "plain"), [("USD", "12.50"), ("JPY", "1250"), ("KWD", "1.250")])
def test_a_proposed_deposit_has_the_decimals_of_its_currency(currency: str, plain: str) -> None:
    assert typed_amount(1250, currency) == plain
