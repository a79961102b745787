"""Price books are dated, complete, and refused with a sentence when something in them is wrong."""

from __future__ import annotations

import os
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from core.catalogue import condition
from core.catalogue.formats import catalogue
from core.model import resource_files
from core.model.errors import WrongInput
from core.model.inventory import CARRIERS, Delivery
from core.model.ranges import exactly
from core.pricing import copy_sizes
from core.pricing.price_book import PriceBook, in_force, load
from core.pricing.price_book_file import Way

BOOKS = sorted(resource_files.path("pricebook").glob("*.toml"))
GOOD = resource_files.path("pricebook", "2026.toml").read_text(encoding="utf-8")


@pytest.fixture(params=BOOKS, ids=lambda path: path.stem)
def book(request: pytest.FixtureRequest) -> PriceBook:
    return load(request.param)


def test_the_book_in_force_is_the_youngest_that_has_begun() -> None:
    assert in_force(date(2025, 12, 31)).name == "Price book 2025"
    assert in_force(date(2026, 1, 1)).name == "Price book 2026"
    assert in_force(date(2031, 7, 1)).name == "Price book 2026"


def test_before_the_oldest_book_there_is_none() -> None:
    with pytest.raises(WrongInput, match="the oldest book starts on 2025-01-01"):
        in_force(date(2024, 12, 31))


def test_a_changed_book_is_read_again(tmp_path: Path) -> None:
    path = tmp_path / "one.toml"
    path.write_text(GOOD, encoding="utf-8")
    assert in_force(date(2026, 5, 1), tmp_path).name == "Price book 2026"
    path.write_text(GOOD.replace("Price book 2026", "Our prices, second printing"), encoding="utf-8")
    os.utime(path, ns=(1, 1))
    assert in_force(date(2026, 5, 1), tmp_path).name == "Our prices, second printing"


def test_the_books_that_come_with_the_program_say_that_they_are_invented(book: PriceBook) -> None:
    assert book.invented
    assert "Invented" in book.remark
    assert "Local tax law goes first" in book.tax.remark


def test_every_format_of_the_catalogue_has_a_price_of_its_own_or_of_one_it_is_like(book: PriceBook) -> None:
    for form in catalogue().formats:
        assert form.name in book.capture or form.record.priced_like in book.capture, form.name
    assert set(book.capture) <= set(catalogue().names)


def test_every_way_of_charging_is_used(book: PriceBook) -> None:
    assert {rate.way for rate in book.capture.values()} == set(Way)


def test_every_repair_has_a_price(book: PriceBook) -> None:
    assert set(book.repairs) >= set(condition.REPAIRS)


@pytest.mark.parametrize("minutes", [1, 60, 600, 6_000, 60_000])
@pytest.mark.parametrize("codec", copy_sizes.CODECS)
@pytest.mark.parametrize("carrier", CARRIERS)
def test_every_file_carrier_has_a_price(minutes: int, codec: str, carrier: str) -> None:
    length = exactly(float(minutes))
    made = copy_sizes.storage(length, [length], [Delivery("files", codec, carrier)])
    for path in BOOKS:
        assert all(load(path).media_rate(copy.code).minor > 0 for copy in made.copies)


@pytest.mark.parametrize("kind", copy_sizes.KINDS)
def test_every_kind_of_copy_has_a_price(kind: str, book: PriceBook) -> None:
    made = copy_sizes.storage(exactly(600.0), [exactly(300.0)] * 2, [Delivery(kind)])
    assert made.copies
    assert all(book.media_rate(copy.code).minor > 0 for copy in made.copies)


def test_a_bigger_stick_or_disk_never_costs_less(book: PriceBook) -> None:
    for kind in ("usb", "disk"):
        sizes = sorted(int(code.split("-")[1]) for code in book.media if code.startswith(f"{kind}-"))
        prices = [book.media_rate(f"{kind}-{size}").minor for size in sizes]
        assert len(prices) > 2
        assert prices == sorted(prices)


def test_prices_are_exact_minor_units() -> None:
    book = load(BOOKS[-1])
    assert book.tax.percent == Decimal("8.25")
    assert book.repair_rate("splice").minor == Decimal("1800")
    assert book.spelled(book.minimum_minor) == "$25.00"


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('price = "14.00" }', "price = 14.0 }", "capture, vhs-c, price: found 14.0; an amount in quotes"),
        ('price = "14.00" }', 'price = "-1" }', "capture, vhs-c, price: found '-1'"),
        ('price = "14.00" }', 'price = "NaN" }', "capture, vhs-c, price: found 'NaN'"),
        (
            'price = "14.00" }',
            'cost = "14.00" }',
            "capture, vhs-c: found 'cost'; the keys accepted here are way, price",
        ),
        (
            'way = "per-tape"',
            'way = "per-metre"',
            "vhs-c, way: found 'per-metre'; accepted are 'per-tape', 'per-period'",
        ),
        ("minutes = 30", "minutes = 0", "vhs, minutes: found 0; a whole number from 1 to 600"),
        (
            "valid_from = 2026-01-01",
            'valid_from = "soon"',
            "valid_from: found 'soon'; a date, like 2026-01-01",
        ),
        ('currency = "USD"', 'currency = "dollars"', "currency: found 'dollars'; a code of three capitals"),
        ('percent = "8.25"', 'percent = "150"', "tax, percent: found '150'; a percentage in quotes"),
        ('mode = "on-top"', 'mode = "beside"', "tax, mode: found 'beside'; accepted are 'on-top', 'inside'"),
        ("[rush]", "[hurry]", "found 'hurry'; the keys accepted here are"),
        ('[rush]\npercent = "30"', "", "found nothing; the key rush is needed"),
        ("minutes = 30, ", "", "capture, vhs: found None; minutes are accepted beside per-period"),
        ('"per-tape", ', '"per-tape", minutes = 5, ', "capture, vhs-c: found 5; minutes are accepted beside"),
        ("[repair]", "[repairs]", "found 'repairs'; the keys accepted here are"),
        ("invented = true", "invented = true\ncolour = 1", "found 'colour'; the keys accepted here are"),
        ("after = 25", "after = 9", "quantity_break 2, after: found 9; breaks are accepted in rising order"),
        ('percent = "15"', 'percent = "7"', "quantity_break 3, after: found 60; breaks are accepted"),
        ("[tax]", "[tax", "a file in TOML is accepted"),
    ],
)
def test_what_is_wrong_in_a_book_is_refused_by_file_and_key(
    tmp_path: Path, old: str, new: str, sentence: str
) -> None:
    path = tmp_path / "odd.toml"
    assert old in GOOD
    path.write_text(GOOD.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(WrongInput) as refused:
        load(path)
    assert "odd.toml" in refused.value.sentence
    assert sentence in refused.value.sentence


def test_a_file_that_is_not_there_is_refused_by_its_path(tmp_path: Path) -> None:
    with pytest.raises(WrongInput, match=r"gone\.toml"):
        load(tmp_path / "gone.toml")
