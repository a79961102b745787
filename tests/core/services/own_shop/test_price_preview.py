"""What new prices would change is told beforehand; what was quoted stays as it was."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.catalogue import written_tapes
from core.model import serialization
from core.model.errors import WrongInput
from core.model.inventory import Inventory, TapeLine
from core.model.names import Finding, FormatName, JobNumber
from core.model.price_terms import InspectionFee
from core.papers.booking import quote_paper
from core.pricing import price_csv
from core.pricing.price_book_file import RoundingMode, TaxMode
from core.pricing.price_rules import Rounding, TaxRate
from core.services import jobs, shop_snapshot
from core.services.own_shop import price_books, price_preview, shop_document
from core.services.own_shop.price_preview import BOXES, PriceChange
from tests.support.booked import Desk, line

TODAY = date(2026, 3, 3)


def test_the_same_book_changes_nothing_and_a_dearer_one_what_it_touches(desk: Desk) -> None:
    vhs, hi8 = desk.book(line(count=3)), desk.book(line("hi8", marking=None))
    basis = desk.shop.ask(price_preview.read)
    same = price_preview.changes(basis, BOXES, basis.book)
    assert [each.was == each.now for each in (*same.boxes, *same.orders)] == [True] * 5
    assert [each.words for each in same.orders] == [hi8.number, vhs.number]
    assert [each.was for each in same.orders] == [hi8.quote.price.gross.likely, vhs.quote.price.gross.likely]
    capture = dict(basis.book.capture)
    capture[FormatName("vhs")] = replace(capture[FormatName("vhs")], minor=Decimal(2000))
    found = price_preview.changes(basis, BOXES, replace(basis.book, capture=capture))
    assert [_rises(each) for each in (*found.boxes, *found.orders)] == [True, True, False, False, True]
    assert found.now - found.was == (found.orders[1].now or 0) - (found.orders[1].was or 0)


def _rises(change: PriceChange) -> bool:
    assert change.was is not None
    assert change.now is not None
    return change.now > change.was


def test_what_the_new_book_does_not_price_is_told_apart_and_not_summed(desk: Desk) -> None:
    desk.book(line(count=3))
    basis = desk.shop.ask(price_preview.read)
    less = {name: rate for name, rate in basis.book.capture.items() if name != "vhs"}
    found = price_preview.changes(basis, BOXES, replace(basis.book, capture=less))
    assert [each.now is None for each in found.boxes] == [True, True, False]
    assert [each.now for each in found.orders] == [None]
    assert (found.was, found.now) == (0, 0)


def test_a_box_costs_in_the_preview_what_the_counter_quotes(desk: Desk) -> None:
    basis = desk.shop.ask(price_preview.read)
    whole = desk.shop.ask(shop_snapshot.read)
    for box, found in zip(BOXES, price_preview.changes(basis, BOXES, basis.book).boxes, strict=True):
        assert found.was == whole.quote(Inventory(box), desk.clock()).price.gross.likely


def test_only_the_newest_quotes_are_priced(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(price_preview, "QUOTES", 2)
    numbers = [desk.book(line()).number for _ in range(3)]
    assert [number for number, _ in desk.shop.ask(price_preview.read).quotes] == [numbers[2], numbers[1]]


def test_the_preview_goes_through_every_rule_of_the_new_book(desk: Desk) -> None:
    desk.book(line(count=3))
    basis = desk.shop.ask(price_preview.read)
    rules = replace(
        basis.book,
        rounding=Rounding(500, RoundingMode.DOWN),
        further_taxes=(TaxRate("city tax", Decimal(3)),),
        inspection_fee=InspectionFee(1200),
    )
    cannot = (TapeLine(1, FormatName("vhs"), findings=(Finding.MOULD,)),)
    found = price_preview.changes(basis, (*BOXES, cannot), rules)
    assert all(each.now is not None and each.now % 500 == 0 for each in (*found.boxes, *found.orders))
    assert found.boxes[-1].was == 0
    assert found.boxes[-1].now == 1000  # 12.00 and two taxes, 13.35, down to a multiple of 5.00
    untaxed = price_preview.changes(
        basis, BOXES, replace(basis.book, tax=replace(basis.book.tax, mode=TaxMode.NONE))
    )
    assert all((each.now or 0) < (each.was or 0) for each in (*untaxed.boxes, *untaxed.orders))


# --- boxes as they are written -----------------------------------------------------------


@pytest.mark.parametrize("box", BOXES)
def test_the_boxes_are_read_as_they_are_written(box: tuple[TapeLine, ...]) -> None:
    assert written_tapes.lines(written_tapes.written(box)) == box


def test_a_box_may_be_written_as_one_says_it() -> None:
    found = written_tapes.lines("2 vhs t120, snapped Hi8,S-VHS-C")
    assert found == (
        TapeLine(2, FormatName("vhs"), "T-120"),
        TapeLine(1, FormatName("hi8"), findings=(Finding.SNAPPED,)),
        TapeLine(1, FormatName("s-vhs-c")),
    )


@pytest.mark.parametrize("text", ["", " , ", "3", "0 VHS", "3 vinyl", "3 VHS T-999", "9999999 VHS"])
def test_what_is_no_box_is_refused(text: str) -> None:
    with pytest.raises(WrongInput):
        written_tapes.lines(text)


# --- old orders keep their prices --------------------------------------------------------

_edits = st.lists(
    st.one_of(
        st.tuples(st.just("capture"), st.sampled_from(["vhs", "hi8"]), st.integers(0, 9999)),
        st.tuples(st.just("repair"), st.just("splice"), st.integers(0, 9999)),
        st.tuples(st.just("minimum"), st.just("price"), st.integers(0, 9999)),
        st.tuples(st.just("tax"), st.just("percent"), st.integers(0, 99)),
    ),
    min_size=1,
    max_size=4,
)


@settings(deadline=None, max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(_edits, st.integers(-40, 40), st.booleans())
def test_no_edited_book_reaches_an_old_order(
    file_desk: Desk, edits: list[tuple[str, str, int]], days: int, by_csv: bool
) -> None:
    """By the paper's bytes, the quote's text and the price at pickup; whatever day the book is valid from."""
    shop = file_desk.shop
    job = file_desk.book(line(count=2), line("hi8", marking=None, findings=(Finding.SNAPPED,)))
    before = _kept(file_desk, job.number)
    file_desk.clock.go_on(minutes=1)
    content: dict[str, Any] = dict(shop.ask(price_books.document_in_force, TODAY))
    for table, key, figure in edits:
        deep = table in ("capture", "repair")
        inner = {**content[table][key], "price": str(figure)} if deep else str(figure)
        content[table] = {**content[table], key: inner}
    content["valid_from"] = date.fromordinal(TODAY.toordinal() + days)
    if by_csv:
        shop.run(shop_document.take_over_prices, price_csv.written(content), "x.csv")
    else:
        shop.run(price_books.enter, content)
    assert _kept(file_desk, job.number) == before


def _kept(desk: Desk, number: JobNumber) -> tuple[bytes, str, object]:
    job = desk.shop.ask(jobs.get, number)
    paper = quote_paper.render(job.quote, desk.shop.ask(shop_document.view).settings.front)
    return paper, serialization.dumps(job.quote), desk.shop.ask(jobs.reprice, number)
