"""A connection to a PostgreSQL server that gives a call up by itself when nothing is heard.

The timers of TCP do not do it: an answer that is lost on the way after the server took the question leaves
nothing unacknowledged, and the keep-alive of most systems begins after two hours. What is counted is silence,
not length: a call that goes on receiving is never given up.
"""

from __future__ import annotations

from collections.abc import Generator
from time import monotonic
from typing import Any, TypeVar

import psycopg

from core.store.silence import Patience

T = TypeVar("T")

LOOK_S = 0.1
"""How often a call that waits looks whether it has waited enough."""


class NoAnswer(psycopg.OperationalError):
    """No answer in time; whether the server did what it was told is not known."""


class PatientConnection(psycopg.Connection[Any]):
    """Each of its calls raises `NoAnswer` after so much silence; the connection is closed then."""

    patience = Patience()

    def wait(self, gen: Any, interval: float = LOOK_S, timeout: float | None = None) -> Any:
        """As psycopg's own, which waits for ever; with a ``timeout`` of its own, as it is."""
        if timeout is not None:
            return super().wait(gen, interval, timeout)
        try:
            return super().wait(_listening(gen, self.patience), interval)
        except NoAnswer:
            self.pgconn.finish()
            raise


def _listening(call: Generator[Any, Any, T], patience: Patience) -> Generator[Any, Any, T]:
    """The same call, given up when nothing comes for as long as ``patience`` says."""
    heard = monotonic()
    try:
        wanted = next(call)
        while True:
            ready = yield wanted
            if ready:
                heard = monotonic()
            elif monotonic() - heard > patience.seconds:
                raise NoAnswer("no-answer-in-time")
            wanted = call.send(ready)
    except StopIteration as ended:
        answer: T = ended.value
        return answer
