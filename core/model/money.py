"""Money as integer minor units, and the one rounding rule.

Rates stay exact `decimal.Decimal` until a charge is made; a charge is rounded once, half away
from zero (the everyday rule of a shop), and only sums of rounded charges are shown, so what is
printed always adds up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal


@dataclass(frozen=True, slots=True)
class MoneyRange:
    """Minor units at the 10th, 50th and 90th percentile of what the shop believes."""

    low: int
    likely: int
    high: int

    def __add__(self, other: MoneyRange) -> MoneyRange:
        return MoneyRange(self.low + other.low, self.likely + other.likely, self.high + other.high)

    @property
    def columns(self) -> tuple[int, int, int]:
        """Low, likely, high."""
        return self.low, self.likely, self.high

    @property
    def rising(self) -> MoneyRange:
        """The same from the least to the most, for amounts that do not rise with the work."""
        return MoneyRange(min(self.columns), self.likely, max(self.columns))

    @property
    def is_one_figure(self) -> bool:
        """Whether the three columns agree, so that one figure can be shown."""
        return self.low == self.likely == self.high


NOTHING = MoneyRange(0, 0, 0)


def flat(minor: int) -> MoneyRange:
    """The same amount in all three columns."""
    return MoneyRange(minor, minor, minor)


def total(amounts: Iterable[MoneyRange]) -> MoneyRange:
    """Column-wise sum."""
    return sum(amounts, NOTHING)


def by_column(make: Callable[[list[int]], int], amounts: Sequence[MoneyRange]) -> MoneyRange:
    """One figure made from all amounts, column by column."""
    return MoneyRange(
        make([amount.low for amount in amounts]),
        make([amount.likely for amount in amounts]),
        make([amount.high for amount in amounts]),
    )


def rounded(amount: Decimal) -> int:
    """Minor units nearest to ``amount``; halves go away from zero."""
    return int(amount.quantize(Decimal(1), rounding=ROUND_HALF_UP))


def spelled(minor: int, currency: str) -> str:
    """``1,234.50 USD``, with as many digits as the currency has (ISO 4217)."""
    from babel.numbers import get_currency_precision  # costs a tenth of a second to import

    digits = get_currency_precision(currency)
    return f"{Decimal(minor).scaleb(-digits):,.{digits}f} {currency}"


def shared_out(whole: int, shares: Sequence[int]) -> tuple[int, ...]:
    """``whole`` split in proportion to ``shares`` so that the parts add up exactly.

    Largest remainder method (Hamilton): each part gets its floor, then the parts with the
    largest remainders get one more; ties go to the earlier part. Shares may be negative
    (a discount); shares that add up to zero put everything on the first part.
    """
    if not shares:
        return ()
    weight = sum(shares)
    if weight == 0:
        return (whole,) + (0,) * (len(shares) - 1)
    exact = [divmod(whole * share, weight) for share in shares]
    parts = [quotient for quotient, _ in exact]
    missing = whole - sum(parts)
    by_remainder = sorted(range(len(shares)), key=lambda i: (-abs(exact[i][1]), i))
    for index in by_remainder[:missing]:
        parts[index] += 1
    return tuple(parts)
