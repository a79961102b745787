"""What invented customers bring: boxes of tapes, and how long each of them really plays.

A household has a machine, a pace and a way of filling its tapes; shops differ in the households around them.
Everything is invented, but for the figures of `tape_figures`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from tests.support.worlds.tape_figures import LENGTHS, NOMINAL, SPEEDS

Dice = np.random.Generator
TOLD = ((40, 105, 119), (25, 60, 118), (55, 118, 320), (30, 55, 63))
"""10th, 50th and 90th percentile of minutes, as they may be told of a tape (invented)."""


@dataclass(frozen=True, slots=True)
class Brought:
    """One tape as it is, and what is known of it over the counter."""

    format: str
    minutes: float
    marking: str | None = None
    speed: str | None = None
    """What the deck will show."""
    recorded_as: str | None = None
    """The same."""
    told: tuple[int, int, int] | None = None
    """Percentiles of its minutes, where the marking tells nothing."""
    splice: bool = False
    """It is broken, and everybody can see that."""


Bring = Callable[[Dice, float, bool], list[Brought]]
"""The tapes of one box that comes on that day; ``True``: in a hurry."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """Tapes in a box: one more than a geometric number, or with the chance ``large`` any of a range."""

    mean: float = 5.0
    large: float = 0.07
    of_large: tuple[int, int] = (16, 60)

    def drawn(self, dice: Dice) -> int:
        """Tapes in one box."""
        if dice.random() < self.large:
            return int(dice.integers(self.of_large[0], self.of_large[1] + 1))
        return int(dice.geometric(1 / self.mean))


@dataclass(frozen=True, slots=True)
class Neighbors:
    """Who lives around one shop. Shares from 0 to 1."""

    formats: tuple[tuple[str, float], ...]
    sizes: Sizes = Sizes()
    recorders: float = 0.55
    """Households that recorded broadcasts; the others had a camera."""
    slow_recorders: float = 0.7
    slow_cameras: float = 0.15
    full: float = 0.22
    """Of the tapes, on average; households differ."""
    fullness: tuple[float, float] = (0.55, 0.2)
    """Of those that are not full: mean, and spread between households."""
    alike: float = 3.0
    """How alike tapes of one household are: small, all the same."""
    digital8: float = 0.2
    long_tapes: float = 0.25
    splices: float = 0.02

    def of_another_town(self, dice: Dice) -> Neighbors:
        """The same with shares that differ from shop to shop."""
        weights = dice.dirichlet([30 * weight + 0.5 for _, weight in self.formats])
        return replace(
            self,
            formats=tuple((name, float(w)) for (name, _), w in zip(self.formats, weights, strict=True)),
            recorders=_near(self.recorders, dice),
            slow_recorders=_near(self.slow_recorders, dice),
            full=_near(self.full, dice),
            fullness=(_near(self.fullness[0], dice), self.fullness[1]),
        )

    def box(self, dice: Dice, hurry: bool) -> list[Brought]:
        """The tapes of one household."""
        count = min(self.sizes.drawn(dice), 6) if hurry else self.sizes.drawn(dice)
        names, weights = zip(*self.formats, strict=True)
        mostly = str(dice.choice(names, p=weights))
        often = self.slow_recorders if dice.random() < self.recorders else self.slow_cameras
        slow, full = _share(often, self.alike, dice), _share(self.full, self.alike, dice)
        usual = float(np.clip(dice.normal(*self.fullness), 0.06, 0.94))
        is_digital = dice.random() < self.digital8
        found = []
        for _ in range(count):
            name = mostly if dice.random() < 0.85 else str(dice.choice(names, p=weights))
            filled = (
                1.0 if dice.random() < full else float(np.clip(dice.beta(5 * usual, 5 - 5 * usual), 0.02, 1))
            )
            found.append(self._tape(name, dice.random() < slow, filled, is_digital, dice))
        return found

    def _tape(self, name: str, is_slow: bool, filled: float, is_digital: bool, dice: Dice) -> Brought:
        marking = {"vhs-c": "TC-30", "hi8": "P6-120", "minidv": "DVM60"}.get(name, "T-120")
        if name == "vhs" and dice.random() < self.long_tapes:
            marking = "T-160"
        system = "digital8" if name == "hi8" and is_digital else name
        speeds = SPEEDS.get((system, "ntsc")) or SPEEDS[system, "any"]
        speed = list(speeds)[-1] if is_slow else "sp"
        minutes = _metres(marking, dice) * filled * 1000 / 60 / speeds[speed]
        is_broken = bool(dice.random() < self.splices)
        return Brought(name, max(0.5, round(minutes, 1)), marking, speed, system, splice=is_broken)


def as_told(sizes: Sizes, formats: Sequence[tuple[str, float]], follows: float = 0.6) -> Bring:
    """Boxes whose tapes are as long as their told percentiles say, straight lines between them.

    A share ``follows`` of the tapes has the luck of its box, the others have luck of their own.
    """
    names, weights = zip(*formats, strict=True)

    def bring(dice: Dice, day: float, hurry: bool) -> list[Brought]:
        format, common = str(dice.choice(names, p=weights)), dice.random()
        found = []
        for _ in range(sizes.drawn(dice)):
            told = TOLD[int(dice.integers(len(TOLD)))]
            luck = common if dice.random() < follows else dice.random()
            found.append(Brought(format, _minutes(told, luck), told=told))
        return found

    return bring


def living_here(neighbors: Neighbors) -> Bring:
    """Boxes of the same households all year."""
    return lambda dice, day, hurry: neighbors.box(dice, hurry)


def moving_in(before: Neighbors, after: Neighbors, on: float) -> Bring:
    """Others from that day on."""
    return lambda dice, day, hurry: (before if day < on else after).box(dice, hurry)


def _minutes(told: tuple[int, int, int], luck: float) -> float:
    low, likely, high = told
    knots = [max(0.0, low - (likely - low) / 4), low, likely, high, high + (high - likely) / 4]
    return float(np.interp(luck, [0, 0.1, 0.5, 0.9, 1], knots))


def _metres(marking: str, dice: Dice) -> float:
    if marking in LENGTHS:
        return LENGTHS[marking] + float(dice.uniform(0, 3)) * LENGTHS[marking] / 246
    return NOMINAL[marking] * (1 + float(np.clip(dice.normal(0.027, 0.01), 0, 0.07)))


def _share(mean: float, alike: float, dice: Dice) -> float:
    return float(dice.beta(alike * mean + 0.05, alike * (1 - mean) + 0.05))


def _near(share: float, dice: Dice) -> float:
    return float(dice.beta(40 * share, 40 * (1 - share)))
