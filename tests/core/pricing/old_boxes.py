"""Boxes priced once by the books that come with the program, and what they cost then."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from core.model import resource_files
from core.model.names import FormatName
from core.model.quote_records import Copy, Price, QuotedTape, Storage
from core.model.ranges import ZERO, Range, exactly
from core.pricing import price_book
from core.pricing.box_price import price
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode
from tests.support.shops import CANNOT, quoted, repaired

KEPT = Path(__file__).with_name("old_prices.json")
"""What `prices` gave before a book could say more than one tax, fees and a rounding; never written again."""


def books() -> Iterator[PriceBook]:
    """The books in resources as they are, and with their prices taken as having the tax inside."""
    for path in sorted(resource_files.path("pricebook").glob("*.toml")):
        book = price_book.load(path)
        yield book
        yield replace(book, name=f"{book.name}, inside", tax=replace(book.tax, mode=TaxMode.INSIDE))


def boxes() -> Iterator[tuple[list[QuotedTape], Storage]]:
    """One tape; a mixed box with repairs and a tape that cannot be played; a box beyond every break."""
    yield [quoted(minutes=Range(20, 55, 118))], Storage(ZERO, ZERO, ())
    mixed = [
        quoted(1, 1, minutes=Range(30, 61, 121), verdict=repaired("splice", "lid-swap")),
        quoted(1, 2, minutes=exactly(47.5)),
        quoted(2, format="hi8", minutes=Range(20, 90, 121)),
        quoted(3, format="u-matic", minutes=Range(11, 33.3, 61.7)),
        quoted(4, format="vhs-c", minutes=exactly(30)),
        quoted(5, verdict=CANNOT, minutes=ZERO),
    ]
    sticks = (Copy("usb-32", "USB stick, 32 GB", exactly(1)), Copy("dvd-r", "DVD-R disc", Range(3, 4, 6)))
    yield mixed, Storage(Range(8, 12, 20), Range(3, 4, 6), sticks)
    many = [quoted(n % 7 + 1, n, minutes=Range(10 + n, 40 + n, 90 + 2 * n)) for n in range(1, 71)]
    tapes = [replace(tape, draft=replace(tape.draft, format=_format(tape.line))) for tape in many]
    yield tapes, Storage(ZERO, ZERO, (Copy("disk-1000", "hard disk, 1 TB", exactly(1)),))


def _format(line: int) -> FormatName:
    return FormatName(("vhs", "hi8", "minidv", "dvcam", "vhs-c", "betamax", "audio-cassette")[line - 1])


def prices() -> Iterator[tuple[str, Price]]:
    """Every box by every book, hurried or not, held to a ceiling or not."""
    for book in books():
        for number, (tapes, storage) in enumerate(boxes(), 1):
            for rush in (False, True):
                for agreed in (None, 1999, 123_457):
                    made = price(tapes, storage, book, rush=rush, agreed_ceiling=agreed)
                    yield f"{book.name}, box {number}, rush {rush}, agreed {agreed}", made


def kept() -> Mapping[str, Mapping[str, Any]]:
    """The prices as they were written down."""
    found: Mapping[str, Mapping[str, Any]] = json.loads(KEPT.read_text(encoding="utf-8"))
    return found
