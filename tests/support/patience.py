"""How long a test waits for what is sure to come: a busy machine is slow, not wrong.

A wait ends with the fact waited for, so that patience costs nothing until something is really broken.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

PATIENCE_S = 60
PATIENCE_MS = 1000 * PATIENCE_S
OFTEN_MS = 1
"""Between two looks; the machine is given to the other threads meanwhile."""


class PatientBot(QtBot):
    """Looks every millisecond, and gives up after a minute instead of pytest-qt's five seconds."""

    def waitUntil(self, callback: Callable[[], bool | None], *, timeout: int = PATIENCE_MS) -> None:
        """Until ``callback`` says True, or says nothing instead of raising AssertionError."""
        __tracebackhide__ = True
        given_up = time.monotonic() + timeout / 1000
        while True:
            try:
                if callback() is not False:
                    return
            except AssertionError:
                if time.monotonic() > given_up:
                    raise
            if time.monotonic() > given_up:
                raise TimeoutError(f"what was waited for did not come within {timeout / 1000:g} s")
            self.wait(OFTEN_MS)

    def waitExposed(self, widget: Any, *, timeout: int = PATIENCE_MS) -> AbstractContextManager[Any]:
        return super().waitExposed(widget, timeout=timeout)  # type: ignore[no-any-return]

    def waitSignal(self, signal: Any, *, timeout: int = PATIENCE_MS, **named: Any) -> Any:
        return super().waitSignal(signal, timeout=timeout, **named)


@pytest.fixture
def qtbot(qapp: Any, request: pytest.FixtureRequest) -> PatientBot:
    """pytest-qt's own, with patience."""
    return PatientBot(request)
