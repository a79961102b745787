"""What copying a box costs when its tapes are drawn together: three figures of one total.

The middles of single tapes do not add up to the middle of a box. Most tapes are short and some very long, so
the sum of middles lies below the middle of the sum, and the sum of tenths far below its tenth: tapes of one
household are alike, yet never all short or all long at once. The total is drawn from the numbers that the
box's hours and its date are drawn from.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.model import common_random_numbers
from core.model.money import MoneyRange
from core.model.quote_records import QuotedTape
from core.model.ranges import Range
from core.playtime import box_habits
from core.playtime.beliefs import quantile_of
from core.playtime.box_habits import Box
from core.playtime.possibilities import Facts
from core.pricing import charges, total_draws
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import Way
from core.pricing.price_rules import CaptureRate, QuantityBreak
from core.pricing.total_draws import Minor
from core.wording.editions import edition_cache

_AMOUNT = 90_000
"""Feet and pictures have numbers of their own, apart from those of play times (our choice)."""
_LIKELY = 0.5
"""The median, by definition of a range's middle."""
_RARELY = 1 / 5
"""Of the boxes that cost more than the range says, so many pass what `at_most` tells: two boxes in a hundred
(an assumption; see *Decisions* in DEVELOPERS.md)."""


@dataclass(frozen=True, slots=True)
class AlikeTapes:
    """Tapes of one line that will be played: one of them, what is known of them, their numbers."""

    tape: QuotedTape
    known: Facts | None
    """None: only the percentiles of its minutes are known."""
    keys: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Lot:
    """What the prices of alike tapes are drawn from: a label is no part of it."""

    known: Facts | Range
    keys: tuple[int, ...]
    rate: CaptureRate
    is_open: bool
    """Whether what they cost depends on what they hold."""


def copying(lots: Sequence[AlikeTapes], book: PriceBook, box: Box) -> MoneyRange | None:
    """Minor units of copying the box, breaks taken off, at the 10th, 50th and 90th percentile of its total.

    The ends are moved to where the shop's own tapes lay, as those of its hours are. None where there is
    nothing to draw together: fewer than two tapes whose price depends on what they play.
    WrongInput when the book has no price for a format.
    """
    asked = tuple(_asked(lot, book) for lot in lots)
    if sum(len(lot.keys) for lot in asked if lot.is_open) < 2:
        return None
    low, likely, high, _ = _figures(asked, book.breaks, box)
    return MoneyRange(low, likely, high)


def at_most(lots: Sequence[AlikeTapes], book: PriceBook, box: Box) -> int | None:
    """Minor units that copying the box seldom costs more than, breaks taken off: what a ceiling is made from.

    A further quantile of the same draws. None where nothing is open. WrongInput as `copying`.
    """
    asked = tuple(_asked(lot, book) for lot in lots)
    return _figures(asked, book.breaks, box)[-1] if any(lot.is_open for lot in asked) else None


@edition_cache(maxsize=16)
def _figures(
    lots: tuple[_Lot, ...], breaks: tuple[QuantityBreak, ...], box: Box
) -> tuple[int, int, int, int]:
    """Minor units at the low, the likely and the high end, and what is seldom passed."""
    if breaks and sum(len(lot.keys) for lot in lots) > breaks[0].after:
        each = np.concatenate([_each(lot, box) for lot in lots])
        total = each.sum(axis=0) - total_draws.off(each, breaks)
    else:
        total = np.sum([_sum(lot, box) for lot in lots], axis=0)
    ordered, ends = np.sort(total), box.habits.levels
    levels = (ends.low, _LIKELY, ends.high, 1 - (1 - ends.high) * _RARELY)
    low, likely, high, most = (round(quantile_of(ordered, level)) for level in levels)
    return low, likely, high, most


def drawn(lot: AlikeTapes, book: PriceBook, box: Box) -> Minor:
    """Minor units for copying each tape (row) in each scenario (column)."""
    return _each(_asked(lot, book), box)


def _asked(lot: AlikeTapes, book: PriceBook) -> _Lot:
    rate = charges.rate_of(lot.tape, book)
    counted = charges.counted_amount(lot.tape, rate)
    values = counted or lot.tape.minutes
    is_open = rate.way is not Way.PER_TAPE and values.low != values.high
    if counted is None and lot.known is not None:
        return _Lot(lot.known, lot.keys, rate, is_open)
    return _Lot(values, lot.keys, rate, is_open)


@edition_cache(maxsize=128)
def _each(lot: _Lot, box: Box) -> Minor:
    if isinstance(lot.known, Range):
        return total_draws.copying(_by_percentiles(lot.known, lot.keys, box), lot.rate)
    minutes = box_habits.minutes_of_tapes([lot.known] * len(lot.keys), lot.keys, box)
    return total_draws.copying(minutes, lot.rate)


@edition_cache(maxsize=1024)
def _sum(lot: _Lot, box: Box) -> Minor:
    """The same of all tapes of the lot, remembered: a key changes one line of a box."""
    total = _each(lot, box).sum(axis=0)
    total.flags.writeable = False
    return np.asarray(total)


def _by_percentiles(values: Range, keys: tuple[int, ...], box: Box) -> Minor:
    """Amounts, or minutes given by hand: by their percentiles, tapes of the box sharing their luck."""
    if values.low == values.high:
        return np.full((len(keys), box.scenarios), values.likely)
    uniform = common_random_numbers.shared(box.seed + _AMOUNT, keys, [box.key] * len(keys), box.scenarios)
    return common_random_numbers.minutes([values] * len(keys), uniform)
