"""How far a range must reach to hold as often as it says, learned from the tapes of which it was said.

Beliefs learned from some thirty boxes are surer than they may be. So each of the newest captures is laid
beside what was believed of it from the other boxes, and the ends of ranges move towards where tapes lay.

Split conformal prediction (Vovk, Gammerman and Shafer 2005; Lei et al. 2018; both from memory), with
weights because tapes of one box are no strangers, and pulled in because few boxes make its ends jump.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

import numpy as np

from core.playtime.beliefs import HIGH, LOW, Points, spread

NEWEST = 200
"""Captures laid beside what was believed of them (an assumption)."""
ENOUGH = 40
"""With fewer captures each tail holds fewer than four tapes, too few to move it (an assumption)."""
ENOUGH_BOXES = 10
"""A few households are no crowd, however many tapes they brought (an assumption)."""
KIN = 2.0
"""Tapes of one box after which another of it tells little: n of them count (1 + 2) / (2 + n) strangers each,
as in `core.playtime.learning`. A round figure near what simulated shops learn of fullness (an assumption)."""
PULL = 100.0
"""Strangers that a tenth and nine tenths are worth. Some thirty boxes are worth seventy strangers, by whom a
tenth is known to four points; of simulated shops 80 served one kind best and 120 the other (derived)."""
_LOWS, _HIGHS = (0.01, 0.25), (0.75, 0.99)
"""Ends beyond these say nothing: an outer one would stand at the last point of the belief, an inner one would
make a range of less than half of the belief (an assumption)."""
_ROUNDING = 1e-9
"""Sums of probabilities that differ by less are the same."""


@dataclass(frozen=True, slots=True)
class Reach:
    """Where one tape lay in what was believed of it: levels at which a low and a high end hold it."""

    box: str
    low: float
    """The highest level of a low end that is not above the tape; 0 when the belief begins above it."""
    high: float
    """The level of the first point that is not below the tape; 2 when the belief ends below it."""
    is_inside: bool
    """Whether 10 to 90 % held it."""


@dataclass(frozen=True, slots=True)
class Tails:
    """The levels at which ranges begin and end, and the tapes that showed it."""

    low: float = LOW
    high: float = HIGH
    tapes: int = 0
    """Tapes laid beside what was believed of them; 0 where there were too few."""
    outside: int = 0
    """Those of them that fell outside 10 to 90 %."""


USUAL = Tails()
"""Until the shop taught otherwise."""


def reaches(points: Points, tapes: Sequence[tuple[str, float]]) -> list[Reach]:
    """Where tapes, each the name of its box and the minutes it played, lie in one belief; in their order."""
    values, weights = np.array(points).T
    reached = np.concatenate(([0.0], np.cumsum(weights), [2.0]))
    minutes, usual = np.array([played for _, played in tapes]), spread(points)
    lows = reached[np.searchsorted(values, minutes, side="right")]
    highs = reached[np.searchsorted(values, minutes, side="left") + 1]
    held = (usual.low <= minutes) & (minutes <= usual.high)
    boxes = [box for box, _ in tapes]
    return [Reach(*one) for one in zip(boxes, lows.tolist(), highs.tolist(), held.tolist(), strict=True)]


def of(found: Sequence[Reach]) -> Tails:
    """The ends that would have held these tapes, and a stranger unseen, as often as ranges say; pulled in.

    Where all tapes are strangers the end is the ⌊(n + 1) / 10⌋-th from outside before it is pulled.
    """
    sizes = Counter(reach.box for reach in found)
    if len(found) < ENOUGH or len(sizes) < ENOUGH_BOXES:
        return USUAL
    worths = [(1 + KIN) / (KIN + sizes[reach.box]) for reach in found]
    low = _end(sorted(zip((reach.low for reach in found), worths, strict=True)), LOW)
    high = _end(sorted(zip((reach.high for reach in found), worths, strict=True), reverse=True), HIGH)
    outside = sum(not reach.is_inside for reach in found)
    return Tails(_within(low, _LOWS), _within(high, _HIGHS), len(found), outside)


def _end(from_outside: Sequence[tuple[float, float]], usual: float) -> float:
    """The level that leaves a tenth outside, the stranger among it, drawn towards the usual one."""
    worth = sum(each for _, each in from_outside)
    spare = LOW * (worth + 1) - 1 + _ROUNDING
    reached = accumulate(each for _, each in from_outside)
    found = next(
        level for (level, _), left_out in zip(from_outside, reached, strict=True) if left_out > spare
    )
    return usual + worth / (worth + PULL) * (found - usual)


def _within(level: float, bounds: tuple[float, float]) -> float:
    return min(max(level, bounds[0]), bounds[1])
