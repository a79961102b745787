"""A box is charged by the book; the figures add up, and more work never costs less."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.money import MoneyRange, flat, total
from core.model.names import FormatName
from core.model.quote_records import Price, QuotedTape
from core.model.ranges import Range, exactly
from core.pricing import charges, price_book
from core.pricing.box_price import price
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode
from core.pricing.price_rules import QuantityBreak
from tests.support.shops import CANNOT, NO_COPIES, PLAYS, book, copies, quoted, repaired

BREAKS = (QuantityBreak(2, Decimal(5)), QuantityBreak(4, Decimal(30)))


def amounts(made: Price) -> dict[str, MoneyRange]:
    return {charge.code: charge.amount for charge in made.charges}


def test_a_tape_is_charged_for_every_started_half_hour() -> None:
    made = price([quoted(minutes=Range(30, 31, 91))], NO_COPIES, book(), rush=False)
    assert amounts(made) == {"capture-vhs": MoneyRange(600, 1200, 2400)}


def test_a_tape_by_the_hour_is_charged_to_the_minute() -> None:
    made = price([quoted(format="hi8", minutes=Range(30, 45, 61))], NO_COPIES, book(), rush=False)
    assert amounts(made) == {"capture-hi8": MoneyRange(1000, 1500, 2033)}


def test_a_tape_by_the_piece_costs_the_same_however_long_it_plays() -> None:
    made = price([quoted(format="vhs-c", minutes=Range(1, 30, 60))], NO_COPIES, book(), rush=False)
    assert amounts(made) == {"capture-vhs-c": flat(1400)}


def test_the_tapes_of_one_line_are_one_charge_and_their_columns_add_up() -> None:
    tapes = [quoted(n=n, minutes=Range(20, 50, 110)) for n in (1, 2, 3)]
    (charge,) = price(tapes, NO_COPIES, book(), rush=False).charges
    assert charge.text == "3 × VHS"
    assert charge.because == "by the half hour, rounded up; each plays 20 to 110 minutes"
    assert charge.quantity == "3 to 12 × 30 min"
    assert charge.amount == MoneyRange(3 * 600, 3 * 1200, 3 * 2400)


def test_a_tape_that_cannot_be_played_is_named_and_costs_nothing() -> None:
    made = price([quoted(verdict=CANNOT, minutes=exactly(0))], NO_COPIES, book(minimum=2500), rush=True)
    assert not any(charge.code.startswith("capture") for charge in made.charges)
    assert "cannot be played" in made.charges[0].because
    assert made.gross == flat(0)


def test_repairs_are_charged_by_the_action_and_copies_by_the_piece() -> None:
    tapes = [quoted(n=1, verdict=repaired("splice")), quoted(n=2, verdict=repaired("splice"))]
    made = price(tapes, copies("dvd-r", 1, 2, 4), book(), rush=False)
    assert amounts(made)["repair-splice"] == flat(3600)
    assert amounts(made)["media-dvd-r"] == MoneyRange(500, 1000, 2000)


def test_rush_is_charged_on_capture_and_repair_but_not_on_discs() -> None:
    tapes = [quoted(minutes=exactly(30), verdict=repaired("splice"))]
    made = price(tapes, copies("dvd-r", 9, 9, 9), book(), rush=True)
    assert amounts(made)["rush"] == flat((600 + 1800) * 30 // 100)


def test_a_small_job_is_brought_up_to_the_smallest_by_a_charge_of_its_own() -> None:
    made = price([quoted(minutes=Range(30, 30, 300))], NO_COPIES, book(minimum=2500), rush=False)
    assert amounts(made)["minimum"] == MoneyRange(1900, 1900, 0)
    assert made.net == MoneyRange(2500, 2500, 6000)


def test_the_quantity_break_counts_the_dearest_tapes_first() -> None:
    tapes = [quoted(1, minutes=exactly(30)), quoted(2, minutes=exactly(90)), quoted(3, minutes=exactly(60))]
    made = price(tapes, NO_COPIES, book(breaks=BREAKS), rush=False)
    assert amounts(made)["quantity-break"] == flat(-30)  # 5 % of the cheapest, 6.00


def test_every_charge_says_why_it_is_there() -> None:
    tapes = [quoted(n=n, verdict=repaired("splice")) for n in range(1, 4)] + [quoted(2, verdict=CANNOT)]
    made = price(
        tapes, copies("dvd-r", 1, 1, 1), book(breaks=BREAKS, minimum=99_999), rush=True, agreed_ceiling=9
    )
    codes = [charge.code for charge in made.charges]
    assert codes == [
        *("capture-vhs", "not-played", "repair-splice", "quantity-break"),
        *("rush", "media-dvd-r", "minimum", "ceiling"),
    ]
    assert all(charge.because and charge.text and charge.quantity for charge in made.charges)


def test_a_format_without_a_price_is_refused_by_name() -> None:
    with pytest.raises(WrongInput, match="price in Test book: found 'u-matic'; it has prices for hi8"):
        price([quoted(format="u-matic")], NO_COPIES, book(), rush=False)


def test_a_recording_with_a_price_of_its_own_is_charged_by_it_and_not_by_the_shell() -> None:
    tape = quoted(format="vhs-c", minutes=exactly(60))
    recorded = replace(tape, draft=replace(tape.draft, recorded_as="hi8"))  # what matters is the price only
    assert price([recorded], NO_COPIES, book(), rush=False).net == flat(2000)
    unpriced = replace(tape, draft=replace(tape.draft, recorded_as="digital8"))
    assert price([unpriced], NO_COPIES, book(), rush=False).net == flat(1400)


# --- tax ------------------------------------------------------------------------------------


def test_tax_on_top_is_rounded_once_for_the_whole_job() -> None:
    made = price([quoted(minutes=exactly(30))], NO_COPIES, book(), rush=False)
    assert (made.net, made.tax, made.gross) == (flat(600), flat(50), flat(650))  # 49.5 goes up
    assert made.tax_words == "sales tax 8.25%, added"


def test_tax_inside_leaves_the_total_as_the_book_says_and_the_charges_add_up_to_net() -> None:
    tapes = [quoted(line, minutes=exactly(30)) for line in range(1, 8)]
    made = price(tapes, NO_COPIES, book(tax=TaxMode.INSIDE, tax_percent="19"), rush=False)
    assert (made.gross, made.tax, made.net) == (flat(4200), flat(671), flat(3529))
    assert sorted({charge.amount.low for charge in made.charges}) == [504, 505]
    assert made.tax_words == "sales tax 19%, included"


# --- ceiling and pickup ---------------------------------------------------------------------


def test_the_ceiling_is_a_margin_over_the_highest_figure_in_whole_units() -> None:
    made = price([quoted(minutes=Range(30, 60, 90))], NO_COPIES, book(), rush=False)
    assert made.gross.high == 1949
    assert made.ceiling_minor == 2100  # 19.49 and 5 % are 20.46, up to 21.00


def test_a_price_above_what_was_agreed_is_held_to_it_by_a_charge_of_its_own() -> None:
    made = price([quoted(minutes=exactly(300))], NO_COPIES, book(), rush=False, agreed_ceiling=5000)
    held = amounts(made)["ceiling"]
    assert held.low < 0
    assert made.gross == flat(5000)
    assert made.ceiling_minor == 5000
    assert made.net == total(charge.amount for charge in made.charges)


def test_a_price_within_what_was_agreed_is_left_alone() -> None:
    made = price([quoted(minutes=exactly(30))], NO_COPIES, book(), rush=False, agreed_ceiling=5000)
    assert "ceiling" not in amounts(made)


def test_at_pickup_the_three_columns_are_one_figure() -> None:
    tapes = [quoted(n=1, minutes=exactly(47.5)), quoted(n=2, minutes=exactly(118.25))]
    made = price(tapes, copies("dvd-r", 2, 2, 2), book(breaks=BREAKS), rush=True, agreed_ceiling=99_900)
    assert made.gross.is_one_figure
    assert all(charge.amount.is_one_figure for charge in made.charges)


# --- whatever the box -----------------------------------------------------------------------


def minutes() -> st.SearchStrategy[Range]:
    three = st.tuples(*[st.floats(0, 400, allow_nan=False)] * 3)
    return three.map(lambda values: Range(*sorted(values)))


def tapes() -> st.SearchStrategy[list[QuotedTape]]:
    one = st.builds(
        quoted,
        line=st.integers(1, 4),
        format=st.sampled_from(["vhs", "hi8", "vhs-c"]),
        minutes=minutes(),
        verdict=st.sampled_from([PLAYS, repaired("splice"), CANNOT]),
    )
    return st.lists(one, max_size=9).map(
        lambda found: [replace(tape, n=n, line=10 * n) for n, tape in enumerate(found, 1)]
    )


def books() -> st.SearchStrategy[PriceBook]:
    return st.builds(
        book,
        tax=st.sampled_from(TaxMode),
        tax_percent=st.sampled_from(["0", "8.25", "19", "99"]),
        breaks=st.sampled_from([(), BREAKS]),
        minimum=st.sampled_from([0, 2500]),
    )


def columns(amount: MoneyRange) -> tuple[int, int, int]:
    return amount.low, amount.likely, amount.high


@settings(max_examples=150, deadline=None)
@given(tapes(), books(), st.booleans(), st.none() | st.integers(0, 20_000))
def test_charges_add_up_to_net_and_net_with_tax_to_gross(
    box: list[QuotedTape], of: PriceBook, rush: bool, agreed: int | None
) -> None:
    made = price(box, copies("dvd-r", 0, 1, 3), of, rush=rush, agreed_ceiling=agreed)
    assert made.net == total(charge.amount for charge in made.charges)
    assert made.gross == made.net + made.tax
    assert made.gross.low <= made.gross.likely <= made.gross.high <= made.ceiling_minor
    assert made.gross.low >= 0


@settings(max_examples=150, deadline=None)
@given(tapes(), books(), st.booleans(), st.data())
def test_another_tape_a_longer_tape_or_rush_never_makes_the_box_cheaper(
    box: list[QuotedTape], of: PriceBook, rush: bool, data: st.DataObject
) -> None:
    before = price(box, NO_COPIES, of, rush=rush)
    more = data.draw(tapes().filter(bool))[0]
    longer = [replace(tape, minutes=tape.minutes + Range(0.5, 1, 7)) for tape in box]
    for dearer in (
        price([*box, more], NO_COPIES, of, rush=rush),
        price(longer, NO_COPIES, of, rush=rush),
        price(box, NO_COPIES, of, rush=True),
        price(box, copies("dvd-r", 1, 1, 1), of, rush=rush),
    ):
        pairs = zip(columns(before.gross), columns(dearer.gross), strict=True)
        assert all(less <= more for less, more in pairs)


@settings(max_examples=100, deadline=None)
@given(tapes(), books(), st.integers(0, 20_000))
def test_nobody_pays_more_than_was_agreed(box: list[QuotedTape], of: PriceBook, agreed: int) -> None:
    free = price(box, NO_COPIES, of, rush=False)
    held = price(box, NO_COPIES, of, rush=False, agreed_ceiling=agreed)
    for was, now in zip(columns(free.gross), columns(held.gross), strict=True):
        assert now <= agreed
        assert now == was or agreed - now <= 1  # one minor unit may be out of reach of the tax


def test_reels_of_one_line_that_turned_out_of_different_lengths_cost_by_their_own_feet() -> None:
    """Two reels booked as one line, one of 50 and one of 200 feet: 250 feet in all, not twice the first."""
    reels = [
        replace(quoted(n=n, format="super-8", speed=None), draft=TapeLine(1, FormatName("super-8"), feet))
        for n, feet in ((1, "50 ft"), (2, "200 ft"))
    ]
    by_the_foot = price_book.in_force(date(2026, 6, 1))
    (both,) = charges.captures(reels, by_the_foot)
    ((one, _), (other, _)) = (charges.captures([reel], by_the_foot)[0] for reel in reels)
    assert one.amount.likely < other.amount.likely
    assert both[0].amount == one.amount + other.amount
