"""Decks that fail while they play, in some scenarios, and the tape that must be played again.

Failures come with playing time, at random: exponential, as is usual where nothing better is known
(Hopp and Spearman, Factory Physics, ch. 8, from memory). The repair takes real hours, exponential too.
A tape fails at most once in a scenario; the second time it plays through (twice is rare enough).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core import draws
from core.hours import Minutes

_FINE = 2.0**20
"""What is left of a moment at this scale is as good as a random number of its own."""


@dataclass(frozen=True, slots=True)
class Breakdowns:
    """Mean minutes: of play ``between`` failures, and of a ``repair``."""

    between: float
    repair: float


def fails_after(breakdowns: Breakdowns, keys: Sequence[int], seed: int, scenarios: int) -> Minutes:
    """Minutes of play after which the deck would fail under each tape, one row a tape."""
    uniform = draws.uniforms(seed, keys, scenarios)
    return np.asarray(-np.log1p(-uniform) * breakdowns.between)


def repair_after(played: Minutes, mean: float) -> Minutes:
    """Minutes a repair takes, told by the very moment of the failure."""
    return np.asarray(-np.log1p(-((played * _FINE) % 1.0)) * mean)
