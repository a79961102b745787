"""The likely plan of the coming days, deck by deck: what a person looks at, not what a date is promised from.

One plan at the likely play times, made as every promise is: the same order, the same people, the end of
the day filled. Each run carries how early and how late its own tape may end. The promise reckons with
hundreds of such plans and with much that may come between (see `turnaround`); this one is drawn so
that a person sees what the decks have before them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from core.model import common_random_numbers
from core.model.own_shop.settings_records import Deck, ShopSettings
from core.model.ranges import Range
from core.model.stations import Station
from core.scheduling import initial_state, opening_hours
from core.scheduling.likely_plan import LikelyPlan
from core.scheduling.opening_calendar import Calendar
from core.scheduling.queued_tapes import QueuedTape

DAYS = 7
"""A week, by definition."""


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
class DeckRuns:
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
    timelines: tuple[DeckRuns, ...]
    unplaced: int
    """Tapes no deck in service plays, or that start later than these days."""


def week(settings: ShopSettings, queue: Sequence[QueuedTape], now: datetime, days: int = DAYS) -> Week:
    """The likely plan of ``days`` days from ``now``; WrongInput when ``now`` has no timezone."""
    first = opening_hours.today(settings, now)
    calendar = opening_hours.calendar(settings, first)
    moment = calendar.at(now)
    end = moment + days * 24 * 60
    runs = _runs(settings, queue, calendar, (moment, end))
    timelines = _timelines(settings, runs, calendar, moment, end)
    wanted = sum(each.station is Station.PLAYING or each.station.waits_for_a_deck for each in queue)
    return Week(
        now=calendar.moment(moment),
        openings=_openings(calendar, first, days),
        shut=tuple((day, why) for day, why in calendar.shut.items() if (day - first).days < days),
        past_closing=timedelta(minutes=settings.past_closing_minutes),
        timelines=timelines,
        unplaced=wanted - sum(len(timeline.runs) for timeline in timelines),
    )


def _runs(
    settings: ShopSettings, queue: Sequence[QueuedTape], calendar: Calendar, span: tuple[float, float]
) -> list[tuple[int, Run]]:
    """Every tape that starts within a span, with its deck, and perhaps some that start soon after."""
    now, end = span
    tapes = {common_random_numbers.key(tape.code): tape for tape in queue}
    plan = LikelyPlan(settings, queue, calendar, now, end)
    return [
        (deck, _run(tapes[key], calendar, start, now))
        for key, deck, start in (*plan.playing, *plan.started())
        if start < calendar.closes[-1]
    ]


def _run(tape: QueuedTape, calendar: Calendar, start: float, now: float) -> Run:
    began = calendar.at(tape.since) if tape.station is Station.PLAYING else start
    ends = (calendar.moment(max(now, began + minutes)) for minutes in _three(tape.minutes))
    return Run(tape, calendar.moment(began), *ends)


def _timelines(
    settings: ShopSettings, runs: Sequence[tuple[int, Run]], calendar: Calendar, now: float, end: float
) -> tuple[DeckRuns, ...]:
    """What starts before ``end``, deck by deck."""
    last, out = calendar.moment(end), initial_state.outages(settings, calendar)
    return tuple(
        DeckRuns(
            deck,
            tuple(sorted((run for on, run in runs if on == place and run.start < last), key=_start)),
            tuple(
                (calendar.moment(begins), calendar.moment(min(ends, end)))
                for begins, ends in out.get(place, ())
                if begins < end and ends > now
            ),
        )
        for place, deck in enumerate(settings.decks)
    )


def _start(run: Run) -> datetime:
    return run.start


def _three(minutes: Range) -> tuple[float, float, float]:
    return minutes.low, minutes.likely, minutes.high


def _openings(calendar: Calendar, first: date, days: int) -> tuple[Opening, ...]:
    found = (
        Opening(calendar.moment(float(opens)), calendar.moment(float(closes)))
        for opens, closes in zip(calendar.opens[: 8 * days], calendar.closes[: 8 * days], strict=True)
    )
    return tuple(one for one in found if (one.opens.date() - first).days < days)
