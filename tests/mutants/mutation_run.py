"""One run over some files: what was made, noticed, argued and left, by file."""

from __future__ import annotations

import os
import re
import sys
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TextIO

import pytest
from hypothesis import Phase, settings

from tests.mutants import argued_survivors, changed_program
from tests.mutants.forked import Outcome
from tests.mutants.mutated_source import ROOT, Module, Mutant
from tests.mutants.trials import Trials
from tests.support import quick

LONG_SECONDS = 30.0
"""A module of tests that takes longer is asked only when it is named."""
_SHORT_SECONDS = 4.0
"""The same for tests of other shelves."""
_COLUMNS = ("made", "noticed", "argued", "left")


def files(names: Sequence[str]) -> list[Path]:
    """The files of shelves, or files named by their path. ValueError for one that is not there."""
    found: list[Path] = []
    for name in names:
        shelf = ROOT / "core" / name
        some = sorted(shelf.rglob("*.py")) if shelf.is_dir() else [(ROOT / name).resolve()]
        if not all(path.is_file() for path in some):
            raise ValueError(f"no shelf and no file: {name}")
        found += some
    return found


def tests_of(paths: Sequence[Path]) -> list[Path]:
    """The tests of the shelves of these files, the reference values and what else names the modules.

    Without those that take long.
    """
    shelves = dict.fromkeys(path.relative_to(ROOT).parts[1] for path in paths)
    folders = [*(ROOT / "tests" / "core" / shelf for shelf in shelves), ROOT / "tests" / "reference"]
    own = [path for folder in folders for path in sorted(folder.glob("test_*.py"))]
    others = sorted(set((ROOT / "tests" / "core").rglob("test_*.py")) - set(own))
    named = re.compile(rf"^from core\.(\w+\.)*({'|'.join(path.stem for path in paths)})\b", re.MULTILINE)
    asking = [path for path in others if named.search(path.read_text(encoding="utf-8"))]
    return _quick(own, LONG_SECONDS) + _quick(asking, _SHORT_SECONDS)


def _quick(paths: Sequence[Path], most: float) -> list[Path]:
    seconds = quick.measured()
    return [path for path in paths if seconds.get(path.relative_to(ROOT).as_posix(), 0.0) <= most]


@dataclass(slots=True)
class Tally:
    """Counts by file, told as they come."""

    out: TextIO
    argued: dict[argued_survivors.Key, argued_survivors.Argued]
    counts: defaultdict[str, Counter[str]] = field(default_factory=lambda: defaultdict(Counter))
    limit: int | None = None

    def is_wanted(self, mutant: Mutant) -> bool:
        """Whether it is tried: it is not argued, and there are not enough of its file yet."""
        count = self.counts[mutant.file]
        if self.limit is not None and count["made"] >= self.limit:
            return False
        count["made"] += 1
        count["argued"] += mutant.key in self.argued
        return mutant.key not in self.argued

    def tell(self, mutant: Mutant, outcome: Outcome | None, test: str) -> None:
        """Count it, and say so where it is left."""
        count = self.counts[mutant.file]
        if outcome in (Outcome.FAILED, Outcome.ENDLESS):
            count["noticed"] += 1
        elif outcome is Outcome.NOT_MADE:
            count["made"] -= 1
        else:
            count["left"] += 1
            why = "no test runs it" if outcome is None else f"no test fails {test}".rstrip()
            self._say(f"{mutant.file}:{mutant.line} {mutant.function}: {why}\n    {mutant.text}")
            self._say(f"    {mutant.change}")

    def table(self) -> None:
        """One row a file, and the sum."""
        rows = [*sorted(self.counts.items()), ("together", sum(self.counts.values(), Counter()))]
        width = max(len(name) for name, _ in rows)
        self._say("  ".join(["file".ljust(width), *(f"{column:>8}" for column in _COLUMNS)]))
        for name, count in rows:
            self._say("  ".join([name.ljust(width), *(f"{count[column]:8}" for column in _COLUMNS)]))

    def _say(self, line: str) -> None:
        print(line, file=self.out, flush=True)


def report(paths: Sequence[Path], tests: Sequence[Path], limit: int | None, seconds: float) -> int:
    """Try the mutants of the files, tell what is left; 1 where anything is."""
    modules = [module for module in map(Module, paths) if module.mutants()]
    argued = argued_survivors.read()
    out = os.fdopen(os.dup(sys.stdout.fileno()), "w", encoding="utf-8")
    tally = Tally(out, argued, limit=limit)
    trials = Trials(modules, tally.is_wanted, tally.tell, seconds)
    told = run_in_pytest(tests, trials)
    tally.table()
    old = argued_survivors.stale(
        argued, [each for module in modules for each in module.mutants()], [module.file for module in modules]
    )
    for key in old:
        print(f"argued, but no longer there: {' | '.join(key)}", file=out)
    left = sum(count["left"] for count in tally.counts.values())
    return 1 if left or old or told else 0


def run_in_pytest(tests: Sequence[Path | str], plugin: object) -> int:
    """Collect the tests in this process and give them to the plugin; what pytest ended with."""
    return int(pytest.main([*changed_program.ARGUMENTS, *map(str, tests)], plugins=[plugin, _OneTry()]))


class _OneTry:
    """Hypothesis looks for a failure and not for the smallest one, and keeps none."""

    @pytest.hookimpl(tryfirst=True)
    def pytest_collection(self) -> None:
        house = settings.get_profile("house")
        settings.register_profile(
            "mutants", house, phases=(Phase.explicit, Phase.generate), database=None, derandomize=True
        )
        settings.load_profile("mutants")
