"""Minimums, fees, several taxes, exempt customers, a rounded amount due: whatever the book, it adds up."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from itertools import chain

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.model import serialization
from core.model.money import NOTHING, MoneyRange, flat, total
from core.model.names import Finding, Outcome
from core.model.price_terms import ChargeKind, InspectionFee, InspectionWay, StorageFee, StoragePeriod
from core.model.quote_records import Price, QuotedTape
from core.model.ranges import Range, exactly
from core.model.repair_records import Elsewhere, Verdict
from core.pricing import price_book
from core.pricing.box_price import price
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import RoundingMode, TaxMode
from core.pricing.price_rules import QuantityBreak, Rounding, Tax, TaxRate
from core.pricing.storage_charge import storage_charge
from core.wording import typed_amounts
from tests.support.shops import CANNOT, NO_COPIES, PLAYS, book, copies, quoted, repaired

COPYING, REPAIR, GOODS = ChargeKind.COPYING, ChargeKind.REPAIR, ChargeKind.GOODS
NOT_HERE = Verdict(Outcome.CANNOT, (), (), (), not_for_reuse=False, elsewhere=Elsewhere("no deck plays it"))


def amounts(made: Price) -> dict[str, MoneyRange]:
    return {charge.code: charge.amount for charge in made.charges}


def state_and_city(mode: TaxMode = TaxMode.ON_TOP) -> PriceBook:
    """A state tax of 5 % on goods alone, a city tax of 2.5 % on everything (invented)."""
    first = Tax(mode, Decimal(5), "state tax", "local law goes first", (GOODS,))
    return replace(book(), tax=first, further_taxes=(TaxRate("city tax", Decimal("2.5")),))


# --- the least for a tape ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("format", "minutes", "minor"),
    [("vhs", 20, 1000), ("vhs", 61, 1800), ("hi8", 20, 1000), ("hi8", 45, 1500), ("vhs-c", 20, 1400)],
)
def test_no_tape_costs_less_than_its_minimum(format: str, minutes: float, minor: int) -> None:
    base = book()
    least = replace(
        base, capture={name: replace(rate, minimum=Decimal(1000)) for name, rate in base.capture.items()}
    )
    made = price([quoted(format=format, minutes=exactly(minutes))], NO_COPIES, least, rush=False)
    assert made.net == flat(minor)
    told = "at least $10.00 for each tape"
    assert (told in made.charges[0].because) is (format != "vhs-c")


# --- the inspection fee ------------------------------------------------------------------


def with_inspection(way: InspectionWay) -> PriceBook:
    return replace(book(minimum=2500), inspection_fee=InspectionFee(1200, way))


@pytest.mark.parametrize(("way", "minor"), [(InspectionWay.PER_TAPE, 2400), (InspectionWay.PER_BOX, 1200)])
def test_a_tape_that_is_looked_over_and_not_copied_costs_the_inspection_fee(
    way: InspectionWay, minor: int
) -> None:
    tapes = [quoted(verdict=CANNOT, minutes=exactly(0), n=n) for n in (1, 2)]
    made = price(tapes, NO_COPIES, with_inspection(way), rush=True)
    assert amounts(made) == {"not-played": flat(0), "rush": flat(0), "inspection": flat(minor)}
    assert "only the inspection fee" in made.charges[0].because
    assert made.inspection_fee == InspectionFee(1200, way)


def test_a_copied_tape_and_one_for_no_deck_here_cost_no_inspection_fee() -> None:
    fee = with_inspection(InspectionWay.PER_TAPE)
    for verdict in (PLAYS, repaired("splice"), NOT_HERE):
        assert "inspection" not in amounts(price([quoted(verdict=verdict)], NO_COPIES, fee, rush=False))
    bought = quoted(verdict=CANNOT, minutes=exactly(0))
    bought = replace(bought, draft=replace(bought.draft, findings=(Finding.COMMERCIAL_RECORDING,)))
    assert "inspection" not in amounts(price([bought], NO_COPIES, fee, rush=False))


def test_the_inspection_fee_comes_beside_the_smallest_order() -> None:
    tapes = [quoted(minutes=exactly(30)), quoted(2, verdict=CANNOT, minutes=exactly(0))]
    made = price(tapes, NO_COPIES, with_inspection(InspectionWay.PER_TAPE), rush=False)
    assert made.net == flat(2500 + 1200)


# --- the storage fee ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("per", "days", "minor"),
    [
        *((StoragePeriod.DAY, days, minor) for days, minor in ((0, 0), (30, 0), (31, 150), (44, 2100))),
        *((StoragePeriod.WEEK, days, minor) for days, minor in ((30, 0), (31, 150), (37, 150), (38, 300))),
    ],
)
def test_storage_costs_nothing_up_to_its_days_and_then_each_day_or_week_begun(
    per: StoragePeriod, days: int, minor: int
) -> None:
    assert storage_charge(StorageFee(150, per, 30), days) == minor


@given(
    st.builds(StorageFee, st.integers(0, 10_000), st.sampled_from(StoragePeriod), st.integers(1, 3650)),
    st.integers(-10, 5000),
)
def test_a_day_longer_never_costs_less_and_at_most_one_period_more(fee: StorageFee, days: int) -> None:
    assert 0 <= storage_charge(fee, days + 1) - storage_charge(fee, days) <= fee.minor


def test_the_storage_fee_is_told_and_never_in_a_quote() -> None:
    fee = StorageFee(100, StoragePeriod.WEEK, 60)
    made = price([quoted()], NO_COPIES, replace(book(), storage_fee=fee), rush=False)
    assert made.storage_fee == fee
    assert list(amounts(made)) == ["capture-vhs"]


# --- taxes -------------------------------------------------------------------------------


def test_each_tax_is_charged_on_its_kind_of_charges_and_told_apart() -> None:
    made = price([quoted(minutes=exactly(30))], copies("dvd-r", 3, 3, 3), state_and_city(), rush=False)
    assert made.net == flat(600 + 1500)
    assert [(tax.words, tax.percent, tax.base, tax.amount) for tax in made.taxes] == [
        ("state tax 5%, added", "5", flat(1500), flat(75)),
        ("city tax 2.5%, added", "2.5", flat(2100), flat(53)),  # 52.5 goes up
    ]
    assert made.tax_words == "state tax 5% and city tax 2.5%, added"
    assert made.gross == flat(2100 + 75 + 53)


def test_taxes_inside_leave_the_total_and_are_taken_out_by_their_rates() -> None:
    made = price(
        [quoted(minutes=exactly(30))], copies("dvd-r", 3, 3, 3), state_and_city(TaxMode.INSIDE), rush=False
    )
    assert made.gross == flat(600 + 1500)
    # Goods: 1,500 × 7.5 ÷ 107.5 = 104.65, so 105, shared 2 : 1; copying: 600 × 2.5 ÷ 102.5 = 14.63, so 15.
    assert [tax.amount for tax in made.taxes] == [flat(70), flat(35 + 15)]
    assert [charge.amount for charge in made.charges] == [flat(585), flat(1395)]
    assert made.tax_words == "state tax 5% and city tax 2.5%, included"


def test_a_book_without_tax_says_nothing_of_it() -> None:
    made = price([quoted()], NO_COPIES, book(tax=TaxMode.NONE), rush=False)
    assert (made.tax, made.taxes, made.tax_words, made.told_taxes) == (NOTHING, (), "", ())
    assert made.gross == made.net


@pytest.mark.parametrize("mode", [TaxMode.ON_TOP, TaxMode.INSIDE])
def test_an_exempt_customer_pays_the_price_before_tax_and_the_reason_is_kept(mode: TaxMode) -> None:
    box, of = [quoted(minutes=exactly(30))], book(tax=mode, tax_percent="19")
    taxed = price(box, NO_COPIES, of, rush=False)
    made = price(box, NO_COPIES, of, rush=False, exempt="certificate 12-345")
    assert (made.tax, made.taxes, made.gross) == (NOTHING, (), taxed.net)
    assert made.exempt == "certificate 12-345"
    assert made.tax_words == "no tax, exempt: certificate 12-345"
    assert made.charges == taxed.charges


def test_copying_onto_a_drive_of_the_customers_own_is_work_and_no_goods() -> None:
    of = state_and_city()
    of = replace(of, media={**of.media, "own-drive": of.media["dvd-r"]})
    made = price([quoted()], copies("own-drive", 1, 1, 1), of, rush=False)
    assert [charge.kind for charge in made.charges] == [COPYING, COPYING]


def test_what_is_taxed_otherwise_than_copying_does_not_count_toward_the_smallest_order() -> None:
    box = [quoted(minutes=exactly(30))]
    alike, apart = book(minimum=2500), replace(state_and_city(), minimum_minor=2500)
    assert price(box, copies("dvd-r", 3, 3, 3), alike, rush=False).net == flat(2500)
    assert price(box, copies("dvd-r", 3, 3, 3), apart, rush=False).net == flat(2500 + 1500)


def test_rush_and_what_is_held_to_a_ceiling_bear_the_taxes_of_what_they_are_for() -> None:
    of = replace(book(), tax=replace(book().tax, on=(REPAIR,)))
    tapes = [quoted(minutes=exactly(30), verdict=repaired("splice"))]
    made = price(tapes, NO_COPIES, of, rush=True)
    assert [(each.kind, each.amount) for each in made.charges if each.code == "rush"] == [
        (COPYING, flat(180)),
        (REPAIR, flat(540)),
    ]
    held = price(tapes, NO_COPIES, of, rush=False, agreed_ceiling=1200)
    assert {each.kind for each in held.charges if each.code == "ceiling"} == {COPYING, REPAIR}
    assert 1198 <= held.due.likely <= 1200


# --- rounding ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("step", "mode", "minor", "added"),
    [
        *(
            (5, RoundingMode.NEAREST, minor, added)
            for minor, added in ((101, -1), (102, -2), (103, 2), (105, 0))
        ),
        *((10, RoundingMode.NEAREST, minor, added) for minor, added in ((104, -4), (105, 5), (95, 5))),
        *((5, RoundingMode.DOWN, minor, added) for minor, added in ((104, -4), (105, 0))),
        (0, RoundingMode.NEAREST, 103, 0),
    ],
)
def test_what_is_owed_is_rounded_half_away_from_zero_or_down(
    step: int, mode: RoundingMode, minor: int, added: int
) -> None:
    assert Rounding(step, mode).to_add(minor) == added


def test_the_total_stays_and_the_rounding_is_a_figure_of_its_own() -> None:
    of = replace(book(), rounding=Rounding(5))
    made = price([quoted(minutes=exactly(90))], NO_COPIES, of, rush=False)
    assert (made.gross, made.rounding, made.due) == (flat(1949), flat(1), flat(1950))
    assert made.deposit_minor == 585  # 30 % of 19.50


def test_rounding_never_goes_over_what_was_agreed() -> None:
    of = replace(book(tax=TaxMode.NONE), rounding=Rounding(100))
    made = price([quoted(minutes=exactly(300))], NO_COPIES, of, rush=False, agreed_ceiling=1950)
    assert (made.gross.likely, made.due.likely) == (1950, 1900)


# --- the file ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("table", "value", "sentence"),
    [
        ("rounding", {"step": "0.005"}, "x, rounding, step: found '0.5'; whole minor units"),
        ("rounding", {"mode": "up"}, "x, rounding, mode: found 'up'; accepted are 'nearest', 'down'"),
        ("inspection_fee", {"price": "-1"}, "x, inspection_fee, price: found '-1'; an amount in quotes"),
        ("inspection_fee", {"way": "per-hour"}, "x, inspection_fee, way: found 'per-hour'; accepted are"),
        ("storage_fee", {"per": "month"}, "x, storage_fee, per: found 'month'; accepted are 'day', 'week'"),
        (
            "storage_fee",
            {"after_days": 0},
            "x, storage_fee, after_days: found 0; a whole number from 1 to 3650",
        ),
        ("further_tax", [{"words": "", "percent": "2"}], "x, further_tax 1, words: found nothing"),
        (
            "further_tax",
            [{"words": "b", "percent": "95"}],
            "x, further_tax 1, percent: found '95'; taxes that",
        ),
        (
            "further_tax",
            [{"words": "b", "percent": "2", "on": ["discs"]}],
            "x, further_tax 1, on 1: found 'discs'; accepted are 'copying', 'repair', 'goods'",
        ),
        (
            "further_tax",
            [{"words": "b", "percent": "2", "on": []}],
            "on: found []; a list of at least one of",
        ),
    ],
)
def test_what_is_wrong_in_a_rule_is_refused_by_its_key(table: str, value: object, sentence: str) -> None:
    content = {**price_book.document(book()), table: value}
    with pytest.raises(price_book.WrongInput) as refused:
        price_book.of_document(content, "x")
    assert sentence in refused.value.sentence.replace("nothing was entered", "found nothing")


def test_a_price_by_the_tape_is_not_below_its_minimum() -> None:
    content = price_book.document(book())
    content["capture"]["vhs-c"]["minimum"] = "14.01"
    with pytest.raises(
        price_book.WrongInput, match=r"x, capture, vhs-c, minimum: found '14.01'; beside a price"
    ):
        price_book.of_document(content, "x")


# --- whatever the book -------------------------------------------------------------------

MINUTES = st.tuples(*[st.floats(0, 400, allow_nan=False)] * 3).map(lambda three: Range(*sorted(three)))
TAPE = st.builds(
    quoted,
    format=st.sampled_from(["vhs", "hi8", "vhs-c"]),
    minutes=MINUTES,
    verdict=st.sampled_from([PLAYS, repaired("splice"), CANNOT, NOT_HERE]),
)
BOXES = st.lists(TAPE, max_size=9).map(
    lambda found: [replace(tape, n=n, line=10 * n) for n, tape in enumerate(found, 1)]
)
PERCENTS = st.sampled_from(["0", "0.5", "6.25", "8.25", "19", "20", "49.5"]).map(Decimal)
ON = st.sets(st.sampled_from(ChargeKind), min_size=1).map(
    lambda on: tuple(kind for kind in ChargeKind if kind in on)
)
CURRENCIES = st.sampled_from(["JPY", "USD", "KWD"])
STEPS = st.sampled_from([0, 1, 5, 7, 10, 50, 100, 1000])


@st.composite
def books(draw: st.DrawFn) -> PriceBook:
    """A book with any of the rules, in currencies of 0, 2 and 3 decimals."""
    base = draw(
        st.builds(
            book,
            tax=st.sampled_from(TaxMode),
            breaks=st.sampled_from([(), (QuantityBreak(2, Decimal(5)), QuantityBreak(4, Decimal(30)))]),
            minimum=st.sampled_from([0, 2500]),
        )
    )
    currency, least = draw(CURRENCIES), Decimal(draw(st.integers(0, 1400)))
    return replace(
        base,
        currency=currency,
        minor_digits=typed_amounts.decimals(currency),
        tax=replace(base.tax, percent=draw(PERCENTS), on=draw(ON)),
        further_taxes=draw(
            st.lists(st.builds(TaxRate, st.just("city tax"), PERCENTS, ON), max_size=1).map(tuple)
        ),
        capture={name: replace(rate, minimum=least) for name, rate in base.capture.items()},
        rounding=Rounding(draw(STEPS), draw(st.sampled_from(RoundingMode))),
        inspection_fee=InspectionFee(draw(st.sampled_from([0, 900])), draw(st.sampled_from(InspectionWay))),
        storage_fee=StorageFee(draw(st.sampled_from([0, 100]))),
    )


def columns(amount: MoneyRange) -> tuple[int, int, int]:
    return amount.low, amount.likely, amount.high


@settings(max_examples=200, deadline=None)
@given(
    BOXES, books(), st.booleans(), st.none() | st.integers(0, 20_000), st.sampled_from(["", "certificate 7"])
)
def test_charges_make_net_taxes_the_total_and_rounding_what_is_owed(
    box: list[QuotedTape], of: PriceBook, rush: bool, agreed: int | None, exempt: str
) -> None:
    made = price(box, copies("dvd-r", 0, 1, 3), of, rush=rush, agreed_ceiling=agreed, exempt=exempt)
    assert made.net == total(charge.amount for charge in made.charges)
    assert made.tax == total(tax.amount for tax in made.taxes)
    assert made.gross == made.net + made.tax
    assert made.due == made.gross + made.rounding
    assert all(amount % (of.rounding.step or 1) == 0 for amount in (*columns(made.due), made.deposit_minor))
    assert all(abs(each) < (of.rounding.step or 1) for each in columns(made.rounding))
    assert max(columns(made.due)) <= made.ceiling_minor
    assert agreed is not None or made.due.low <= made.due.likely <= made.due.high
    assert min(chain(columns(made.net), columns(made.gross), columns(made.due))) >= 0
    for tax in made.taxes:
        assert NOTHING.low <= tax.base.low
        assert tax.amount.low >= 0
    if exempt:
        assert made.tax == NOTHING
        assert made.exempt == ("" if of.tax.mode is TaxMode.NONE else exempt)


@settings(max_examples=150, deadline=None)
@given(BOXES, books())
def test_a_tax_on_top_is_its_rate_on_the_sum_of_its_charges_rounded_once(
    box: list[QuotedTape], of: PriceBook
) -> None:
    """EN 16931, BR-CO-17: BT-117 = BT-116 × BT-119 ÷ 100, rounded to the currency's decimals; here by tax."""
    made = price(
        box, copies("dvd-r", 1, 1, 3), replace(of, tax=replace(of.tax, mode=TaxMode.ON_TOP)), rush=True
    )
    rates = (TaxRate("", of.tax.percent, of.tax.on), *of.further_taxes)
    for rate, tax in zip(rates, made.taxes, strict=True):
        assert tax.base == total(each.amount for each in made.charges if each.kind in rate.on)
        for base, amount in zip(columns(tax.base), columns(tax.amount), strict=True):
            assert abs(amount - base * rate.percent / 100) <= Decimal("0.5")


