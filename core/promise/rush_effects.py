"""Whose promises a rush box on the counter would push: the queue planned with it and without it.

Both plans draw the same numbers, so what lies between them comes from the box alone. For the background.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from core.model.names import JobNumber, TapeCode
from core.model.own_shop.settings_records import ShopSettings
from core.model.promise_records import Promise, PushedPromise
from core.model.quote_records import QuotedTape
from core.model.stations import Station
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import facts
from core.promise import chances, turnaround
from core.scheduling.queued_tapes import QueuedTape
from core.wording import locale_figures
from core.wording.messages import say

LEAST = 0.05
"""A chance that falls by less than one time in twenty is not worth a word (an assumption)."""
_COUNTER = "000000"
"""The number of the box on the counter: no order has it."""


def pushed(
    settings: ShopSettings,
    queue: Sequence[QueuedTape],
    now: datetime,
    tapes: Sequence[QuotedTape],
    promised: Mapping[JobNumber, Promise],
    shop: ShopHabits,
) -> tuple[PushedPromise, ...]:
    """The promises that would fall below what was stated, the one that falls most first."""
    plain = turnaround.load(settings, queue, now)
    box = [
        _queued(place, tape, now, shop) for place, tape in enumerate(tapes, 1) if tape.verdict.is_worked_on
    ]
    hurried = turnaround.load(settings, (*box, *queue), now, by_hand=plain.by_hand)
    found = []
    for number, promise in promised.items():
        if promise.day is None or number not in plain.jobs:
            continue
        was, will = (turnaround.chance_of(load, number, promise.day) for load in (plain, hurried))
        if was - will >= LEAST and will < promise.stated:
            found.append(PushedPromise(number, promise.day, was, will))
    return tuple(sorted(found, key=lambda one: (one.will - one.was, one.number)))


def _queued(place: int, tape: QuotedTape, now: datetime, shop: ShopHabits) -> QueuedTape:
    draft = tape.draft
    return QueuedTape(
        code=TapeCode(f"{_COUNTER}{place:03d}0"),
        format=draft.format,
        recorded_as=draft.recorded_as,
        tv=draft.tv,
        speed=draft.speed,
        minutes=tape.minutes,
        station=Station.BOOKED_IN,
        since=now,
        rush=True,
        bench_minutes=tape.verdict.bench_minutes,
        known=facts(draft),
        habits=shop,
    )


def sentence(found: Sequence[PushedPromise]) -> str:
    """Whose promises are pushed, each with its chance now and then; or that none is."""
    orders = [
        say(
            "quotes",
            "rush_pushes_order",
            number=one.number,
            day=locale_figures.day(one.day),
            was=chances.words(one.was),
            will=chances.words(one.will),
        )
        for one in found
    ]
    return say("quotes", "rush_pushes", n=len(orders), orders=locale_figures.listed(orders))
