"""The quick run (``--quick``): without the modules that took long when they were last measured.

``--measure-modules`` writes how many seconds of the processor each module of that run took into `MEASURED`,
with the programs it started, and keeps what it says of the others that are still there. A busy machine makes
a module hardly dearer by that; what a PostgreSQL server does for it is not counted. Nobody edits that file,
and nobody marks a test slow by hand. A module that is new or was moved counts as quick until it is measured.
The cheapest modules are the quick ones, as many as fit into `QUICK_SECONDS`; the others are not even imported
then.
"""

from __future__ import annotations

import os
from collections import defaultdict
from collections.abc import Callable, Generator, Mapping
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MEASURED = Path(__file__).with_name("seconds.tsv")
QUICK_SECONDS = 95.0
"""What the modules of the quick run may take of the processor together; two cores take half of it, a while
for what they wait for, and 15 s to begin."""
_SPENT = pytest.StashKey[dict[str, float]]()
_SLOW = pytest.StashKey[frozenset[str]]()


def measured(file: Path = MEASURED) -> dict[str, float]:
    """Seconds of each module that took part in the last measured run."""
    lines = file.read_text(encoding="utf-8").splitlines()
    return {module: float(seconds) for module, seconds in (line.split("\t") for line in lines)}


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--quick", action="store_true", help="leave out the modules measured as slow")
    parser.addoption("--measure-modules", action="store_true", help=f"write {MEASURED.name} after the run")


def pytest_configure(config: pytest.Config) -> None:
    config.stash[_SPENT] = defaultdict(float)
    config.stash[_SLOW] = slow_modules(measured())
    stopwatch = _Stopwatch(config.stash[_SPENT], _processor_seconds)
    config.pluginmanager.register(stopwatch, "stopwatch")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Marks what is slow."""
    for item in items:
        if _module(item.path) in config.stash[_SLOW]:
            item.add_marker(pytest.mark.slow)


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """The quick run leaves the slow modules out."""
    if config.getoption("quick") and _module(collection_path) in config.stash[_SLOW]:
        return True
    return None


def pytest_report_header(config: pytest.Config) -> str | None:
    """Says how many were left out."""
    if not config.getoption("quick"):
        return None
    return f"quick: the {len(config.stash[_SLOW])} slowest modules are left out"


def slow_modules(seconds: Mapping[str, float], most: float = QUICK_SECONDS) -> frozenset[str]:
    """The modules left when the cheapest have filled ``most`` seconds."""
    spent, slow = 0.0, set()
    for module, taken in sorted(seconds.items(), key=lambda each: (each[1], each[0])):
        spent += taken
        if spent > most:
            slow.add(module)
    return frozenset(slow)


def _module(path: Path) -> str:
    """As `MEASURED` names it; the tests of the guards run files of their own elsewhere."""
    return path.relative_to(ROOT).as_posix() if path.is_relative_to(ROOT) else ""


def pytest_sessionfinish(session: pytest.Session) -> None:
    if session.config.getoption("measure_modules") and not hasattr(session.config, "workerinput"):
        keep(session.config.stash[_SPENT])


def keep(spent: Mapping[str, float], file: Path = MEASURED, root: Path = ROOT) -> None:
    """Write the seconds of the modules that ran beside those of the others that still exist."""
    known = {module: seconds for module, seconds in measured(file).items() if (root / module).exists()}
    lines = [f"{module}\t{seconds:.1f}\n" for module, seconds in sorted({**known, **spent}.items())]
    file.write_text("".join(lines), encoding="utf-8")


class _Stopwatch:
    """Adds up what every phase of every test took of the processor, by module; each process tells its own."""

    def __init__(self, spent: dict[str, float], clock: Callable[[], float]) -> None:
        self._spent = spent
        self._clock = clock
        self._last = 0.0

    def pytest_runtest_logstart(self) -> None:
        self._last = self._clock()

    @pytest.hookimpl(wrapper=True, trylast=True)
    def pytest_runtest_makereport(self) -> Generator[None, pytest.TestReport, pytest.TestReport]:
        report = yield
        now = self._clock()
        report.processor_seconds = now - self._last
        self._last = now
        return report

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self._spent[report.nodeid.split("::")[0]] += getattr(report, "processor_seconds", 0.0)


def _processor_seconds() -> float:
    """Of this process and of those it has started and waited for."""
    spent = os.times()
    return spent.user + spent.system + spent.children_user + spent.children_system
