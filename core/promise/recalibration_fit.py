"""How dates are to be moved, learned from the promises whose day is over.

Each promise tells two things, each with the chance it was stated at: whether the order was ready by the
promised day, and by the day that was even odds. The map is the one under which, over these promises weighed
by age, as many would have been late as were stated to be: quantile regression (Koenker and Bassett 1978),
each promise at its own level, of how late orders were beside what the plan alone had said. Plans err the
more, the less sure they are of themselves: over 6,900 lived promises the error spread by one and a half
times the plan's own width, from 0.12 (behind a long queue) to 0.64. So errors are learned in units of it,
beside a factor that all share. It is

- online: each promise that comes due moves it a little, by at most 1 ÷ `_HELD`; it has no state, so the same
  records give the same map;
- at the model where nothing is known: each figure is held at 0 by a quadratic penalty, size and rush more
  than what all orders share (partial pooling), and of a new shop's few promises only a share is believed;
  more tapes never move a date less, and rush never more;
- less sure while all that is known comes from few times, for orders behind one queue share their luck;
- smooth, so that Newton's method finds it (convolution smoothing, Fernandes, Guerre and Horta, Journal of
  Business & Economic Statistics 39 (2021) 338, from memory).

A promise not yet due says nothing, whatever became of its order: early finishers would else flatter. An
order overdue and still open was late; by how much is not known, so what is known of others later than that is
taken in its place (Efron, Proceedings of the Fifth Berkeley Symposium 4 (1967) 831, redistribution to the
right: the weights of Kaplan and Meier).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log2

import numpy as np
from numpy.typing import NDArray

from core.model.promise_records import AS_PLANNED, Recalibration, Seen
from core.promise import lateness, recalibration
from core.promise.lateness import Lateness
from core.promise.reliability import Judged
from core.scheduling.opening_calendar import Calendar

REMEMBERED = 100.0
"""A promise counts e times less than one judged so many promises later (see DEVELOPERS, Decisions)."""
_HELD = (8.0, 2.0, 2.0, 9.0, 24.0)
"""How firmly middle, later, spread, size and rush are held at the model: in excess misses per unit (middle,
size and rush chosen on lived shop years: at 4 the first late order of a new shop moved all dates by half;
a score is worth a third of the middle's unit, and 1 and 4 were no better there)."""
_SMOOTH = 0.03
"""Logarithm over which being late is told gradually; orders differ by several times as much."""
_ROUNDS = 60
_CLOSE = 1e-10
_FAR = 1.5
"""A logarithm: an order that took less than a fifth of its time, or more than four times it, says no more."""
_FEWEST_TIMES = 1.5
_SHARED = 2.0
"""Variances between times, over the number of times, by which the next one is less sure: one for the mean of
them, one for the spread seen around it (chosen on lived shop years: 3 costs 4 % of sharpness where the plan
is right, 1 half a point of the first hundred)."""
_HALF_KNOWN = 20.0
"""Promises of which half of what they say is believed: one late order of four would else set every date
twice as far off (chosen on lived shop years: without it 1.5 % of sharpness and half a point of the first
hundred)."""
_MIDDLE, _LATER, _SPREAD, _SIZE, _RUSH = range(5)

Floats = NDArray[np.float64]


def learned(judged: Sequence[Judged], calendar: Calendar) -> Recalibration:
    """The map after these promises, oldest first; those made before the calendar begins are left out."""
    return fitted(lateness.shown(judged, calendar))


def fitted(promises: Sequence[Sequence[Lateness]]) -> Recalibration:
    """The map after these promises, oldest first, each with what it showed."""
    rows = [row for promise in promises for row in promise]
    if not rows:
        return AS_PLANNED
    last = len(promises) - 1
    ages = np.array([last - place for place, promise in enumerate(promises) for _ in promise], dtype=float)
    weights = np.exp(-ages / REMEMBERED)
    width = float(np.average([row.width for row in rows], weights=weights))
    told = [row for row in rows if row.tapes is not None]
    sizes = _seen([log2(max(row.tapes or 1, 1)) for row in told])
    design = np.array([_design(row, sizes) for row in rows])
    ratios = np.array([row.ratio for row in rows])
    levels = np.array([row.level for row in rows])
    is_open, is_even = (np.array([getattr(row, name) for row in rows]) for name in ("is_open", "is_even"))
    for some in (is_even, ~is_even):
        weights[some], ratios[some] = _uncensored(ratios[some], weights[some], is_open[some])
    found = _constrained(_Problem(design, ratios, levels, weights))
    found[_SPREAD] += _shared_luck(promises, found)
    found *= len(promises) / (len(promises) + _HALF_KNOWN)
    middle, later, spread, size, rush = (round(float(each), 6) for each in found)
    return Recalibration(middle, spread, size, rush, sizes, len(promises), later, round(width, 4))


# --- what was seen ------------------------------------------------------------------


def _seen(values: Sequence[float]) -> Seen:
    """From the least to the most that was seen, one in twenty at each end left out."""
    if not values:
        return Seen()
    least, most = np.quantile(values, (0.05, 0.95), method="inverted_cdf")
    inside = np.clip(values, least, most)
    return Seen(round(float(least), 6), round(float(inside.mean()), 6), round(float(most), 6))


def _design(row: Lateness, sizes: Seen) -> tuple[float, ...]:
    z = recalibration.score(row.level)
    if row.tapes is None:
        return 1.0, row.width, row.width * z, 0.0, 0.0
    return 1.0, row.width, row.width * z, sizes.off(log2(max(row.tapes, 1))), float(row.rush)


def _uncensored(ratios: Floats, weights: Floats, is_open: NDArray[np.bool_]) -> tuple[Floats, Floats]:
    """Weights in which those that are open have given theirs to what came later; the last never comes."""
    order = np.lexsort((is_open, ratios))
    weights, ratios = weights.copy(), ratios.copy()
    after = np.append(np.cumsum(weights[order][::-1])[::-1][1:], 0.0)
    more = 1.0
    for place, one in enumerate(order.tolist()):
        own = weights[one]
        if not is_open[one]:
            weights[one] = own * more
        elif after[place] > 0:
            more *= 1 + own / after[place]
            weights[one] = 0.0
        else:
            weights[one], ratios[one] = own * more, np.inf
    return weights, ratios


def _shared_luck(promises: Sequence[Sequence[Lateness]], found: Floats) -> float:
    """By how many scores the spread is too small because promises of one time share their luck.

    Orders behind the same queue are late together: a hundred promises of three bad weeks are three draws.
    With ``n`` such times, the next one lies about what was learned with a variance greater by `_SHARED` ÷ n
    of that between times than those learned of do (analysis of variance). Nothing before the second time.
    """
    first = [row[0] for row in promises]
    z = np.array([recalibration.score(row.level) for row in first])
    widths = np.array([row.width for row in first])
    ratios = np.clip([row.ratio for row in first], -_FAR, _FAR)
    off = (ratios - found[_MIDDLE]) / widths - found[_LATER] - found[_SPREAD] * z
    weights = np.exp(-np.arange(len(first))[::-1] / REMEMBERED)
    times = _times(first)
    each = np.bincount(times, weights)
    count = each.sum() ** 2 / (each**2).sum()
    if count < _FEWEST_TIMES:
        return 0.0
    means = np.bincount(times, weights * off) / each
    mean = float(np.average(off, weights=weights))
    between = float(np.average((means - mean) ** 2, weights=each)) * count / (count - 1)
    whole = float(np.average((off - mean) ** 2, weights=weights))
    return float(np.sqrt(whole + _SHARED * between / count) - np.sqrt(whole))


def _times(first: Sequence[Lateness]) -> NDArray[np.intp]:
    """To which time each promise belongs: it lasts as long as the first order of it was to take."""
    found, place, until = [], -1, -np.inf
    for row in first:
        if row.made >= until:
            place, until = place + 1, row.made + row.allowed
        found.append(place)
    return np.array(found, dtype=np.intp)


# --- the regression ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, eq=False)
class _Problem:
    """Rows of ``design`` with the ratio, level and weight of each."""

    design: Floats
    ratios: Floats
    levels: Floats
    weights: Floats

    def solved(self, free: Sequence[int]) -> Floats:
        """The figures, those not ``free`` at 0: Newton's method, each step halved until it helps."""
        places, found = list(free), np.zeros(len(_HELD))
        design, held = self.design[:, places], np.array(_HELD)[places]
        at = np.zeros(len(places))
        loss = self._loss(design, held, at)
        for _ in range(_ROUNDS):
            step = self._newton_step(design, held, at)
            after = self._loss(design, held, at - step)
            while after > loss and float(np.abs(step).max()) > _CLOSE:
                step = step / 2
                after = self._loss(design, held, at - step)
            at = at - step
            if loss - after < _CLOSE:
                break
            loss = after
        found[places] = at
        return found

    def _loss(self, design: Floats, held: Floats, at: Floats) -> float:
        allowed = design @ at
        late = _SMOOTH * np.logaddexp(0.0, (allowed - self.ratios) / _SMOOTH) - self.levels * allowed
        return float(self.weights @ late + held @ at**2 / 2)

    def _newton_step(self, design: Floats, held: Floats, at: Floats) -> Floats:
        late_by = np.clip((self.ratios - design @ at) / _SMOOTH, -40.0, 40.0)
        in_time = 1 / (1 + np.exp(late_by))
        slope = design.T @ (self.weights * (in_time - self.levels)) + held * at
        steepness = self.weights * in_time * (1 - in_time) / _SMOOTH
        bend = (design.T * steepness) @ design + np.diag(held)
        return np.asarray(np.linalg.solve(bend, slope))


def _constrained(problem: _Problem) -> Floats:
    """The figures, at 0 where a tape more would make a date earlier or rush later."""
    free = [_MIDDLE, _LATER, _SPREAD, _SIZE, _RUSH]
    while True:
        found = problem.solved(free)
        wrong = [place for place, sign in ((_SIZE, 1), (_RUSH, -1)) if found[place] * sign < 0]
        if not wrong:
            return found
        free = [place for place in free if place not in wrong]
