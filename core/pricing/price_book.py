"""Dated price books: what the shop charges, read from TOML and never changed once in use.

A price book is a file in ``resources/pricebook``; a quote names the book it was made from, so an
old quote can always be explained. Prices in a book are invented until a shop writes its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import lru_cache
from itertools import pairwise
from pathlib import Path

from core.model import resource_files
from core.model.errors import WrongInput, at
from core.model.frozen_mapping import FrozenMapping
from core.model.names import FormatName
from core.model.settings_records import Rate
from core.model.shaped_toml import ROOM, read, shaped
from core.pricing.price_book_file import BreakEntry, CaptureEntry, PriceBookFile, TaxMode, Way
from core.wording import locale_figures
from core.wording.messages import say


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
        """An amount for use inside a sentence: ``$25.00``."""
        return locale_figures.money(minor, self.currency)

    def _rate(self, kind: str, code: str, rates: Mapping[str, Rate]) -> Rate:
        try:
            return rates[code]
        except KeyError:
            raise self._has_no(kind, code, rates) from None

    def _has_no(
        self, kind: str, code: str, known: Mapping[FormatName, object] | Mapping[str, object]
    ) -> WrongInput:
        place = say(ROOM, "price-in-book", kind=kind, book=self.name)
        return WrongInput(place, code, say(ROOM, "no-price", names=", ".join(sorted(known))))


def in_force(on: date, folder: Path | None = None) -> PriceBook:
    """The book in force on a day: the youngest that is valid by then; WrongInput when there is none."""
    folder = folder or resource_files.path("pricebook")
    books = _all_in(folder, _stamp(folder))
    valid = [book for book in books if book.valid_from <= on]
    if not valid:
        earliest = books[0].valid_from.isoformat() if books else say(ROOM, "no-book")
        raise WrongInput(say(ROOM, "date-of-book"), on.isoformat(), say(ROOM, "oldest-book", day=earliest))
    return valid[-1]


def load(path: Path) -> PriceBook:
    """Read one price book. WrongInput names the file, the key, what was found and what is accepted."""
    page = shaped(read(path), PriceBookFile, path.name)
    digits = page.minor_digits
    return PriceBook(
        name=page.name,
        remark=page.remark,
        invented=page.invented,
        currency=page.currency,
        minor_digits=digits,
        valid_from=page.valid_from,
        quote_valid_days=page.quote_valid_days,
        tax=Tax(page.tax.mode, Decimal(page.tax.percent), page.tax.words, page.tax.remark),
        capture={
            FormatName(name): _capture_rate(at(path.name, "capture", name), rate, digits)
            for name, rate in page.capture.items()
        },
        repairs={code: Rate(code, one.words, _minor(one.price, digits)) for code, one in page.repair.items()},
        media={code: Rate(code, one.words, _minor(one.price, digits)) for code, one in page.media.items()},
        rush_percent=Decimal(page.rush.percent),
        breaks=_breaks(path.name, page.quantity_break),
        minimum_minor=_minimum(path.name, _minor(page.minimum.price, digits)),
        deposit_percent=Decimal(page.deposit.percent),
        ceiling_percent=Decimal(page.ceiling.percent),
    )


def _capture_rate(where: str, rate: CaptureEntry, digits: int) -> CaptureRate:
    if (rate.way is Way.PER_PERIOD) is (rate.minutes is None):
        raise WrongInput(where, rate.minutes, say(ROOM, "period-minutes"))
    return CaptureRate(rate.way, _minor(rate.price, digits), rate.minutes or 60)


def _minor(price: str, digits: int) -> Decimal:
    return Decimal(price).scaleb(digits)


def _minimum(where: str, minor: Decimal) -> int:
    if minor != minor.to_integral_value():
        raise WrongInput(at(where, "minimum", "price"), str(minor), say(ROOM, "whole-minor"))
    return int(minor)


def _breaks(where: str, entries: tuple[BreakEntry, ...]) -> tuple[QuantityBreak, ...]:
    """The breaks in order; each must start later and take off at least as much as the one before."""
    breaks = tuple(QuantityBreak(entry.after, Decimal(entry.percent)) for entry in entries)
    for n, (before, found) in enumerate(pairwise(breaks), 2):
        if found.after <= before.after or found.percent < before.percent:
            accepted = say(ROOM, "rising-breaks")
            raise WrongInput(at(where, f"quantity_break {n}", "after"), found.after, accepted)
    return breaks


def _stamp(folder: Path) -> tuple[tuple[str, int], ...]:
    """Names and times of the files, so that a changed book is read again."""
    return tuple((path.name, path.stat().st_mtime_ns) for path in sorted(folder.glob("*.toml")))


@lru_cache(maxsize=8)
def _all_in(folder: Path, stamp: tuple[tuple[str, int], ...]) -> tuple[PriceBook, ...]:
    books = (load(folder / name) for name, _ in stamp)
    return tuple(sorted(books, key=lambda book: book.valid_from))
