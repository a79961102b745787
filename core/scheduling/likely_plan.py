"""The plan at the likely minutes: the event simulation of every promise, run for one scenario.

Each tape plays its likely minutes, no deck fails and no rush box comes in. The deck week draws this plan,
and the Bench loads what it starts now (`core.scheduling.next_tape`): both ask here, so they cannot disagree.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from core.model.own_shop.settings_records import ShopSettings
from core.scheduling import initial_state
from core.scheduling.opening_calendar import Calendar, Minutes
from core.scheduling.plan import Plan
from core.scheduling.plan_records import LEAST_REMAINING, Ahead, Step, UnderWay, Ways, handling
from core.scheduling.play_hours import PlayHours
from core.scheduling.queued_tapes import QueuedTape, follows_people, lined_up, under_way
from core.scheduling.rosters import roster_of
from core.scheduling.simulated_shop import DeckTimelines, Queue, SeenStart, Turnout


class Start(NamedTuple):
    """One tape on one deck: the key of its draws, the deck's place, minutes since the calendar's start."""

    key: int
    deck: int
    at: float


class LikelyPlan(Plan):
    """The queue worked through by the rules of every promise; ``end``: what starts later is not seen."""

    def __init__(
        self, settings: ShopSettings, queue: Sequence[QueuedTape], calendar: Calendar, now: float, end: float
    ) -> None:
        free = np.full((len(settings.decks), 1), now)
        hours = PlayHours(calendar, settings.past_closing_minutes)
        timelines = DeckTimelines(hours, free, initial_state.outages(settings, calendar))
        worked = float(calendar.worked(np.array([now]))[0]) if len(calendar.opens) else 0.0
        each = settings.handling
        ahead = Ahead(
            timelines,
            worked,
            handling=handling(each, settings.people),
            checking=each.unload + each.check,
        )
        roster = roster_of(settings, calendar)
        super().__init__(ahead, Ways(now, settings.people, roster=roster, handling=each))
        self._end = end
        self._seen: list[tuple[Sequence[Step], list[SeenStart]]] = []
        self.playing: list[Start] = []
        """What is in the decks already."""
        rush, others = lined_up(settings, queue, calendar)
        self.in_order: tuple[Step, ...] = (*rush, *others)
        """The tapes that wait for a deck, by the dispatching rule."""
        self._work_through(settings, queue, rush, others)

    def _work_through(
        self,
        settings: ShopSettings,
        queue: Sequence[QueuedTape],
        rush: Sequence[Step],
        others: Sequence[Step],
    ) -> None:
        """The whole queue, as `core.promise.turnaround.load` does it."""
        playing = under_way(settings, queue, self.calendar, self.ways.now)
        if not len(self.calendar.opens):
            self._playing(playing)
        elif self.ways.roster is not None or follows_people(settings, queue, self.in_order):
            self.work_off_by_hand(playing, self.in_order)
        else:
            self.go_on(playing)
            self.work_off(rush)
            self.work_off(others)

    def started(self) -> Iterator[Start]:
        """What the decks start, not in order of time."""
        for steps, seen in self._seen:
            yield from (Start(steps[tape].key, deck, at) for tape, deck, at in seen)

    def _queue(self, steps: Sequence[Step], tapes: Sequence[Turnout]) -> Queue:
        seen: list[SeenStart] = []
        self._seen.append((steps, seen))
        minutes = np.array([[step.minutes.likely] for step in steps], dtype=np.float64)
        return Queue(tapes, minutes, seen=seen, until=self._end)

    def _playing(self, under_way: UnderWay) -> list[tuple[Step, Minutes, int]]:
        elapsed = {step.key: minutes for step, minutes, _ in under_way.playing}
        found = [
            (step, self._end_of(step, elapsed[step.key]), deck)
            for step, _, deck in super()._playing(under_way)
        ]
        self.playing = [Start(step.key, deck, self.ways.now) for step, _, deck in found]
        return found

    def _end_of(self, step: Step, elapsed: float) -> Minutes:
        return self.ways.now + np.array([max(LEAST_REMAINING, step.minutes.likely - elapsed)])
