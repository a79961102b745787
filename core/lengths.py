"""Play times of the tapes of a plan in every scenario; tapes of one box share its habits."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from core import customer_habits, draws, playtime
from core.habits import ShopHabits
from core.hours import Minutes
from core.possibilities import Facts
from core.ranges import Range

LONG_QUEUE = 600
"""Tapes beyond which a box's habits are not drawn one by one: its tapes then share luck (`draws.HABIT`)."""

DrawnAs = tuple[Facts, ShopHabits]


class Drawn(Protocol):
    """A tape to draw; ``key`` and ``box`` name its numbers."""

    @property
    def key(self) -> int: ...
    @property
    def box(self) -> int: ...
    @property
    def minutes(self) -> Range: ...
    @property
    def drawn_as(self) -> DrawnAs | None:
        """What its play times are drawn from; None: from the percentiles of ``minutes``."""


def lengths(tapes: Sequence[Drawn], seed: int, scenarios: int) -> Minutes:
    """Minutes of each tape (row) in each scenario (column)."""
    found = np.empty((len(tapes), scenarios))
    in_short = len(tapes) <= LONG_QUEUE
    together: dict[tuple[int, ShopHabits], list[int]] = {}
    alike: dict[DrawnAs | None, list[int]] = {}
    for place, tape in enumerate(tapes):
        if tape.drawn_as is not None and in_short:
            together.setdefault((tape.box, tape.drawn_as[1]), []).append(place)
        else:
            alike.setdefault(tape.drawn_as, []).append(place)
    for (key, shop), places in together.items():
        known = [drawn[0] for place in places if (drawn := tapes[place].drawn_as)]
        box = customer_habits.Box(key, seed, scenarios, shop)
        found[places] = customer_habits.draws_of_job(known, [tapes[place].key for place in places], box)
    for drawn_as, places in alike.items():
        found[places] = _by_luck([tapes[place] for place in places], drawn_as, seed, scenarios)
    return found


def _by_luck(tapes: Sequence[Drawn], drawn_as: DrawnAs | None, seed: int, scenarios: int) -> Minutes:
    uniform = draws.shared(seed, [tape.key for tape in tapes], [tape.box for tape in tapes], scenarios)
    if drawn_as is None:
        return draws.minutes([tape.minutes for tape in tapes], uniform)
    values, reached = _steps(drawn_as)
    return np.asarray(values[np.searchsorted(reached, uniform, side="right")], dtype=np.float64)


@lru_cache(maxsize=1024)
def _steps(drawn_as: DrawnAs) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The values a belief may take and the probabilities at which one gives way to the next."""
    points = np.array(playtime.belief_of(*drawn_as).points)
    return points[:, 0], np.cumsum(points[:, 1])[:-1]
