"""What a measurement hands back: ours beside a floor measured in the same run, never bare milliseconds."""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Ratio:
    """``ours`` divided by ``floor``, both in ``unit``; ``at_most`` is the target, if there is one."""

    what: str
    ours: float
    against: str
    floor: float
    unit: str
    at_most: float | None = None

    @property
    def value(self) -> float:
        return self.ours / self.floor if self.floor else math.inf

    @property
    def is_met(self) -> bool:
        """Whether the target is kept; a told figure has none to miss."""
        return self.at_most is None or self.value <= self.at_most

    @property
    def words(self) -> str:
        """One line for a person."""
        figures = f"{self.ours:.4g} {self.unit} against {self.floor:.4g} {self.unit} ({self.against})"
        if self.at_most is None:
            return f"{self.what}: {self.value:.3g}× — {figures}"
        verdict = "kept" if self.is_met else "MISSED"
        return f"{self.what}: {self.value:.3g}×, target ≤ {self.at_most:.3g}× {verdict} — {figures}"


def median(values: Sequence[float]) -> float:
    """The middle value."""
    return statistics.median(values)


def p95(values: Sequence[float]) -> float:
    """The smallest value that at least 95 in 100 do not exceed."""
    return sorted(values)[math.ceil(0.95 * len(values)) - 1]


def own_time() -> float:
    """Seconds this thread has worked: others at work on the same machine do not count."""
    return time.thread_time()


def timed(
    call: Callable[[], object], times: int, clock: Callable[[], float] = time.perf_counter
) -> list[float]:
    """Milliseconds of each of ``times`` calls, after one that is not counted."""
    call()
    taken = []
    for _ in range(times):
        began = clock()
        call()
        taken.append(1000 * (clock() - began))
    return taken
