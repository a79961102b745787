"""Play times of the tapes of a plan in every scenario; tapes of one box share its habits."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Sequence
from threading import Lock
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from core.model import common_random_numbers
from core.model.ranges import Range
from core.playtime import box_habits, tape_minutes
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import Facts
from core.playtime.tape_minutes import DrawnAs
from core.scheduling.opening_calendar import Minutes
from core.wording import editions
from core.wording.editions import edition_cache

LONG_QUEUE = 600
"""Tapes beyond which a box's habits are not drawn one by one: its tapes then share luck
(`common_random_numbers.HABIT`; our choice: a refresh stays within its time)."""

KEPT = 400
"""Rows kept of one box, 8 kB each at a thousand scenarios: the largest boxes, and what was typed before
(our choice: it changes the time taken only)."""

SPARE = 256
"""Rows kept besides those of the longest queue: 2 MB."""

_A_BOX = 60
"""Tapes up to which what was drawn by luck is remembered (our choice: it changes the time taken only)."""
Names = tuple[int, int, Range]
"""The key of a tape, that of its box, and its minutes."""


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
        known = [(tapes[place].key, drawn[0]) for place in places if (drawn := tapes[place].drawn_as)]
        _boxes.drawn_of(box_habits.Box(key, seed, scenarios, shop)).read(known, found, places)
    _boxes.let_go(len(tapes))
    by_luck = _by_luck_of_a_box if len(tapes) <= _A_BOX else _by_luck
    for drawn_as, places in alike.items():
        names = tuple([(tapes[place].key, tapes[place].box, tapes[place].minutes) for place in places])
        found[places] = by_luck(names, drawn_as, seed, scenarios)
    return found


class _DrawnOfBox:
    """Tapes of one box that have been drawn: a line more on the counter, or a change to the shop in a
    what-if, draws what is new and no tape twice."""

    def __init__(self, box: box_habits.Box) -> None:
        self._box = box
        self._rows: dict[tuple[int, Facts], Minutes] = {}

    def __len__(self) -> int:
        """Its rows."""
        return len(self._rows)

    def read(self, tapes: Sequence[tuple[int, Facts]], into: Minutes, places: Sequence[int]) -> None:
        """Minutes of each tape, by its key and what is known of it, into these rows; a column a scenario."""
        rows = self._rows if len(self._rows) < KEPT else {}
        new = [tape for tape in dict.fromkeys(tapes) if tape not in rows]
        if new:
            keys, known = zip(*new, strict=True)
            minutes = box_habits.minutes_of_tapes(known, keys, self._box)
            self._rows = rows = {**rows, **dict(zip(new, minutes, strict=True))}
        for tape, place in zip(tapes, places, strict=True):
            into[place] = rows[tape]


class _DrawnBoxes:
    """The boxes asked for last: all of the longest queue that was drawn, and as much again.

    Boxes that are gone would else stay for long, 8 kB a tape.
    """

    def __init__(self) -> None:
        self._lock = Lock()
        self._boxes: OrderedDict[tuple[int, box_habits.Box], _DrawnOfBox] = OrderedDict()
        self._longest = 0

    def drawn_of(self, box: box_habits.Box) -> _DrawnOfBox:
        """What of a box has been drawn, under what is in force of the catalogue."""
        key = (editions.current(), box)
        with self._lock:
            found = self._boxes.setdefault(key, _DrawnOfBox(box))
            self._boxes.move_to_end(key)
        return found

    def let_go(self, asked: int) -> None:
        """``asked``: how many tapes were drawn just now."""
        with self._lock:
            self._longest = max(self._longest, min(asked, LONG_QUEUE))
            rows = sum(map(len, self._boxes.values()))
            while rows > 2 * self._longest + SPARE and len(self._boxes) > 1:
                _, oldest = self._boxes.popitem(last=False)
                rows -= len(oldest)

    def clear(self) -> None:
        """Nothing has been drawn."""
        with self._lock:
            self._boxes.clear()


_boxes = _DrawnBoxes()


def _by_luck(names: Sequence[Names], drawn_as: DrawnAs | None, seed: int, scenarios: int) -> Minutes:
    keys, boxes, minutes = zip(*names, strict=True)
    uniform = common_random_numbers.shared(seed, keys, boxes, scenarios)
    if drawn_as is None:
        return common_random_numbers.minutes(minutes, uniform)
    values, reached = _steps(drawn_as)
    return np.asarray(values[np.searchsorted(reached, uniform, side="right")], dtype=np.float64)


_by_luck_of_a_box = edition_cache(maxsize=8)(_by_luck)
"""A box that is typed asks for the same tapes at every key; 8 kB a tape."""


@edition_cache(maxsize=1024)
def equally_likely(drawn_as: DrawnAs | None, minutes: Range) -> Minutes:
    """The minutes one tape may play, in fifty rising steps, one as likely as the next."""
    middles = (np.arange(50) + 0.5) / 50
    if drawn_as is None:
        return np.asarray(
            common_random_numbers.minutes([minutes], middles.reshape(1, -1))[0], dtype=np.float64
        )
    values, reached = _steps(drawn_as)
    return np.asarray(values[np.searchsorted(reached, middles, side="right")], dtype=np.float64)


@edition_cache(maxsize=1024)
def _steps(drawn_as: DrawnAs) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The values a belief may take and the probabilities at which one gives way to the next."""
    values, shares = tape_minutes.belief_of(*drawn_as).points.T
    return values, np.cumsum(shares)[:-1]
