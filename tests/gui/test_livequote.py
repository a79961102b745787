"""The quote while somebody types: the price at once, the day when the keys pause, never a wrong one kept."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core import present
from core.inventory import Inventory, TapeLine
from core.names import FormatName
from gui.livequote import MOST_AT_ONCE, LiveQuote
from tests.support.booked import Desk, line

SMALL = Inventory((line(count=2),))
LARGE = Inventory((line(count=MOST_AT_ONCE), line("hi8", count=3, marking="P6-120")))


@pytest.fixture
def live(file_desk: Desk) -> LiveQuote:
    made = LiveQuote()
    made.present = file_desk.shop.ask(present.read)
    return made


def test_a_small_box_has_its_day_at_once(live: LiveQuote, file_desk: Desk) -> None:
    live.of(Inventory((line(),)), file_desk.clock())
    quote, _ = live.of(SMALL, file_desk.clock())
    assert live.is_settled
    assert quote == live.fresh(SMALL, file_desk.clock())


def test_the_price_of_a_large_box_comes_at_once_and_is_the_final_one(
    live: LiveQuote, file_desk: Desk
) -> None:
    before, _ = live.of(SMALL, file_desk.clock())
    quote, _ = live.of(LARGE, file_desk.clock())
    whole = live.fresh(LARGE, file_desk.clock())
    assert quote is not None
    assert before is not None
    assert not live.is_settled
    assert (quote.tapes, quote.price, quote.storage, quote.capture_hours) == (
        whole.tapes,
        whole.price,
        whole.storage,
        whole.capture_hours,
    )
    assert quote.promise == before.promise


def test_settling_gives_the_whole_quote(live: LiveQuote, file_desk: Desk) -> None:
    live.of(SMALL, file_desk.clock())
    live.of(LARGE, file_desk.clock())
    live.settle(LARGE, file_desk.clock())
    assert live.is_settled
    assert live.of(LARGE, file_desk.clock())[0] == live.fresh(LARGE, file_desk.clock())


def test_a_name_or_a_label_makes_no_new_quote(live: LiveQuote, file_desk: Desk) -> None:
    first, _ = live.of(SMALL, file_desk.clock())
    labelled = Inventory((replace(SMALL.lines[0], label="Lake"),))
    assert live.of(labelled, file_desk.clock())[0] is first


def test_another_queue_makes_another_quote(live: LiveQuote, file_desk: Desk) -> None:
    first, _ = live.of(SMALL, file_desk.clock())
    file_desk.book(line(count=60))
    live.present = file_desk.shop.ask(present.read)
    second, _ = live.of(SMALL, file_desk.clock())
    assert first is not None
    assert second is not None
    assert first.promise.chances != second.promise.chances


def test_what_the_shop_cannot_quote_is_said_and_forgotten(live: LiveQuote, file_desk: Desk) -> None:
    too_many = Inventory((TapeLine(501, FormatName("vhs")),))
    quote, failure = live.of(too_many, file_desk.clock())
    assert quote is None
    assert failure is not None
    assert live.of(SMALL, file_desk.clock())[1] is None


def test_an_empty_tray_has_no_quote(live: LiveQuote, file_desk: Desk) -> None:
    live.of(SMALL, file_desk.clock())
    assert live.of(Inventory(()), file_desk.clock()) == (None, None)
