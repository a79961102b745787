"""What is charged for a tape by what became of it: the book's own rule, else what is fair."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from core.model.dispositions import Disposition
from core.model.errors import WrongInput
from core.model.price_terms import InspectionFee
from core.model.ranges import exactly
from core.pricing import box_price, disposition_rules, price_book, price_csv, price_rows
from core.pricing.disposition_rules import DEFAULTS, DispositionRule
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import PlayCharge
from tests.support.shops import NO_COPIES, PLAYS, book, quoted, repaired

FEE = InspectionFee(500)


def codes(made: PriceBook, disposition: Disposition) -> set[str]:
    tape = replace(quoted(minutes=exactly(60), verdict=repaired("splice")), disposition=disposition)
    price = box_price.price([tape], NO_COPIES, made, rush=False)
    return {each.code for each in price.charges if each.amount.likely}


def stated(disposition: Disposition, **rule: object) -> dict[str, Any]:
    return {**price_book.document(book()), "dispositions": {disposition.value: rule}}


@pytest.mark.parametrize("disposition", Disposition)
def test_without_a_rule_nobody_pays_for_a_tape_that_was_not_copied(disposition: Disposition) -> None:
    found = codes(replace(book(), minimum_minor=0), disposition)
    assert found == ({"capture-vhs", "repair-splice"} if disposition.is_copied else set())


@pytest.mark.parametrize("disposition", Disposition)
def test_an_inspection_fee_is_charged_where_the_rule_says_so(disposition: Disposition) -> None:
    found = codes(replace(book(), inspection_fee=FEE), disposition)
    assert ("inspection" in found) is DEFAULTS[disposition].inspection


def test_a_book_may_charge_the_repairs_that_were_done() -> None:
    made = price_book.of_document(
        stated(Disposition.NOTHING_ON_IT, play="none", repairs=True, inspection=False), "book"
    )
    assert "repair-splice" in codes(made, Disposition.NOTHING_ON_IT)
    assert "repair-splice" not in codes(made, Disposition.NOT_WANTED)


@pytest.mark.parametrize(
    ("disposition", "rule"),
    [
        (Disposition.NOTHING_ON_IT, {"play": "full"}),
        (Disposition.NOT_WANTED, {"play": "played"}),
        (Disposition.LOST, {"play": "none", "repairs": True}),
        (Disposition.DAMAGED, {"play": "none", "inspection": True}),
        (Disposition.COPIED, {"play": "half"}),
    ],
)
def test_a_rule_that_would_charge_for_nothing_is_refused(
    disposition: Disposition, rule: dict[str, object]
) -> None:
    with pytest.raises(WrongInput, match=f"dispositions, {disposition.value}"):
        price_book.of_document(stated(disposition, **rule), "book")
    with pytest.raises(WrongInput, match="dispositions"):
        price_book.of_document(
            {**price_book.document(book()), "dispositions": {"gone": {"play": "none"}}}, "b"
        )


def test_a_book_from_before_is_the_book_it_was() -> None:
    older = {key: value for key, value in price_book.document(book()).items() if key != "dispositions"}
    assert price_book.of_document(older, "older") == book()
    own = replace(
        book(), dispositions={**DEFAULTS, Disposition.NOT_WANTED: DispositionRule(PlayCharge.NONE, True)}
    )
    assert price_book.of_document(price_book.document(own), "own") == own


def test_every_rule_has_its_row_and_comes_back_from_it() -> None:
    content = price_book.document(book())
    rows = price_rows.of_document(content)
    found = {row.code: row.way for row in rows if row.part == price_rows.DISPOSITIONS}
    assert found == {each.value: disposition_rules.spelled(rule) for each, rule in DEFAULTS.items()}
    assert price_book.of_document(price_rows.document(rows), "rows") == book()
    for each in Disposition:
        for rule in disposition_rules.possible(each):
            changed = [
                replace(row, way=disposition_rules.spelled(rule)) if row.code == each.value else row
                for row in rows
            ]
            made = price_book.of_document(price_rows.document(changed), "rows")
            assert made.dispositions[each] == rule
            written = price_csv.written(price_book.document(made))
            assert price_book.of_document(price_csv.parsed(written, "prices.csv"), "csv") == made


def test_a_row_that_is_no_rule_is_the_one_that_is_refused() -> None:
    rows = [
        replace(row, way="everything") if row.code == "lost" else row
        for row in price_rows.of_document(price_book.document(book()))
    ]
    with pytest.raises(WrongInput) as refused:
        price_book.of_document(price_rows.document(rows), "rows")
    fault = price_rows.fault(refused.value, "rows", rows)
    assert fault.row is not None
    assert (rows[fault.row].code, fault.column) == ("lost", "way")


def test_half_a_tape_is_charged_by_the_minutes_that_were_played() -> None:
    rules = {**DEFAULTS, Disposition.COPIED_IN_PART: DispositionRule(PlayCharge.FULL)}
    tape = quoted(minutes=exactly(20), verdict=PLAYS)
    for made in (book(), replace(book(), dispositions=rules)):
        price = box_price.price(
            [replace(tape, disposition=Disposition.COPIED_IN_PART)], NO_COPIES, made, rush=False
        )
        assert price.charges[0].amount.likely == int(Decimal(600))
