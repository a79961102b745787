"""Something tried in a child of this process, which ends with it: nothing it changes is left behind."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Sequence
from enum import Enum

import pytest

MOST_BYTES = 6 * 2**30
"""A change may ask for memory without end."""
_FAILED, _NOT_MADE, _BROKEN = 1, 3, 4


class Outcome(Enum):
    """How a trial ended."""

    PASSED = "passed"
    FAILED = "failed"
    ENDLESS = "endless"
    NOT_MADE = "not made"
    """The change itself does not compile."""
    BROKEN = "broken"
    """The trial raised something itself; no test said a word."""


class NotMade(Exception):
    """Raised in a trial whose change could not be made."""


class Failures:
    """Notes what fails; where there is a pipe to tell it to, the first failure ends the process."""

    def __init__(self, pipe: int | None = None) -> None:
        self.found: list[str] = []
        self._pipe = pipe

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self._note(report.nodeid)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed:
            self._note(report.nodeid)

    def _note(self, test: str) -> None:
        self.found.append(test)
        if self._pipe is not None:
            os.write(self._pipe, test.encode())
            os._exit(_FAILED)


_OUTCOMES = {0: Outcome.PASSED, _FAILED: Outcome.FAILED, _NOT_MADE: Outcome.NOT_MADE, _BROKEN: Outcome.BROKEN}
Trial = Callable[[int], object]
"""Gets the pipe to which the name of the failing test is written."""


def tried(trial: Trial, most_seconds: float) -> tuple[Outcome, str]:
    """Run ``trial`` in a child that may use so many seconds of the processor; which test failed first."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        _in_child(trial, write, most_seconds)
    os.close(write)
    with os.fdopen(read, encoding="utf-8") as told:
        failed = told.read()
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        return Outcome.ENDLESS, failed
    code = os.WEXITSTATUS(status)
    return _OUTCOMES[code], failed


def _in_child(trial: Trial, pipe: int, most_seconds: float) -> None:
    """Silent, with a bound on its time and memory; never returns."""
    import resource  # not everywhere, as children that are forks are not

    code = _BROKEN
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        signal.signal(signal.SIGPROF, signal.SIG_DFL)
        signal.setitimer(signal.ITIMER_PROF, most_seconds)
        trial(pipe)
        code = 0
    except NotMade:
        code = _NOT_MADE
    except Exception as error:  # noqa: BLE001 - told to the parent, which has no other way to hear of it
        os.write(pipe, repr(error).encode()[:1000])
    finally:
        os._exit(code)


def run(session: pytest.Session, places: Sequence[int], pipe: int) -> None:
    """The tests at these places one after the other; the first failure ends the process."""
    manager = session.config.pluginmanager
    if manager.get_plugin("terminalreporter") is not None:
        manager.unregister(name="terminalreporter")
    manager.register(Failures(pipe))
    items = [session.items[place] for place in places]
    for item, following in zip(items, [*items[1:], None], strict=True):
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
