"""Orders of up to twenty tapes against the best a solver finds: the sum of all box finishes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random
from typing import Any

from core.scheduling.dispatching import PlannedPlay, Task, by_rule, finishes, improved
from tests.bench.ratio import Ratio

INSTANCES = 24
SECONDS = 6.0
TASK = Task((0.0, 0.0, 0.0, 0.0), 0.0, {})
SHAPES: tuple[tuple[tuple[int, ...], ...], ...] = (
    ((0, 1, 2, 3),),
    ((0, 1, 2, 3), (2, 3)),
    ((0, 1), (1, 2), (2, 3), (0, 3)),
    ((0, 1, 2), (3,), (2, 3)),
)
"""Which decks play which kinds: all the same, one inside the other, a ring, with a specialist."""


def orders() -> Iterator[Ratio]:
    """The gap of the rule alone and with whole boxes moved, against a solver that may put any tape anywhere;
    says so when there is no solver."""
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        print("   orders: not measured, OR-Tools is not installed (pip install tapewright[bench])")
        return
    rule, search, worst = [], [], 0.0
    for seed in range(INSTANCES):
        plays = _instance(seed)
        best = _best(cp_model, plays)
        ruled = by_rule(plays, TASK)
        rule.append(_sum(ruled) / best)
        search.append(_sum(improved(ruled, TASK, seed)) / best)
        worst = max(worst, search[-1])
    words = f"{INSTANCES} queues of 12 to 20 tapes"
    yield Ratio(f"sum of box finishes, rule alone, {words}", _mean(rule), "best found", 1.0, "times", 1.10)
    yield Ratio(
        f"sum of box finishes, whole boxes moved, {words}", _mean(search), "best found", 1.0, "times", 1.05
    )
    yield Ratio("the same, worst of all", worst, "best found", 1.0, "times")


def _instance(seed: int) -> list[PlannedPlay]:
    dice = Random(seed)
    shape, count = SHAPES[seed % len(SHAPES)], dice.randint(12, 20)
    return [
        PlannedPlay(n, dice.randrange(max(2, count // 4)), dice.choice(shape), float(dice.randint(20, 240)))
        for n in range(count)
    ]


def _sum(order: Sequence[PlannedPlay]) -> float:
    return sum(finishes(order, TASK).values())


def _best(cp_model: Any, plays: Sequence[PlannedPlay]) -> float:
    """The solver's best sum within some seconds; the local search's own, if that is better."""
    model, horizon = cp_model.CpModel(), int(sum(play.minutes for play in plays))
    on: dict[int, list[Any]] = {deck: [] for deck in range(len(TASK.free))}
    boxes = {play.box: model.new_int_var(0, horizon, f"box {play.box}") for play in plays}
    for play in plays:
        start = model.new_int_var(0, horizon, f"start {play.key}")
        chosen = []
        for deck in play.decks:
            here = model.new_bool_var(f"{play.key} on {deck}")
            end = start + int(play.minutes)
            on[deck].append(model.new_optional_interval_var(start, int(play.minutes), end, here, ""))
            chosen.append(here)
        model.add_exactly_one(chosen)
        model.add(boxes[play.box] >= start + int(play.minutes))
    for intervals in on.values():
        model.add_no_overlap(intervals)
    model.minimize(sum(boxes.values()))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = SECONDS
    solver.parameters.num_workers = 2
    solver.solve(model)
    tried = min(_sum(improved(by_rule(plays, TASK), TASK, seed, 2_000)) for seed in range(3))
    return min(float(solver.objective_value), tried)


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)
