"""Beliefs about play time against the minutes of invented shops: pinball loss and coverage.

Each shop plays 200 tapes and learns from them; then it is asked about tapes it has not seen. The
pinball loss is the mean over the 10th, 50th and 90th percentile; “marking at SP” says one figure for all
three. Coverage counts a tape on the edge of a range as inside, as a person would: the beliefs are spread
finely enough (parts of a few minutes) that no edge holds much.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from core import learning, playtime
from core.habits import STARTING, ShopHabits
from core.learning import Played
from core.possibilities import facts
from core.ranges import Range
from tests.bench.ratio import Ratio
from tests.support import tape_world
from tests.support.tape_world import Customers, SimulatedTape

LEARNED = 200
ASKED = 500
UNLIKE = 24
LIKE = 4
SEED = 20260301
LEVELS = (0.1, 0.5, 0.9)


@dataclass(frozen=True, slots=True)
class Score:
    """Mean pinball loss in minutes, and the share of tapes inside the 80 % range."""

    pinball: float
    inside: float


@dataclass(frozen=True, slots=True)
class Verdicts:
    """One kind of shop, each way of estimating."""

    tapes: int
    marking: Score
    at_first: Score
    learned: Score
    with_siblings: Score


def measure() -> Iterator[Ratio]:
    for words, shops in (("like", LIKE), ("unlike", UNLIKE)):
        found = verdicts(words, shops, ASKED)
        print(f"   {found.tapes} tapes of {shops} shops {words} the starting beliefs, {LEARNED} learned each")
        for name in ("at_first", "learned", "with_siblings"):
            score: Score = getattr(found, name)
            target = 0.5 if name != "with_siblings" else None
            what = f"pinball {name.replace('_', ' ')}, {words}"
            yield Ratio(what, score.pinball, "marking at SP", found.marking.pinball, "min", target)
            off = 100 * abs(score.inside - 0.8)
            limit = 1.0 if name == "learned" else None
            yield Ratio(
                f"coverage {100 * score.inside:.1f} %, {name.replace('_', ' ')}, {words}",
                off,
                "3 points allowed",
                3.0,
                "points",
                limit,
            )


def verdicts(kind: str, shops: int, asked: int, *, seed: int = SEED) -> Verdicts:
    """Every way of estimating, over all tapes asked about in shops of one kind."""
    scores: dict[str, list[tuple[float, bool]]] = {}
    for shop in range(shops):
        dice = np.random.default_rng([seed, shop, len(kind)])
        customers = tape_world.USUAL if kind == "like" else tape_world.unlike(dice)
        for name, found in _shop(customers, asked, dice).items():
            scores.setdefault(name, []).extend(found)
    return Verdicts(shops * asked, **{name: _score(found) for name, found in scores.items()})


def _shop(customers: Customers, asked: int, dice: np.random.Generator) -> dict[str, list[tuple[float, bool]]]:
    history = [played(tape) for tape in tape_world.tapes(customers, LEARNED, dice)]
    shop = learning.learned(tuple(history))
    tapes = tape_world.tapes(customers, asked, dice)
    return {
        "marking": [_loss(tape, _flat(tape)) for tape in tapes],
        "at_first": [_loss(tape, _believed(tape, STARTING)) for tape in tapes],
        "learned": [_loss(tape, _believed(tape, shop)) for tape in tapes],
        "with_siblings": list(_one_after_another(tapes, shop)),
    }


def played(tape: SimulatedTape, *, looked: bool = True) -> Played:
    """A capture as the bench records it; ``looked``: somebody read the speed and the system off the deck."""
    known = facts(tape.line)
    if not looked:
        return Played(f"{tape.job}", known, tape.minutes)
    return Played(f"{tape.job}", known, tape.minutes, tape.speed, tape.recorded_as)


def _one_after_another(tapes: Sequence[SimulatedTape], shop: ShopHabits) -> Iterator[tuple[float, bool]]:
    """Each tape as believed when those of its box before it had been played."""
    before: list[Played] = []
    for tape in tapes:
        if before and before[-1].box != f"{tape.job}":
            before = []
        yield _loss(tape, _believed(tape, learning.of_box(tuple(before), shop)))
        before.append(played(tape))


def _believed(tape: SimulatedTape, shop: ShopHabits) -> Range:
    return playtime.belief(tape.line, None, shop).range


def _flat(tape: SimulatedTape) -> Range:
    return Range(tape.marked_minutes, tape.marked_minutes, tape.marked_minutes)


def _loss(tape: SimulatedTape, told: Range) -> tuple[float, bool]:
    pairs = zip(LEVELS, (told.low, told.likely, told.high), strict=True)
    losses = [max(p * (tape.minutes - at), (p - 1) * (tape.minutes - at)) for p, at in pairs]
    return sum(losses) / len(losses), told.low <= tape.minutes <= told.high


def _score(found: Sequence[tuple[float, bool]]) -> Score:
    return Score(float(np.mean([loss for loss, _ in found])), float(np.mean([hit for _, hit in found])))
