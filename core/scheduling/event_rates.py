"""What the shop has counted of breakdowns, closed days and rush boxes, and what it therefore expects.

Counts at random moments are Poisson, so what is believed of their rate is a gamma law that each count and
each hour watched sharpens (conjugate; Gelman et al., Bayesian Data Analysis, ch. 2, from memory). What the
settings say is where it begins, worth one event; where they say nothing, `FIRST` stands in: for failures from
the first tape played, else dates before the first failure would know of none (two lives each of four lived
worlds: a point more of the first fifty promises was kept), for the rest as soon as there is anything to
count. Until then the matter is not reckoned with.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from core.model.names import FormatName
from core.model.own_shop.settings_records import Expected

FIRST = Expected(
    hours_between_failures=500.0,
    hours_to_repair=24.0,
    tapes_in_a_rush_box=5.0,
    unplanned_closures=0.01,
)
"""Where counting begins in a shop that has stated nothing (assumptions)."""
WEEKS_BEFORE_LEARNING = 4.0
"""Rush boxes and closed days of fewer weeks tell nothing yet (an assumption)."""
_WORTH_WEEKS = 4.0
"""A month's own rate begins at that of the whole year, worth four weeks of watching (an assumption)."""
_WORTH_DAYS = 50.0
"""Opening days that the share stated of closed days is worth: about ten weeks (an assumption)."""
_MOST_CLOSED = 0.5
"""A shop closed on more than every second day has other opening hours, not bad luck (an assumption)."""


@dataclass(frozen=True, slots=True)
class Gamma:
    """A belief about a rate: ``events`` seen in ``watched`` units of time, the beginning included."""

    events: float
    watched: float

    def after(self, events: float, watched: float) -> Gamma:
        """The belief once more was seen."""
        return Gamma(self.events + events, self.watched + watched)

    @property
    def rate(self) -> float:
        """The mean rate; 0 when nothing was watched."""
        return self.events / self.watched if self.watched > 0 else 0.0

    @property
    def between(self) -> float:
        """Time from one event to the next; 0 when none is believed in."""
        return self.watched / self.events if self.events > 0 else 0.0

    def between_percentile(self, z: float) -> float:
        """Percentile of the time between events, ``z`` normal deviations up.

        Wilson and Hilferty (1931): within 1 % from two events on for |z| ≤ 1.3, within 7 % at one.
        """
        if self.events <= 0:
            return 0.0
        ninth = 1 / (9 * self.events)
        return self.between / max(1 - ninth - z * sqrt(ninth), 1e-3) ** 3


@dataclass(frozen=True, slots=True)
class RushMonth:
    """Rush boxes that came in one calendar month, 1 to 12, of however many years."""

    month: int
    boxes: int
    tapes: int
    weeks: float
    """Weeks of that month in which the shop took boxes in."""


@dataclass(frozen=True, slots=True)
class Counted:
    """What was counted since the first box came in."""

    failures: int = 0
    play_hours: float = 0.0
    """Hours that all decks have played."""
    repairs: int = 0
    """Decks that came back."""
    repair_hours: float = 0.0
    """Real hours that decks were out, those still out included."""
    shut_days: int = 0
    opening_days: int = 0
    """Planned."""
    rush: tuple[RushMonth, ...] = ()
    brought: tuple[tuple[FormatName, int], ...] = ()
    """Tapes of each format among the newest."""

    @property
    def has_played(self) -> bool:
        """Whether failures can be counted."""
        return bool(self.failures or self.play_hours)

    @property
    def weeks(self) -> float:
        return sum(month.weeks for month in self.rush)


def learned(counted: Counted, stated: Expected, month: int) -> Expected:
    """What is expected in ``month`` (1 to 12): what the settings state, corrected by what was counted."""
    return Expected(
        hours_between_failures=failures(counted, stated).between,
        hours_to_repair=repairs(counted, stated).between,
        rush_boxes_a_week=rush_a_week(counted, stated, month),
        tapes_in_a_rush_box=_tapes_in_a_rush_box(counted, stated),
        unplanned_closures=_closures(counted, stated),
        brought=counted.brought,
    )


def failures(counted: Counted, stated: Expected) -> Gamma:
    """Failures by hours played."""
    begun = _begun(stated.hours_between_failures, FIRST.hours_between_failures, counted.has_played)
    return begun.after(counted.failures, counted.play_hours)


def repairs(counted: Counted, stated: Expected) -> Gamma:
    """Decks that come back by hours that decks are out."""
    seen = counted.has_played or counted.repairs > 0
    return _begun(stated.hours_to_repair, FIRST.hours_to_repair, seen).after(
        counted.repairs, counted.repair_hours
    )


def rush_a_week(counted: Counted, stated: Expected, month: int) -> float:
    """Rush boxes a week in one month: as many as were counted there, leaning on the whole year."""
    if counted.weeks < WEEKS_BEFORE_LEARNING:
        return stated.rush_boxes_a_week
    boxes = sum(each.boxes for each in counted.rush)
    year = Gamma(stated.rush_boxes_a_week * _WORTH_WEEKS, _WORTH_WEEKS if stated.rush_boxes_a_week else 0.0)
    whole = year.after(boxes, counted.weeks).rate
    own = [each for each in counted.rush if each.month == month]
    return (
        Gamma(whole * _WORTH_WEEKS, _WORTH_WEEKS)
        .after(sum(each.boxes for each in own), sum(each.weeks for each in own))
        .rate
    )


def _begun(stated: float, first: float, seen: bool) -> Gamma:
    """One event's worth of what was stated, or of the first guess once there is something to count by."""
    if stated:
        return Gamma(1.0, stated)
    return Gamma(1.0, first) if seen else Gamma(0.0, 0.0)


def _tapes_in_a_rush_box(counted: Counted, stated: Expected) -> float:
    boxes = sum(each.boxes for each in counted.rush)
    if counted.weeks < WEEKS_BEFORE_LEARNING or not boxes:
        return stated.tapes_in_a_rush_box
    begun = stated.tapes_in_a_rush_box or FIRST.tapes_in_a_rush_box
    return (begun + sum(each.tapes for each in counted.rush)) / (1 + boxes)


def _closures(counted: Counted, stated: Expected) -> float:
    """Share of the opening days: a beta law, the conjugate of days that are open or not."""
    if counted.weeks < WEEKS_BEFORE_LEARNING or not (stated.unplanned_closures or counted.shut_days):
        return stated.unplanned_closures
    begun = stated.unplanned_closures or FIRST.unplanned_closures
    share = (begun * _WORTH_DAYS + counted.shut_days) / (_WORTH_DAYS + counted.opening_days)
    return min(share, _MOST_CLOSED)
