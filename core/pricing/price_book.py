"""Dated price books: what the shop charges, read from TOML and never changed once in use.

A price book is a file in ``resources/pricebook``; a quote names the book it was made from, so an
old quote can always be explained. Prices in a book are invented until a shop writes its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any

from core.model import resource_files
from core.model.errors import WrongInput, at
from core.model.frozen_mapping import FrozenMapping
from core.model.names import FormatName
from core.model.settings_records import Rate
from core.model.shaped_toml import ROOM, read, shaped
from core.pricing.price_book_file import BreakEntry, CaptureEntry, PriceBookFile, TaxMode, Way
from core.wording import locale_figures, typed_amounts
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


def example(on: date, currency: str) -> PriceBook:
    """The example book of a day in a currency; its figures are invented."""
    book = in_force(on)
    return (
        book if book.currency == currency else of_document(in_currency(document(book), currency), book.name)
    )


def load(path: Path) -> PriceBook:
    """Read one price book. WrongInput names the file, the key, what was found and what is accepted."""
    return of_document(read(path), path.name)


def of_document(content: object, where: str) -> PriceBook:
    """The price book of a file's plain tables; WrongInput as `load`."""
    page = shaped(content, PriceBookFile, where)
    digits = page.minor_digits
    _check_currency(page, where)
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
            FormatName(name): _capture_rate(at(where, "capture", name), rate, digits)
            for name, rate in page.capture.items()
        },
        repairs={code: Rate(code, one.words, _minor(one.price, digits)) for code, one in page.repair.items()},
        media={code: Rate(code, one.words, _minor(one.price, digits)) for code, one in page.media.items()},
        rush_percent=Decimal(page.rush.percent),
        breaks=_breaks(where, page.quantity_break),
        minimum_minor=_minimum(where, _minor(page.minimum.price, digits)),
        deposit_percent=Decimal(page.deposit.percent),
        ceiling_percent=Decimal(page.ceiling.percent),
    )


def document(book: PriceBook) -> dict[str, Any]:
    """The book as the plain tables of its file, which `of_document` reads back to the same book."""
    digits = book.minor_digits
    found: dict[str, Any] = {
        "name": book.name,
        "remark": book.remark,
        "invented": book.invented,
        "currency": book.currency,
        "minor_digits": digits,
        "valid_from": book.valid_from,
        "quote_valid_days": book.quote_valid_days,
        "tax": {
            "mode": book.tax.mode.value,
            "percent": _plain(book.tax.percent),
            "words": book.tax.words,
            "remark": book.tax.remark,
        },
        "rush": {"percent": _plain(book.rush_percent)},
        "minimum": {"price": _units(Decimal(book.minimum_minor), digits)},
        "deposit": {"percent": _plain(book.deposit_percent)},
        "ceiling": {"percent": _plain(book.ceiling_percent)},
        "quantity_break": [{"after": one.after, "percent": _plain(one.percent)} for one in book.breaks],
        "capture": {str(name): _capture_table(rate, digits) for name, rate in book.capture.items()},
    }
    for key, rates in (("repair", book.repairs), ("media", book.media)):
        found[key] = {
            code: {"words": rate.words, "price": _units(rate.minor, digits)} for code, rate in rates.items()
        }
    return found


def raised(book: PriceBook, percent: Decimal, rounded_to: Decimal) -> PriceBook:
    """The book with every price changed by ``percent``, each rounded half up to a multiple of ``rounded_to``.

    ``rounded_to`` is in whole units of the currency; the minimum is raised alike, percentages stay. What is
    charged by the foot or the picture is rounded to the smallest unit of the currency.
    WrongInput for a step that is not a multiple of the smallest unit, or a percentage of -100 or below.
    """
    step = rounded_to.scaleb(book.minor_digits)
    if step <= 0 or step != step.to_integral_value():
        raise WrongInput(say(ROOM, "rounding-step"), str(rounded_to), say(ROOM, "whole-minor"))
    if not -100 < percent <= 1000:
        raise WrongInput(say(ROOM, "raise-percent"), str(percent), say(ROOM, "percent-raise"))

    def changed(minor: Decimal, way: Way | None = None) -> Decimal:
        least = Decimal(1) if way is Way.PER_UNIT else step
        return ((minor * (100 + percent) / 100) / least).quantize(Decimal(1), ROUND_HALF_UP) * least

    return replace(
        book,
        capture={
            name: replace(rate, minor=changed(rate.minor, rate.way)) for name, rate in book.capture.items()
        },
        repairs={code: replace(rate, minor=changed(rate.minor)) for code, rate in book.repairs.items()},
        media={code: replace(rate, minor=changed(rate.minor)) for code, rate in book.media.items()},
        minimum_minor=int(changed(Decimal(book.minimum_minor))),
    )


def in_currency(content: dict[str, Any], currency: str) -> dict[str, Any]:
    """An example book's tables in another currency: a hundred to one where it has no decimals (invented)."""
    digits = typed_amounts.decimals(currency)
    factor = 1 if digits else 100
    book = of_document(content, content["name"])
    shift = factor * Decimal(10) ** (digits - book.minor_digits)
    return document(
        replace(
            book,
            currency=currency,
            minor_digits=digits,
            capture={name: replace(rate, minor=rate.minor * shift) for name, rate in book.capture.items()},
            repairs={code: replace(rate, minor=rate.minor * shift) for code, rate in book.repairs.items()},
            media={code: replace(rate, minor=rate.minor * shift) for code, rate in book.media.items()},
            minimum_minor=int(book.minimum_minor * shift),
        )
    )


def _capture_table(rate: CaptureRate, digits: int) -> dict[str, Any]:
    found: dict[str, Any] = {"way": rate.way.value, "price": _units(rate.minor, digits)}
    if rate.way is Way.PER_PERIOD:
        found["minutes"] = rate.period_minutes
    return found


def _units(minor: Decimal, digits: int) -> str:
    """Whole units with at least the currency's decimals: ``9.00``."""
    value = minor.scaleb(-digits)
    places = max(digits, -int(value.normalize().as_tuple().exponent))
    return f"{value:.{places}f}"


def _plain(percent: Decimal) -> str:
    return f"{percent.normalize():f}"


def _check_currency(page: PriceBookFile, where: str) -> None:
    if not typed_amounts.is_currency(page.currency):
        raise WrongInput(at(where, "currency"), page.currency, say(ROOM, "currency"))
    if (digits := typed_amounts.decimals(page.currency)) != page.minor_digits:
        accepted = say(ROOM, "digits-of-currency", currency=page.currency, digits=digits)
        raise WrongInput(at(where, "minor_digits"), page.minor_digits, accepted)


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
