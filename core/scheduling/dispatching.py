"""In which order tapes should go to the decks.

Within a box: the tape that fits the fewest decks first, then the longest. Boxes: the one with the smallest
modified due date next, which is its date while that can be kept, and the moment it would be finished if it
went next when it cannot (Baker and Bertrand's rule, from memory). A local search may better that order;
a box that keeps its date in the order given keeps it in every order that comes out of here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from math import inf
from random import Random

from core.scheduling.plan_records import Step
from core.scheduling.play_hours import Gate

RUNS = 400
"""Trials of the local search. With so many, whole boxes came within 3 % of the best known order of 12 to 20
tapes on average, 14 % at worst; the rule alone came within 6 % (derived: `tests.bench turnaround`)."""
DUST = 1e-6
"""Minutes by which arithmetic may miss a moment (our choice)."""


def never() -> bool:
    """A search that nobody stops."""
    return False


def in_dispatching_order(steps: Sequence[Step]) -> list[Step]:
    """Boxes in the order given; within a box, tapes that fit the fewest decks first, then the longest.

    Against the best that could be found for up to 20 tapes, the least flexible first and then the longest
    was 2 % worse at finishing everything, the order given 10 % (derived: measured on a prototype).
    """
    boxes = {box: place for place, box in enumerate(dict.fromkeys(step.box for step in steps))}
    return sorted(steps, key=lambda step: (boxes[step.box], len(step.suited.decks), -step.minutes.likely))


@dataclass(frozen=True, slots=True)
class PlannedPlay:
    """One tape with the minutes it is planned with; ``gate``: when it may start (None: at any time)."""

    key: int
    box: int
    decks: tuple[int, ...]
    minutes: float
    gate: Gate | None = None


@dataclass(frozen=True, slots=True)
class Task:
    """Tapes to put in order: when each deck is free, minutes between tapes, and boxes with a date."""

    free: tuple[float, ...]
    handling: float
    due: dict[int, float]
    most: dict[int, float] = field(default_factory=dict)
    """When a box must be done at the latest whatever is gained elsewhere; a box not named: its date."""

    def limit(self, box: int) -> float:
        """The moment after which somebody would be let down; infinity for a box without a date."""
        return self.most.get(box, self.due.get(box, inf))


def by_rule(plays: Sequence[PlannedPlay], task: Task, stop: Callable[[], bool] = never) -> list[PlannedPlay]:
    """The order of modified due dates. A box without a date comes as if it were late already.

    Once ``stop`` says yes, the boxes that are left follow as they are.
    """
    boxes = _boxes(plays)
    free, found = list(task.free), []
    while boxes and not stop():
        ends = {box: _play(tapes, list(free), task) for box, tapes in boxes.items()}
        box = min(boxes, key=lambda box: (max(task.due.get(box, -inf), ends[box]), ends[box]))
        _play(boxes[box], free, task)
        found += boxes.pop(box)
    return found + [play for tapes in boxes.values() for play in tapes]


def improved(
    plays: Sequence[PlannedPlay],
    task: Task,
    seed: int,
    runs: int = RUNS,
    given: Sequence[PlannedPlay] | None = None,
    *,
    stop: Callable[[], bool] = never,
) -> list[PlannedPlay]:
    """The best order met in so many trials, each moving one whole box somewhere else.

    Better is less lateness, and then earlier finishes over all boxes. A date that is kept in the order
    ``given`` is kept. Once ``stop`` says yes, no more is tried.
    """
    dice = Random(seed)
    safe = _kept(given, task) if given is not None else frozenset()
    best, score = list(plays), _score(plays, task, safe)
    for _ in range(runs if len(plays) > 1 else 0):
        if stop():
            break
        trial = _moved_box(best, dice)
        found = _score(trial, task, safe)
        if found <= score:
            best, score = trial, found
    return best


def arranged(
    plays: Sequence[PlannedPlay],
    task: Task,
    seed: int,
    runs: int = RUNS,
    *,
    stop: Callable[[], bool] = never,
) -> list[PlannedPlay]:
    """The order of the rule, bettered, if it breaks no date that the order given keeps; else that order.

    ``stop`` as in `improved`.
    """
    given = as_given(plays)
    safe = _kept(given, task)
    starts = [given, by_rule(plays, task, stop)]
    best = min(starts, key=lambda order: _score(order, task, safe))
    return improved(best, task, seed, runs, given, stop=stop)


def as_given(plays: Iterable[PlannedPlay]) -> list[PlannedPlay]:
    """Boxes in the order given; within a box, by the rule."""
    return [play for tapes in _boxes(plays).values() for play in tapes]


def finishes(order: Iterable[PlannedPlay], task: Task) -> dict[int, float]:
    """When each box is done, its tapes taken in this order: each to the deck that is free first."""
    free, found = list(task.free), dict[int, float]()
    for play in order:
        found[play.box] = max(found.get(play.box, -inf), _end(play, free, task))
    return found


def _boxes(plays: Iterable[PlannedPlay]) -> dict[int, list[PlannedPlay]]:
    boxes: dict[int, list[PlannedPlay]] = {}
    for play in plays:
        boxes.setdefault(play.box, []).append(play)
    for tapes in boxes.values():
        tapes.sort(key=lambda play: (len(play.decks), -play.minutes))
    return boxes


def _play(tapes: Iterable[PlannedPlay], free: list[float], task: Task) -> float:
    return max(_end(play, free, task) for play in tapes)


def _end(play: PlannedPlay, free: list[float], task: Task) -> float:
    deck = min(play.decks, key=free.__getitem__)
    start = free[deck] if play.gate is None else play.gate.start_of(free[deck])
    free[deck] = start + play.minutes + task.handling
    return start + play.minutes


def _kept(order: Sequence[PlannedPlay], task: Task) -> frozenset[int]:
    ends = finishes(order, task)
    return frozenset(box for box in task.due if box in ends and ends[box] <= task.limit(box) + DUST)


def _score(order: Sequence[PlannedPlay], task: Task, safe: frozenset[int]) -> tuple[int, float, float]:
    ends = finishes(order, task)
    broken = sum(ends[box] > task.limit(box) + DUST for box in safe)
    late = sum(max(0.0, end - task.due.get(box, inf)) for box, end in ends.items())
    return broken, late, sum(ends.values())


def _moved_box(order: Sequence[PlannedPlay], dice: Random) -> list[PlannedPlay]:
    """All tapes of one box, one after the other, somewhere else."""
    box = order[dice.randrange(len(order))].box
    mine = [play for play in order if play.box == box]
    others = [play for play in order if play.box != box]
    place = dice.randrange(len(others) + 1)
    return [*others[:place], *mine, *others[place:]]
