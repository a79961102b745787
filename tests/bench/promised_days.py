"""The promise: its speed against SimPy, its orders against a solver, its chances against simulated years.

Everything is measured beside its yardstick in the same run. The yardstick of speed is the same shop written
with SimPy (`tests.support.worlds.simpy_shop`), one scenario of which is timed and counted a thousand times.
The yardstick of the chances is a simulator that shares nothing with the engine
(`tests.support.worlds.shop_year`).
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import date

import numpy as np

from core.model import common_random_numbers
from core.model.own_shop.opening_records import OpeningHours
from core.model.ranges import Range
from core.promise.stated_dates import chances_by
from core.scheduling import event_simulation, opening_hours
from core.scheduling.drawn_minutes import lengths
from core.scheduling.plan_records import estimate
from core.scheduling.play_hours import PlayHours
from core.scheduling.simulated_shop import FILL, DeckTimelines, InitialState, Part, Queue, Turnout
from tests.bench.ratio import Ratio, own_time, timed
from tests.bench.turnaround_orders import orders
from tests.bench.turnaround_years import years
from tests.support.shops import WEEKDAYS, fittings
from tests.support.worlds import simpy_shop
from tests.support.worlds.simpy_shop import Rules, Tape

TAPES, SCENARIOS, BOX, LARGE = 3_000, 1_000, 12, 40
DECKS = 8
KINDS = (((0, 1, 2, 3), 0.45), ((2, 3), 0.1), ((4, 5), 0.25), ((6,), 0.12), ((7,), 0.08))
RANGES = (Range(40, 105, 119), Range(25, 60, 118), Range(55, 118, 320), Range(30, 55, 63))
CALENDAR = opening_hours.calendar(fittings(openings=(*WEEKDAYS, OpeningHours(5, 600, 840))), date(2026, 3, 2))
HOURS = [(float(a), float(b)) for a, b in zip(CALENDAR.opens, CALENDAR.closes, strict=True)]
NOW, HANDLING = 540.0, 5.0
COMPARED = 10
"""Scenarios run through SimPy: 30,000 tapes."""
FRAME_MS = 16.0


def measure() -> Iterator[Ratio]:
    shop = _Shop()
    yield from _same_ends(shop)
    yield from _speed(shop)
    yield from orders()
    yield from years()


@dataclass(frozen=True, slots=True)
class _Drawn:
    key: int
    box: int
    minutes: Range
    drawn_as: None = None


class _Shop:
    """Three thousand tapes in boxes of nine and a half, each with its draws."""

    def __init__(self) -> None:
        dice = np.random.default_rng(1)
        self.kinds = [KINDS[n][0] for n in dice.choice(len(KINDS), TAPES, p=[w for _, w in KINDS])]
        self.ranges = [RANGES[n] for n in dice.integers(len(RANGES), size=TAPES)]
        self.boxes = np.sort(dice.integers(0, 317, TAPES)).tolist()
        self.drawn = [
            _Drawn(common_random_numbers.key(n), box, minutes)
            for n, (box, minutes) in enumerate(zip(self.boxes, self.ranges, strict=True))
        ]
        self.minutes = self.draw(self.drawn)

    def draw(self, tapes: list[_Drawn]) -> np.ndarray:  # type: ignore[type-arg]
        """To 1/1024 of a minute, so that both programs add them up without rounding."""
        return np.round(lengths(tapes, 1, SCENARIOS) * 1024) / 1024

    def timelines(self) -> DeckTimelines:
        return DeckTimelines(PlayHours(CALENDAR, 60.0), np.full((DECKS, SCENARIOS), NOW))

    def refresh(self, fill: int) -> tuple[DeckTimelines, list[Part]]:
        """The whole queue, a part for every tape."""
        timelines = self.timelines()
        parts = [Part(np.full(SCENARIOS, -np.inf)) for _ in range(TAPES)]
        rows = zip(self.kinds, self.ranges, parts, strict=True)
        tapes = [Turnout(decks, estimate(minutes), NOW, part) for decks, minutes, part in rows]
        event_simulation.work_off(
            InitialState(timelines, HANDLING, NOW, fill=fill), Queue(tapes, self.minutes)
        )
        return timelines, parts

    def simpy(self, scenario: int, fill: int) -> list[float]:
        rows = zip(self.kinds, self.ranges, self.minutes[:, scenario], strict=True)
        tapes = [Tape(decks, estimate(minutes), float(played)) for decks, minutes, played in rows]
        return simpy_shop.lean(tapes, DECKS, Rules(HOURS, 60.0, HANDLING, fill), NOW)


def _same_ends(shop: _Shop) -> Iterator[Ratio]:
    for fill, words in ((0, "strictly in order"), (FILL, "end of the day filled")):
        _, parts = shop.refresh(fill)
        ours = np.stack([part.ends[:COMPARED] for part in parts])
        theirs = np.array([shop.simpy(scenario, fill) for scenario in range(COMPARED)]).T
        apart = float(np.abs(ours - theirs).max())
        what = f"largest difference over {ours.size} tapes, {words}"
        yield Ratio(what, apart, "allowed", 1e-6, "min", 1.0)


def _speed(shop: _Shop) -> Iterator[Ratio]:
    """The least of several times each, taken in turns: what the work takes when nothing else runs."""
    for fill, words in ((0, "strictly in order"), (FILL, "end of the day filled")):
        pairs = [
            (_ms(lambda fill=fill: shop.simpy(0, fill)), _ms(lambda fill=fill: shop.refresh(fill)))
            for _ in range(5)
        ]
        once, ours = (min(times) for times in zip(*pairs, strict=True))
        against = f"SimPy, {SCENARIOS} times one scenario"
        what = f"refresh of {TAPES} tapes, {SCENARIOS} scenarios, {words}"
        yield Ratio(what, ours, against, once * SCENARIOS, "ms", 1 / 25)
        quote = min(timed(_quote(shop, fill), 25))
        yield Ratio(f"quote of {BOX} tapes, {words}", quote, against, once * SCENARIOS, "ms", 1 / 5_000)
        yield Ratio(f"quote of {BOX} tapes, {words}", quote, "one frame", FRAME_MS, "ms", 1.0)
        large = min(timed(_quote(shop, fill, LARGE), 25))
        yield Ratio(f"quote of {LARGE} tapes, {words}", large, "one frame", FRAME_MS, "ms", 1.0)
    yield Ratio("longest stop of the window's thread", _stop(shop), "one frame", FRAME_MS, "ms", 1.0)


def _ms(call: Callable[[], object]) -> float:
    """Milliseconds of this thread's own work."""
    began = own_time()
    call()
    return 1000 * (own_time() - began)


