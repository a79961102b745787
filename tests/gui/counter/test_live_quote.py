"""The quote while somebody types: the price at once, the day when it comes, never that of another box."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.errors import WrongInput
from core.model.inventory import Inventory, TapeLine
from core.model.names import FormatName
from core.model.price_ways import PriceWay
from core.model.quote_records import Quote
from core.services import shop_snapshot
from gui.counter.live_quote import LiveQuote, PendingDay
from tests.support.booked import Desk, line

SMALL = Inventory((line(count=2),))
LARGE = Inventory((line(count=12), line("hi8", count=30, marking="P6-120")))


@pytest.fixture
def live(file_desk: Desk) -> LiveQuote:
    made = LiveQuote()
    made.snapshot = file_desk.shop.ask(shop_snapshot.read)
    return made


def flat_of(quote: Quote) -> int:
    """What the box would cost at one sum, minor units."""
    assert quote.ways is not None
    assert quote.ways.flat is not None
    return quote.ways.flat.minor


def settled(live: LiveQuote, box: Inventory, desk: Desk) -> Quote:
    """The quote of a box once its day came."""
    live.quote(box, desk.clock())
    assert live.open is not None
    assert live.settle(live.open, live.open.quote(desk.clock()))
    quote, _ = live.quote(box, desk.clock())
    assert quote is not None
    return quote


@pytest.mark.parametrize("box", [SMALL, LARGE])
def test_the_price_comes_at_once_and_is_the_final_one(
    live: LiveQuote, file_desk: Desk, box: Inventory
) -> None:
    at_once, _ = live.quote(box, file_desk.clock())
    whole = settled(live, box, file_desk)
    assert at_once is not None
    assert (at_once.tapes, at_once.price, at_once.storage, at_once.capture_hours, at_once.valid_until) == (
        whole.tapes,
        whole.price,
        whole.storage,
        whole.capture_hours,
        whole.valid_until,
    )


def test_the_first_tape_has_no_day_and_no_reason_why_until_it_comes(live: LiveQuote, file_desk: Desk) -> None:
    quote, _ = live.quote(SMALL, file_desk.clock())
    assert quote is not None
    assert not live.is_settled
    assert (quote.promise.day, quote.promise.held_by, quote.warnings, quote.questions) == (None, (), (), ())
    assert settled(live, SMALL, file_desk).promise.day is not None


def test_the_day_before_stands_until_the_new_one_comes(live: LiveQuote, file_desk: Desk) -> None:
    before = settled(live, SMALL, file_desk)
    unsettled, _ = live.quote(LARGE, file_desk.clock())
    assert unsettled is not None
    assert unsettled.promise == before.promise
    assert settled(live, LARGE, file_desk).promise != before.promise


def test_the_flat_sum_before_stands_until_the_new_one_comes(live: LiveQuote, file_desk: Desk) -> None:
    """It is drawn for the whole box, which takes longer than all the other charges."""
    before = settled(live, SMALL, file_desk)
    unsettled, _ = live.quote(LARGE, file_desk.clock())
    assert unsettled is not None
    assert flat_of(unsettled) == flat_of(before)
    assert flat_of(settled(live, LARGE, file_desk)) != flat_of(before)


def test_a_flat_sum_that_was_chosen_comes_at_once_and_is_the_final_one(
    live: LiveQuote, file_desk: Desk
) -> None:
    settled(live, replace(SMALL, way=PriceWay.FLAT), file_desk)
    at_once, _ = live.quote(replace(LARGE, way=PriceWay.FLAT), file_desk.clock())
    whole = settled(live, replace(LARGE, way=PriceWay.FLAT), file_desk)
    assert at_once is not None
    assert (at_once.price, flat_of(at_once)) == (whole.price, flat_of(whole))
    assert at_once.price.due.likely == flat_of(whole)


def test_a_day_that_comes_for_a_box_that_changed_is_dropped(live: LiveQuote, file_desk: Desk) -> None:
    live.quote(LARGE, file_desk.clock())
    outdated = live.open
    assert outdated is not None
    live.quote(SMALL, file_desk.clock())
    assert not live.settle(outdated, outdated.quote(file_desk.clock()))
    assert not live.refuse(outdated, WrongInput("tapes", 1, "nothing"))
    assert not live.is_settled
    assert live.quote(SMALL, file_desk.clock())[0] != outdated.quote(file_desk.clock())


def test_a_day_is_dropped_when_the_queue_moved_on_meanwhile(live: LiveQuote, file_desk: Desk) -> None:
    first = settled(live, SMALL, file_desk)
    file_desk.book(line(count=60))
    live.snapshot = file_desk.shop.ask(shop_snapshot.read)
    live.quote(SMALL, file_desk.clock())
    assert not live.is_settled
    assert settled(live, SMALL, file_desk).promise.chances != first.promise.chances


def test_a_name_or_a_label_makes_no_new_quote(live: LiveQuote, file_desk: Desk) -> None:
    first = settled(live, SMALL, file_desk)
    labelled = Inventory((replace(SMALL.lines[0], label="Lake"),))
    assert live.quote(labelled, file_desk.clock())[0] is first
    assert live.is_settled


def test_what_the_shop_cannot_quote_is_said_and_forgotten(live: LiveQuote, file_desk: Desk) -> None:
    too_many = Inventory((TapeLine(501, FormatName("vhs")),))
    quote, failure = live.quote(too_many, file_desk.clock())
    assert quote is None
    assert failure is not None
    assert live.is_settled, "there is nothing left to work out"
    assert live.quote(SMALL, file_desk.clock())[1] is None


def test_what_only_the_day_finds_wrong_is_said(live: LiveQuote, file_desk: Desk) -> None:
    live.quote(SMALL, file_desk.clock())
    assert live.open is not None
    wrong = WrongInput("day", "never", "a day is accepted")
    assert live.refuse(live.open, wrong)
    assert live.quote(SMALL, file_desk.clock()) == (None, wrong)


def test_an_empty_tray_has_no_quote_and_waits_for_none(live: LiveQuote, file_desk: Desk) -> None:
    live.quote(SMALL, file_desk.clock())
    late = live.open
    assert isinstance(late, PendingDay)
    assert live.quote(Inventory(()), file_desk.clock()) == (None, None)
    assert live.is_settled
    assert not live.settle(late, late.quote(file_desk.clock()))
