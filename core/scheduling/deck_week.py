"""The likely plan of the coming days, deck by deck: what a person looks at, not what a date is promised from.

One plan at the likely play times, made as every promise is: the same order, the same people, the end of
the day filled. Each run carries how early and how late its own tape may end. The promise reckons with
hundreds of such plans and with much that may come between (see `turnaround`); this one is drawn so
that a person sees what the decks have before them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

import numpy as np

from core.model import common_random_numbers
from core.model.ranges import Range
from core.model.settings_records import Deck, ShopSettings
from core.model.stations import Station
from core.scheduling import opening_hours
from core.scheduling.deck_timelines import Lanes
from core.scheduling.opening_hours import Calendar, Minutes
from core.scheduling.plan import Ahead, Plan, Step, UnderWay, Ways, handling
from core.scheduling.queued_tapes import ON_ITS_WAY, QueuedTape, follows_people, lined_up, under_way
from core.scheduling.waiting_tapes import Queue, Seen, Turnout

DAYS = 7


@dataclass(frozen=True, slots=True)
class Run:
    """One tape on one deck; the ends are those of its 10th, 50th and 90th percentile of play time."""

    tape: QueuedTape
    start: datetime
    early: datetime
    likely: datetime
    late: datetime

    @property
    def is_playing(self) -> bool:
        """Whether it plays now, and is not only planned."""
        return self.tape.station is Station.PLAYING


@dataclass(frozen=True, slots=True)
class DeckLane:
    """One deck and what it is likely to play."""

    deck: Deck
    runs: tuple[Run, ...]
    out: tuple[tuple[datetime, datetime], ...] = ()
    """When it is out of service by plan, within these days."""


@dataclass(frozen=True, slots=True)
class Opening:
    """From the door's opening to its closing, on the shop's clock."""

    opens: datetime
    closes: datetime


@dataclass(frozen=True, slots=True)
class Week:
    """The coming days. ``shut`` names the days without an opening, and why where it is known."""

    now: datetime
    openings: tuple[Opening, ...]
    shut: tuple[tuple[date, str], ...]
    past_closing: timedelta
    lanes: tuple[DeckLane, ...]
    unplaced: int
    """Tapes no deck in service plays, or that start later than these days."""


def week(fittings: ShopSettings, queue: Sequence[QueuedTape], now: datetime, days: int = DAYS) -> Week:
    """The likely plan of ``days`` days from ``now``; WrongInput when ``now`` has no timezone."""
    first = opening_hours.today(fittings, now)
    calendar = opening_hours.calendar(fittings, first)
    moment = calendar.at(now)
    end = moment + days * 24 * 60
    runs = _runs(fittings, queue, calendar, (moment, end))
    lanes = _lanes(fittings, runs, calendar, moment, end)
    wanted = sum(each.station is Station.PLAYING or each.station in ON_ITS_WAY for each in queue)
    return Week(
        now=calendar.moment(moment),
        openings=_openings(calendar, first, days),
        shut=tuple((day, why) for day, why in calendar.shut.items() if (day - first).days < days),
        past_closing=timedelta(minutes=fittings.past_closing_minutes),
        lanes=lanes,
        unplaced=wanted - sum(len(lane.runs) for lane in lanes),
    )


def _runs(
    fittings: ShopSettings, queue: Sequence[QueuedTape], calendar: Calendar, span: tuple[float, float]
) -> list[tuple[int, Run]]:
    """Every tape that starts within a span, with its deck, and perhaps some that start soon after."""
    now, end = span
    tapes = {common_random_numbers.key(tape.code): tape for tape in queue}
    plan = _Likely(fittings, calendar, now, end)
    plan.work_through(fittings, queue)
    return [
        (deck, _run(tapes[key], calendar, start, now))
        for key, deck, start in plan.played()
        if start < calendar.closes[-1]
    ]


def _run(tape: QueuedTape, calendar: Calendar, start: float, now: float) -> Run:
    began = calendar.at(tape.since) if tape.station is Station.PLAYING else start
    ends = (calendar.moment(max(now, began + minutes)) for minutes in _three(tape.minutes))
    return Run(tape, calendar.moment(began), *ends)


def _lanes(
    fittings: ShopSettings, runs: Sequence[tuple[int, Run]], calendar: Calendar, now: float, end: float
) -> tuple[DeckLane, ...]:
    """What starts before ``end``, deck by deck."""
    last = calendar.moment(end)
    return tuple(
        DeckLane(
            deck,
            tuple(sorted((run for on, run in runs if on == place and run.start < last), key=_start)),
            tuple(
                (calendar.moment(begins), calendar.moment(min(ends, end)))
                for begins, ends in _outages(fittings, deck, calendar)
                if begins < end and ends > now
            ),
        )
        for place, deck in enumerate(fittings.decks)
    )


def _start(run: Run) -> datetime:
    return run.start


class _Likely(Plan):
    """The plan every date is promised by, in one scenario: each tape plays its likely minutes, no deck
    fails and no rush box comes in."""

    def __init__(self, fittings: ShopSettings, calendar: Calendar, now: float, end: float) -> None:
        out = {place: _outages(fittings, deck, calendar) for place, deck in enumerate(fittings.decks)}
        free = np.full((len(fittings.decks), 1), now)
        lanes = Lanes(
            calendar, fittings.past_closing_minutes, free, {n: each for n, each in out.items() if each}
        )
        worked = float(calendar.worked(np.array([now]))[0]) if len(calendar.opens) else 0.0
        ahead = Ahead(lanes, worked, handling=handling(fittings.people))
        super().__init__(ahead, Ways(now, fittings.people))
        self._end = end
        self._seen: list[tuple[Sequence[Step], list[Seen]]] = []
        self._in_decks: list[tuple[int, int, float]] = []

    def work_through(self, fittings: ShopSettings, queue: Sequence[QueuedTape]) -> None:
        """The whole queue, as `core.promise.turnaround.load` does it."""
        playing = under_way(fittings, queue, self.calendar, self.ways.now)
        rush, others = lined_up(fittings, queue, self.calendar)
        if not len(self.calendar.opens):
            self._playing(playing)
        elif follows_people(fittings, queue, [*rush, *others]):
            self.work_off_by_hand(playing, [*rush, *others])
        else:
            self.go_on(playing)
            self.work_off(rush)
            self.work_off(others)

    def played(self) -> Iterator[tuple[int, int, float]]:
        """The key of each tape, its deck and its start (now, for what plays already)."""
        yield from self._in_decks
        for steps, seen in self._seen:
            yield from ((steps[tape].key, deck, start) for tape, deck, start in seen)

    def _queue(self, steps: Sequence[Step], tapes: Sequence[Turnout]) -> Queue:
        seen: list[Seen] = []
        self._seen.append((steps, seen))
        minutes = np.array([[step.minutes.likely] for step in steps], dtype=np.float64)
        return Queue(tapes, minutes, seen=seen, until=self._end)

    def _playing(self, under_way: UnderWay) -> list[tuple[Step, Minutes, int]]:
        elapsed = {step.key: minutes for step, minutes, _ in under_way.playing}
        found = [
            (step, self.ways.now + np.array([max(0.0, step.minutes.likely - elapsed[step.key])]), deck)
            for step, _, deck in super()._playing(under_way)
        ]
        self._in_decks = [(step.key, deck, self.ways.now) for step, _, deck in found]
        return found


def _three(minutes: Range) -> tuple[float, float, float]:
    return minutes.low, minutes.likely, minutes.high


def _outages(fittings: ShopSettings, deck: Deck, calendar: Calendar) -> tuple[tuple[float, float], ...]:
    """Planned outages of one deck in order, from midnight to midnight."""
    return tuple(
        sorted(
            (
                calendar.at(calendar.midnight(each.begins)),
                calendar.at(calendar.midnight(each.ends + timedelta(days=1))),
            )
            for each in fittings.outages
            if each.deck == deck.name
        )
    )


def _openings(calendar: Calendar, first: date, days: int) -> tuple[Opening, ...]:
    found = (
        Opening(calendar.moment(float(opens)), calendar.moment(float(closes)))
        for opens, closes in zip(calendar.opens[: 8 * days], calendar.closes[: 8 * days], strict=True)
    )
    return tuple(one for one in found if (one.opens.date() - first).days < days)
