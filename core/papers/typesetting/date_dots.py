"""A date with its chance: twenty dots over the coming days, each one time in twenty."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from core.model.promise_records import Promise
from core.papers.typesetting import lettering
from core.papers.typesetting.paper_tokens import BODY, LINE, MUTED, TIME, UNIT, Style
from core.papers.voice import Voice
from core.promise import chances

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

_DOT = 3.1
"""Radius in points."""
_PITCH = 8.0
_LABEL = Style("Lato", BODY.size, BODY.leading, MUTED)
_LABEL_PROMISED = Style("Lato-Bold", BODY.size, BODY.leading, TIME)


@dataclass(frozen=True, slots=True)
class DotAxis:
    """The dots stacked on their days; those up to the promised day are full, the others rings."""

    days: tuple[tuple[date, int], ...]
    """Each day of the axis with the dots on it."""
    promised: date
    labels: tuple[tuple[date, str], ...]
    width: float

    @property
    def height(self) -> float:
        return self._tallest * _PITCH + UNIT / 2 + BODY.leading

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        ground = y + self._tallest * _PITCH + UNIT / 4
        pen.rule(x, ground, self.width, LINE)
        for index, (day, dots) in enumerate(self.days):
            self._draw_stack(pen, x + (index + 0.5) * self._slot, ground, dots, kept=day <= self.promised)
        taken = -1.0
        for day, text in sorted(self.labels, key=lambda label: label[0] != self.promised):
            taken = self._draw_label(pen, x, ground, day, text, taken)

    @property
    def _slot(self) -> float:
        return self.width / len(self.days)

    @property
    def _abreast(self) -> int:
        """Dots side by side on one day, so that stacks stay low."""
        return max(1, int((self._slot - 2) / _PITCH))

    @property
    def _tallest(self) -> int:
        most = max(dots for _, dots in self.days)
        return max(3, -(-most // self._abreast))

    def _draw_stack(self, pen: Pen, middle: float, ground: float, dots: int, *, kept: bool) -> None:
        across = min(dots, max(1, -(-dots // self._tallest)))
        for dot in range(dots):
            storey, place = divmod(dot, across)
            x = middle + (place - (across - 1) / 2) * _PITCH
            pen.dot((x, ground - (storey + 0.55) * _PITCH), _DOT, TIME if kept else MUTED, filled=kept)

    def _draw_label(self, pen: Pen, x: float, ground: float, day: date, text: str, taken: float) -> float:
        """The day under its stack, unless it would run into the promised day's; returns that one's middle."""
        style = _LABEL_PROMISED if day == self.promised else _LABEL
        wide = lettering.measured(text, style)
        place = next(index for index, (shown, _) in enumerate(self.days) if shown == day)
        middle = min(max((place + 0.5) * self._slot, wide / 2), self.width - wide / 2)
        if taken >= 0 and abs(middle - taken) < wide + UNIT:
            return taken
        pen.text(x + middle - wide / 2, ground + UNIT / 4, text, style)
        return middle if taken < 0 else taken


def days(promise: Promise, voice: Voice, width: float) -> DotAxis | None:
    """The dots of a promise for a place ``width`` points wide; None when no day is promised."""
    if promise.day is None:
        return None
    placed = Counter(_placed(promise))
    days_shown = dict.fromkeys((*(chance.day for chance in promise.chances), promise.day, *sorted(placed)))
    axis = tuple((day, placed[day]) for day in sorted(days_shown))
    first = next(index for index, (_, dots) in enumerate(axis) if dots)
    last = max(index for index, (_, dots) in enumerate(axis) if dots)
    shown = axis[max(0, first - 1) : last + 2]
    named = dict.fromkeys((promise.day, shown[0][0], shown[-1][0]))
    known = {day for day, _ in shown}
    return DotAxis(
        shown, promise.day, tuple((day, voice.short_day(day)) for day in named if day in known), width
    )


def _placed(promise: Promise) -> list[date]:
    """The day of each dot; those later than the curve stand on the day after its last."""
    last = promise.chances[-1].day if promise.chances else promise.made_at.date()
    return [day or last + timedelta(days=1) for day in chances.days_of_dots(promise)]
