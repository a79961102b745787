"""Ways to move a plan's curve as promises turn out, for comparison: `tests.bench recalibration`.

Each says chances for leads of an order, and learns an order once its promised day is over. Written from
memory of the papers named at each.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from math import ceil, exp, inf, log, tan

import numpy as np

from core.model.promise_records import AS_PLANNED, Recalibrated
from core.promise import recalibration
from core.promise.lateness import Lateness
from core.promise.recalibration_fit import fitted
from core.promise.reliability import pinball
from tests.support.worlds.promise_streams import Floats, Order

LEVEL = 0.9
_MOST = log(3.0)


class Judged:
    """One promise whose day is over: ``lead`` is what it took, or so far where ``is_open``."""

    __slots__ = ("allowed", "even", "even_level", "is_late", "is_open", "lead", "order", "said", "stated")

    def __init__(
        self, order: Order, stated: float, allowed: float, even: tuple[float, float], said: object
    ) -> None:
        self.order, self.stated, self.allowed, self.said = order, stated, allowed, said
        self.even, self.even_level = even
        self.lead, self.is_open, self.is_late = order.lead, False, order.lead > allowed

    def seen_at(self, now: float) -> Judged:
        """As the records have it at a moment."""
        self.is_open = self.order.made + self.order.lead > now
        self.lead = now - self.order.made if self.is_open else self.order.lead
        return self


class Recalibrator(ABC):
    """A way to move curves."""

    name: str

    @abstractmethod
    def chances(self, order: Order, leads: Floats) -> Floats:
        """The chance that it is ready by each lead."""

    def learn(self, judged: Judged) -> None:
        """Takes in a promise whose day is over."""
        return

    def renew(self, past: Sequence[Judged]) -> None:
        """Once after each change, for ways that look at all of them again, as the records have them now."""
        return

    def about(self, order: Order) -> object:
        """What is to be kept of the way the curve was moved."""
        return None


def planned(order: Order, leads: Floats) -> Floats:
    """The chances of the plan."""
    return np.searchsorted(order.leads, leads, side="right") / len(order.leads)


class AsPlanned(Recalibrator):
    """Nothing is learned."""

    name = "the plan alone"

    def chances(self, order: Order, leads: Floats) -> Floats:
        return planned(order, leads)


class Stretching(Recalibrator):
    """All leads are multiplied by one factor."""

    shift = 0.0

    def chances(self, order: Order, leads: Floats) -> Floats:
        return planned(order, leads * exp(-self.shift))

    def about(self, order: Order) -> object:
        return self.shift


class AlarmAndFactor(Stretching):
    """An alarm, and while it rings the conformal factor of the newest 150 lead ratios: as it was before."""

    name = "alarm, then one factor"

    def __init__(self) -> None:
        self._past: list[tuple[float, float, float]] = []

    def learn(self, judged: Judged) -> None:
        place = float(self.chances(judged.order, np.array([judged.order.lead]))[0])
        ratio = inf if judged.is_open else judged.lead / judged.allowed
        self._past.append((ratio, judged.stated, place))
        newest = self._past[-150:]
        late = sum(place > 0.9 for _, _, place in self._past[-400:]) / len(self._past[-400:])
        stated = sum(each[1] for each in newest) / len(newest)
        place_of = ceil((len(newest) + 1) * stated - 1e-9)
        ratios = sorted(each[0] for each in newest)
        found = ratios[place_of - 1] if place_of <= len(ratios) else inf
        rings = late > 0.2 and len(newest) >= 80
        self.shift = min(max(0.0, log(found)), _MOST) if rings else 0.0


class AdaptiveLevel(Recalibrator):
    """Adaptive conformal inference: the level asked of the plan moves (Gibbs and Candès, NeurIPS 2021)."""

    name = "adaptive level"

    def __init__(self, step: float = 0.01) -> None:
        self.step, self.off = step, 0.0

    def chances(self, order: Order, leads: Floats) -> Floats:
        found = np.clip(planned(order, leads) - self.off, 0.0, 1.0)
        return np.where(leads > 1.5 * order.leads[-1], 1.0, found)  # else a set without an end

    def learn(self, judged: Judged) -> None:
        self.off += self.step * (judged.is_late - (1 - judged.stated))


class AggregatedLevel(AdaptiveLevel):
    """The same with steps aggregated by how they did (Gibbs and Candès, JMLR 25 (2024))."""

    name = "adaptive level, steps aggregated"
    steps = (0.001, 0.002, 0.004, 0.008, 0.016, 0.032, 0.064)

    def __init__(self) -> None:
        super().__init__()
        self._each = np.zeros(len(self.steps))
        self._weights = np.ones(len(self.steps)) / len(self.steps)

    def learn(self, judged: Judged) -> None:
        place = float(planned(judged.order, np.array([judged.order.lead]))[0])
        losses = np.array([pinball(LEVEL, LEVEL + off, place) for off in self._each])
        weights = self._weights * np.exp(-3.0 * losses)
        self._weights = 0.999 * weights / weights.sum() + 0.001 / len(weights)
        self._each += np.array(self.steps) * ((place > LEVEL + self._each) - (1 - LEVEL))
        self.off = float(self._weights @ self._each)


class QuantileAndIntegral(Stretching):
    """Conformal PID: the quantile of log ratios tracked, and the sum of errors (Angelopoulos et al. 2023)."""

    name = "quantile tracking with integral"

    def __init__(self, step: float = 0.03) -> None:
        self._step, self._tracked, self._sum, self._seen = step, 0.0, 0.0, 0

    def learn(self, judged: Judged) -> None:
        error = judged.is_late - (1 - judged.stated)
        self._seen += 1
        self._tracked += self._step * error
        self._sum += error
        turned = self._sum * log(self._seen + 1) / (5.0 * (self._seen + 1))
        self.shift = min(max(self._tracked + 0.1 * tan(min(max(turned, -1.5), 1.5)), -_MOST), _MOST)


class ForgettingPit(Recalibrator):
    """Chances by how often they came true (Kuleshov, Fenner and Ermon 2018), older ones forgotten.

    Held at the plan by so many promises that came true as planned (a Dirichlet process around it).
    """

    name = "recalibrated chances with forgetting"

    def __init__(self, held: float = 20.0, remembered: float = 200.0) -> None:
        self._held, self._remembered = held, remembered
        self._places: list[float] = []

    def chances(self, order: Order, leads: Floats) -> Floats:
        u = planned(order, leads)
        ages = np.arange(len(self._places))[::-1]
        weights = np.exp(-ages / self._remembered)
        places = np.array(self._places)
        counted = (weights[:, None] * (places[:, None] <= u)).sum(axis=0) if len(places) else 0.0
        found = (self._held * u + counted) / (self._held + weights.sum())
        return np.where(leads > 1.5 * order.leads[-1], 1.0, found)

    def learn(self, judged: Judged) -> None:
        beyond = judged.order.lead > judged.order.leads[-1]
        self._places.append(2.0 if beyond else float(planned(judged.order, np.array([judged.order.lead]))[0]))


class RatiosOfLate(Stretching):
    """The quantile of the newest lead ratios at the stated chance, whatever the alarm: both ways."""

    name = "quantile of lead ratios, always"

    def __init__(self) -> None:
        self._past: list[tuple[float, float]] = []

    def learn(self, judged: Judged) -> None:
        ratio = inf if judged.is_open else log(judged.lead / judged.allowed) + float(judged.said)  # type: ignore[arg-type]
        self._past.append((ratio, judged.stated))
        newest = self._past[-150:]
        if len(newest) >= 20:
            stated = sum(each[1] for each in newest) / len(newest)
            place = min(ceil((len(newest) + 1) * stated), len(newest))
            self.shift = min(max(sorted(each[0] for each in newest)[place - 1], -_MOST), _MOST)


class Pooled(Recalibrator):
    """What the program does: `core.promise.recalibration_fit`."""

    name = "pooled quantile regression"

    def __init__(
        self, *, only: Callable[[Lateness], Lateness] = lambda row: row, width: float | None = None
    ) -> None:
        """``width``: that of all plans, as if each were as unsure as any other."""
        self._only, self._width, self._learned = only, width, AS_PLANNED

    def about(self, order: Order) -> Recalibrated:
        even, most = np.quantile(order.leads, (0.5, 0.9))
        width = self._width or log(most / even) / recalibration.score(0.9)
        return recalibration.of_order(self._learned, order.tapes, order.rush, width)

    def chances(self, order: Order, leads: Floats) -> Floats:
        about = self.about(order)
        if self._width:
            moved = order.leads * np.exp([about.at(z) for z in recalibration.scores(len(order.leads))])
        else:
            moved = recalibration.moved_leads(about, order.leads)
        return np.searchsorted(np.sort(moved), leads, side="right") / len(moved)

    def renew(self, past: Sequence[Judged]) -> None:
        self._learned = fitted([self._rows(one) for one in past[-400:]])

    def _rows(self, one: Judged) -> list[Lateness]:
        days = [(one.stated, one.allowed, False)]
        if one.even != one.allowed:
            days.append((one.even_level, one.even, True))
        return [self._row(one, *day) for day in days]

    def _row(self, one: Judged, level: float, allowed: float, is_even: bool) -> Lateness:
        said = one.said
        assert isinstance(said, Recalibrated)
        ratio = log(max(one.lead, 1.0) / allowed) + said.at(recalibration.score(level))
        about = one.order.tapes, one.order.rush
        return self._only(
            Lateness(level, ratio, one.is_open, *about, said.width, is_even, one.order.made, allowed)
        )
