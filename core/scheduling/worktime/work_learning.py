"""All that a shop's history shows of its people's work, and the settings a plan reckons with because of it.

Efforts are pooled partially: the shop's factor of a step leans on what the owner stated, a person's pace on
the shop's factors, each by the deviation of its prior (see `effort_beliefs`). A person's pace is one figure
for all steps.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from core.model.own_shop.handling_minutes import HandlingMinutes
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.work_habits import WorkHabits
from core.scheduling.worktime import arrival_rates, counted_waits, effort_beliefs, presence_beliefs
from core.scheduling.worktime.arrival_rates import NO_ARRIVALS, Arrivals
from core.scheduling.worktime.counted_waits import NONE_AGAIN, SecondPlays, Wait
from core.scheduling.worktime.effort_beliefs import PERSON_OFF, Effort
from core.scheduling.worktime.presence_beliefs import ALWAYS_HERE, Presence
from core.scheduling.worktime.recorded_acts import Act, TimedTask
from core.scheduling.worktime.work_intervals import Hours, Interval, WorkIntervals

_DIGITS = 3
"""Of a factor in a plan: what moves less is the same plan."""


@dataclass(frozen=True, slots=True)
class LearnedWork:
    """Beliefs with their evidence."""

    efforts: Mapping[TimedTask, Effort] = field(default_factory=dict)
    paces: tuple[tuple[str, Effort], ...] = ()
    """By person, beside the shop's efforts."""
    presence: Presence = ALWAYS_HERE
    second_plays: SecondPlays = NONE_AGAIN
    waits: tuple[Wait, ...] = ()
    arrivals: Arrivals = NO_ARRIVALS

    def factor(self, task: TimedTask) -> float:
        """How many times as long as planned a step takes."""
        return round(self.efforts[task].factor, _DIGITS) if task in self.efforts else 1.0

    def reckoned(self, settings: ShopSettings) -> ShopSettings:
        """The settings with the minutes that people really take, and when they are here."""
        return replace(
            settings,
            handling=self._handling(settings.handling),
            worked=self._habits(settings),
        )

    def _handling(self, stated: HandlingMinutes) -> HandlingMinutes:
        check = self.factor(TimedTask.CHECK)
        return replace(
            stated,
            look_over=stated.look_over * self.factor(TimedTask.LOOK_OVER),
            load=stated.load * self.factor(TimedTask.LOAD),
            unload=stated.unload * self.factor(TimedTask.UNLOAD),
            check=stated.check * check,
            further_hour=stated.further_hour * check,
            watching=stated.watching * check,
        )

    def _habits(self, settings: ShopSettings) -> WorkHabits:
        staff = {person.name for person in settings.working_staff}
        paces = ((who, round(pace.factor, 2)) for who, pace in self.paces if who in staff)
        return WorkHabits(
            repair=self.factor(TimedTask.REPAIR),
            copying=self.factor(TimedTask.COPY),
            again=round(self.second_plays.share, _DIGITS),
            begins_late=self.presence.begins_late,
            break_from=self.presence.break_from,
            break_minutes=self.presence.break_minutes,
            paces=tuple((who, pace) for who, pace in paces if pace != 1.0),
        )


def learned(
    acts: Sequence[Act], hours: Hours, handling: HandlingMinutes, now: float, today: date
) -> LearnedWork:
    """What these lines of history, oldest first, show; ``now`` in minutes since 1970 (UTC)."""
    if not acts:
        return LearnedWork()
    intervals = list(WorkIntervals(hours, handling).of(acts))
    efforts = {task: _effort(intervals, task) for task in TimedTask}
    return LearnedWork(
        efforts={task: effort for task, effort in efforts.items() if effort.seen},
        paces=_paces(intervals, efforts),
        presence=presence_beliefs.believed(acts, hours),
        second_plays=counted_waits.second_plays(acts),
        waits=counted_waits.waits(acts, now),
        arrivals=arrival_rates.believed(acts, hours, today),
    )


def _effort(intervals: Sequence[Interval], task: TimedTask) -> Effort:
    found = ((each.ratio, each.weight) for each in intervals if each.task is task)
    return effort_beliefs.believed(effort_beliefs.counted(found))


def _paces(
    intervals: Sequence[Interval], efforts: Mapping[TimedTask, Effort]
) -> tuple[tuple[str, Effort], ...]:
    """Everybody of whom enough was seen, beside the efforts of the shop."""
    people: dict[str, list[tuple[float, float]]] = {}
    for each in intervals:
        beside = each.ratio / efforts[each.task].factor
        people.setdefault(each.who, []).append((beside, each.weight))
    found = (
        (who, effort_beliefs.believed(effort_beliefs.counted(ratios), PERSON_OFF))
        for who, ratios in sorted(people.items())
    )
    return tuple((who, pace) for who, pace in found if pace.told >= effort_beliefs.ENOUGH)
