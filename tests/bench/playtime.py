"""Beliefs about play time against the minutes of invented shops: pinball loss and coverage.

Each shop plays 200 tapes and learns from them; then it is asked about tapes it has not seen. The
pinball loss is the mean over the 10th, 50th and 90th percentile; “marking at SP” says one figure for all
three. The floor is what nobody can beat who knows only the marking: the percentiles of eight thousand
tapes of the same shop. It lies above half of “marking at SP”, .57 to .62 of it, because what a marking
does not tell is the most of it: of two tapes marked alike one is recorded to a third and one to the end,
one plays at SP and one three times as long, and knowing how often leaves each as far from the middle as
the marking is from both. Half is therefore asked of the estimate as the Counter makes it: its ranked
questions put one at a time to a customer who can answer one in two (`tests.bench.asking`), both by a shop
that has played nothing yet and by one that has learned. The others are to come near the floor. Where the
tapes of a row differ an answer holds for some of them; what would come of it if it had to hold for all or
be left out, some .53 of the marking, is told beside it.

Coverage counts a tape on the edge of a range as inside, as a person would: the beliefs are spread
finely enough (parts of a few minutes) that no edge holds much.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

import numpy as np

from core.model import common_random_numbers
from core.model.ranges import Range
from core.playtime import box_habits, learning, starting_beliefs, tape_minutes
from core.playtime.box_habits import Box
from core.playtime.explanations import Played
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.possibilities import facts
from tests.bench import asking
from tests.bench.ratio import Ratio
from tests.support.worlds import tape_world
from tests.support.worlds.tape_world import Customers, SimulatedTape

LEARNED = 200
ASKED = 500
SHOPS = 24
"""Of each kind. Shops differ by four points of coverage, so that four of them say nothing within three."""
SEED = 20260301
FRESH = (20261125, 251126, 11252026)
"""Shops that nobody had looked at when the beliefs were made and the ends of ranges were chosen."""
LEVELS = (0.1, 0.5, 0.9)
FLOOR_TAPES = 8000
SCENARIOS = 1000
TALKED = 200
"""Tapes of each shop brought to the counter by customers who are asked."""
ANSWERED = {"none": 0.0, "half": asking.ONE_IN_TWO, "all": 1.0}
POINTS = 3.0
"""Percentage points by which an 80 % range may cover more or less."""

ESTIMATES = ("marking", "floor", "at_first", "learned", "with_siblings", "asked")
TARGETS = {"learned": ("floor", 1.05), "with_siblings": ("floor", 1.0), "asked": ("marking", 0.5)}
COVERED = ("learned", "with_siblings", "asked")


@dataclass(frozen=True, slots=True)
class Score:
    """Mean pinball loss, and the share of quantities inside their 80 % range."""

    pinball: float
    inside: float


Verdicts = dict[str, Score]
_Found = tuple[float, bool]


def measure() -> Iterator[Ratio]:
    for kind in ("like", "unlike"):
        words = f"{SHOPS * ASKED} tapes of {SHOPS} shops {kind} the starting beliefs"
        found = verdicts(kind, SHOPS, ASKED)
        for name in ESTIMATES[1:]:
            score, said = found[name], name.replace("_", " ")
            against, at_most = TARGETS.get(name, ("marking", None))
            what = f"pinball, {said}, {words}"
            yield Ratio(what, score.pinball, against, found[against].pinball, "min", at_most)
            yield _coverage(score.inside, f"{said}, {kind}", is_judged=name in COVERED)
        yield from _talks(kind)
    yield from _boxes()
    yield from _fresh()


def _coverage(inside: float, what: str, *, is_judged: bool = True) -> Ratio:
    words = f"80 % ranges hold {100 * inside:.1f} %, {what}"
    limit = 1.0 if is_judged else None
    return Ratio(words, 100 * abs(inside - 0.8), "allowed", POINTS, "points", limit)


def _talks(kind: str) -> Iterator[Ratio]:
    """The product as it is used: by how many questions are answered, before and after learning."""
    found = talk_verdicts(kind, SHOPS, TALKED)
    for answered in ANSWERED:
        for state in ("at first", "learned"):
            score = found[f"{state}, {answered}"]
            what = f"pinball, {state}, {answered} of the questions answered, {kind}"
            at_most = 0.5 if answered == "half" else None
            yield Ratio(what, score.pinball, "marking", found["marking"].pinball, "min", at_most)
            yield _coverage(score.inside, f"{state}, {answered} answered, {kind}", is_judged=False)
        first, learned = (found[f"{state}, {answered}"].pinball for state in ("at first", "learned"))
        what = f"pinball, learned, {answered} of the questions answered, {kind}"
        yield Ratio(what, learned, "at first", first, "min", 1.0)
    what = f"pinball, learned, half answered, answers that do not hold for a whole row left out, {kind}"
    left = found["learned, half, as typed"]
    yield Ratio(what, left.pinball, "marking", found["marking"].pinball, "min", None)


def _boxes() -> Iterator[Ratio]:
    """Hours of whole boxes: tapes drawn together against tapes drawn as strangers."""
    for name, score in box_verdicts(SHOPS, ASKED).items():
        what = f"a box's hours, tapes {name}, unlike"
        yield _coverage(score.inside, what, is_judged=name == "together")


def _fresh() -> Iterator[Ratio]:
    """The same of shops never seen before, by how much they have learned."""
    for kind in ("like", "unlike"):
        for seed in FRESH:
            yield _coverage(fresh_inside(kind, seed, LEARNED), f"fresh shops {seed} {kind}")
        longer = [fresh_inside(kind, seed, learning.WINDOW) for seed in FRESH]
        words = f"fresh shops {kind}, {learning.WINDOW} tapes played"
        yield _coverage(float(np.mean(longer)), words)


def fresh_inside(kind: str, seed: int, learned: int, asked: int = ASKED) -> float:
    """Share of tapes inside their 80 % range in shops of one seed, after so many tapes played."""
    hits: list[bool] = []
    for customers, dice in invented(kind, SHOPS, seed):
        shop = taught(customers, dice, learned)
        tapes = tape_world.tapes(customers, asked, dice)
        hits += [loss(tape.minutes, believed(tape, shop))[1] for tape in tapes]
    return float(np.mean(hits))


def talk_verdicts(kind: str, shops: int, asked: int, *, seed: int = SEED) -> Verdicts:
    """Customers at the counter, by what the shop has learned and how many questions they answer."""
    scores: dict[str, list[_Found]] = {}
    for n, (customers, dice) in enumerate(invented(kind, shops, seed)):
        shop = taught(customers, dice)
        tapes = tape_world.tapes(customers, asked, dice)
        scores.setdefault("marking", []).extend(loss(tape.minutes, _flat(tape)) for tape in tapes)
        for state, beliefs in (("at first", STARTING), ("learned", shop)):
            for answered, chance in ANSWERED.items():
                found = _talked(tapes, beliefs, chance, [seed, n])
                scores.setdefault(f"{state}, {answered}", []).extend(found)
        left = _talked(tapes, shop, ANSWERED["half"], [seed, n], splits=False)
        scores.setdefault("learned, half, as typed", []).extend(left)
    return {name: _score(found) for name, found in scores.items()}


def _talked(
    tapes: Sequence[SimulatedTape], shop: ShopHabits, chance: float, seed: list[int], *, splits: bool = True
) -> Iterator[_Found]:
    dice = np.random.default_rng(seed)  # the same customers know the same before and after learning
    for _, box in groupby(tapes, key=lambda tape: tape.job):
        together = tuple(box)
        told = asking.ranges(together, shop, chance, dice, splits=splits)
        yield from (loss(tape.minutes, each) for tape, each in zip(together, told, strict=True))


def verdicts(kind: str, shops: int, asked: int, *, seed: int = SEED) -> Verdicts:
    """Every way of estimating, over all tapes asked about in shops of one kind."""
    scores: dict[str, list[_Found]] = {}
    for customers, dice in invented(kind, shops, seed):
        for name, found in _shop(customers, asked, dice).items():
            scores.setdefault(name, []).extend(found)
    return {name: _score(found) for name, found in scores.items()}


def box_verdicts(shops: int, asked: int, *, seed: int = SEED) -> Verdicts:
    """The minutes of whole boxes of shops unlike the starting beliefs."""
    scores: dict[str, list[_Found]] = {"together": [], "apart": []}
    for customers, dice in invented("unlike", shops, seed):
        shop = taught(customers, dice)
        strangers = replace_agreement(shop)
        boxes: dict[int, list[SimulatedTape]] = {}
        for tape in tape_world.tapes(customers, asked, dice):
            boxes.setdefault(tape.job, []).append(tape)
        for job, tapes in boxes.items():
            minutes = sum(tape.minutes for tape in tapes)
            for name, believed in (("together", shop), ("apart", strangers)):
                scores[name].append(loss(minutes, _of_box(job, tapes, believed)))
    return {name: _score(found) for name, found in scores.items()}


def replace_agreement(shop: ShopHabits) -> ShopHabits:
    """The same beliefs, but tapes of a box share nothing."""
    return replace(shop, concentrations=dict.fromkeys(starting_beliefs.SHARED, 1e6))


def played(tape: SimulatedTape) -> Played:
    """A capture as the bench records it, speed and system read off the deck."""
    return Played(f"{tape.job}", facts(tape.line), tape.minutes, tape.speed, tape.recorded_as)


def invented(kind: str, shops: int, seed: int) -> Iterator[tuple[Customers, np.random.Generator]]:
    """Shops ``like`` or ``unlike`` the starting beliefs, each with its dice."""
    for shop in range(shops):
        dice = np.random.default_rng([seed, shop, len(kind)])
        yield (tape_world.USUAL if kind == "like" else tape_world.unlike(dice)), dice


def taught(customers: Customers, dice: np.random.Generator, count: int = LEARNED) -> ShopHabits:
    """What a shop believes that has played so many tapes."""
    return learning.learned(tuple(played(tape) for tape in tape_world.tapes(customers, count, dice)))


def _shop(customers: Customers, asked: int, dice: np.random.Generator) -> dict[str, list[_Found]]:
    shop = taught(customers, dice)
    tapes = tape_world.tapes(customers, asked, dice)
    floor = _percentiles(tape_world.tapes(customers, FLOOR_TAPES, dice))
    # A cassette that lies in none of eight thousand has no floor, and so is not asked about.
    tapes = [tape for tape in tapes if (tape.line.format, tape.line.marking) in floor]
    return {
        "marking": [loss(tape.minutes, _flat(tape)) for tape in tapes],
        "floor": [loss(tape.minutes, floor[tape.line.format, tape.line.marking]) for tape in tapes],
        "at_first": [loss(tape.minutes, believed(tape, STARTING)) for tape in tapes],
        "learned": [loss(tape.minutes, believed(tape, shop)) for tape in tapes],
        "with_siblings": list(_one_after_another(tapes, shop)),
        "asked": [loss(tape.minutes, _answered(tape, shop)) for tape in tapes],
    }


def _one_after_another(tapes: Sequence[SimulatedTape], shop: ShopHabits) -> Iterator[_Found]:
    """Each tape as believed when those of its box before it had been played."""
    before: tuple[Played, ...] = ()
    for tape in tapes:
        if before and before[-1].box != f"{tape.job}":
            before = ()
        yield loss(tape.minutes, believed(tape, learning.of_box(before, shop)))
        before = (*before, played(tape))


def _answered(tape: SimulatedTape, shop: ShopHabits) -> Range:
    """Believed after the customer has told the speed, the machine, and roughly how full the tape is."""
    told = replace(
        tape.line, speed=tape.speed, recorded_as=tape.recorded_as, fill=asking.told_fill(tape.share)
    )
    return tape_minutes.belief(told, None, shop).range


def believed(tape: SimulatedTape, shop: ShopHabits) -> Range:
    """What a shop believes of a tape of which only the marking is known."""
    return tape_minutes.belief(tape.line, None, shop).range


def _of_box(job: int, tapes: Sequence[SimulatedTape], shop: ShopHabits) -> Range:
    known = [facts(tape.line) for tape in tapes]
    keys = [common_random_numbers.key(job, n) for n in range(len(tapes))]
    box = Box(common_random_numbers.key(job), SEED, SCENARIOS, shop)
    minutes = box_habits.minutes_of_tapes(known, keys, box).sum(axis=0)
    return box_habits.range_of(minutes, shop.levels)


def _flat(tape: SimulatedTape) -> Range:
    return Range(tape.marked_minutes, tape.marked_minutes, tape.marked_minutes)


def _percentiles(tapes: Sequence[SimulatedTape]) -> dict[tuple[str, str | None], Range]:
    by_marking: dict[tuple[str, str | None], list[float]] = {}
    for tape in tapes:
        by_marking.setdefault((tape.line.format, tape.line.marking), []).append(tape.minutes)
    return {name: Range(*np.quantile(minutes, LEVELS)) for name, minutes in by_marking.items()}


def loss(minutes: float, told: Range) -> _Found:
    """Pinball loss of a range in minutes, and whether the tape lay inside it."""
    pairs = zip(LEVELS, (told.low, told.likely, told.high), strict=True)
    losses = [max(p * (minutes - at), (p - 1) * (minutes - at)) for p, at in pairs]
    return sum(losses) / len(losses), told.low <= minutes <= told.high


def _score(found: Sequence[_Found]) -> Score:
    return Score(float(np.mean([loss for loss, _ in found])), float(np.mean([hit for _, hit in found])))
