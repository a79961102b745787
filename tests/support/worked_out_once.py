"""The plan of an empty shop is worked out once a run, and so is the date of each box quoted against it.

The clock of the tests stands still and their shops begin alike, so nearly every test asked for the same date
of its first box. `turnaround.load` and `turnaround.promise` are pure; what they are given is compared by
value, with the time zone of the moment, in which equal moments may differ, with language and catalogue. The
tests of the plan itself work everything out anew. A plan takes some 3 MB: few are kept.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import datetime
from pathlib import Path
from threading import Lock
from typing import Any

import pytest

from core.model.own_shop.settings_records import ShopSettings
from core.promise import turnaround
from core.promise.backlogs import Backlog
from core.wording import editions, messages
from core.wording.messages import worded_cache

ROOT = Path(__file__).parents[1]
OF_THE_PLAN = tuple(
    ROOT / place for place in ("core/promise", "core/scheduling", "core/playtime", "reference")
)
"""What tests the plan, and may replace its parts."""
PLANS = 3
PROMISES = 64

Promising = Callable[..., Any]

_is_on = [False]


class Plans:
    """The last few plans of empty shops, each with the dates it was asked for."""

    def __init__(self) -> None:
        self._load, self._promise = turnaround.load, turnaround.promise
        self._kept: list[tuple[object, turnaround.Load, Promising]] = []
        self._lock = Lock()

    def load(
        self,
        settings: ShopSettings,
        queue: Sequence[Any],
        now: datetime,
        *,
        by_hand: bool | None = None,
        backlog: Backlog | None = None,
    ) -> turnaround.Load:
        """As `turnaround.load`."""
        if not _is_on[0] or queue or backlog is not None:
            return self._load(settings, queue, now, by_hand=by_hand, backlog=backlog)
        key = (settings, now, f"{now.tzinfo}", by_hand, messages.current(), editions.current())
        with self._lock:
            for kept in self._kept:
                if kept[0] == key:
                    return kept[1]
            made = self._load(settings, queue, now, by_hand=by_hand)
            self._kept = [*self._kept, (key, made, worded_cache(PROMISES)(self._promise))][-PLANS:]
            return made

    def promise(self, load: turnaround.Load, tapes: Sequence[Any], *args: Any, **named: Any) -> Any:
        """As `turnaround.promise`."""
        ask = next((kept[2] for kept in self._kept if _is_on[0] and kept[1] is load), self._promise)
        return ask(load, tuple(tapes), *args, **named)


@pytest.fixture(autouse=True, scope="session")
def worked_out_once() -> Iterator[None]:
    """The two doors of the plan, with a memory."""
    plans = Plans()
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(turnaround, "load", plans.load)
        patched.setattr(turnaround, "promise", plans.promise)
        yield


@pytest.fixture(autouse=True, scope="module")
def plan_is_not_meant(request: pytest.FixtureRequest) -> Iterator[None]:
    """What was worked out serves again, but for the tests of the plan."""
    _is_on[0] = not any(request.path.is_relative_to(place) for place in OF_THE_PLAN)
    yield
    _is_on[0] = False