@settings(max_examples=150, deadline=None)
@given(BOXES, books(), st.booleans(), TAPE, st.sampled_from(["", "certificate 7"]))
def test_more_work_never_costs_less_before_rounding(
    box: list[QuotedTape], of: PriceBook, rush: bool, more: QuotedTape, exempt: str
) -> None:
    longer = [replace(tape, minutes=tape.minutes + Range(0.5, 1, 7)) for tape in box]
    before = price(box, NO_COPIES, of, rush=rush, exempt=exempt)
    for dearer in (
        price([*box, replace(more, line=7)], NO_COPIES, of, rush=rush, exempt=exempt),
        price(longer, NO_COPIES, of, rush=rush, exempt=exempt),
        price(box, NO_COPIES, of, rush=True, exempt=exempt),
        price(box, copies("dvd-r", 1, 1, 1), of, rush=rush, exempt=exempt),
    ):
        assert _no_less(dearer.net, before.net)
        assert _no_less(dearer.gross, before.gross)
        assert _no_less(dearer.due, before.due)


def _no_less(now: MoneyRange, before: MoneyRange) -> bool:
    return all(one <= other for one, other in zip(columns(before), columns(now), strict=True))


@settings(max_examples=100, deadline=None)
@given(BOXES, books(), st.integers(0, 20_000), st.sampled_from(["", "certificate 7"]))
def test_nobody_owes_more_than_was_agreed_and_hardly_less(
    box: list[QuotedTape], of: PriceBook, agreed: int, exempt: str
) -> None:
    """A minor unit for each tax, and one more, may be out of reach of the total."""
    free = price(box, NO_COPIES, of, rush=False, exempt=exempt)
    held = price(box, NO_COPIES, of, rush=False, agreed_ceiling=agreed, exempt=exempt)
    for was, gross, due in zip(columns(free.gross), columns(held.gross), columns(held.due), strict=True):
        assert due <= agreed
        assert gross <= agreed
        assert gross == was or agreed - gross <= 1 + len(of.taxes)


@given(BOXES, books(), st.booleans())
@settings(max_examples=60, deadline=None)
def test_a_price_comes_back_from_its_record_and_a_book_from_its_file(
    box: list[QuotedTape], of: PriceBook, rush: bool
) -> None:
    made = price(box, NO_COPIES, of, rush=rush, exempt="certificate 7")
    assert serialization.loads(Price, serialization.dumps(made)) == made
    assert price_book.of_document(price_book.document(of), "x") == of