def _quote(shop: _Shop, fill: int, tapes: int = BOX) -> Callable[[], object]:
    """Draw, play and read the chances of a box behind the queue, as the Counter does at a key."""
    timelines, _ = shop.refresh(fill)
    box = [_Drawn(common_random_numbers.key("box", n), 99_999, RANGES[n % 4]) for n in range(tapes)]
    decks = [KINDS[n % len(KINDS)][0] for n in range(tapes)]

    def quote() -> object:
        parts = {kind: Part(np.full(SCENARIOS, -np.inf)) for kind in decks}
        rows = zip(decks, box, strict=True)
        turnouts = [Turnout(kind, estimate(tape.minutes), NOW, parts[kind]) for kind, tape in rows]
        initial = InitialState(timelines.copy(), HANDLING, NOW, fill=fill)
        event_simulation.work_off(initial, Queue(turnouts, lengths(box, 1, SCENARIOS)))
        ends = np.max([part.ends for part in parts.values()], axis=0)
        return chances_by(initial.timelines.calendar.slots.advanced(ends, 10.0), CALENDAR.day_ends)

    return quote


def _stop(shop: _Shop) -> float:
    """Milliseconds the busiest moment of a refresh on another thread keeps this thread from a small task.

    The 99th percentile of what a timer of one millisecond is late, less the same with nothing beside it.
    """

    def lateness(while_true: Callable[[], bool]) -> list[float]:
        late = []
        while while_true() and len(late) < 2_000:
            began = time.perf_counter()
            time.sleep(0.001)
            late.append(1000 * (time.perf_counter() - began) - 1)
        return sorted(late)

    deadline = time.monotonic() + 0.5
    alone = lateness(lambda: time.monotonic() < deadline)
    with ThreadPoolExecutor(1) as pool:
        work = pool.submit(shop.refresh, FILL)
        beside = lateness(lambda: not work.done())
    return beside[int(0.99 * len(beside))] - alone[int(0.99 * len(alone))]
