"""Whether dates were kept as often as was said: chances held against what happened.

A shop that says “19 times in 20” must be right 19 times in 20: no less and, where an earlier day could have
been said, not much more. What counts is what was *stated* for each promise, never a round level: a date is
the first day good enough, so it is nearly always better than that.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from core.model.promise_records import Promise

DECILES = 10
"""By definition."""
ALARM_AT = 2.0
"""The last decile of the histogram holds more than so many times its share: dates run late (derived: an
unmodelled rush gave 2.4 times, playing times one tenth too short 6.8 times, a right model 1.15 at most)."""
FEWEST_TO_ALARM = 40
"""Among 40 promises of a right model, 9 or more fall into the last decile in 1 of 60 shops
(derived: binomial)."""
_BAND = 0.95
"""The usual level of a sampling band (common practice, no source)."""
_HAIR = 1e-9
"""Share by which float arithmetic may miss (our choice: far above 2⁻⁵²)."""
_EDGES = (0.0, 0.8, 0.9, 0.95, 1.0)
"""Groups of promises by what was stated (our choice)."""


@dataclass(frozen=True, slots=True)
class Judged:
    """One promise whose day is over, and what became of it."""

    number: str
    customer: str
    promise: Promise
    due_at: datetime
    """The end of the promised day on the shop's clock."""
    ready_at: datetime | None
    """None: the box is still not ready."""
    ready_on: date | None
    today: date
    reasons: tuple[str, ...] = ()
    """What was said of it since."""

    @property
    def kept(self) -> bool:
        return self.ready_at is not None and self.ready_at < self.due_at

    @property
    def days_late(self) -> int:
        """Calendar days after the promised one; those gone so far while the box is not ready."""
        assert self.promise.day is not None
        return max(0, ((self.ready_on or self.today) - self.promise.day).days)


@dataclass(frozen=True, slots=True)
class Group:
    """Promises stated at about the same chance; ``least`` and ``most`` kept is what luck alone may do."""

    low: float
    high: float
    count: int
    kept: int
    stated: float
    """On average."""
    least: int
    most: int

    @property
    def verdict(self) -> int:
        """-1: fewer kept than luck explains; 1: more; 0: as stated."""
        return (self.kept > self.most) - (self.kept < self.least)


@dataclass(frozen=True, slots=True)
class Reliability:
    """The record of a shop's promises, oldest first."""

    judged: tuple[Judged, ...]
    groups: tuple[Group, ...]
    """By stated chance, those nobody was promised left out."""
    whole: Group | None
    """All of them together; None when there is none yet."""
    deciles: tuple[float, ...]
    """Share of the promises that came true in each tenth of their own curve; a tenth each is right."""
    days_off: float
    """Mean continuous ranked probability score of the curves, in days."""
    pinball_days: float
    """Mean pinball loss of the promised day at its stated chance, in days."""

    @property
    def late(self) -> tuple[Judged, ...]:
        """Not kept, the newest first."""
        return tuple(each for each in reversed(self.judged) if not each.kept)

    @property
    def alarms(self) -> bool:
        """Whether boxes are late more often than the curves allow, and than luck alone explains."""
        return len(self.judged) >= FEWEST_TO_ALARM and self.deciles[-1] > ALARM_AT / DECILES


def reliability(judged: Sequence[Judged]) -> Reliability:
    """Everything that can be read from these promises; promises without a day are not to be among them."""
    return Reliability(
        judged=tuple(judged),
        groups=_groups(judged),
        whole=_group(judged, 0.0, 1.0) if judged else None,
        deciles=tuple(float(share) for share in pit_histogram([_place(each) for each in judged])),
        days_off=_mean([_days_off(each) for each in judged]),
        pinball_days=_mean([_pinball_days(each) for each in judged]),
    )


