"""The tables of a price book's file turned into its rules and back; what does not fit is refused by key."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from itertools import pairwise
from typing import Any

from core.model.errors import WrongInput, at
from core.model.own_shop.settings_records import Rate
from core.model.price_terms import ChargeKind, InspectionFee, StorageFee
from core.model.price_ways import FlatTerms
from core.model.shaped_toml import ROOM
from core.pricing.price_book_file import (
    BreakEntry,
    CaptureEntry,
    FlatEntry,
    FurtherTaxEntry,
    InspectionFeeEntry,
    RateEntry,
    RoundingEntry,
    StorageFeeEntry,
    TaxEntry,
    Way,
)
from core.pricing.price_rules import CaptureRate, QuantityBreak, Rounding, Tax, TaxRate
from core.wording.messages import say

# --- figures -----------------------------------------------------------------------------


def minor(price: str, digits: int) -> Decimal:
    """Minor units, also in fractions."""
    return Decimal(price).scaleb(digits)


def whole_minor(where: str, price: str, digits: int) -> int:
    """Minor units; WrongInput for a fraction of one."""
    found = minor(price, digits)
    if found != found.to_integral_value():
        raise WrongInput(where, str(found), say(ROOM, "whole-minor"))
    return int(found)


def units(minor: Decimal | int, digits: int) -> str:
    """Whole units with at least the currency's decimals: ``9.00``."""
    value = Decimal(minor).scaleb(-digits)
    places = max(digits, -int(value.normalize().as_tuple().exponent))
    return f"{value:.{places}f}"


def plain(percent: Decimal) -> str:
    """A percentage as it is written: ``8.25``."""
    return f"{percent.normalize():f}"


# --- copying -----------------------------------------------------------------------------


def capture_rate(where: str, entry: CaptureEntry, digits: int) -> CaptureRate:
    """The rate of a format; WrongInput for minutes where none belong, or a tape's price under its minimum."""
    if (entry.way is Way.PER_PERIOD) is (entry.minutes is None):
        raise WrongInput(where, entry.minutes, say(ROOM, "period-minutes"))
    price, least = minor(entry.price, digits), minor(entry.minimum or "0", digits)
    if entry.way is Way.PER_TAPE and least > price:
        raise WrongInput(at(where, "minimum"), entry.minimum, say(ROOM, "minimum-by-tape"))
    return CaptureRate(entry.way, price, entry.minutes or 60, least)


def capture_table(rate: CaptureRate, digits: int) -> dict[str, Any]:
    found: dict[str, Any] = {"way": rate.way.value, "price": units(rate.minor, digits)}
    if rate.way is Way.PER_PERIOD:
        found["minutes"] = rate.period_minutes
    if rate.minimum:
        found["minimum"] = units(rate.minimum, digits)
    return found


def breaks(where: str, entries: Sequence[BreakEntry]) -> tuple[QuantityBreak, ...]:
    """The breaks in order; each must start later and take off at least as much as the one before."""
    found = tuple(QuantityBreak(entry.after, Decimal(entry.percent)) for entry in entries)
    for n, (before, each) in enumerate(pairwise(found), 2):
        if each.after <= before.after or each.percent < before.percent:
            raise WrongInput(
                at(where, f"quantity_break {n}", "after"), each.after, say(ROOM, "rising-breaks")
            )
    return found


def rates(entries: Mapping[str, RateEntry], digits: int) -> dict[str, Rate]:
    return {code: Rate(code, one.words, minor(one.price, digits)) for code, one in entries.items()}


def rates_table(rates: Mapping[str, Rate], digits: int) -> dict[str, Any]:
    return {code: {"words": rate.words, "price": units(rate.minor, digits)} for code, rate in rates.items()}


# --- taxes -------------------------------------------------------------------------------


def tax(entry: TaxEntry) -> Tax:
    return Tax(entry.mode, Decimal(entry.percent), entry.words, entry.remark, _kinds(entry.on))


def tax_table(tax: Tax) -> dict[str, Any]:
    return {
        "mode": tax.mode.value,
        "percent": plain(tax.percent),
        "words": tax.words,
        "remark": tax.remark,
        "on": [kind.value for kind in tax.on],
    }


def further_taxes(where: str, first: TaxEntry, entries: Sequence[FurtherTaxEntry]) -> tuple[TaxRate, ...]:
    """The taxes beside the first; WrongInput where all of them on one kind of charge reach 100 %."""
    found = tuple(TaxRate(each.words, Decimal(each.percent), _kinds(each.on)) for each in entries)
    for n in range(1, len(found) + 1):
        rates = [(Decimal(first.percent), first.on), *((each.percent, each.on) for each in found[:n])]
        if max(sum(percent for percent, on in rates if kind in on) for kind in ChargeKind) >= 100:
            place = at(where, f"further_tax {n}", "percent")
            raise WrongInput(place, entries[n - 1].percent, say(ROOM, "taxes-below-100"))
    return found


def further_tax_table(tax: TaxRate) -> dict[str, Any]:
    return {"words": tax.words, "percent": plain(tax.percent), "on": [kind.value for kind in tax.on]}


def _kinds(on: Sequence[ChargeKind]) -> tuple[ChargeKind, ...]:
    """Each once, in the order of the list of all."""
    return tuple(kind for kind in ChargeKind if kind in on)


# --- rounding and fees -------------------------------------------------------------------


def rounding(where: str, entry: RoundingEntry, digits: int) -> Rounding:
    return Rounding(whole_minor(at(where, "rounding", "step"), entry.step, digits), entry.mode)


def rounding_table(rounding: Rounding, digits: int) -> dict[str, Any]:
    return {"step": units(rounding.step, digits), "mode": rounding.mode.value}


def inspection_fee(where: str, entry: InspectionFeeEntry, digits: int) -> InspectionFee:
    return InspectionFee(whole_minor(at(where, "inspection_fee", "price"), entry.price, digits), entry.way)


def inspection_fee_table(fee: InspectionFee, digits: int) -> dict[str, Any]:
    return {"price": units(fee.minor, digits), "way": fee.way.value}


def storage_fee(where: str, entry: StorageFeeEntry, digits: int) -> StorageFee:
    price = whole_minor(at(where, "storage_fee", "price"), entry.price, digits)
    return StorageFee(price, entry.per, entry.after_days)


def storage_fee_table(fee: StorageFee, digits: int) -> dict[str, Any]:
    return {"price": units(fee.minor, digits), "per": fee.per.value, "after_days": fee.after_days}


def flat_terms(entry: FlatEntry) -> FlatTerms:
    return FlatTerms(entry.offered, plain(Decimal(entry.margin_percent)))


def flat_table(terms: FlatTerms) -> dict[str, Any]:
    return {"offered": terms.offered, "margin_percent": terms.margin_percent}
