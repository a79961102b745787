"""Bench, command line, deck week and promise name the same next tape on every free deck of any shop."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from random import Random
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from core.model.common_random_numbers import key
from core.model.names import TvSystem
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Outage, ShopSettings
from core.model.ranges import Range
from core.model.stations import Station
from core.promise import turnaround
from core.scheduling import deck_week, initial_state, opening_hours
from core.scheduling.next_tape import NextTape, next_tapes
from core.scheduling.plan import Plan
from core.scheduling.plan_records import Step
from core.scheduling.queued_tapes import QueuedTape
from core.scheduling.simulated_shop import Queue, SeenStart, Turnout
from tests.support.shops import FRONT, deck, fittings, queued

SHOPS = 250
ZONES = ("America/New_York", "Europe/Berlin")
MONTHS = ((2026, 3, 6), (2026, 3, 27), (2026, 10, 23), (2026, 10, 30), (2026, 6, 1))
"""First days of weeks in which clocks change in one of the zones (IANA database), and one without."""
FORMATS = ("vhs", "vhs", "vhs", "minidv", "hi8")
STATIONS = (
    *[Station.CLEARED_TO_PLAY] * 5,
    Station.BOOKED_IN,
    Station.LOOKED_OVER,
    Station.AT_THE_BENCH,
    Station.PLAYING,
    Station.BEING_CHECKED,
    Station.ASKING_THE_CUSTOMER,
    Station.READY,
)


class Shop:
    """An invented shop at a moment: its settings and its queue, all from one seed."""

    def __init__(self, seed: int) -> None:
        self._dice = dice = Random(seed)
        zone = dice.choice(ZONES)
        first = date(*dice.choice(MONTHS))
        self.settings = replace(self._settings(first), front=replace(FRONT, timezone=zone))
        start = datetime(first.year, first.month, first.day, dice.randrange(7, 20), tzinfo=ZoneInfo(zone))
        self.now = start + timedelta(days=dice.randrange(5), minutes=dice.randrange(60))
        self.queue = [self._tape(n, job) for job in range(1, dice.randrange(2, 7)) for n in self._places()]
        self.queue = self._on_decks(self.queue)

    def _settings(self, first: date) -> ShopSettings:
        dice = self._dice
        decks = [
            deck("VHS 1", "vhs"),
            deck("VHS 2", "vhs"),
            deck("S-VHS", "vhs", "s-vhs", tv="ntsc pal"),
            deck("8 mm", "video8", "hi8", "digital8"),
            deck("MiniDV", "minidv", tv="ntsc pal", in_service=dice.random() < 0.8),
        ]
        dice.shuffle(decks)
        used = tuple(decks[: dice.randrange(1, 6)])
        night = dice.random() < 0.2
        hours = tuple(OpeningHours(day, 8 * 60, (26 if night else 18) * 60) for day in range(7))
        out = first + timedelta(days=dice.randrange(5))
        outages = (Outage(used[0].name, out, out + timedelta(days=dice.randrange(3))),)
        return fittings(
            *used, openings=hours, people=dice.randrange(1, 5), outages=outages if dice.random() < 0.4 else ()
        )

    def _places(self) -> range:
        return range(1, self._dice.randrange(2, 7))

    def _tape(self, n: int, job: int) -> QueuedTape:
        dice = self._dice
        likely = dice.randrange(10, 240)
        station = dice.choice(STATIONS)
        made = queued(
            n,
            dice.choice(FORMATS),
            Range(0.8 * likely, likely, 1.2 * likely),
            station,
            self.now - timedelta(minutes=dice.randrange(200)),
            rush=job == 3,
            job=job,
        )
        cold = self.now + timedelta(minutes=dice.randrange(-60, 900)) if dice.random() < 0.15 else None
        bench = float(dice.choice((0, 0, 5, 30))) if station is Station.AT_THE_BENCH else 0.0
        tv = dice.choice((TvSystem.NTSC, TvSystem.NTSC, TvSystem.PAL, None))
        return replace(made, tv=tv, rests_until=cold, bench_minutes=bench)

    def _on_decks(self, queue: Sequence[QueuedTape]) -> list[QueuedTape]:
        """At most one tape plays on each deck, on some nobody said where."""
        free = [each.name for each in self.settings.decks if each.in_service][1:]
        found = []
        for tape in queue:
            if tape.station is Station.PLAYING and free:
                found.append(replace(tape, deck=free.pop() if self._dice.random() < 0.8 else None))
            elif tape.station is not Station.PLAYING:
                found.append(tape)
        return found


class Promised(Plan):
    """The promise's own plan in one scenario that writes down what it plays; rush to come left out."""

    def __init__(self, shop: Shop) -> None:
        self._seen: list[tuple[Sequence[Step], list[SeenStart]]] = []
        day = opening_hours.today(shop.settings, shop.now)
        calendar = opening_hours.calendar(shop.settings, day)
        ways, ahead = initial_state.prepared(shop.settings, calendar, calendar.at(shop.now), 1)
        super().__init__(ahead, ways)

    def first(self, place: int) -> tuple[int | None, datetime | None]:
        """The key of the tape a deck plays first, and when."""
        found = [
            (seen.start, steps[seen.tape].key)
            for steps, runs in self._seen
            for seen in runs
            if seen.deck == place
        ]
        return (min(found)[1], self.calendar.moment(min(found)[0])) if found else (None, None)

    def _queue(self, steps: Sequence[Step], tapes: Sequence[Turnout]) -> Queue:
        seen: list[SeenStart] = []
        self._seen.append((steps, seen))
        return replace(super()._queue(steps, tapes), seen=seen)


