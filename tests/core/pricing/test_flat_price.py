"""A flat sum is what a box costs on average by what it plays; drawn prices are those of the price itself."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from core.model import serialization
from core.model.errors import WrongInput
from core.model.inventory import Inventory, TapeLine
from core.model.money import flat
from core.model.names import Finding, FormatName, Origin, Outcome, Speed, TvSystem
from core.model.price_terms import InspectionFee, InspectionWay
from core.model.price_ways import FlatRisk, FlatTerms, PriceWay, WaysToAgree
from core.model.quote_records import Price, QuotedTape
from core.model.ranges import exactly
from core.playtime.habits import STARTING
from core.pricing import box_price, charges, flat_price, price_book, total_draws, ways_to_agree
from core.pricing.box_price import price
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import Way
from core.pricing.price_rules import CaptureRate, Rounding
from core.services import quoting
from core.wording import typed_amounts
from tests.core.pricing.test_price_rules import BOXES, NOT_HERE, TAPE, books, columns
from tests.support.shops import CANNOT, NO_COPIES, book, copies

WHOLE = price_book.in_force(book().valid_from)
"""The example book: its formats are those of the catalogue."""


def ways(*lines: TapeLine, by: PriceBook = WHOLE, **changes: object) -> WaysToAgree:
    inventory = replace(Inventory(lines, TvSystem.NTSC), **changes)  # type: ignore[arg-type]
    tapes, storage = quoting.tapes_and_copies(inventory, STARTING)
    box = quoting.priced_box(inventory, tapes, storage, STARTING)
    return ways_to_agree.priced(box, by, inventory.way)[1]


@dataclass(frozen=True, slots=True)
class Agreed:
    """A flat sum and its risk."""

    minor: int
    risk: FlatRisk


def agreed(*lines: TapeLine, by: PriceBook = WHOLE, **changes: object) -> Agreed:
    found = ways(*lines, by=by, **changes).flat
    assert found is not None
    assert found.risk is not None
    return Agreed(found.minor, found.risk)


def vhs(count: int = 1, **known: object) -> TapeLine:
    return replace(TapeLine(count, FormatName("vhs"), "T-120"), **known)  # type: ignore[arg-type]


# --- drawn prices are prices --------------------------------------------------------------


@settings(max_examples=200, deadline=None)
@given(BOXES, books(), st.booleans(), st.sampled_from(["", "certificate 12"]), st.integers(0, 3))
def test_what_is_owed_in_a_draw_is_what_the_price_says_of_the_same_minutes(
    box: list[QuotedTape], by: PriceBook, rush: bool, exempt: str, discs: int
) -> None:
    tapes = [replace(tape, minutes=exactly(tape.minutes.likely)) for tape in box]
    storage = copies("dvd-r", discs, discs, discs)
    played = [tape for tape in tapes if tape.verdict.outcome is not Outcome.CANNOT]
    assume(played)
    likely = [*charges.repairs(tapes, by), *charges.copies(storage, by)]
    fixed = total_draws.fixed(likely, box_price.inspection_fee(tapes, by), rush=rush, exempt=exempt)
    minutes = [(np.full(3, tape.minutes.likely), charges.rate_of(tape, by)) for tape in played]
    drawn = total_draws.due(np.array([total_draws.copying(*each) for each in minutes]), fixed, by)
    owed = price(tapes, storage, by, rush=rush, exempt=exempt).due.likely
    assert drawn.tolist() == [owed] * 3


# --- the price at a flat sum --------------------------------------------------------------


@settings(max_examples=200, deadline=None)
@given(BOXES, books(), st.booleans(), st.integers(0, 200_000), st.sampled_from(["", "certificate 12"]))
def test_a_flat_price_owes_its_sum_in_every_column_and_adds_up(
    box: list[QuotedTape], by: PriceBook, rush: bool, sum_agreed: int, exempt: str
) -> None:
    made = price(box, NO_COPIES, by, rush=rush, exempt=exempt, agreed_flat=sum_agreed)
    assume(made.charges)
    assert made.due == flat(sum_agreed)
    assert made.ceiling_minor == sum_agreed
    assert made.net + made.tax == made.gross
    for place in range(3):
        assert sum(columns(charge.amount)[place] for charge in made.charges) == columns(made.net)[place]
        assert abs(columns(made.rounding)[place]) <= 2  # what the taxes cannot reach
    assert serialization.loads(Price, serialization.dumps(made)) == made


# --- the sum ------------------------------------------------------------------------------


def test_where_what_is_played_changes_nothing_the_sum_is_the_price_and_there_is_no_risk() -> None:
    per_tape = {name: CaptureRate(Way.PER_TAPE, Decimal(1234)) for name in WHOLE.capture}
    known = replace(WHOLE, capture=per_tape)
    for count in (1, 3, 40):
        made, risk = ways(vhs(count), by=known), agreed(vhs(count), by=known).risk
        assert made.by_play.is_one_figure
        nearest = round(made.by_play.likely / 100) * 100
        assert made.flat is not None
        assert made.flat.minor == nearest
        assert (risk.deviation_minor, risk.expected_minor) == (0, made.by_play.likely)
        assert risk.worst_gain_minor == risk.best_gain_minor == nearest - made.by_play.likely


@pytest.mark.parametrize("margin", ["0", "5", "12.5", "100"])
def test_the_margin_is_added_to_what_such_a_box_costs_on_average(margin: str) -> None:
    by = replace(WHOLE, flat=FlatTerms(True, margin))
    found = agreed(vhs(5), by=by)
    assert abs(found.minor - found.risk.expected_minor * (1 + float(margin) / 100)) <= 50
    assert found.risk.margin_percent == margin
    assert found.risk.expected_minor == agreed(vhs(5)).risk.expected_minor


def test_the_sum_is_the_mean_and_not_the_sum_of_what_each_tape_costs_in_the_middle() -> None:
    """Two of three long tapes are hardly recorded, so that the mean lies far above the middle."""
    line = vhs(3, fill=None, origin=Origin.BROADCAST)
    by_play = ways(line).by_play
    risk = agreed(line).risk
    assert by_play.low < risk.expected_minor < by_play.high
    assert abs(risk.expected_minor - by_play.likely) > 100
    assert 0.2 < risk.dearer < 0.7
    assert risk.worst_gain_minor < 0 < risk.best_gain_minor


def test_a_flat_sum_is_set_beside_the_outer_tenths_of_what_such_a_box_costs() -> None:
    """Of a thousand boxes that cost 1 to 1,000 minor units a tenth cost over 900, and a tenth up to 100."""
    found = flat_price._priced(np.arange(1, 1001) * 1.0, replace(WHOLE, rounding=Rounding(5)))

    assert (found.minor, found.risk.expected_minor) == (500, 500.5)
    assert (found.risk.worst_gain_minor, found.risk.best_gain_minor) == (500 - 900, 500 - 100)
    assert found.risk.dearer == 0.5
    assert found.risk.deviation_minor == pytest.approx(np.sqrt((1000**2 - 1) / 12), abs=0.01)


@pytest.mark.parametrize(("currency", "step"), [("JPY", 1), ("USD", 100), ("KWD", 1000), ("USD", 5)])
def test_the_sum_is_rounded_as_the_book_rounds_or_to_a_whole_unit(currency: str, step: int) -> None:
    rounding = Rounding(step if step == 5 else 0)
    digits = typed_amounts.decimals(currency)
    by = replace(WHOLE, currency=currency, minor_digits=digits, rounding=rounding)
    found = agreed(vhs(7), by=by)
    assert found.minor % step == 0
    assert abs(found.minor - found.risk.expected_minor) <= step / 2


LINES = st.lists(
    st.builds(
        TapeLine,
        st.integers(1, 4),
        st.sampled_from([FormatName(name) for name in ("vhs", "hi8", "minidv", "vhs-c", "dvcam")]),
        speed=st.sampled_from([None, Speed.SP]),
        fill=st.sampled_from([None, 0.25, 1.0]),
    ),
    min_size=1,
    max_size=3,
)


@settings(max_examples=60, deadline=None)
@given(LINES, LINES, st.booleans())
def test_a_tape_more_never_makes_the_sum_less(
    lines: list[TapeLine], more: list[TapeLine], rush: bool
) -> None:
    before, after = agreed(*lines, rush=rush), agreed(*lines, *more, rush=rush)
    assert 0 <= before.minor <= after.minor
    one_more = replace(lines[-1], count=lines[-1].count + 1)
    assert before.minor <= agreed(*lines[:-1], one_more, rush=rush).minor


@settings(max_examples=25, deadline=None)
@given(LINES, st.data())
def test_every_answer_that_takes_hours_off_moves_the_sum(lines: list[TapeLine], data: st.DataObject) -> None:
    """What it is on average moves; the sum follows in steps of a whole unit."""
    by_minutes = {
        name: replace(rate, way=Way.PER_HOUR, minor=Decimal(1200)) for name, rate in WHOLE.capture.items()
    }
    by = replace(WHOLE, capture=by_minutes, minimum_minor=0)
    inventory = Inventory(tuple(lines), TvSystem.NTSC)
    tapes = quoting.quoted_tapes(inventory)
    asked = [one for one in quoting.asked(inventory, tapes, STARTING) if one.hours_off >= 0.1]
    assume(asked)
    question = data.draw(st.sampled_from(asked))
    before = agreed(*lines, by=by).risk.expected_minor
    moved = [
        agreed(*_answered(lines, question.line, answer.draft), by=by).risk.expected_minor
        for answer in question.answers
    ]
    assert all(after != before for after in moved)
    assert min(moved) < before < max(moved)


def _answered(lines: list[TapeLine], place: int, draft: TapeLine) -> list[TapeLine]:
    return [draft if n == place else line for n, line in enumerate(lines, 1)]


# --- side by side -------------------------------------------------------------------------


def test_a_book_may_offer_no_flat_price_and_then_nobody_can_choose_it() -> None:
    without = replace(WHOLE, flat=FlatTerms(offered=False))
    assert ways(vhs(2), by=without).flat is None
    with pytest.raises(WrongInput, match="price is agreed: found 'flat'; accepted are by-play"):
        ways(vhs(2), by=without, way=PriceWay.FLAT)
    with pytest.raises(WrongInput, match="found 'play-first'"):
        ways(vhs(2), way=PriceWay.PLAY_FIRST)


def test_playing_first_costs_the_fee_up_to_all_that_is_played() -> None:
    with_fee = replace(WHOLE, inspection_fee=InspectionFee(900, InspectionWay.PER_TAPE))
    found = ways(vhs(4), by=with_fee)
    assert found.look_first is not None
    assert found.look_first.fee_minor == 3897  # 4 × 9.00 and 8.25 % tax
    assert (found.look_first.due.low, found.look_first.due.high) == (3897, found.by_play.high)
    once = replace(WHOLE, inspection_fee=InspectionFee(900, InspectionWay.PER_BOX))
    first = ways(vhs(4), by=once).look_first
    assert first is not None
    assert first.fee_minor == 974
    assert found.offered == tuple(PriceWay)


@given(TAPE.filter(lambda tape: tape.verdict in (CANNOT, NOT_HERE)))
def test_a_box_of_which_nothing_is_played_has_one_way_only(tape: QuotedTape) -> None:
    box = ways_to_agree.PricedBox((tape,), (), NO_COPIES, quoting.draws_of(STARTING), rush=False)
    made, found = ways_to_agree.priced(box, book(), PriceWay.FLAT)
    assert found.offered == (PriceWay.BY_PLAY,)
    assert made == price([tape], NO_COPIES, book(), rush=False)


def test_repairs_and_rush_are_in_the_sum() -> None:
    plain, hurried = agreed(vhs(5)).risk, agreed(vhs(5), rush=True).risk
    assert 1.25 < hurried.expected_minor / plain.expected_minor < 1.31
    snapped = agreed(vhs(5, findings=(Finding.SNAPPED,))).risk
    assert round(snapped.expected_minor - plain.expected_minor) == round(5 * 1800 * 1.0825)
