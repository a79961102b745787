"""Which tests run which line, and how long each takes: found once for a run of mutants.

Whatever the shelves remember is forgotten before each test, else only the first one to ask would seem to run
a line. What a fixture of a module does counts for every test of that module.
"""

from __future__ import annotations

import pickle
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

import coverage
import pytest

from tests.mutants import code_swap, forked


@dataclass(slots=True)
class LineMap:
    """By file and line the places of the tests that run it; by place the seconds it took."""

    lines: dict[str, dict[int, set[int]]] = field(default_factory=dict)
    seconds: dict[int, float] = field(default_factory=dict)
    failed: set[str] = field(default_factory=set)
    """Tests that fail with nothing changed: they tell nothing."""

    def tests(self, file: str, first: int, last: int) -> set[int]:
        """Places of the tests that run one of these lines."""
        of_file = self.lines.get(file, {})
        return {place for line in range(first, last + 1) for place in of_file.get(line, ())}

    def ran(self, file: str) -> set[int]:
        """Places of the tests that run anything of a file."""
        return {place for places in self.lines.get(file, {}).values() for place in places}


def made(session: pytest.Session, paths: Sequence[Path], modules: Sequence[str], root: Path) -> LineMap:
    """Run every test once in a child, watched."""
    with tempfile.TemporaryDirectory(prefix="tapewright-mutants-") as kept:
        told = Path(kept) / "map"
        forked.tried(
            lambda pipe: told.write_bytes(_watched(session, paths, modules, root)), most_seconds=3600
        )
        found: LineMap = pickle.loads(told.read_bytes())
    return found


def _watched(session: pytest.Session, paths: Sequence[Path], modules: Sequence[str], root: Path) -> bytes:
    watch = coverage.Coverage(data_file=None, include=[str(path) for path in paths], config_file=False)
    remembering, found = code_swap.caches(iter(modules)), LineMap()
    failures = forked.Failures()
    session.config.pluginmanager.register(failures)
    watch.start()
    for place, item in enumerate(session.items):
        code_swap.forget(remembering)
        watch.switch_context(str(place))
        began, failed = time.process_time(), len(failures.found)
        following = session.items[place + 1] if place + 1 < len(session.items) else None
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        found.seconds[place] = time.process_time() - began
        if len(failures.found) > failed:
            found.failed.add(item.nodeid)
    watch.stop()
    _read(watch, paths, found, root)
    return pickle.dumps(found)


def _read(watch: coverage.Coverage, paths: Sequence[Path], found: LineMap, root: Path) -> None:
    data = watch.get_data()
    for path in paths:
        lines = data.contexts_by_lineno(str(path))
        found.lines[path.relative_to(root).as_posix()] = {
            line: {int(context) for context in contexts if context} for line, contexts in lines.items()
        }
