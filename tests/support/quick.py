"""The quick run (``--quick``): without the modules that took long when they were last measured.

``--measure-modules`` writes how many seconds each module of that run took into `MEASURED`, and keeps what it
says of the others that are still there. Nobody edits that file, and nobody marks a test slow by hand. A
module that is new or was moved counts as quick until it is measured.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MEASURED = Path(__file__).with_name("seconds.tsv")
SLOW_SECONDS = 3.0
"""A module slower than this on its own is left out of the quick run."""
_SPENT = pytest.StashKey[dict[str, float]]()


def measured(file: Path = MEASURED) -> dict[str, float]:
    """Seconds of each module that took part in the last measured run."""
    lines = file.read_text(encoding="utf-8").splitlines()
    return {module: float(seconds) for module, seconds in (line.split("\t") for line in lines)}


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--quick", action="store_true", help="leave out the modules measured as slow")
    parser.addoption("--measure-modules", action="store_true", help=f"write {MEASURED.name} after the run")


def pytest_configure(config: pytest.Config) -> None:
    config.stash[_SPENT] = defaultdict(float)
    config.pluginmanager.register(_Stopwatch(config.stash[_SPENT]), "stopwatch")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Marks what is slow; the quick run lets it out and pytest counts it as deselected."""
    seconds = measured()
    for item in items:
        inside = item.path.is_relative_to(ROOT)  # the tests of the guards run files of their own
        if inside and seconds.get(item.path.relative_to(ROOT).as_posix(), 0.0) > SLOW_SECONDS:
            item.add_marker(pytest.mark.slow)
    if config.getoption("quick"):
        slow = [item for item in items if item.get_closest_marker("slow")]
        config.hook.pytest_deselected(items=slow)
        items[:] = [item for item in items if not item.get_closest_marker("slow")]


def pytest_sessionfinish(session: pytest.Session) -> None:
    if session.config.getoption("measure_modules") and not hasattr(session.config, "workerinput"):
        keep(session.config.stash[_SPENT])


def keep(spent: Mapping[str, float], file: Path = MEASURED, root: Path = ROOT) -> None:
    """Write the seconds of the modules that ran beside those of the others that still exist."""
    known = {module: seconds for module, seconds in measured(file).items() if (root / module).exists()}
    lines = [f"{module}\t{seconds:.1f}\n" for module, seconds in sorted({**known, **spent}.items())]
    file.write_text("".join(lines), encoding="utf-8")


class _Stopwatch:
    """Adds up what every phase of every test took, by module."""

    def __init__(self, spent: dict[str, float]) -> None:
        self._spent = spent

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self._spent[report.nodeid.split("::")[0]] += report.duration
