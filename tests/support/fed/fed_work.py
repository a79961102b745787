"""What the people of an invented shop write down of their work, for the program to learn efforts from.

A step is recorded when it ends, as a shop does that moves each tape when it is through with it; with a
customer at the counter an order is taken in. What people do between, or how long a step took, nobody writes.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from functools import cache, partial

from core.model.own_shop.settings_records import ShopSettings
from core.model.stations import Station
from core.scheduling import opening_hours
from core.scheduling.worktime import work_learning
from core.scheduling.worktime.recorded_acts import Act
from core.scheduling.worktime.work_learning import LearnedWork
from tests.support.shops import repaired
from tests.support.worlds.living_shop import LivingShop
from tests.support.worlds.people_at_work import DAY
from tests.support.worlds.shop_lives import Box, Tape, Work

MONDAY = datetime(2026, 1, 5, tzinfo=UTC)
"""Day 0 of every world."""
_STATIONS = {
    "look-over": Station.CLEARED_TO_PLAY,
    "splice": Station.CLEARED_TO_PLAY,
    "clean": Station.CLEARED_TO_PLAY,
    "load": Station.PLAYING,
    "unload": Station.BEING_CHECKED,
    "check": Station.READY,
}
_SPLICE = sum(each.minutes.likely for each in repaired("splice").repairs)


def moment(minutes: float) -> datetime:
    return MONDAY + timedelta(minutes=minutes)


def number_of(box: Box) -> str:
    return f"{box.number:06d}"


def learned_of(shop: LivingShop, settings: ShopSettings) -> LearnedWork:
    """What the history shows by now."""
    now = moment(shop.now)
    hours = cache(partial(opening_hours.hours_on, settings))
    return work_learning.learned(acts(shop), hours, settings.handling, now.timestamp() / 60, now.date())


def acts(shop: LivingShop) -> tuple[Act, ...]:
    """The lines written by now, oldest first."""
    found = [
        *_taken_in(shop),
        *(act for work in shop.done_work if work.ended <= shop.now for act in _acts(work)),
    ]
    return tuple(sorted(found, key=lambda act: act.at))


def _taken_in(shop: LivingShop) -> Iterator[Act]:
    for box in shop.boxes:
        yield _act(box.came, "", number_of(box), books=True)
        for tape in box.tapes:
            yield _act(box.came, "", code_of(tape), station=Station.BOOKED_IN)


def _acts(work: Work) -> Iterator[Act]:
    who = f"Person {work.person + 1}"
    if work.tape is None:
        yield _act(work.ended, who, "")
        return
    code, station = code_of(work.tape), _STATIONS[work.what]
    if work.what == "splice":
        yield _act(work.began, who, code, station=Station.AT_THE_BENCH, planned=_SPLICE)
    if work.sends_back:
        station = Station.CLEARED_TO_PLAY
    deck = "" if work.deck is None else f"{work.deck}"
    played = work.tape.new.minutes if work.what == "unload" else 0.0
    yield _act(
        work.ended,
        who,
        code,
        station=station,
        deck=deck,
        played=played,
        planned=_SPLICE * (work.what == "splice"),
    )


def code_of(tape: Tape) -> str:
    return f"{number_of(tape.box)}{tape.n:03d}0"


def _act(at: float, who: str, about: str, **more: object) -> Act:
    when = MONDAY + timedelta(minutes=at)
    return Act(at=moment(at).timestamp() / 60, day=when.date(), clock=at % DAY, who=who, about=about, **more)  # type: ignore[arg-type]
