"""A rush box says whether it is needed, and whose promises it would push."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from core.model.inventory import Inventory, TapeLine
from core.model.names import FormatName, JobNumber, Speed, TvSystem
from core.model.promise_records import Promise
from core.model.quote_records import Quote
from core.model.ranges import Range
from core.playtime.habits import STARTING
from core.pricing import price_book
from core.promise import rush_effects, turnaround
from core.promise.rush_effects import pushed
from core.services.quoting import ShopSnapshot, quote
from tests.support.shops import TUESDAY, fittings, queued, quoted

SHOP = fittings()
QUEUE = [queued(n, minutes=Range(100, 120, 140), job=n) for n in range(1, 13)]
"""Twelve boxes of one tape each before one deck."""
LOAD = turnaround.load(SHOP, QUEUE, TUESDAY)


def promised() -> dict[JobNumber, Promise]:
    found = {tape.job: turnaround.standing(LOAD, tape.job) for tape in QUEUE}
    return {number: each for number, each in found.items() if each is not None}


def test_a_long_rush_box_pushes_promises_that_were_sure_and_a_box_of_nothing_none() -> None:
    long = [quoted(1, n, minutes=Range(300, 330, 360)) for n in range(1, 4)]
    found = pushed(SHOP, QUEUE, TUESDAY, long, promised(), STARTING)
    assert found
    assert all(one.will < one.was for one in found)
    assert [one.will - one.was for one in found] == sorted(one.will - one.was for one in found)
    assert found[0].number in rush_effects.sentence(found)
    none = pushed(SHOP, QUEUE, TUESDAY, [], promised(), STARTING)
    assert none == ()
    assert rush_effects.sentence(none) == "Rush pushes nobody else's date."


def made(queue: int, **changes: object) -> Quote:
    book = price_book.in_force(TUESDAY.date())
    load = turnaround.load(SHOP, QUEUE[:queue], TUESDAY)
    line = TapeLine(2, FormatName("vhs"), "T-120", speed=Speed.SP)
    box = replace(Inventory((line,), TvSystem.NTSC, rush=True), **changes)  # type: ignore[arg-type]
    return quote(box, ShopSnapshot(SHOP, book, load, TUESDAY))


def test_a_rush_quote_says_when_it_would_be_ready_without_and_whether_that_is_soon_enough() -> None:
    idle, busy = made(0), made(12)
    assert not idle.needs_rush
    assert any(each.startswith("Rush isn't needed") for each in idle.warnings)
    assert busy.needs_rush
    assert busy.without_rush is not None
    assert busy.promise.day is not None
    assert busy.without_rush > busy.promise.day
    assert any(each.startswith("Without rush") for each in busy.warnings)
    late = made(12, needed_by=TUESDAY.date() + timedelta(days=60))
    assert not late.needs_rush
    assert any("in time" in each for each in late.warnings)
