"""Rush boxes that have yet to come in: in each scenario others, and each goes ahead of what is not rush.

Boxes come at random through the opening hours (Poisson); how many tapes one has is geometric, so that a
big box happens as it does at a counter; its tapes are all of one kind (assumptions). Which kinds come, and
how long their tapes are, `core.scheduling.initial_state` says.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.model import common_random_numbers
from core.scheduling.opening_calendar import Calendar, Minutes, Places
from core.scheduling.play_hours import Gate
from core.scheduling.simulated_shop import RushKind, RushToCome

_TAPE = "rush tape"
"""Names the draws of the minutes."""


@dataclass(frozen=True, slots=True)
class RushRate:
    """How rush boxes come: ``every`` minutes of opening on average, with so many ``tapes`` on average."""

    every: float
    tapes: float


def coming(
    kinds: Sequence[tuple[RushKind, Gate]],
    rate: RushRate,
    calendar: Calendar,
    now: float,
    until: float,
    seed: int,
    scenarios: int,
) -> list[RushToCome]:
    """The rush tapes from ``now`` to ``until`` in every scenario, one entry a kind that ever comes."""
    if not len(calendar.opens) or not kinds:
        return []
    begin, end = calendar.worked(np.array([now, until]))
    boxes = _boxes(rate, float(begin), float(end), seed, scenarios)
    which, sizes = _contents([kind for kind, _ in kinds], rate, boxes.shape, seed)
    sizes[boxes > end] = 0
    arrives = calendar.when_worked(boxes.ravel()).reshape(boxes.shape)
    found = [
        _of_kind(kind, gate, arrives, np.where(which == place, sizes, 0), seed + 3 + place)
        for place, (kind, gate) in enumerate(kinds)
    ]
    return [each for each in found if each is not None]


def _boxes(rate: RushRate, begin: float, end: float, seed: int, scenarios: int) -> Minutes:
    """When boxes come, in minutes worked; one row a box, rows enough to pass ``end`` (but for a hair)."""
    expected = max(0.0, end - begin) / rate.every
    rows = int(expected + 6 * np.sqrt(expected + 1)) + 4
    uniform = common_random_numbers.uniforms(
        seed, [common_random_numbers.key("rush", n) for n in range(rows)], scenarios
    )
    return np.asarray(begin + np.cumsum(-np.log1p(-uniform) * rate.every, axis=0))


def _contents(
    kinds: Sequence[RushKind], rate: RushRate, shape: tuple[int, ...], seed: int
) -> tuple[Places, Places]:
    """Which kind each box is of, and how many tapes it has."""
    keys = [common_random_numbers.key("rush", n) for n in range(shape[0])]
    shares = np.cumsum([kind.weight for kind in kinds]) / sum(kind.weight for kind in kinds)
    which = np.searchsorted(
        shares[:-1], common_random_numbers.uniforms(seed + 1, keys, shape[1]), side="right"
    )
    if rate.tapes <= 1:
        return which, np.ones(shape, dtype=np.intp)
    spread = np.log1p(-1 / rate.tapes)
    sizes = 1 + np.floor(np.log1p(-common_random_numbers.uniforms(seed + 2, keys, shape[1])) / spread)
    return which, sizes.astype(np.intp)


def _of_kind(kind: RushKind, gate: Gate, arrives: Minutes, sizes: Places, seed: int) -> RushToCome | None:
    """The boxes of one kind taken apart into tapes."""
    counts = sizes.sum(axis=0)
    rows, scenarios = int(counts.max()), sizes.shape[1]
    if not rows:
        return None
    table = np.full((scenarios, rows + 1), np.inf)
    line = np.arange(rows + 1)[None, :] < counts[:, None]
    table[line] = np.repeat(arrives.T.ravel(), sizes.T.ravel())
    keys = [common_random_numbers.key(_TAPE, n) for n in range(rows)]
    minutes = _minutes(kind, common_random_numbers.uniforms(seed, keys, scenarios))
    arrivals = np.ascontiguousarray(table.T)
    return RushToCome(kind, gate, arrivals, minutes, np.zeros(scenarios, dtype=np.intp), arrivals[0].copy())


def _minutes(kind: RushKind, uniform: Minutes) -> Minutes:
    if not kind.like:
        return common_random_numbers.minutes([kind.minutes] * len(uniform), uniform)
    return np.asarray(np.array(kind.like)[(uniform * len(kind.like)).astype(np.intp)])
