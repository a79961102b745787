"""A queue that was worked through for one shop of the run serves every other with the same one.

The clock of the tests stands still and their shops begin alike, so the same plan in a thousand scenarios was
worked out thousands of times. `turnaround.load` and `turnaround.promise` are pure, and their arguments are
compared by value, with the time zone of the moment, which equal moments may differ in; language and catalogue
belong to the key as well. The tests of the plan itself work everything out anew, every time.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from core.promise import turnaround
from core.wording.messages import worded_cache

ROOT = Path(__file__).parents[1]
OF_THE_PLAN = tuple(
    ROOT / place for place in ("core/promise", "core/scheduling", "core/playtime", "reference")
)
"""What tests the plan, and may replace its parts."""
LOADS = 24
"""A load holds some 200 KB of scenarios."""
PROMISES = 500

_is_on = [False]


@pytest.fixture(autouse=True, scope="session")
def worked_out_once() -> Iterator[None]:
    """The two doors of the plan, with a memory."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(turnaround, "load", _remembering(turnaround.load, LOADS))
        patched.setattr(turnaround, "promise", _remembering(turnaround.promise, PROMISES))
        yield


@pytest.fixture(autouse=True, scope="module")
def plan_is_not_meant(request: pytest.FixtureRequest) -> Iterator[None]:
    """What was worked out serves again, but for the tests of the plan."""
    _is_on[0] = not any(request.path.is_relative_to(place) for place in OF_THE_PLAN)
    yield
    _is_on[0] = False


def _remembering(make: Callable[..., Any], most: int) -> Callable[..., Any]:
    kept = worded_cache(most)(lambda zones, *args, **named: make(*args, **named))

    def answer(*args: Any, **named: Any) -> Any:
        if not _is_on[0] or not all(isinstance(each, Hashable) for each in args):
            return make(*args, **named)
        zones = tuple(f"{each.tzinfo}" for each in args if isinstance(each, datetime))
        return kept(zones, *args, **named)

    return answer
