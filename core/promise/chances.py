"""A chance as a counter says it: so many times in twenty, the same on every screen, paper and phone.

Rounded down, so that nothing is promised that the model does not give; at most nineteen, for nothing is
certain (the shop's manners, no source).
"""

from __future__ import annotations

from datetime import date

from core.model.promise_records import Promise
from core.wording.messages import say

TWENTY = 20
"""Dots of a promise, one for each time in twenty (our choice)."""

_SURE = 0.999
"""Where the last dot stands at the earliest: the curve of a promise ends there (our choice)."""
_DUST = 1e-9
"""By which arithmetic may miss a twentieth: 0.95 is nineteen (our choice: far above 2⁻⁵²)."""


def times_in_twenty(chance: float) -> int:
    """How often in twenty, rounded down: 0 to 19."""
    return max(0, min(int(chance * TWENTY + _DUST), TWENTY - 1))


def words(chance: float, language: str | None = None) -> str:
    """``19 chances in 20``, ``1 chance in 20``; below that ``less than 1 chance in 20``."""
    return say("figures", "chance", language=language, times=times_in_twenty(chance))


def often(share: float) -> str:
    """How often something is so: ``13 times in 20``, ``once in 20``."""
    return say("figures", "often", times=times_in_twenty(share))


def days_of_dots(promise: Promise) -> tuple[date | None, ...]:
    """The day of each of the twenty dots, earliest first; None is later than the curve goes.

    Dot ``i`` stands on the first day by which the chance reaches ``i`` in twenty, so the dots up to a day
    are as many as the words of that day's chance say. The last one stands after the promised day, always.
    """
    return (*(_first_day(promise, dot / TWENTY) for dot in range(1, TWENTY)), _last_day(promise))


def _first_day(promise: Promise, share: float) -> date | None:
    return next((chance.day for chance in promise.chances if chance.by >= share - _DUST / TWENTY), None)


def _last_day(promise: Promise) -> date | None:
    after = (chance for chance in promise.chances if promise.day is None or chance.day > promise.day)
    return next((chance.day for chance in after if chance.by >= _SURE), None)
