"""Random numbers that belong to a tape: the same tape has the same draws whenever it is asked for.

A draw is a hash of (seed, scenario, key) and not the next number of a stream, so a date does not
flicker while a line is typed, and two plans for the same tapes differ by what was changed alone.
The hash is the splitmix64 finaliser (Steele, Lea and Flood 2014; constants from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from hashlib import blake2b

import numpy as np
from numpy.typing import NDArray

from core.model.ranges import Range

Draws = NDArray[np.float64]

SEED = 20260101
"""The futures that every plan of a shop is worked through."""

_BLOCK = 1024
"""Columns made at once."""

HABIT = 0.6
"""Share of scenarios in which a tape follows its box and not its own luck. An assumption, not measured:
tapes of one family tend to share a camera and a speed (common practice, no source)."""

MISTAKEN = 0.2
"""Share of scenarios in which a box follows what is true of all boxes: two boxes then vary together like
those of `core.playtime.box_habits` in a shop that has played 200 tapes (measured once)."""

_GOLDEN = np.uint64(0x9E3779B97F4A7C15)
_FIRST = np.uint64(0xBF58476D1CE4E5B9)
_SECOND = np.uint64(0x94D049BB133111EB)
_KNOTS = np.array([0.0, 0.1, 0.5, 0.9, 1.0])
_WIDTHS = np.diff(_KNOTS)


def key(*parts: object) -> int:
    """A 64-bit key made of names and numbers, the same in every process."""
    return int.from_bytes(blake2b(repr(parts).encode(), digest_size=8).digest(), "little")


def uniforms(seed: int, keys: Sequence[int], scenarios: int) -> Draws:
    """Numbers from 0 up to 1, one row a key, one column a scenario."""
    return _hashed(keys, _columns(seed, scenarios))


def uniforms_at(seed: int, keys: Sequence[int], places: NDArray[np.intp]) -> Draws:
    """The numbers of `uniforms` in the scenarios of these places alone, counted from 0."""
    return _hashed(keys, _columns(seed, max(_BLOCK, int(places.max(initial=0)) + 1))[places])


def _hashed(keys: Sequence[int], columns: NDArray[np.uint64]) -> Draws:
    rows = _mixed(np.array(keys, dtype=np.uint64).reshape(-1, 1))
    bits = _mixed((rows ^ columns) * _GOLDEN + columns)
    return np.asarray((bits >> np.uint64(11)) * 2.0**-53, dtype=np.float64)


def shared(seed: int, keys: Sequence[int], boxes: Sequence[int], scenarios: int) -> Draws:
    """Like `uniforms`, but in `HABIT` of the scenarios a tape takes the number of its box.

    Each row by itself is still uniform; two rows of one box have the correlation HABIT², two of different
    boxes (HABIT × MISTAKEN)².
    """
    own = uniforms(seed, keys, scenarios)
    different = {box: row for row, box in enumerate(dict.fromkeys(boxes))}
    mistaken = uniforms(seed + 4, list(different), scenarios) < MISTAKEN
    of_boxes = np.where(
        mistaken, uniforms(seed + 3, [0], scenarios), uniforms(seed + 1, list(different), scenarios)
    )
    boxed = of_boxes if len(different) == 1 else of_boxes[[different[box] for box in boxes]]
    follows = uniforms(seed + 2, keys, scenarios) < HABIT
    return np.asarray(np.where(follows, boxed, own), dtype=np.float64)


def minutes(ranges: Sequence[Range], uniform: Draws) -> Draws:
    """Play time at each probability, one row a range: straight lines through the 10th, 50th and 90th
    percentile, the tails going on at the slope beside them, never below zero."""
    values = np.array([_knot_values(one) for one in ranges], dtype=np.float64).reshape(-1, 5)
    stretch = (uniform >= _KNOTS[1]).astype(np.intp)
    stretch += uniform >= _KNOTS[2]
    stretch += uniform >= _KNOTS[3]
    found: Draws = uniform - _KNOTS.take(stretch)
    rows = np.arange(len(values))[:, None]
    found *= np.diff(values, axis=1).reshape(-1).take(stretch + 4 * rows)
    found /= _WIDTHS.take(stretch)
    found += values.reshape(-1).take(stretch + 5 * rows)
    return found


def remaining(one: Range, elapsed: float, uniform: Draws, least: float) -> Draws:
    """Minutes still to play of a tape that has played ``elapsed`` minutes, given that it is not yet over.

    A tape that should be over by all it was believed to hold has ``least`` minutes to go.
    """
    gone = float(np.interp(elapsed, _knot_values(one), _KNOTS))
    if gone >= 1.0:
        return np.full_like(uniform, least)
    given = minutes([one], (gone + uniform * (1.0 - gone)).reshape(1, -1))[0]
    return np.asarray(np.maximum(given - elapsed, least), dtype=np.float64)


def percentile(one: Range, probability: float) -> float:
    """Play time at one probability."""
    return float(np.interp(probability, _KNOTS, _knot_values(one)))


def _knot_values(one: Range) -> tuple[float, float, float, float, float]:
    below = max(0.0, one.low - (one.likely - one.low) / 4)
    return below, one.low, one.likely, one.high, one.high + (one.high - one.likely) / 4


@lru_cache(maxsize=64)
def _columns(seed: int, scenarios: int) -> NDArray[np.uint64]:
    """What a scenario adds to the hash, the same for every key."""
    return _mixed(np.arange(1, scenarios + 1, dtype=np.uint64) * _GOLDEN + np.uint64(seed))


def _mixed(bits: NDArray[np.uint64]) -> NDArray[np.uint64]:
    bits = bits ^ (bits >> np.uint64(30))
    bits *= _FIRST
    bits ^= bits >> np.uint64(27)
    bits *= _SECOND
    bits ^= bits >> np.uint64(31)
    return bits
