"""The likely price of a box is its median and its range an 80 % one, for households that share no line."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.model.inventory import Inventory, TapeLine
from core.model.money import MoneyRange, total
from core.model.names import FormatName, Speed, TvSystem
from core.model.quote_records import Price, QuotedTape, Storage
from core.model.ranges import exactly
from core.playtime.habits import STARTING
from core.pricing import box_price, price_book, ways_to_agree
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode, Way
from core.pricing.price_rules import CaptureRate
from core.pricing.ways_to_agree import PricedBox
from core.pricing.whole_box import TOGETHER
from core.services import quoting
from tests.support.shops import book
from tests.support.worlds import box_bills
from tests.support.worlds.box_bills import PlainTariff

WHOLE = price_book.in_force(book().valid_from)
VHS = FormatName("vhs")
BY_THE_MINUTE = replace(
    WHOLE, capture={**WHOLE.capture, VHS: CaptureRate(Way.PER_HOUR, Decimal(1200))}, minimum_minor=0
)
BREAKS = tuple((step.after, float(step.percent)) for step in WHOLE.breaks)
TAX = float(WHOLE.tax.percent)
BOOKS = {
    "by the minute": (BY_THE_MINUTE, PlainTariff(1200, 0, BREAKS, 0, TAX)),
    "by the half hour": (WHOLE, PlainTariff(600, 30, BREAKS, 2500, TAX)),
}
HOUSEHOLDS = 4000
"""The share above the middle is then known to 0.8 points (derived)."""


def boxed(*lines: TapeLine, rush: bool = False) -> PricedBox:
    inventory = Inventory(lines, TvSystem.NTSC, rush=rush)
    tapes, _ = quoting.tapes_and_copies(inventory, STARTING)
    nothing = Storage(exactly(0), exactly(0), ())
    return quoting.priced_box(inventory, tapes, nothing, STARTING)


@cache
def quoted(count: int, name: str) -> Price:
    return ways_to_agree.price_by_play(boxed(TapeLine(count, VHS, "T-120")), BOOKS[name][0])


@cache
def billed(count: int, name: str) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    played = box_bills.minutes(HOUSEHOLDS, count, np.random.default_rng(20261130 + count))
    return box_bills.bills(played, BOOKS[name][1])


@pytest.mark.parametrize("count", [1, 12, 30])
def test_as_many_boxes_cost_more_than_the_likely_price_as_cost_less(count: int) -> None:
    bills, likely = billed(count, "by the minute"), quoted(count, "by the minute").due.likely
    assert 45 <= 100 * (bills > likely).mean() <= 55
    # Half hours come in lumps: neither side may be more than half, give or take the same.
    lumps, middle = billed(count, "by the half hour"), quoted(count, "by the half hour").due.likely
    assert 100 * (lumps > middle).mean() <= 55
    assert 100 * (lumps < middle).mean() <= 55


@pytest.mark.parametrize("count", [12, 30])
def test_the_range_holds_four_boxes_in_five(count: int) -> None:
    bills, due = billed(count, "by the minute"), quoted(count, "by the minute").due
    assert 75 <= 100 * ((bills >= due.low) & (bills <= due.high)).mean() <= 85
    apart = box_price.price(boxed(TapeLine(count, VHS, "T-120")).tapes, NONE, BY_THE_MINUTE, rush=False).due
    assert due.high / due.low < 0.7 * apart.high / apart.low


@pytest.mark.parametrize("count", [1, 12, 30])
def test_no_bill_is_above_the_ceiling_without_a_yes(count: int) -> None:
    ceiling = quoted(count, "by the half hour").ceiling_minor
    dice = np.random.default_rng(count)
    for row in box_bills.minutes(300, count, dice):
        owed = box_bills.bills(row.reshape(1, -1), BOOKS["by the half hour"][1])[0]
        tapes = [_played(n, minutes) for n, minutes in enumerate(row.tolist(), 1)]
        if owed <= ceiling and dice.random() < 0.9:
            continue
        made = box_price.price(tapes, NONE, WHOLE, rush=False, agreed_ceiling=ceiling)
        assert made.due.likely <= ceiling
        assert min(owed, ceiling) - made.due.likely <= 1  # the tax may not reach the last cent


def _played(n: int, minutes: float) -> QuotedTape:
    return replace(boxed(TapeLine(1, VHS, "T-120")).tapes[0], n=n, minutes=exactly(minutes))


NONE = Storage(exactly(0), exactly(0), ())


# --- the line that says so ------------------------------------------------------------------


def amount(made: Price) -> MoneyRange | None:
    return next((charge.amount for charge in made.charges if charge.code == TOGETHER), None)


def test_each_line_costs_what_its_tapes_by_themselves_would_and_one_line_says_the_rest() -> None:
    box = boxed(TapeLine(8, VHS, "T-120"), TapeLine(4, FormatName("hi8")))
    apart = box_price.price(box.tapes, NONE, WHOLE, rush=False)
    made = ways_to_agree.price_by_play(box, WHOLE)
    assert [each for each in made.charges if each.code != TOGETHER] == list(apart.charges)
    more = amount(made)
    assert more is not None
    assert more.low > 0 > more.high
    assert more.likely > 0


@pytest.mark.parametrize(
    "lines",
    [
        (TapeLine(1, VHS, "T-120"),),
        (TapeLine(30, FormatName("vhs-c"), "TC-30"),),
        (TapeLine(1, VHS, "T-120"), TapeLine(20, FormatName("vhs-c"))),
    ],
)
def test_where_there_is_nothing_to_count_together_there_is_no_such_line(lines: tuple[TapeLine, ...]) -> None:
    """One tape only, or tapes at one price each."""
    assert amount(ways_to_agree.price_by_play(boxed(*lines), WHOLE)) is None


LINES = st.lists(
    st.builds(
        TapeLine,
        st.integers(1, 9),
        st.sampled_from([FormatName(name) for name in ("vhs", "hi8", "minidv", "vhs-c", "dvcam")]),
        speed=st.sampled_from([None, Speed.SP]),
        fill=st.sampled_from([None, 0.25, 1.0]),
    ),
    min_size=1,
    max_size=3,
)
INSIDE = replace(WHOLE, tax=replace(WHOLE.tax, mode=TaxMode.INSIDE))


@settings(max_examples=30, deadline=None)
@given(LINES, LINES, st.booleans(), st.sampled_from([WHOLE, BY_THE_MINUTE, INSIDE]))
def test_every_column_adds_up_and_a_tape_more_never_costs_less(
    lines: list[TapeLine], more: list[TapeLine], rush: bool, by: PriceBook
) -> None:
    before, after = (
        ways_to_agree.price_by_play(boxed(*each, rush=rush), by) for each in (lines, [*lines, *more])
    )
    for made in (before, after):
        assert total(charge.amount for charge in made.charges) == made.net
        assert made.net + made.tax == made.gross
        assert made.due.low <= made.due.likely <= made.due.high <= made.ceiling_minor
    assert all(was <= now for was, now in zip(before.due.columns, after.due.columns, strict=True))
