"""The rules of a price book, one record each: rates, breaks, taxes and the rounding of what is owed."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.model.money import rounded
from core.model.price_terms import ChargeKind
from core.pricing.price_book_file import EVERYTHING, RoundingMode, TaxMode, Way


@dataclass(frozen=True, slots=True)
class CaptureRate:
    """``minor`` for a tape, for each started period of ``period_minutes``, or for each hour played.

    No tape costs less than ``minimum``.
    """

    way: Way
    minor: Decimal
    period_minutes: int = 60
    minimum: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class QuantityBreak:
    """``percent`` off each tape beyond the first ``after``."""

    after: int
    percent: Decimal


@dataclass(frozen=True, slots=True)
class TaxRate:
    """One tax on the charges of some kinds, before any tax."""

    words: str
    percent: Decimal
    on: tuple[ChargeKind, ...] = EVERYTHING


@dataclass(frozen=True, slots=True)
class Tax:
    """How tax is charged, and the first rate; ``remark`` says that local law goes first."""

    mode: TaxMode
    percent: Decimal
    words: str
    remark: str
    on: tuple[ChargeKind, ...] = EVERYTHING


@dataclass(frozen=True, slots=True)
class Rounding:
    """What is owed is a multiple of ``step`` minor units; 0: it is the total to the minor unit."""

    step: int = 0
    mode: RoundingMode = RoundingMode.NEAREST

    def to_add(self, minor: int, most: int | None = None) -> int:
        """What rounds a total that is not below 0; towards 0 where the nearest is above ``most``."""
        if not self.step:
            return 0
        below = minor // self.step * self.step
        if self.mode is RoundingMode.DOWN:
            return below - minor
        nearest = rounded(Decimal(minor) / self.step) * self.step
        return (below if most is not None and nearest > most else nearest) - minor
