"""Stated chances against what came of them, in worlds that the program knows nothing of.

``python -m tests.bench worlds [--years N] [--worlds NAME …] [--seed N] [--log FILE]``. Each world is lived by
a simulator that imports nothing of `core` (`tests.support.worlds.told_worlds`), once a seed; a harness feeds
the pure shelves (`tests.support.fed.promise_log`). A year stands for itself: the errors are those of years.
With ``--log`` the records are added to a file of JSON lines, which ``--replay FILE`` reads instead of living.

Seeds of `TUNING` are for whoever tunes something, those of `REPORTING` for the table that is told.
"""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import floor
from pathlib import Path

import numpy as np

from core.promise.reliability import pinball
from tests.bench.ratio import Ratio, own_time
from tests.support.fed import promise_log
from tests.support.fed.promise_log import Logged
from tests.support.fed.restated import restated
from tests.support.worlds.living_shop import AFTER
from tests.support.worlds.one_change import CHANGED
from tests.support.worlds.told_worlds import RIGHT, WORLDS

YEARS = 8
"""Lives of each world, of a year and a quarter at least: ten years."""
REPORTING = 7_000
TUNING = 1_000
KNOWN = 100
"""Promises after which the program is to know the shop."""
WITHIN, WITHIN_THIRD = 2.0, 4.0
"""Points."""
LASTS = {world.name: world.days + AFTER for world in (*WORLDS, *CHANGED)}
"""Days that a life is looked on."""
LEVEL = 0.9
SHARPNESS = 1.05
Year = Sequence[Logged]
Which = Callable[[Logged], bool]


@dataclass(frozen=True, slots=True)
class Kept:
    """Stated and kept in percent, their difference in points with its error by years."""

    promises: int
    stated: float
    kept: float
    off: float
    error: float | None
    """None: one year tells none."""

    @property
    def words(self) -> str:
        if not self.promises:
            return "none"
        error = "±?" if self.error is None else f"± {self.error:.1f}"
        return f"{self.stated:.1f} / {self.kept:.1f} / {self.off:+.1f} {error}"


def measure(options: Sequence[str] = ()) -> Iterator[Ratio]:
    """The table of each world, and a line for each target."""
    wanted = _options(options)
    names = wanted.worlds or [world.name for world in WORLDS]
    logged = list(promise_log.read(wanted.replay)) if wanted.replay else None
    for name in names:
        began = own_time()
        planned = _lived(name, wanted) if logged is None else _years(logged, name)
        if planned:
            seconds = (own_time() - began) / len(planned)
            years = [list(restated(year)) for year in planned]
            print(f"   {name}: {len(years)} lives, {sum(map(len, years))} promises, {seconds:.1f} s each")
            _print("the plan alone", planned, thirds(planned))
            _print("as stated", years, thirds(planned))
            yield from _targets(name, years, planned)


def compared(years: Sequence[Year], is_one: Which = lambda one: True) -> Kept:
    """Stated beside kept over some of the promises of all years."""
    some = [found for year in years if (found := [one for one in year if is_due(one) and is_one(one)])]
    if not some:
        return Kept(0, 0.0, 0.0, 0.0, 0.0)
    weights = np.array([len(year) for year in some], dtype=float)
    by_year = np.array(
        [[np.mean([one.stated for one in year]), np.mean([one.kept for one in year])] for year in some]
    )
    stated, kept = 100 * np.average(by_year, axis=0, weights=weights)
    off = kept - stated
    spread = weights * (100 * (by_year[:, 1] - by_year[:, 0]) - off) / weights.sum()
    error = float(np.sqrt((spread**2).sum() * len(some) / (len(some) - 1))) if len(some) > 1 else None
    return Kept(int(weights.sum()), float(stated), float(kept), float(off), error)


def is_due(one: Logged) -> bool:
    """Whether its day came in this life: behind a queue of half a year some promises outlive it, and what
    became of those nobody knows."""
    return one.day is not None and one.day < LASTS[one.world]


def thirds(years: Sequence[Year]) -> list[tuple[str, Which]]:
    """The smallest, the middle and the largest boxes of a world, each about a third."""
    low, high = (
        int(each) for each in np.quantile([one.tapes for year in years for one in year], (1 / 3, 2 / 3))
    )
    return [
        (f"to {low}", lambda one: one.tapes <= low),
        (f"{low + 1} to {high}", lambda one: low < one.tapes <= high),
        (f"over {high}", lambda one: one.tapes > high),
    ]


def loss(years: Sequence[Year]) -> float:
    """Mean pinball loss of the 90 % day in days."""
    told = ((one.p90, one.ready) for year in years for one in year)
    losses = [
        pinball(LEVEL, p90, floor(ready)) for p90, ready in told if p90 is not None and ready is not None
    ]
    return float(np.mean(losses)) if losses else 0.0


def _after(one: Logged) -> bool:
    return one.number > KNOWN


def _targets(name: str, years: Sequence[Year], planned: Sequence[Year]) -> Iterator[Ratio]:
    after = compared(years, _after)
    yield Ratio(f"{name}, after {KNOWN}", abs(after.off), "allowed", WITHIN, "points", 1.0)
    for words, is_one in thirds(years):
        third = compared(years, lambda one, is_one=is_one: _after(one) and is_one(one))  # type: ignore[misc]
        what = f"{name}, after {KNOWN}, boxes of {words} tapes"
        yield Ratio(what, abs(third.off), "allowed", WITHIN_THIRD, "points", 1.0)
    is_right = SHARPNESS if name == RIGHT.name else None
    what = f"{name}, pinball of the 90 % day"
    yield Ratio(what, loss(years), "the plan alone", loss(planned), "d", is_right)


def _print(words: str, years: Sequence[Year], parts: Sequence[tuple[str, Which]]) -> None:
    """Stated, kept and their difference: all, before and after, and then by size of the box."""
    rows: list[tuple[str, Which]] = [
        ("all", lambda one: True),
        (f"first {KNOWN}", lambda one: not _after(one)),
        (f"after {KNOWN}", _after),
    ]
    rows += [
        (f"   {size} tapes", lambda one, is_one=is_one: _after(one) and is_one(one))  # type: ignore[misc]
        for size, is_one in parts
    ]
    print(f"      {words}: stated / kept / difference; pinball {loss(years):.2f} days")
    for row, is_one in rows:
        found = compared(years, is_one)
        print(f"         {row:<18}{found.words}  ({found.promises})", flush=True)


def _lived(name: str, wanted: Namespace) -> list[Year]:
    world = next(each for each in (*WORLDS, *CHANGED) if each.name == name)
    found: list[Year] = []
    for seed in range(wanted.seed, wanted.seed + wanted.years):
        year = promise_log.lived(world, seed)
        found.append(year)
        if wanted.log:
            promise_log.write(year, wanted.log)
    return found


def _years(logged: Sequence[Logged], name: str) -> list[Year]:
    found: dict[int, list[Logged]] = defaultdict(list)
    for one in logged:
        if one.world == name:
            found[one.seed].append(one)
    return list(found.values())


def _options(options: Sequence[str]) -> Namespace:
    parser = ArgumentParser("tests.bench worlds")
    parser.add_argument("--years", type=int, default=YEARS)
    parser.add_argument("--worlds", nargs="+", choices=[world.name for world in (*WORLDS, *CHANGED)])
    parser.add_argument("--seed", type=int, default=REPORTING)
    parser.add_argument("--log", type=Path)
    parser.add_argument("--replay", type=Path)
    return parser.parse_args(options)
