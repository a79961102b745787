"""Tapes that are played a second time because the copy of the first was not good enough, in some scenarios.

The second play follows the first on the same deck, as if the check came at once: it costs the same time.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from core.model import common_random_numbers
from core.scheduling.opening_calendar import Minutes

_A_BOX = 60
"""Tapes for which the draws are remembered."""


def with_second_plays(
    minutes: Minutes, keys: Sequence[int], share: float, between: float, seed: int
) -> Minutes:
    """Minutes of each tape (row) in each scenario (column); those played again take their minutes twice, and
    ``between`` minutes of winding and starting anew."""
    drawn = _drawn_for_a_box if len(keys) <= _A_BOX else _drawn
    again = drawn(share, tuple(keys), seed, minutes.shape[1])
    return np.where(again, 2 * minutes + between, minutes)


def _drawn(share: float, keys: tuple[int, ...], seed: int, scenarios: int) -> NDArray[np.bool_]:
    return np.asarray(common_random_numbers.uniforms(seed, keys, scenarios) < share)


_drawn_for_a_box = lru_cache(maxsize=8)(_drawn)
"""A box that is typed asks for the same tapes at every key; 1 kB a tape."""
