"""The likely plan of the coming days, deck by deck: what a person looks at, not what a date is promised from.

One plan at the likely play times, in the plain order of the queue; each run carries how early and how late
its own tape may end. The promise reckons with hundreds of plans and with much that may come between
(see `core.turnaround`); this one is drawn so that a person sees what the decks have before them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

import numpy as np

from core import hours
from core.deck_choice import Suited, suited
from core.hours import Calendar
from core.lanes import Gate, gate
from core.plan import LOAD_MINUTES, LOOK_OVER_MINUTES, UNLOAD_MINUTES, WAIT_FOR_A_PERSON, estimate
from core.ranges import Range
from core.records import Deck, Fittings
from core.stations import Station
from core.turnaround import QueuedTape

DAYS = 7
_AHEAD = (Station.BOOKED_IN, Station.LOOKED_OVER, Station.AT_THE_BENCH, Station.CLEARED_TO_PLAY)


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


def week(fittings: Fittings, queue: Sequence[QueuedTape], now: datetime, days: int = DAYS) -> Week:
    """The likely plan of ``days`` days from ``now``; WrongInput when ``now`` has no timezone."""
    first = hours.today(fittings, now)
    calendar = hours.calendar(fittings, first)
    plan = _Plan(fittings, calendar, calendar.at(now))
    for tape in (each for each in queue if each.station is Station.PLAYING):
        plan.go_on(tape)
    coming = [each for each in queue if each.station in _AHEAD]
    for tape in sorted(coming, key=lambda each: not each.rush):
        plan.take(tape)
    lanes = plan.lanes(calendar.at(now) + days * 24 * 60)
    wanted = len(coming) + sum(each.station is Station.PLAYING for each in queue)
    return Week(
        now=calendar.moment(calendar.at(now)),
        openings=_openings(calendar, first, days),
        shut=tuple((day, why) for day, why in calendar.shut.items() if (day - first).days < days),
        past_closing=timedelta(minutes=fittings.past_closing_minutes),
        lanes=lanes,
        unplaced=wanted - sum(len(lane.runs) for lane in lanes),
    )


class _Plan:
    """Decks filling up at the likely play times."""

    def __init__(self, fittings: Fittings, calendar: Calendar, now: float) -> None:
        self._fittings = fittings
        self._calendar = calendar
        self._now = now
        self._free = np.full(len(fittings.decks), now)
        self._bench = float(calendar.worked(np.array([now]))[0]) if len(calendar.opens) else 0.0
        self._handling = LOAD_MINUTES + UNLOAD_MINUTES + WAIT_FOR_A_PERSON.get(fittings.people, 0.0)
        self.runs: list[list[Run]] = [[] for _ in fittings.decks]
        self._out = [_outages(fittings, deck, calendar) for deck in fittings.decks]

    def go_on(self, tape: QueuedTape) -> None:
        """A tape in a deck now goes on until it has played its minutes."""
        began = self._calendar.at(tape.since)
        named = [n for n, deck in enumerate(self._fittings.decks) if deck.name == tape.deck]
        free = [deck for deck in named or self._suited(tape).decks if not self.runs[deck]]
        if free:
            self._place(free[0], tape, began, least=self._now)

    def take(self, tape: QueuedTape) -> None:
        """A tape that waits starts on the deck that can take it first."""
        ready = max(self._through_the_bench(tape), self._rested(tape))
        decks = self._suited(tape).decks
        if not decks or not len(self._calendar.opens):
            return
        door = gate(self._calendar, estimate(tape.minutes), self._fittings.past_closing_minutes)
        starts = np.array([self._start(door, deck, ready, tape.minutes.likely) for deck in decks])
        if np.isfinite(starts.min()):
            self._place(decks[int(starts.argmin())], tape, float(starts.min()))

    def lanes(self, end: float) -> tuple[DeckLane, ...]:
        """What was placed, as far as it starts before ``end``."""
        return tuple(
            DeckLane(
                deck,
                tuple(run for run in runs if self._calendar.at(run.start) < end),
                tuple(
                    (self._calendar.moment(begins), self._calendar.moment(min(ends, end)))
                    for begins, ends in out
                    if begins < end and ends > self._now
                ),
            )
            for deck, runs, out in zip(self._fittings.decks, self.runs, self._out, strict=True)
        )

    def _start(self, door: Gate, deck: int, ready: float, minutes: float) -> float:
        """The first start on one deck at which it would not play into a planned outage."""
        start = door.start_of(max(float(self._free[deck]), ready))
        for begins, ends in self._out[deck]:
            if start < ends and start + minutes > begins:
                start = door.start_of(ends)
        return start

    def _place(self, deck: int, tape: QueuedTape, start: float, least: float = 0.0) -> None:
        ends = [max(start + minutes, least) for minutes in _three(tape.minutes)]
        early, likely, late = (self._calendar.moment(end) for end in ends)
        self.runs[deck].append(Run(tape, self._calendar.moment(start), early, likely, late))
        self._free[deck] = float(self._calendar.advanced(np.array([ends[1]]), self._handling)[0])

    def _through_the_bench(self, tape: QueuedTape) -> float:
        """When a person lets it go; the people share the bench, which rests overnight."""
        if tape.station is Station.CLEARED_TO_PLAY or not len(self._calendar.opens):
            return self._now
        look = LOOK_OVER_MINUTES if tape.station is Station.BOOKED_IN else 0.0
        self._bench += (tape.bench_minutes + look) / self._fittings.people
        return float(self._calendar.when_worked(np.array([self._bench]))[0])

    def _rested(self, tape: QueuedTape) -> float:
        """When a tape that came in cold may be played."""
        return self._calendar.at(tape.rests_until) if tape.rests_until else self._now

    def _suited(self, tape: QueuedTape) -> Suited:
        return suited(self._fittings.decks, tape.format, tape.recorded_as, tape.tv, tape.speed)


def _three(minutes: Range) -> tuple[float, float, float]:
    return minutes.low, minutes.likely, minutes.high


def _outages(fittings: Fittings, deck: Deck, calendar: Calendar) -> tuple[tuple[float, float], ...]:
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
