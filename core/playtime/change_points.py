"""Whether the shop's customers have changed: online change-point detection over its boxes, oldest first.

A run is the boxes since customers last changed, if they ever did. Every possible run foretells each box that
follows, by the starting beliefs and by its own boxes; a run that foretells better gains weight (Adams and
MacKay 2007, *Bayesian online changepoint detection*; the recursion from memory). So a box counts for as much
as it is likely that nothing has changed since it came.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.playtime.fill_stretches import LEAST
from core.playtime.starting_beliefs import SHARED, Counts, Group, Weights

HAZARD = 1 / 150
"""Chance that customers change between two boxes (an assumption): once in some thousand tapes."""
SURE = 0.9
"""Probability from which a change is told to the owner (an assumption)."""
FEWEST = 5
"""Boxes on either side of a change that is told: fewer are a household or two (an assumption)."""
_LEAST = 1e-4
"""Runs less likely than this are given up; all of them together cannot weigh a hundredth (derived)."""

Floats = NDArray[np.float64]
Places = NDArray[np.intp]
Prior = Callable[[Group], Weights]
"""What is believed of a group before any box, as tapes: worth × starting share."""


@dataclass(frozen=True, slots=True)
class RunWeights:
    """What is believed of the run that goes on now."""

    of_boxes: Floats
    """For each box, the probability that nothing has changed since it came; rising, the last one 1."""

    @property
    def begin(self) -> int | None:
        """The place of the first box after a change that is sure; None where none is."""
        if len(self.of_boxes) < 2 * FEWEST:
            return None
        begin = int(np.searchsorted(self.of_boxes, 0.5))
        is_far_in = FEWEST <= begin <= len(self.of_boxes) - FEWEST
        return begin if is_far_in and self.of_boxes[begin - FEWEST] <= 1 - SURE else None


def runs(boxes: Sequence[Counts], prior: Prior) -> RunWeights:
    """Of boxes with their effective counts, oldest first; ``prior`` as `Prior`."""
    groups: dict[Group, _Group] = {}
    logs, begins = np.zeros(1), np.zeros(1, dtype=np.intp)
    for place, box in enumerate(boxes):
        if place:
            logs = np.append(logs + np.log1p(-HAZARD), np.log(HAZARD))
            begins = np.append(begins, place)
        for group in box:
            if group[0] in SHARED:
                if group not in groups:
                    groups[group] = _Group(group, prior(group), boxes)
                logs = logs + groups[group].log_likelihood(place, begins)
        logs = logs - np.logaddexp.reduce(logs)
        kept = logs > np.log(_LEAST)
        logs, begins = logs[kept], begins[kept]
    started = np.bincount(begins, weights=np.exp(logs), minlength=len(boxes))
    return RunWeights(np.minimum(np.cumsum(started / started.sum()), 1.0))


class _Group:
    """What the boxes were found to be of one group, one row a box."""

    def __init__(self, group: Group, prior: Weights, boxes: Sequence[Counts]) -> None:
        self._prior = np.maximum(list(prior.values()), LEAST)
        self._found = np.array([[box.get(group, {}).get(name, 0.0) for name in prior] for box in boxes])
        self._before = np.vstack((np.zeros(len(prior)), np.cumsum(self._found, axis=0)))

    def log_likelihood(self, place: int, begins: Places) -> Floats:
        """Of the box at ``place``, by each run from its beginning on: its tapes as categorical draws."""
        shape = self._prior + self._before[place] - self._before[begins]
        return np.asarray(np.log(shape / shape.sum(axis=1, keepdims=True)) @ self._found[place])