def sampling_band(stated: Sequence[float], level: float = _BAND) -> tuple[int, int]:
    """Least and most kept among promises of these chances, were each right: the middle ``level`` of luck.

    Exact (Poisson binomial, by convolution), after the consistency bars of Bröcker and Smith, Weather and
    Forecasting 22 (2007) 651. Promises of one busy month are late together, so real luck spreads wider.
    """
    mass = np.ones(1)
    for chance in stated:
        mass = np.convolve(mass, (1 - chance, chance))
    reached = np.cumsum(mass)
    tail = (1 - level) / 2
    least, most = np.searchsorted(reached, (tail, 1 - tail), side="left")
    return int(least), int(min(most, len(stated)))


def pit_histogram(places: Sequence[tuple[float, float]], bins: int = DECILES) -> NDArray[np.float64]:
    """Share of the outcomes in each ``bins``-th of their own forecast; all alike when forecasts are right.

    An outcome of a forecast in steps lies anywhere between the chance before it and the chance with it, and
    counts in parts: the non-randomised probability integral transform of Czado, Gneiting and Held,
    Biometrics 65 (2009) 1254.
    """
    if not places:
        return np.zeros(bins)
    low, high = np.array(places).T
    edges = np.linspace(0, 1, bins + 1)[:, None]
    reached = np.clip((edges - low) / np.maximum(high - low, 1e-12), 0, 1)
    return np.asarray(np.diff(reached.mean(axis=1)))


def pinball(tau: float, quoted: float, happened: float) -> float:
    """Loss of the ``tau`` quantile ``quoted``: dear where it was overrun, cheap where there was time left.

    Koenker and Bassett, Econometrica 46 (1978) 33.
    """
    return tau * (happened - quoted) if happened >= quoted else (1 - tau) * (quoted - happened)


def _groups(judged: Sequence[Judged]) -> tuple[Group, ...]:
    found = []
    for low, high in pairwise(_EDGES):
        some = [
            each for each in judged if low <= each.promise.stated < high or high == 1 == each.promise.stated
        ]
        if some:
            found.append(_group(some, low, high))
    return tuple(found)


def _group(judged: Sequence[Judged], low: float, high: float) -> Group:
    stated = [each.promise.stated for each in judged]
    least, most = sampling_band(stated)
    kept = sum(each.kept for each in judged)
    return Group(low, high, len(stated), kept, float(np.mean(stated)), least, most)


def _place(judged: Judged) -> tuple[float, float]:
    """The chances between which the outcome lies; a box still open lies anywhere later than today."""
    promise, day = judged.promise, judged.ready_on
    before = _by(promise, judged.today if day is None else day - timedelta(days=1))
    with_it = 1.0 if day is None else _by(promise, day)
    # What the curve held to be impossible lies at its very end, or at its very beginning.
    return min(before, 1 - _HAIR), max(with_it, _HAIR)


def _by(promise: Promise, day: date) -> float:
    """The chance the curve gave to ``day``; after its end, certainty."""
    told = [chance.by for chance in promise.chances if chance.day <= day]
    if promise.chances and day > promise.chances[-1].day:
        return 1.0
    return told[-1] if told else 0.0


def _days_off(judged: Judged) -> float:
    """The score of one curve: Σ (chance by the day − whether it was ready by then)², over the days."""
    promise, ready = judged.promise, judged.ready_on or judged.today
    if not promise.chances:
        return 0.0
    first = min(promise.chances[0].day, ready)
    last = max(promise.chances[-1].day, ready)
    days = (first + timedelta(days=n) for n in range((last - first).days + 1))
    return sum((_by(promise, day) - (day >= ready)) ** 2 for day in days)


def _pinball_days(judged: Judged) -> float:
    promise, ready = judged.promise, judged.ready_on or judged.today
    assert promise.day is not None
    return pinball(promise.stated, promise.day.toordinal(), ready.toordinal())


def _mean(values: Sequence[float]) -> float:
    return float(np.mean(values)) if values else 0.0
