"""Tapes that are played a second time because the copy of the first was not good enough, in some scenarios.

The check sends such a tape back, and it waits for a deck and an opening as any other. The plan is told of a
deck that fails at the very end of the play and is free at once (`core.scheduling.rework`). Minutes added to
the first play would run on past closing, where a second play has to wait for the next day.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from core.model import common_random_numbers
from core.scheduling.opening_calendar import Minutes

BEFORE_THE_END = 2.0**-10
"""Minutes before its end at which such a play is broken off."""
_A_BOX = 60
"""Tapes for which the draws are remembered."""


def ended_in_vain(
    minutes: Minutes, fails_after: Minutes | None, keys: Sequence[int], share: float, seed: int
) -> Minutes:
    """``fails_after`` (minutes of play, None: never) with the ends of plays that are in vain.

    One row a tape, one column a scenario. A tape whose deck fails is played again once and not twice.
    """
    drawn = _drawn_for_a_box if len(keys) <= _A_BOX else _drawn
    again = drawn(share, tuple(keys), seed, minutes.shape[1])
    end = np.where(again, np.maximum(minutes - BEFORE_THE_END, 0.0), np.inf)
    return end if fails_after is None else np.minimum(end, fails_after)


def _drawn(share: float, keys: tuple[int, ...], seed: int, scenarios: int) -> NDArray[np.bool_]:
    return np.asarray(common_random_numbers.uniforms(seed, keys, scenarios) < share)


_drawn_for_a_box = lru_cache(maxsize=8)(_drawn)
"""A box that is typed asks for the same tapes at every key; 1 kB a tape."""
