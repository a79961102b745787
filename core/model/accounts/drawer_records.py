"""The cash drawer as it was counted, and what should have been in it. Money in minor units."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class DrawerCount:
    """One count: what was found, what was expected, what was taken out to the bank or the safe."""

    closes: bool
    """Whether it ended a day; else the float was counted."""
    day: date
    """The shop's own."""
    counted_minor: int
    expected_minor: int
    taken_out_minor: int
    note: str
    at: datetime
    by: str

    @property
    def difference_minor(self) -> int:
        """Below 0: money is missing."""
        return self.counted_minor - self.expected_minor

    @property
    def left_minor(self) -> int:
        """What stays in the drawer."""
        return self.counted_minor - self.taken_out_minor


@dataclass(frozen=True, slots=True)
class DrawerNow:
    """What is in the drawer by the records, since it was counted last."""

    last: DrawerCount | None
    cash_in_minor: int
    cash_out_minor: int
    """What was given back, above 0."""

    @property
    def left_minor(self) -> int:
        """What the last count left in it."""
        return 0 if self.last is None else self.last.left_minor

    @property
    def expected_minor(self) -> int:
        return self.left_minor + self.cash_in_minor - self.cash_out_minor
