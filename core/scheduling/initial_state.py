"""What a plan starts from: free decks, the way the shop works, and what it must reckon with."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np

from core.model.common_random_numbers import SEED
from core.model.own_shop.settings_records import ShopSettings
from core.model.ranges import ZERO, Range
from core.scheduling import opening_hours, rush_boxes
from core.scheduling.breakdowns import Breakdowns, back_after
from core.scheduling.closures import closures
from core.scheduling.deck_choice import suited
from core.scheduling.drawn_minutes import equally_likely
from core.scheduling.opening_calendar import Calendar
from core.scheduling.plan_records import (
    Ahead,
    Step,
    Ways,
    estimate,
    handling,
)
from core.scheduling.play_hours import PlayHours
from core.scheduling.rosters import presence_of, roster_of
from core.scheduling.rush_boxes import RushRate
from core.scheduling.simulated_shop import DeckTimelines, RushKind, RushToCome

AS_USUAL = Range(30, 75, 120)
"""Minutes of a rush tape of a kind that does not stand in the queue (an assumption)."""
_GRADES = 200
"""Equally likely steps a kind of rush tape is drawn in; finer than the fifty of one tape: it mixes many
(our choice)."""
_SLACK = 1.6
"""Times as long as the queue should take for which events are drawn (our choice: none is missed)."""
_SPARE = 40 * 8 * 60.0
"""Rush boxes are drawn for this much longer than the queue should take, and for forty openings more
(our choice)."""


def prepared(settings: ShopSettings, calendar: Calendar, now: float, scenarios: int) -> tuple[Ways, Ahead]:
    """All decks free but those that broke, nobody at the bench; and how this shop works."""
    free = np.full((len(settings.decks), scenarios), now)
    for place, deck in enumerate(settings.decks):
        if deck.name in settings.expected.awaited:
            mean = 60 * settings.expected.hours_to_repair
            free[place] += back_after(deck.name, mean, SEED + 31, scenarios)
    worked = float(calendar.worked(np.array([now]))[0]) if len(calendar.opens) else 0.0
    timelines = DeckTimelines(
        PlayHours(calendar, settings.past_closing_minutes), free, outages(settings, calendar)
    )
    share = settings.expected.unplanned_closures
    shut = None
    if share and len(calendar.opens):
        today = int(np.searchsorted(calendar.day_ends, now, side="left"))
        shut = closures(calendar, today, share, SEED + 11, scenarios)
    each = settings.handling
    ways = Ways(
        now,
        settings.people,
        _breakdowns(settings),
        shut,
        roster_of(settings, calendar),
        each,
        presence_of(settings, calendar),
        settings.worked.again,
    )
    begun = Ahead(
        timelines, worked, handling=handling(each, settings.people), checking=each.unload + each.check
    )
    return ways, begun


def rush_to_come(
    settings: ShopSettings, ahead: Ahead, ways: Ways, queue: Sequence[Step]
) -> tuple[RushToCome, ...]:
    """Rush tapes that come in while the queue is worked off, and some while after."""
    expected, calendar = settings.expected, ahead.timelines.calendar
    if not expected.rush_boxes_a_week or not len(calendar.opens):
        return ()
    week = sum(opening.end - opening.start for opening in opening_hours.regular(settings))
    rate = RushRate(week / expected.rush_boxes_a_week, max(1.0, expected.tapes_in_a_rush_box))
    kinds = [(kind, ahead.timelines.hours.gate(kind.estimate)) for kind in _kinds(settings, queue)]
    work = sum(step.minutes.likely for step in queue) / max(1, len(settings.decks))
    until = calendar.when_worked(calendar.worked(np.array([ways.now])) + _SLACK * work + _SPARE)
    end = min(float(until[0]), float(calendar.closes[-1]))
    scenarios = ahead.timelines.free.shape[1]
    return tuple(rush_boxes.coming(kinds, rate, calendar, ways.now, end, SEED + 21, scenarios))


def _kinds(settings: ShopSettings, queue: Sequence[Step]) -> list[RushKind]:
    """What rush boxes hold: the formats that came in lately, each as it stands in the queue.

    Not as often as in the queue: what stands there is what the decks cannot keep up with. Only a shop that
    has counted nothing goes by it, and one with no queue either by its decks, one kind a deck.
    """
    rows: dict[tuple[int, ...], list[Step]] = {}
    for step in queue:
        if step.plays and step.suited.decks:
            rows.setdefault(step.suited.decks, []).append(step)
    weights = _brought(settings) or {decks: len(steps) for decks, steps in rows.items()}
    if not weights:
        weights = {(place,): 1 for place, deck in enumerate(settings.decks) if deck.in_service}
    return [_kind(decks, rows.get(decks, ()), weight) for decks, weight in weights.items()]


def _brought(settings: ShopSettings) -> dict[tuple[int, ...], int]:
    """Tapes that came in lately, by the decks they may play on as far as their format tells."""
    found: dict[tuple[int, ...], int] = {}
    for name, count in settings.expected.brought:
        decks = suited(settings.decks, name, None, None, None).decks
        if decks:
            found[decks] = found.get(decks, 0) + count
    return found


def _kind(decks: tuple[int, ...], steps: Sequence[Step], weight: int) -> RushKind:
    ranges = [step.minutes for step in steps] or [AS_USUAL]
    minutes = sum(ranges, ZERO).times(1 / len(ranges))
    return RushKind(decks, minutes, estimate(minutes), weight, _like(steps))


def _like(steps: Sequence[Step]) -> tuple[float, ...]:
    """The minutes of all these tapes together, in so many equally likely steps."""
    if not steps:
        return ()
    laws = Counter((step.drawn_as, step.minutes) for step in steps)
    values = np.repeat([equally_likely(*law) for law in laws], list(laws.values()), axis=0)
    return tuple(np.quantile(values, (np.arange(_GRADES) + 0.5) / _GRADES).tolist())


def _breakdowns(settings: ShopSettings) -> Breakdowns | None:
    expected = settings.expected
    if not expected.hours_between_failures:
        return None
    return Breakdowns(60 * expected.hours_between_failures, 60 * expected.hours_to_repair)


def outages(settings: ShopSettings, calendar: Calendar) -> dict[int, tuple[tuple[float, float], ...]]:
    """When each deck is out of service by plan, by its place in the settings; spans in order."""
    found: dict[int, tuple[tuple[float, float], ...]] = {}
    for place, deck in enumerate(settings.decks):
        spans = sorted(
            calendar.span(outage.begins, outage.ends)
            for outage in settings.outages
            if outage.deck == deck.name
        )
        if spans:
            found[place] = tuple(spans)
    return found
