"""One sum for a box, whatever it plays: what the box costs on average by what it plays, and a margin.

The total is drawn for the box as a whole, from the numbers its hours are drawn from, so that its tapes share
their habits and what counts on a total (quantity breaks, the smallest order, tax, rounding) counts on each
draw. A sum of what each tape costs in the middle would miss all of that, and the long tail of single tapes.

A few hundred draws leave a mean uncertain by more than a percent. What each tape costs on average is known
exactly from its belief, so it corrects the mean of the draws: the charges of copying are a control variate
(Lavenberg and Welch 1981, from memory), the slope by least squares. What is left uncertain is what the total
is not proportional to.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

import numpy as np
from numpy.typing import NDArray

from core.model.money import rounded
from core.model.price_ways import FlatOffer, FlatRisk
from core.model.quote_records import Charge, QuotedTape, Storage
from core.playtime import tape_minutes
from core.playtime.beliefs import quantile_of
from core.playtime.box_habits import Box
from core.playtime.habits import ShopHabits
from core.pricing import charges, drawn_box, total_draws
from core.pricing.drawn_box import AlikeTapes
from core.pricing.price_book import PriceBook
from core.pricing.total_draws import Minor
from core.wording.editions import edition_cache

DRAWS = 256
"""Of the box's scenarios: enough for a spread (the 90th percentile to two points in a hundred,
derived: √(0.9 × 0.1 ÷ 256))."""
_LOW, _HIGH = 0.1, 0.9
"""The outer tenths, by definition of a range's ends."""


def offer(
    lots: Sequence[AlikeTapes],
    tapes: Sequence[QuotedTape],
    storage: Storage,
    fees: Sequence[Charge],
    book: PriceBook,
    box: Box,
    *,
    rush: bool,
    exempt: str = "",
) -> FlatOffer | None:
    """The flat sum of a box with its risk; None where the book offers none or nothing is played.

    ``lots`` are those of ``tapes`` that are played, ``fees`` what the others cost. Copies are those that are
    likely, as they are booked.
    WrongInput when the book has no price for a format, repair or piece.
    """
    if not book.flat.offered or not lots:
        return None
    drawn = [_drawn(lot, book, box) for lot in lots]
    fixed = total_draws.fixed(_likely(tapes, storage, book), fees, rush=rush, exempt=exempt)
    totals = total_draws.due(np.concatenate(drawn), fixed, book)
    means = (_mean(lot, book, box.habits) * len(lot.keys) for lot in lots)
    centered = totals + _correction(totals, sum(row.sum(axis=0) for row in drawn), sum(means))
    return _priced(centered, book)


def rounded_to_book(minor: float, book: PriceBook) -> int:
    """The nearest multiple of what the book rounds to, or of a whole unit of the currency."""
    step = book.rounding.step or book.whole_unit
    return rounded(Decimal(repr(max(0.0, minor))) / step) * step


def _priced(totals: NDArray[np.float64], book: PriceBook) -> FlatOffer:
    expected = float(totals.mean())
    margin = Decimal(book.flat.margin_percent)
    minor = rounded_to_book(expected * (1 + float(margin) / 100), book)
    ordered = np.sort(totals)
    risk = FlatRisk(
        expected_minor=round(expected, 2),
        deviation_minor=round(float(totals.std()), 2),
        dearer=float((totals > minor).mean()),
        worst_gain_minor=minor - round(quantile_of(ordered, _HIGH)),
        best_gain_minor=minor - round(quantile_of(ordered, _LOW)),
        margin_percent=book.flat.margin_percent,
    )
    return FlatOffer(minor, risk)


def _correction(totals: Minor, control: Minor, mean: float) -> float:
    """What the mean of the totals is off, told by what the mean of the copying charges is off."""
    off = control - control.mean()
    variance = float((off**2).mean())
    if variance <= 0:
        return 0.0
    slope = float((off * (totals - totals.mean())).mean()) / variance
    return slope * (mean - float(control.mean()))


def _likely(tapes: Sequence[QuotedTape], storage: Storage, book: PriceBook) -> Iterable[Charge]:
    """The charges that do not depend on what is played."""
    yield from charges.repairs(tapes, book)
    yield from charges.copies(storage, book)


# --- the tapes of one line -----------------------------------------------------------------


def _drawn(lot: AlikeTapes, book: PriceBook, box: Box) -> Minor:
    """Minor units for copying each tape (row) in each draw (column)."""
    amount = charges.minor_by_count(lot.tape, charges.rate_of(lot.tape, book))
    if amount is not None:
        return np.full((len(lot.keys), DRAWS), float(amount))
    return drawn_box.drawn(lot, book, box)[:, :DRAWS]


@edition_cache(maxsize=1024)
def _mean(lot: AlikeTapes, book: PriceBook, habits: ShopHabits) -> float:
    """Minor units that copying one of the tapes costs on average, by all that is believed of it."""
    rate = charges.rate_of(lot.tape, book)
    amount = charges.minor_by_count(lot.tape, rate)
    if amount is not None:
        return float(amount)
    assert lot.known is not None
    believed = tape_minutes.belief_of(lot.known, habits).points
    values, shares = habits.mean.calibrated(lot.known.format, believed).T
    return float(total_draws.copying(values, rate) @ shares)
