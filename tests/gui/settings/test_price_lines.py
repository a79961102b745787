"""What is typed into the price table is read in the shop's locale, and complained of where it stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from core.catalogue.formats import catalogue
from core.model.price_terms import ChargeKind, InspectionFee, InspectionWay, StorageFee, StoragePeriod
from core.pricing import price_book, price_rows
from core.pricing.price_book import PriceBook, in_force
from core.pricing.price_book_file import RoundingMode
from core.pricing.price_rules import Rounding, TaxRate
from core.wording import messages
from gui.settings import price_lines
from gui.settings.price_lines import PriceLine

BOOK = in_force(date(2026, 3, 1))
CONTENT = price_book.document(BOOK)
HEADING = {row.code: row.value for row in price_rows.of_document(CONTENT) if row.part == "book"}


@pytest.fixture
def german() -> Iterator[None]:
    messages.use("en", "de_DE")
    yield
    messages.use("en")


def place_of(lines: tuple[PriceLine, ...], part: str, code: str) -> int:
    return next(n for n, line in enumerate(lines) if (line.row.part, line.row.code) == (part, code))


def typed(part: str, code: str, column: str, text: str) -> tuple[PriceLine, ...]:
    lines = list(price_lines.lines(CONTENT))
    place = place_of(tuple(lines), part, code)
    lines[place] = price_lines.written(lines[place], column, text)
    return price_lines.arranged(lines)


def test_the_lines_of_a_book_make_the_same_book() -> None:
    book, lines = price_lines.checked(price_lines.lines(CONTENT), HEADING)
    assert book == BOOK
    assert price_lines.first_wrong(lines) is None
    assert {line.row.code for line in lines if line.row.part == "capture"} == set(catalogue().names)


def test_amounts_are_shown_and_typed_in_the_locale(german: None) -> None:
    lines = typed("capture", "vhs", "price", "93,15")
    assert lines[0].shown("price") == "93,15"
    assert lines[0].row.price == "93.15"
    assert lines[place_of(lines, "terms", "tax")].shown("percent") == "8,25%"
    assert typed("capture", "vhs", "price", "93.15")[0].wrong("price") == ("an amount like 9,50 is accepted")


@pytest.mark.parametrize(
    ("part", "code", "column", "text", "sentence"),
    [
        ("capture", "vhs", "price", "93,15", "an amount like 9.50 is accepted"),
        ("capture", "vhs", "price", "-1", "an amount like 9.50 is accepted"),
        ("capture", "vhs", "price", "6.005", "an amount like 9.50 is accepted"),
        ("capture", "vhs", "way", "by the meter", "one of the ways offered is accepted"),
        ("capture", "vhs", "number", "0", "a whole number is accepted: minutes to 600"),
        ("capture", "vhs", "number", "half", "a whole number is accepted: minutes to 600"),
        ("repair", "splice", "price", "", "an amount like 9.50 is accepted"),
        ("repair", "splice", "words", "", "one line of words is accepted"),
        ("terms", "deposit", "percent", "101", "a percentage from 0 to 100 is accepted"),
        ("terms", "tax", "percent", "x", "a percentage from 0 to 100 is accepted"),
        ("terms", "quote_valid_days", "number", "366", "days to 365"),
        ("quantity_break", "2", "number", "9", "each step is accepted after more tapes"),
    ],
)
def test_what_is_not_accepted_is_told_at_its_cell(
    part: str, code: str, column: str, text: str, sentence: str
) -> None:
    book, lines = price_lines.checked(typed(part, code, column, text), HEADING)
    place = place_of(lines, part, code)
    assert book is None
    assert sentence in lines[place].wrong(column)
    assert [n for n, line in enumerate(lines) if any(map(line.wrong, price_lines.COLUMNS))] == [place]
    found = price_lines.first_wrong(lines)
    assert found is not None
    assert found[:2] == (place, column)
    assert text in lines[place].shown(column)


def test_a_way_brings_its_minutes_and_takes_them_away() -> None:
    lines = typed("capture", "vhs-c", "way", "by started period")
    line = lines[place_of(lines, "capture", "vhs-c")]
    assert (line.shown("number"), line.is_edited("number")) == ("30 min", True)
    line = price_lines.written(line, "way", "by the hour")
    assert (line.shown("number"), line.is_edited("number")) == ("", False)


def test_a_format_without_a_price_is_not_in_the_book_and_comes_back_with_one() -> None:
    book, lines = price_lines.checked(typed("capture", "vhs", "price", ""), HEADING)
    assert book is not None
    assert "vhs" not in book.capture
    again = [price_lines.written(line, "price", "6.00") if line.row.code == "vhs" else line for line in lines]
    assert price_lines.checked(again, HEADING)[0] == BOOK


def test_a_further_break_is_typed_into_the_empty_line_and_removed_by_emptying_it() -> None:
    lines = list(typed("quantity_break", "4", "number", "100"))
    assert price_lines.checked(lines, HEADING)[0] is None
    place = place_of(tuple(lines), "quantity_break", "4")
    lines[place] = price_lines.written(lines[place], "percent", "20 %")
    book, shown = price_lines.checked(price_lines.arranged(lines), HEADING)
    assert book is not None
    assert [step.after for step in book.breaks] == [10, 25, 60, 100]
    emptied = [
        price_lines.written(price_lines.written(line, "number", ""), "percent", "")
        if line.row.code == "1" and line.row.part == "quantity_break"
        else line
        for line in shown
    ]
    book, _ = price_lines.checked(price_lines.arranged(emptied), HEADING)
    assert book is not None
    assert [step.after for step in book.breaks] == [25, 60, 100]


def test_a_price_in_fractions_of_a_cent_stays_until_it_is_typed_over() -> None:
    content = price_book.document(BOOK)
    content["capture"]["vhs"] = {**content["capture"]["vhs"], "price": "6.005"}
    lines = price_lines.lines(content)
    assert lines[0].shown("price") == "6.005"
    assert price_lines.written(lines[0], "price", "6.005") == lines[0]
    book, _ = price_lines.checked(lines, HEADING)
    assert book == price_book.of_document(content, "x")


def test_each_part_is_headed_once() -> None:
    heads = [line.head for line in price_lines.lines(CONTENT) if line.head]
    assert heads == ["Copying", "Repairs", "Copies on", "Outcomes", "Terms"]
    assert replace(price_lines.lines(CONTENT)[0], head="") != price_lines.lines(CONTENT)[0]


# --- the newer rows ----------------------------------------------------------------------


def book_of(*changes: tuple[str, str, str, str]) -> PriceBook:
    lines = price_lines.lines(CONTENT)
    for part, code, column, text in changes:
        changed = list(lines)
        place = place_of(lines, part, code)
        changed[place] = price_lines.written(changed[place], column, text)
        lines = price_lines.arranged(changed)
    found, shown = price_lines.checked(lines, HEADING)
    assert found is not None, price_lines.first_wrong(shown)
    return found


def test_every_way_of_charging_with_its_minimum_is_typed_into_the_table() -> None:
    book = book_of(
        ("capture", "vhs", "minimum", "9.00"),
        ("capture", "hi8", "way", "by the hour"),
        ("capture", "hi8", "price", "20"),
        ("capture", "hi8", "minimum", "10"),
        ("capture", "vhs-c", "minimum", "14.00"),
    )
    found = [(book.capture[name].way.value, book.capture[name].minimum) for name in ("vhs", "hi8", "vhs-c")]
    assert found == [("per-period", 900), ("per-hour", 1000), ("per-tape", 1400)]


def test_fees_and_the_rounding_are_typed_and_an_emptied_price_is_none() -> None:
    fees = (
        ("terms", "inspection_fee", "price", "12"),
        ("terms", "inspection_fee", "way", "once for the order"),
        ("terms", "storage_fee", "price", "1.50"),
        ("terms", "storage_fee", "way", "for each week begun"),
        ("terms", "storage_fee", "number", "after 60 days"),
        ("terms", "rounding", "price", "0.05"),
        ("terms", "rounding", "way", "the next below"),
    )
    book = book_of(*fees)
    assert book.inspection_fee == InspectionFee(1200, InspectionWay.PER_BOX)
    assert book.storage_fee == StorageFee(150, StoragePeriod.WEEK, 60)
    assert book.rounding == Rounding(5, RoundingMode.DOWN)
    assert book_of(*fees, ("terms", "inspection_fee", "price", "")).inspection_fee.minor == 0


def test_a_further_tax_is_typed_into_its_empty_line_and_removed_by_emptying_it() -> None:
    typed_tax = (
        ("further_tax", "1", "words", "city tax"),
        ("further_tax", "1", "percent", "2.5%"),
        ("further_tax", "1", "number", "discs and sticks"),
        ("terms", "tax", "number", "everything"),
    )
    book = book_of(*typed_tax)
    assert book.further_taxes == (TaxRate("city tax", Decimal("2.5"), (ChargeKind.GOODS,)),)
    emptied = book_of(*typed_tax, ("further_tax", "1", "words", ""), ("further_tax", "1", "percent", ""))
    assert emptied.further_taxes == ()
    assert book_of(("terms", "tax", "way", "no tax")).taxes == ()


def test_a_count_shows_its_unit_and_is_read_with_it_or_without() -> None:
    lines = price_lines.lines(CONTENT)
    shown = {
        (part, code): lines[place_of(lines, part, code)].shown("number")
        for part, code in (
            *(("capture", "vhs"), ("quantity_break", "1"), ("terms", "quote_valid_days")),
            *(("terms", "storage_fee"), ("terms", "tax"), ("terms", "deposit")),
        )
    }
    assert list(shown.values()) == ["30 min", "after 10 tapes", "30 days", "after 30 days", "everything", ""]
    assert lines[place_of(lines, "terms", "deposit")].shown("percent") == "30%"
    assert book_of(("capture", "vhs", "number", "15 min")).capture["vhs"].period_minutes == 15
    assert typed("capture", "vhs", "number", "15 tapes")[0].wrong("number")


@pytest.mark.parametrize(
    ("part", "code", "column", "text", "sentence"),
    [
        ("terms", "rounding", "price", "0.005", "an amount like 9.50 is accepted"),
        ("terms", "storage_fee", "number", "4000", "of storage: to 3650"),
        ("terms", "tax", "number", "cassettes", "one of the kinds of charges offered"),
        ("capture", "vhs-c", "minimum", "14.01", "at most that price is accepted"),
        ("further_tax", "1", "percent", "2", "one line of words is accepted"),
    ],
)
def test_what_is_not_accepted_in_a_newer_row_is_told_at_its_cell(
    part: str, code: str, column: str, text: str, sentence: str
) -> None:
    book, lines = price_lines.checked(typed(part, code, column, text), HEADING)
    found = price_lines.first_wrong(lines)
    assert book is None
    assert found is not None
    assert sentence in found[2].sentence
    assert found[0] == place_of(lines, part, code)


def test_every_row_of_the_terms_says_what_it_is_for() -> None:
    terms = [
        line for line in price_lines.lines(CONTENT) if line.row.part not in ("capture", "repair", "media")
    ]
    assert all(len(line.means) > 20 for line in terms)


def test_the_storage_fee_says_what_it_comes_to() -> None:
    lines = typed("terms", "storage_fee", "price", "1.50")
    assert lines[place_of(lines, "terms", "storage_fee")].means.endswith("Picked up after 60 days: $45.00.")
    assert "Picked up" not in typed("terms", "storage_fee", "price", "x")[0].means
