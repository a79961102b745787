"""The axis of the deck week: the openings one after another at one scale, their days and hours."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from core.scheduling.deck_week import Week
from core.wording.locale_figures import dates_by_length, hour_of_day

_HOUR = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class AxisSegment:
    """One opening on the axis, with the time past closing in which a tape may still play."""

    opens: datetime
    closes: datetime
    ends: datetime
    left: float
    """In pixels, as ``wide``."""
    wide: float

    def x(self, when: datetime) -> float:
        """Where a moment stands; moments outside stand at the nearer end."""
        inside = min(max(when, self.opens), self.ends)
        return self.left + self.wide * ((inside - self.opens) / (self.ends - self.opens))

    def overlaps(self, begins: datetime, ends: datetime) -> bool:
        """Whether some of the time from ``begins`` to ``ends`` is in this segment."""
        return begins < self.ends and ends > self.opens


@dataclass(frozen=True, slots=True)
class HourTick:
    """A full hour on the axis; ``words`` are empty where there is no room for them."""

    x: float
    words: str


def segments(week: Week, left: float, right: float, gap: float) -> tuple[AxisSegment, ...]:
    """The openings of ``week`` laid from ``left`` to ``right``, ``gap`` apart; all in pixels."""
    spans = [one.closes - one.opens + week.past_closing for one in week.openings]
    if not spans:
        return ()
    room = right - left - gap * (len(spans) - 1)
    scale = room / (sum(spans, timedelta()) / _HOUR)
    laid = []
    for one, span in zip(week.openings, spans, strict=True):
        wide = scale * (span / _HOUR)
        laid.append(AxisSegment(one.opens, one.closes, one.closes + week.past_closing, left, wide))
        left += wide + gap
    return tuple(laid)


def date_that_fits(segment: AxisSegment, width_of: Callable[[str], float]) -> str:
    """``Thu, Mar 12``, or a shorter form where the opening is too narrow for it, or nothing."""
    forms = dates_by_length(segment.opens.date())
    return next((form for form in forms if width_of(form) <= segment.wide), "")


def hour_ticks(segment: AxisSegment, width_of: Callable[[str], float], gap: float) -> tuple[HourTick, ...]:
    """The full hours of an opening, with words wherever the ones before leave ``gap`` pixels."""
    ticks, free_from = [], segment.left
    hour = segment.opens.replace(minute=0, second=0, microsecond=0)
    while hour <= segment.closes:
        if hour >= segment.opens:
            x, words = segment.x(hour), hour_of_day(hour)
            has_room = x >= free_from and x + width_of(words) <= segment.left + segment.wide + gap
            ticks.append(HourTick(x, words if has_room else ""))
            free_from = x + width_of(words) + gap if has_room else free_from
        hour += _HOUR
    return tuple(ticks)
