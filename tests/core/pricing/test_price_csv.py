"""A price book goes out as CSV and comes back the same; what does not fit is named by row and column."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.model.errors import WrongInput
from core.model.names import FormatName
from core.model.own_shop.settings_records import Rate
from core.model.price_terms import ChargeKind, InspectionFee, InspectionWay, StorageFee, StoragePeriod
from core.pricing import price_book, price_csv, price_rows
from core.pricing.price_book import PriceBook, in_force
from core.pricing.price_book_file import RoundingMode, TaxMode, Way
from core.pricing.price_rules import CaptureRate, QuantityBreak, Rounding, TaxRate

BOOK = in_force(date(2026, 3, 1))

_words = st.text(st.characters(exclude_categories=("C", "Z")), min_size=1, max_size=30)
_odd_words = _words | st.sampled_from(
    ["=1+1", "+49", "-x", "@home", "'quoted", "'=x", 'a "b", c', "two\nlines", "\tx"]
)
_minor = st.integers(0, 9_999_999).map(Decimal)
_percent = st.integers(0, 100).map(Decimal)
_rates = (
    st.builds(CaptureRate, st.just(Way.PER_TAPE), _minor, minimum=st.just(Decimal(0)))
    | st.builds(CaptureRate, st.just(Way.PER_HOUR), _minor, minimum=_minor)
    | st.builds(CaptureRate, st.just(Way.PER_PERIOD), _minor, st.integers(1, 600), _minor)
)
_on = st.sampled_from([tuple(ChargeKind), (ChargeKind.GOODS,), (ChargeKind.COPYING, ChargeKind.REPAIR)])
_taxes = st.lists(st.builds(TaxRate, _odd_words, st.integers(0, 30).map(Decimal), _on), max_size=2).map(tuple)


def _named(rates: dict[str, Decimal], words: list[str]) -> dict[str, Rate]:
    return {code: Rate(code, said, minor) for (code, minor), said in zip(rates.items(), words, strict=False)}


_books = st.builds(
    replace,
    st.just(BOOK),
    name=_odd_words,
    remark=_odd_words,
    invented=st.booleans(),
    quote_valid_days=st.integers(1, 365),
    capture=st.dictionaries(st.sampled_from([*BOOK.capture, FormatName("reel")]), _rates),
    repairs=st.builds(
        _named, st.dictionaries(st.sampled_from(list(BOOK.repairs)), _minor), st.lists(_odd_words, min_size=7)
    ),
    rush_percent=_percent,
    deposit_percent=_percent,
    breaks=st.just(())
    | st.integers(1, 900).map(lambda n: (QuantityBreak(n, Decimal(3)), QuantityBreak(n + 4, Decimal(7)))),
    minimum_minor=st.integers(0, 99_999),
    tax=st.builds(replace, st.just(BOOK.tax), mode=st.sampled_from(TaxMode), on=_on),
    further_taxes=_taxes,
    rounding=st.builds(Rounding, st.integers(0, 1000), st.sampled_from(RoundingMode)),
    inspection_fee=st.builds(InspectionFee, st.integers(0, 9999), st.sampled_from(InspectionWay)),
    storage_fee=st.builds(
        StorageFee, st.integers(0, 999), st.sampled_from(StoragePeriod), st.integers(1, 3650)
    ),
)


@given(_books)
def test_what_goes_out_comes_back_the_same(book: PriceBook) -> None:
    text = price_csv.written(price_book.document(book))
    content = price_csv.parsed(text, "prices.csv")
    assert price_book.of_document(content, "prices.csv") == book
    assert price_csv.written(content) == text


@given(_books)
def test_no_cell_begins_as_a_formula(book: PriceBook) -> None:
    """First characters after OWASP, CSV Injection (from memory): = + - @ tab and carriage return."""
    text = price_csv.written(price_book.document(book))
    cells = [cell for line in csv.reader(io.StringIO(text, newline="")) for cell in line]
    assert len(cells) % len(price_rows.COLUMNS) == 0
    assert not [cell for cell in cells if cell[:1] in ("=", "+", "-", "@", "\t", "\r")]


def test_lines_end_and_quotes_double_as_rfc_4180_says() -> None:
    """RFC 4180, section 2, rules 1 and 5 to 7."""
    book = replace(BOOK, name='The "new", book')
    text = price_csv.written(price_book.document(book))
    assert text.startswith("part,code,words,way,price,minutes,percent,value,minimum,on\r\n")
    assert '"The ""new"", book",,\r\n' in text
    assert text.count("\n") == text.count("\r\n")


def test_rows_may_be_moved_columns_too_and_empty_ones_are_left_out() -> None:
    lines = list(csv.DictReader(io.StringIO(price_csv.written(price_book.document(BOOK)), newline="")))
    out = io.StringIO()
    table = csv.DictWriter(out, [*reversed(price_rows.COLUMNS)])
    table.writeheader()
    table.writerows([*(each for each in lines if each["part"] != "book"), {}, *lines[:5]])
    assert price_book.of_document(price_csv.parsed("\ufeff" + out.getvalue(), "x"), "x") == BOOK


def test_a_file_from_before_the_newer_columns_and_rows_is_read() -> None:
    lines = list(csv.DictReader(io.StringIO(price_csv.written(price_book.document(BOOK)), newline="")))
    newer = ("rounding", "inspection_fee", "storage_fee")
    out = io.StringIO()
    oldest = [column for column in price_rows.COLUMNS if column not in price_rows.NEWER_COLUMNS]
    table = csv.DictWriter(out, oldest, extrasaction="ignore")
    table.writeheader()
    table.writerows(each for each in lines if each["code"] not in newer)
    assert price_book.of_document(price_csv.parsed(out.getvalue(), "x"), "x") == BOOK


def test_each_way_of_charging_and_its_minimum_stand_in_a_row_of_their_own() -> None:
    ways = {
        FormatName("vhs"): CaptureRate(Way.PER_PERIOD, Decimal(600), 30, Decimal(900)),
        FormatName("hi8"): CaptureRate(Way.PER_HOUR, Decimal(2000), minimum=Decimal(1000)),
        FormatName("vhs-c"): CaptureRate(Way.PER_TAPE, Decimal(1400), minimum=Decimal(1400)),
    }
    text = price_csv.written(price_book.document(replace(BOOK, capture=ways)))
    assert "capture,vhs,VHS,per-period,6.00,30,,,9.00,\r\n" in text
    assert "capture,hi8,Hi8,per-hour,20.00,,,,10.00,\r\n" in text
    assert "capture,vhs-c,VHS-C,per-tape,14.00,,,,14.00,\r\n" in text
    assert price_book.of_document(price_csv.parsed(text, "x"), "x").capture == ways


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        (
            "VHS-C,per-tape,14.00,,,,,",
            "VHS-C,per-tape,14.00,,,,15.00,",
            "row 9, minimum: found '15.00'; beside",
        ),
        ("copying, repair, goods", "copying, discs", "on: found 'discs'; accepted are 'copying', 'repair'"),
        ("round what is owed to,nearest", "round what is owed to,up", "way: found 'up'; accepted are"),
        ("inspection fee,per-tape,0.00", "inspection fee,per-tape,x", "price: found 'x'; an amount"),
        (",day,0.00,,,30", ",day,0.00,,,0", "value: found 0; a whole number from 1 to 3650"),
        ("VHS,per-period,6.00", 'VHS,per-period,"6,00"', "prices.csv, row 7, price: found '6,00'; an amount"),
        ("VHS,per-period,6.00", "VHS,per-tap,6.00", "prices.csv, row 7, way: found 'per-tap'; accepted are"),
        ("VHS,per-period,6.00,30", "VHS,per-period,6.00,x", "prices.csv, row 7, minutes: found 'x'; a whole"),
        ("VHS,per-period,6.00,30", "VHS,per-period,6.00,", "prices.csv, row 7, minutes: found None; minutes"),
        ("VHS,per-period,6.00,30,", "VHS,per-period,6.00,30,5", "row 7, percent: found '5'; this cell stays"),
        ("capture,vhs,", "captur,vhs,", "prices.csv, row 7, part: found 'captur'; accepted are book"),
        ("terms,rush,", "terms,hurry,", "code: found 'hurry'; accepted are minimum, rush"),
        ("capture,s-vhs,", "capture,vhs,", "row 8, code: found 'vhs'; a code is needed, once for each part"),
        ("part,code", "part,codes", "prices.csv, row 1: found 'part,codes"),
        ("currency,,,,,USD", "currency,,,,,dollar", "row 5, value: found 'dollar'; a code of three capitals"),
        (",,,10,25", ",,,10,7", "value: found 7; breaks are accepted in rising order"),
        ("remark,remark", 'remark,"remark', "prices.csv: found"),
    ],
)
def test_what_does_not_fit_is_named_by_row_and_column(old: str, new: str, sentence: str) -> None:
    text = price_csv.written(price_book.document(BOOK))
    assert old in text
    with pytest.raises(WrongInput) as refused:
        price_csv.parsed(text.replace(old, new, 1), "prices.csv")
    assert sentence in refused.value.sentence


def test_a_book_without_a_needed_row_is_refused_by_its_key() -> None:
    text = price_csv.written(price_book.document(BOOK))
    kept = [line for line in text.splitlines(keepends=True) if not line.startswith("terms,minimum")]
    with pytest.raises(WrongInput, match=r"prices.csv: found nothing; the key minimum is needed"):
        price_csv.parsed("".join(kept), "prices.csv")


_cells = st.text(max_size=6) | st.sampled_from(
    ["", "capture", "vhs", "6.00", "30", "per-tape", "book", "terms", "tax"]
)


@given(st.lists(st.lists(_cells, max_size=9), max_size=6), st.booleans())
def test_any_file_is_a_book_or_refused_with_a_sentence(lines: list[list[str]], with_heads: bool) -> None:
    out = io.StringIO()
    csv.writer(out).writerows([price_rows.COLUMNS, *lines] if with_heads else lines)
    content, sentence = _read(out.getvalue())
    assert sentence.startswith("any.csv") or price_book.of_document(content, "any.csv")


def _read(text: str) -> tuple[dict[str, Any], str]:
    try:
        return price_csv.parsed(text, "any.csv"), ""
    except WrongInput as refused:
        return {}, refused.sentence