def promised(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> Promised:
    """What `turnaround.load` plans, its plan replaced by the one that writes down."""
    made: list[Promised] = []

    def watched(*_: object) -> Promised:
        made.append(Promised(shop))
        return made[-1]

    monkeypatch.setattr(turnaround, "Plan", watched)
    monkeypatch.setattr(turnaround, "_scenarios", lambda _: 1)
    turnaround.load(shop.settings, shop.queue, shop.now)
    return made[0]


def begins_now(shop: Shop, tape: QueuedTape | None, start: datetime | None) -> bool:
    """Whether the tape of a plan is at hand and starts while the shop is still open."""
    if tape is None or start is None or tape.station is not Station.CLEARED_TO_PLAY:
        return False
    calendar = opening_hours.calendar(shop.settings, opening_hours.today(shop.settings, shop.now))
    now, at = calendar.at(shop.now), calendar.at(start)
    slot = int(np.searchsorted(calendar.closes, now))
    is_warm = tape.rests_until is None or tape.rests_until <= shop.now
    return is_warm and bool(calendar.opens[slot] <= now and at <= calendar.closes[slot])


def differences(shop: Shop, bench: dict[str, NextTape], plan: Promised) -> list[str]:
    """Every free deck on which two of them name different tapes."""
    tapes = {key(tape.code): tape for tape in shop.queue}
    found = []
    for place, timeline in enumerate(deck_week.week(shop.settings, shop.queue, shop.now).timelines):
        if timeline.deck.name not in bench:
            continue
        run = next((run for run in timeline.runs if not run.is_playing), None)
        first, start = plan.first(place)
        promised = tapes.get(first or 0)
        loads = [
            bench[timeline.deck.name].tape,
            run.tape if run and begins_now(shop, run.tape, run.start) else None,
            promised if begins_now(shop, promised, start) else None,
        ]
        if loads != loads[:1] * 3:
            found.append(f"{timeline.deck.name}: {[tape and tape.code for tape in loads]}")
    return found


@pytest.mark.parametrize("first", range(0, SHOPS, 50))
def test_all_name_the_same_tape(first: int, monkeypatch: pytest.MonkeyPatch) -> None:
    loaded = 0
    for seed in range(first, first + 50):
        shop = Shop(seed)
        bench = next_tapes(shop.settings, shop.queue, shop.now)
        assert differences(shop, bench, promised(shop, monkeypatch)) == [], f"seed {seed}"
        loaded += sum(each.tape is not None for each in bench.values())
    assert loaded > 20  # the shops are open and have something to load
