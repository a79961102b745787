"""Dated price books: what the shop charges, read from TOML and never changed once in use.

A price book is a file in ``resources/pricebook``; a quote names the book it was made from, so an
old quote can always be explained. Prices in a book are invented until a shop writes its own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache
from pathlib import Path
from typing import Any

from core.model import resource_files
from core.model.dispositions import Disposition
from core.model.errors import WrongInput, at
from core.model.frozen_mapping import FrozenMapping
from core.model.names import FormatName
from core.model.own_shop import shop_additions
from core.model.own_shop.settings_records import Rate
from core.model.price_terms import InspectionFee, StorageFee
from core.model.price_ways import FlatTerms
from core.model.shaped_toml import ROOM, read, shaped
from core.pricing import disposition_rules, price_entries
from core.pricing.disposition_rules import DispositionRule
from core.pricing.price_book_file import PriceBookFile, TaxMode, Way
from core.pricing.price_rules import CaptureRate, QuantityBreak, Rounding, Tax, TaxRate
from core.wording import locale_figures, typed_amounts
from core.wording.messages import say


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
    further_taxes: tuple[TaxRate, ...] = ()
    rounding: Rounding = field(default_factory=Rounding)
    inspection_fee: InspectionFee = field(default_factory=InspectionFee)
    storage_fee: StorageFee = field(default_factory=StorageFee)
    dispositions: Mapping[Disposition, DispositionRule] = field(
        default_factory=lambda: disposition_rules.DEFAULTS
    )
    """What is charged for a tape by what became of it."""
    flat: FlatTerms = field(default_factory=FlatTerms)
    cancellation_minor: int = 0
    """For calling a whole order off."""
    cancellation_percent: Decimal = Decimal(0)
    """Of what the called-off work would have cost before tax."""

    def __post_init__(self) -> None:
        for table in ("capture", "repairs", "media", "dispositions"):
            object.__setattr__(self, table, FrozenMapping(getattr(self, table)))

    @property
    def whole_unit(self) -> int:
        """Minor units in one unit of the currency: 100 for USD."""
        return int(10**self.minor_digits)

    @property
    def taxes(self) -> tuple[TaxRate, ...]:
        """Every tax that is charged, the first one first; none where the book charges none."""
        if self.tax.mode is TaxMode.NONE:
            return ()
        return (TaxRate(self.tax.words, self.tax.percent, self.tax.on), *self.further_taxes)

    def with_prices(self, change: Callable[[Decimal, Way | None], Decimal]) -> PriceBook:
        """The book with every price, minimum and fee changed, in minor units; percentages stay.

        ``change`` is told how a tape is charged, and None for what is no price of copying.
        """

        def whole(minor: int) -> int:
            return int(change(Decimal(minor), None))

        return replace(
            self,
            capture={
                name: replace(rate, minor=change(rate.minor, rate.way), minimum=change(rate.minimum, None))
                for name, rate in self.capture.items()
            },
            repairs={
                code: replace(rate, minor=change(rate.minor, None)) for code, rate in self.repairs.items()
            },
            media={code: replace(rate, minor=change(rate.minor, None)) for code, rate in self.media.items()},
            minimum_minor=whole(self.minimum_minor),
            cancellation_minor=whole(self.cancellation_minor),
            inspection_fee=replace(self.inspection_fee, minor=whole(self.inspection_fee.minor)),
            storage_fee=replace(self.storage_fee, minor=whole(self.storage_fee.minor)),
        )

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

    def completed_by(self, newer: PriceBook) -> PriceBook:
        """The book with what it has no price for yet of repairs and media; every price it has stays."""
        if newer.currency != self.currency:
            return self
        repairs, media = {**newer.repairs, **self.repairs}, {**newer.media, **self.media}
        return replace(self, repairs=repairs, media=media)

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
        own = {"repair": shop_additions.repair, "media": shop_additions.medium}.get(kind)
        if own is not None and own(code) is not None:
            return WrongInput(place, code, say(ROOM, "no-price-yet", path=f"prices.{kind}.{code}"))
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
        tax=price_entries.tax(page.tax),
        capture={
            FormatName(name): price_entries.capture_rate(at(where, "capture", name), rate, digits)
            for name, rate in page.capture.items()
        },
        repairs=price_entries.rates(page.repair, digits),
        media=price_entries.rates(page.media, digits),
        rush_percent=Decimal(page.rush.percent),
        breaks=price_entries.breaks(where, page.quantity_break),
        minimum_minor=price_entries.whole_minor(at(where, "minimum", "price"), page.minimum.price, digits),
        deposit_percent=Decimal(page.deposit.percent),
        ceiling_percent=Decimal(page.ceiling.percent),
        further_taxes=price_entries.further_taxes(where, page.tax, page.further_tax),
        rounding=price_entries.rounding(where, page.rounding, digits),
        inspection_fee=price_entries.inspection_fee(where, page.inspection_fee, digits),
        storage_fee=price_entries.storage_fee(where, page.storage_fee, digits),
        dispositions=disposition_rules.of_entries(page.dispositions, at(where, "dispositions")),
        flat=price_entries.flat_terms(page.flat),
        cancellation_minor=price_entries.whole_minor(at(where, "cancel", "price"), page.cancel.price, digits),
        cancellation_percent=Decimal(page.cancel.percent),
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
        "tax": price_entries.tax_table(book.tax),
        "further_tax": [price_entries.further_tax_table(each) for each in book.further_taxes],
        "rounding": price_entries.rounding_table(book.rounding, digits),
        "inspection_fee": price_entries.inspection_fee_table(book.inspection_fee, digits),
        "storage_fee": price_entries.storage_fee_table(book.storage_fee, digits),
        "flat": price_entries.flat_table(book.flat),
        "cancel": {
            "price": price_entries.units(book.cancellation_minor, digits),
            "percent": price_entries.plain(book.cancellation_percent),
        },
        "rush": {"percent": price_entries.plain(book.rush_percent)},
        "minimum": {"price": price_entries.units(book.minimum_minor, digits)},
        "deposit": {"percent": price_entries.plain(book.deposit_percent)},
        "ceiling": {"percent": price_entries.plain(book.ceiling_percent)},
        "quantity_break": [
            {"after": one.after, "percent": price_entries.plain(one.percent)} for one in book.breaks
        ],
        "capture": {
            str(name): price_entries.capture_table(rate, digits) for name, rate in book.capture.items()
        },
    }
    found["dispositions"] = disposition_rules.entries_of(book.dispositions)
    found["repair"] = price_entries.rates_table(book.repairs, digits)
    found["media"] = price_entries.rates_table(book.media, digits)
    return found


def raised(book: PriceBook, percent: Decimal, rounded_to: Decimal) -> PriceBook:
    """The book with every price changed by ``percent``, each rounded half up to a multiple of ``rounded_to``.

    ``rounded_to`` is in whole units of the currency; minimums and fees are raised alike, percentages stay.
    What is charged by the foot or the picture is rounded to the smallest unit of the currency.
    WrongInput for a step that is not a multiple of the smallest unit, or a percentage of -100 or below.
    """
    step = rounded_to.scaleb(book.minor_digits)
    if step <= 0 or step != step.to_integral_value():
        raise WrongInput(say(ROOM, "rounding-step"), str(rounded_to), say(ROOM, "whole-minor"))
    if not -100 < percent <= 1000:
        raise WrongInput(say(ROOM, "raise-percent"), str(percent), say(ROOM, "percent-raise"))

    def changed(minor: Decimal, way: Way | None) -> Decimal:
        least = Decimal(1) if way is Way.PER_UNIT else step
        return ((minor * (100 + percent) / 100) / least).quantize(Decimal(1), ROUND_HALF_UP) * least

    return book.with_prices(changed)


def in_currency(content: dict[str, Any], currency: str) -> dict[str, Any]:
    """An example book's tables in another currency: a hundred to one where it has no decimals (invented)."""
    digits = typed_amounts.decimals(currency)
    factor = 1 if digits else 100
    book = of_document(content, content["name"])
    shift = factor * Decimal(10) ** (digits - book.minor_digits)
    step = int(book.rounding.step * shift)
    moved = replace(book, currency=currency, minor_digits=digits, rounding=replace(book.rounding, step=step))
    return document(moved.with_prices(lambda minor, _: minor * shift))


def _check_currency(page: PriceBookFile, where: str) -> None:
    if not typed_amounts.is_currency(page.currency):
        raise WrongInput(at(where, "currency"), page.currency, say(ROOM, "currency"))
    if (digits := typed_amounts.decimals(page.currency)) != page.minor_digits:
        accepted = say(ROOM, "digits-of-currency", currency=page.currency, digits=digits)
        raise WrongInput(at(where, "minor_digits"), page.minor_digits, accepted)


def _stamp(folder: Path) -> tuple[tuple[str, int], ...]:
    """Names and times of the files, so that a changed book is read again."""
    return tuple((path.name, path.stat().st_mtime_ns) for path in sorted(folder.glob("*.toml")))


@lru_cache(maxsize=8)
def _all_in(folder: Path, stamp: tuple[tuple[str, int], ...]) -> tuple[PriceBook, ...]:
    books = (load(folder / name) for name, _ in stamp)
    return tuple(sorted(books, key=lambda book: book.valid_from))
