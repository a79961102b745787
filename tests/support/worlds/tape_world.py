"""Invented shops whose customers bring invented tapes: the world that a belief about play time must meet.

Nothing here knows how the program believes. Customers are of kinds (a camcorder, a television, both),
fullness is a Beta distribution and no histogram, and cassettes run over their marking by a bell curve.
Figures are invented, but for those of `tape_figures`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from core.model.inventory import TapeLine
from core.model.names import FormatName, Origin, Speed, TvSystem
from tests.support.worlds.tape_figures import LENGTHS, NOMINAL, SPEEDS


@dataclass(frozen=True, slots=True)
class Customers:
    """Who comes to one shop. Shares from 0 to 1."""

    tv: TvSystem
    formats: dict[str, float]
    """Weights of ``vhs``, ``vhs-c``, ``hi8`` and ``minidv``."""
    recorders: float
    """Households that recorded broadcasts at a slow speed; the others had a camera."""
    slow_recorders: float
    slow_cameras: float
    digital8: float
    """Households with a Digital8 machine among those who bring Hi8 cassettes."""
    full_to_the_end: float
    fullness: tuple[float, float]
    """Of the tapes that are not full: mean and the spread between households."""
    over: float
    """Mean share by which cassettes run over their marking."""


@dataclass(frozen=True, slots=True)
class SimulatedTape:
    """One tape as it came over the counter, and what it turned out to be."""

    job: int
    line: TapeLine
    minutes: float
    speed: Speed
    recorded_as: FormatName
    marked_minutes: float
    """The figure on the cassette: its length at SP."""
    share: float
    """How much of it is recorded."""
    origin: Origin
    """What the household made its tapes with."""


USUAL = Customers(
    TvSystem.NTSC,
    {"vhs": 0.5, "vhs-c": 0.15, "hi8": 0.25, "minidv": 0.1},
    recorders=0.55,
    slow_recorders=0.75,
    slow_cameras=0.12,
    digital8=0.15,
    full_to_the_end=0.22,
    fullness=(0.58, 0.15),
    over=0.027,
)
"""Much as a new shop believes."""


def unlike(dice: np.random.Generator) -> Customers:
    """A shop of a kind of its own."""
    weights = dice.dirichlet([2.0, 0.8, 1.2, 0.8])
    return Customers(
        tv=TvSystem.NTSC if dice.random() < 0.75 else TvSystem.PAL,
        formats=dict(zip(("vhs", "vhs-c", "hi8", "minidv"), weights, strict=True)),
        recorders=dice.uniform(0.05, 0.95),
        slow_recorders=dice.uniform(0.3, 0.95),
        slow_cameras=dice.uniform(0.0, 0.3),
        digital8=dice.uniform(0.0, 0.6),
        full_to_the_end=dice.uniform(0.02, 0.75),
        fullness=(dice.uniform(0.3, 0.8), dice.uniform(0.05, 0.25)),
        over=dice.uniform(0.01, 0.05),
    )


def tapes(customers: Customers, count: int, dice: np.random.Generator) -> list[SimulatedTape]:
    """So many tapes, household by household."""
    found: list[SimulatedTape] = []
    job = 0
    while len(found) < count:
        job += 1
        found += _household(job, customers, dice)
    return found[:count]


def box(customers: Customers, count: int, dice: np.random.Generator) -> list[SimulatedTape]:
    """So many tapes of one household."""
    return _household(1, customers, dice, count)


def _household(
    job: int, customers: Customers, dice: np.random.Generator, count: int | None = None
) -> list[SimulatedTape]:
    names = list(customers.formats)
    mostly = dice.choice(names, p=_shares(customers.formats))
    origin = Origin.BROADCAST if dice.random() < customers.recorders else Origin.CAMERA
    often = customers.slow_cameras if origin is Origin.CAMERA else customers.slow_recorders
    slow = dice.beta(3 * often + 0.05, 3 * (1 - often) + 0.05)
    mean, spread = customers.fullness
    usual = float(np.clip(dice.normal(mean, spread), 0.08, 0.92))
    full = dice.beta(4 * customers.full_to_the_end + 0.05, 4 * (1 - customers.full_to_the_end) + 0.05)
    digital = dice.random() < customers.digital8
    made = []
    for _ in range(count or 1 + dice.geometric(1 / 6)):
        name = mostly if dice.random() < 0.8 else dice.choice(names, p=_shares(customers.formats))
        share = (
            1.0 if dice.random() < full else float(np.clip(dice.beta(5 * usual, 5 * (1 - usual)), 0.02, 1))
        )
        made.append(_tape(job, str(name), customers, dice.random() < slow, share, digital, origin, dice))
    return made


def _tape(
    job: int,
    name: str,
    customers: Customers,
    is_slow: bool,
    share: float,
    is_digital: bool,
    origin: Origin,
    dice: np.random.Generator,
) -> SimulatedTape:
    tv = customers.tv.value
    marking = _marking(name, tv, dice)
    system = "digital8" if name == "hi8" and is_digital and dice.random() < 0.9 else name
    speeds = SPEEDS.get((system, tv)) or SPEEDS.get((system, "any")) or SPEEDS["vhs", tv]
    slower = [speed for speed in speeds if speed != "sp"]
    speed = slower[-1] if is_slow and dice.random() < 0.93 else slower[0] if is_slow else "sp"
    metres = _metres(marking, customers.over, dice)
    minutes = metres * share * 1000 / 60 / speeds[speed] * dice.normal(1, 0.001)
    return SimulatedTape(
        job=job,
        line=TapeLine(1, FormatName(name), marking, tv=customers.tv),
        minutes=round(max(0.5, minutes), 1),
        speed=Speed(speed),
        recorded_as=FormatName(system),
        marked_minutes=float(marking.partition("-")[2] or marking.removeprefix("DVM")),
        share=share,
        origin=origin,
    )


def _marking(name: str, tv: str, dice: np.random.Generator) -> str:
    if name == "vhs":
        pair = ("T-120", "T-160") if tv == "ntsc" else ("E-180", "E-240")
        return pair[int(dice.random() < 0.25)]
    if name == "hi8":
        return "P6-120" if tv == "ntsc" else "P5-90"
    return "TC-30" if name == "vhs-c" else "DVM60"


def _metres(marking: str, over: float, dice: np.random.Generator) -> float:
    if marking in LENGTHS:
        return LENGTHS[marking] + dice.uniform(0, 3) * LENGTHS[marking] / 246
    return NOMINAL[marking] * (1 + float(np.clip(dice.normal(over, 0.01), 0, 0.07)))


def _shares(weights: dict[str, float]) -> list[float]:
    total = sum(weights.values())
    return [weight / total for weight in weights.values()]
