"""Dated price books: what the shop charges, read from TOML and never changed once in use.

A price book is a file in ``resources/pricebook``; a quote names the book it was made from, so an
old quote can always be explained. Prices in a book are invented until a shop writes its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from functools import lru_cache
from pathlib import Path

from core.model import resource_files
from core.model.errors import WrongInput
from core.model.frozen_mapping import FrozenMapping
from core.model.names import FormatName
from core.model.records import Rate
from core.model.toml_reader import Page, read


class TaxMode(Enum):
    ON_TOP = "on-top"
    INSIDE = "inside"


class Way(Enum):
    """How capture is charged."""

    PER_TAPE = "per-tape"
    PER_PERIOD = "per-period"
    PER_HOUR = "per-hour"


@dataclass(frozen=True, slots=True)
class Tax:
    """One rate for the whole job; ``remark`` says that local law goes first."""

    mode: TaxMode
    percent: Decimal
    words: str
    remark: str


@dataclass(frozen=True, slots=True)
class CaptureRate:
    """``minor`` for a tape, for each started period of ``period_minutes``, or for each hour played."""

    way: Way
    minor: Decimal
    period_minutes: int = 60


@dataclass(frozen=True, slots=True)
class QuantityBreak:
    """``percent`` off each tape beyond the first ``after``."""

    after: int
    percent: Decimal


@dataclass(frozen=True, slots=True)
class PriceBook:
    """Everything a price is made from. Money in minor units, rates exact."""

    name: str
    remark: str
    invented: bool
    currency: str
    minor_digits: int
    valid_from: date
    quote_valid_days: int
    tax: Tax
    capture: Mapping[FormatName, CaptureRate]
    repairs: Mapping[str, Rate]
    media: Mapping[str, Rate]
    rush_percent: Decimal
    breaks: tuple[QuantityBreak, ...]
    minimum_minor: int
    deposit_percent: Decimal
    ceiling_percent: Decimal

    def __post_init__(self) -> None:
        for table in ("capture", "repairs", "media"):
            object.__setattr__(self, table, FrozenMapping(getattr(self, table)))

    @property
    def whole_unit(self) -> int:
        """Minor units in one unit of the currency: 100 for USD."""
        return int(10**self.minor_digits)

    def capture_rate(self, format: FormatName) -> CaptureRate:
        """How this format is charged; WrongInput when the shop does not take it."""
        try:
            return self.capture[format]
        except KeyError:
            raise self._has_no("capture", format, self.capture) from None

    def repair_rate(self, code: str) -> Rate:
        """Price of one action at the bench; WrongInput when the book has none."""
        return self._rate("repair", code, self.repairs)

    def media_rate(self, code: str) -> Rate:
        """Price of one disc or stick; WrongInput when the book has none."""
        return self._rate("media", code, self.media)

    def spelled(self, minor: int) -> str:
        """An amount for use inside a sentence: ``25.00 USD``."""
        return f"{Decimal(minor).scaleb(-self.minor_digits)} {self.currency}"

    def _rate(self, kind: str, code: str, rates: Mapping[str, Rate]) -> Rate:
        try:
            return rates[code]
        except KeyError:
            raise self._has_no(kind, code, rates) from None

    def _has_no(
        self, kind: str, code: str, known: Mapping[FormatName, object] | Mapping[str, object]
    ) -> WrongInput:
        return WrongInput(
            f"{kind} price in {self.name}", code, "it has prices for " + ", ".join(sorted(known))
        )


def in_force(on: date, folder: Path | None = None) -> PriceBook:
    """The book in force on a day: the youngest that is valid by then; WrongInput when there is none."""
    folder = folder or resource_files.path("pricebook")
    books = _all_in(folder, _stamp(folder))
    valid = [book for book in books if book.valid_from <= on]
    if not valid:
        earliest = books[0].valid_from.isoformat() if books else "(there is no book)"
        raise WrongInput("date of the price book", on.isoformat(), f"the oldest book starts on {earliest}")
    return valid[-1]


def load(path: Path) -> PriceBook:
    """Read one price book. WrongInput names the file, the key, what was found and what is accepted."""
    page = read(path)
    digits = page.whole("minor_digits", least=0, most=4)
    tax, capture = page.table("tax"), page.table("capture")
    book = PriceBook(
        name=page.text("name"),
        remark=page.text("remark"),
        invented=page.flag("invented"),
        currency=_currency(page),
        minor_digits=digits,
        valid_from=page.day("valid_from"),
        quote_valid_days=page.whole("quote_valid_days", least=1, most=365),
        tax=_tax(tax),
        capture={FormatName(key): _capture_rate(capture.table(key), digits) for key in capture},
        repairs=_rates(page.table("repair"), digits),
        media=_rates(page.table("media"), digits),
        rush_percent=_percent_of(page, "rush"),
        breaks=_breaks(page.tables("quantity_break")),
        minimum_minor=int(_minimum(page.table("minimum"), digits)),
        deposit_percent=_percent_of(page, "deposit", most=100),
        ceiling_percent=_percent_of(page, "ceiling"),
    )
    page.refuse_unread()
    return book


def _currency(page: Page) -> str:
    text = page.text("currency")
    if len(text) != 3 or not (text.isascii() and text.isalpha() and text.isupper()):
        raise page.wrong("currency", text, "a code of three capitals (ISO 4217) is accepted, like USD")
    return text


def _tax(page: Page) -> Tax:
    return Tax(
        mode=page.one_of("mode", TaxMode),
        percent=page.percent("percent", most=99),
        words=page.text("words"),
        remark=page.text("remark"),
    )


def _capture_rate(page: Page, digits: int) -> CaptureRate:
    way = page.one_of("way", Way)
    minutes = page.whole("minutes", least=1, most=600) if way is Way.PER_PERIOD else 60
    return CaptureRate(way, page.price("price", digits), minutes)


def _rates(page: Page, digits: int) -> dict[str, Rate]:
    def one(code: str) -> Rate:
        entry = page.table(code)
        return Rate(code, entry.text("words"), entry.price("price", digits))

    return {code: one(code) for code in page}


def _percent_of(page: Page, key: str, most: int = 1000) -> Decimal:
    return page.table(key).percent("percent", most=most)


def _minimum(page: Page, digits: int) -> Decimal:
    minor = page.price("price", digits)
    if minor != minor.to_integral_value():
        raise page.wrong("price", str(minor), "whole minor units are accepted for the smallest job")
    return minor


def _breaks(pages: tuple[Page, ...]) -> tuple[QuantityBreak, ...]:
    """The breaks in order; each must start later and take off at least as much as the one before."""
    breaks: list[QuantityBreak] = []
    for page in pages:
        found = QuantityBreak(page.whole("after", least=1, most=10_000), page.percent("percent", most=100))
        if breaks and (found.after <= breaks[-1].after or found.percent < breaks[-1].percent):
            raise page.wrong(
                "after", found.after, "breaks are accepted in rising order of tapes and of percent"
            )
        breaks.append(found)
    return tuple(breaks)


def _stamp(folder: Path) -> tuple[tuple[str, int], ...]:
    """Names and times of the files, so that a changed book is read again."""
    return tuple((path.name, path.stat().st_mtime_ns) for path in sorted(folder.glob("*.toml")))


@lru_cache(maxsize=8)
def _all_in(folder: Path, stamp: tuple[tuple[str, int], ...]) -> tuple[PriceBook, ...]:
    books = (load(folder / name) for name, _ in stamp)
    return tuple(sorted(books, key=lambda book: book.valid_from))
