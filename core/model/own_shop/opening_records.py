"""When the shop is open, and when somebody is there: a span of a weekday, all year or in a season."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class OpeningHours:
    """Open from ``start`` to ``end`` (minutes after midnight) on ``weekday`` (0 = Monday).

    With ``first`` and ``last`` in that part of each year only, in place of the hours of the whole year.
    """

    weekday: int
    start: int
    end: int
    first: str = ""
    """Month and day, ``06-15``; empty: the whole year."""
    last: str = ""
    season: str = ""
    """What the shop calls that part of the year, if anything."""

    def is_season_on(self, day: date) -> bool:
        """Whether these are the hours of a season that ``day`` lies in; one may run past New Year's Eve."""
        if not self.first:
            return False
        here = f"{day:%m-%d}"
        if self.first <= self.last:
            return self.first <= here <= self.last
        return here >= self.first or here <= self.last
