"""What a promise stands on: the shop as it was when the date was said, and what has changed since."""

from __future__ import annotations

from collections.abc import Iterator

from core.model.promise_records import PromiseBasis
from core.model.settings_records import ShopSettings
from core.scheduling import opening_hours
from core.wording import locale_figures
from core.wording.messages import say

_MORE_TAPES = 1.25
"""A queue that grew by less than a quarter is no reason to name (an assumption)."""


def of(settings: ShopSettings, tapes_waiting: int) -> PromiseBasis:
    """The shop as a quote of this moment finds it."""
    away = settings.expected.awaited
    return PromiseBasis(
        tapes_waiting=tapes_waiting,
        decks=tuple(each.name for each in settings.decks if each.in_service and each.name not in away),
        people=settings.people,
        hours_a_week=_hours_a_week(settings),
    )


def changes(then: PromiseBasis | None, now: PromiseBasis) -> tuple[str, ...]:
    """What is less good now, one phrase each; nothing for a promise made before its basis was kept."""
    return () if then is None else tuple(_changes(then, now))


def _changes(then: PromiseBasis, now: PromiseBasis) -> Iterator[str]:
    gone = [name for name in then.decks if name not in now.decks]
    if gone:
        yield say("dates", "out_now", n=len(gone), decks=locale_figures.listed(gone))
    if now.people < then.people:
        yield say("dates", "fewer_people", now=now.people, then=then.people)
    if now.hours_a_week < then.hours_a_week:
        yield say("dates", "fewer_hours", now=now.hours_a_week, then=then.hours_a_week)
    if now.tapes_waiting > _MORE_TAPES * then.tapes_waiting and now.tapes_waiting > then.tapes_waiting + 1:
        yield say("dates", "more_tapes", now=now.tapes_waiting, then=then.tapes_waiting)


def _hours_a_week(settings: ShopSettings) -> float:
    return sum(opening.end - opening.start for opening in opening_hours.regular(settings)) / 60
