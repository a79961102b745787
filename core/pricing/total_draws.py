"""The rules of a price on drawn amounts: the same as `box_price`, charge by charge, for many draws at once.

Arrays of minor units, one column a draw. `tests/core/pricing/test_flat_price.py` holds both together to the
minor unit, whatever the book.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.model.price_terms import ChargeKind
from core.model.quote_records import Charge
from core.pricing import taxes
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import RoundingMode, TaxMode, Way
from core.pricing.price_rules import CaptureRate, QuantityBreak
from core.pricing.taxes import Bundle

Minor = NDArray[np.float64]
"""Whole numbers: exact up to 2⁵³."""
_DUST = 1e-9
"""Share by which float arithmetic may fall short of a half (our choice: far above 2⁻⁵²)."""


@dataclass(frozen=True, slots=True)
class Fixed:
    """What of a price does not depend on what the tapes play."""

    work: tuple[tuple[ChargeKind | None, int], ...]
    """Repairs: minor units by what they are for."""
    goods: tuple[tuple[ChargeKind | None, int], ...]
    """Copies."""
    fee: int
    """For tapes that are looked over and not copied."""
    rush: bool
    exempt: str


def fixed(likely: Iterable[Charge], fees: Iterable[Charge], *, rush: bool, exempt: str) -> Fixed:
    """The ``likely`` repairs and copies, and the ``fees`` for tapes that are not copied."""
    amounts = [(charge.kind, charge.amount.likely) for charge in likely]
    return Fixed(
        tuple(each for each in amounts if each[0] is ChargeKind.REPAIR),
        tuple(each for each in amounts if each[0] is not ChargeKind.REPAIR),
        sum(charge.amount.likely for charge in fees),
        rush,
        exempt,
    )


def copying(minutes: Minor, rate: CaptureRate) -> Minor:
    """What copying a tape costs at each of these play times; `charges` says the same of one."""
    price = float(rate.minor)
    if rate.way is Way.PER_TAPE:
        found = np.full(minutes.shape, _halves_up(np.asarray(price)))
    elif rate.way is Way.PER_PERIOD:
        periods = np.maximum(1, np.ceil(minutes / rate.period_minutes - _DUST))
        found = _halves_up(price * periods)
    elif rate.way is Way.PER_HOUR:
        found = _halves_up(price * minutes / 60)
    else:
        found = _halves_up(price * minutes.round(3))
    return np.asarray(np.maximum(found, float(_halves_up(np.asarray(float(rate.minimum))))))


def due(per_tape: Minor, fixed: Fixed, book: PriceBook) -> Minor:
    """What is owed in each draw, one row of ``per_tape`` a tape."""
    of = taxes.bundles(book)
    copied = of[ChargeKind.COPYING]
    sums: dict[Bundle, Minor] = {copied: per_tape.sum(axis=0) - off(per_tape, book.breaks)}
    _add(sums, of, fixed.work)
    if fixed.rush:
        percent = float(book.rush_percent)
        sums = {bundle: work + _halves_up(work * percent / 100) for bundle, work in sums.items()}
    _add(sums, of, fixed.goods)
    sums[copied] = np.where(sums[copied] > 0, np.maximum(sums[copied], book.minimum_minor), sums[copied])
    sums[copied] = sums[copied] + fixed.fee
    return _settled(sums, book, fixed.exempt)


def _add(
    sums: dict[Bundle, Minor],
    of: Mapping[ChargeKind | None, Bundle],
    amounts: Iterable[tuple[ChargeKind | None, int]],
) -> None:
    for kind, minor in amounts:
        bundle = of[kind]
        sums[bundle] = sums[bundle] + minor if bundle in sums else np.asarray(float(minor))


def off(per_tape: Minor, breaks: Sequence[QuantityBreak]) -> Minor:
    """What the quantity breaks take off, dearest tapes first."""
    count = len(per_tape)
    if not breaks or count <= breaks[0].after:
        return np.zeros(per_tape.shape[1:])
    percents = np.zeros(count)
    for step in breaks:
        percents[step.after :] = float(step.percent)
    return _halves_up(percents @ np.sort(per_tape, axis=0)[::-1] / 100)


def _settled(sums: Mapping[Bundle, Minor], book: PriceBook, exempt: str) -> Minor:
    """The sums with the taxes that are charged, rounded to what is owed."""
    whole, inside = sum(sums.values(), np.zeros(())), book.tax.mode is TaxMode.INSIDE
    gross = whole
    if inside and exempt:
        gross = whole - sum((_inside(each, bundle, book) for bundle, each in sums.items()), np.zeros(()))
    elif not inside and not exempt:
        gross = whole + _on_top(sums, book)
    step = book.rounding.step
    if not step:
        return np.asarray(gross)
    steps = np.floor(gross / step) if book.rounding.mode is RoundingMode.DOWN else _halves_up(gross / step)
    return np.asarray(steps * step)


def _on_top(sums: Mapping[Bundle, Minor], book: PriceBook) -> Minor:
    tax = np.zeros(())
    for place, rate in enumerate(book.taxes):
        base = sum((each for bundle, each in sums.items() if place in bundle), np.zeros(()))
        tax = tax + _halves_up(base * float(rate.percent) / 100)
    return tax


def _inside(minor: Minor, bundle: Bundle, book: PriceBook) -> Minor:
    percent = float(sum(book.taxes[place].percent for place in bundle))
    return _halves_up(minor * percent / (100 + percent))


def _halves_up(amount: Minor) -> Minor:
    """Whole numbers nearest to amounts that are not below 0; halves go up."""
    return np.asarray(np.floor(amount * (1 + _DUST) + 0.5))
