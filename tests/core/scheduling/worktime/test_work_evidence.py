"""What the owner reads of the shop's work: stated beside counted, and of people only who may be told."""

from __future__ import annotations

from dataclasses import replace

from core.model.own_shop.handling_minutes import HandlingMinutes
from core.model.stations import Station
from core.scheduling.worktime.arrival_rates import Arrivals
from core.scheduling.worktime.counted_waits import SecondPlays, Wait
from core.scheduling.worktime.effort_beliefs import Effort
from core.scheduling.worktime.presence_beliefs import Presence
from core.scheduling.worktime.recorded_acts import TimedTask
from core.scheduling.worktime.work_evidence import WorkEvidence, evidence_of
from core.scheduling.worktime.work_learning import LearnedWork
from tests.support.shops import fittings

SEEN = LearnedWork(
    {TimedTask.LOAD: Effort(1.5, 1.4, 1.7, 80, 60), TimedTask.CHECK: Effort(0.5, 0.4, 0.6, 50, 41)},
    (("Ada", Effort(0.9, 0.8, 1.0, 90, 70)), ("Ben", Effort(1.4, 1.2, 1.6, 60, 50))),
    Presence(30.0, 750.0, 45.0, 33),
    SecondPlays(0.08, 100, 9),
    (Wait(Station.AT_THE_BENCH, 30.0, 12),),
    Arrivals(40, 20, 2.0, ((0, 3.5), (1, 1.0)), ((3, 2.0),)),
)


def told(work: LearnedWork, *, names: bool = True, **changes: object) -> dict[str, WorkEvidence]:
    shop = replace(fittings(), **changes)  # type: ignore[arg-type]
    return {each.about: each for each in evidence_of(work, shop, names=names)}


def test_what_was_stated_stands_beside_what_was_counted() -> None:
    load = told(SEEN)["loading a tape"]
    assert (load.at_first, load.now, load.seen, load.told) == (3.0, 4.5, 80, 60)
    assert "4.5 minutes (4.2 to 5.1 is likely); you stated 3" in load.lines[0]
    assert "60 of 80 recorded times" in load.lines[1]


def test_what_few_times_are_known_of_is_planned_as_stated() -> None:
    look = told(SEEN)["looking a tape over"]
    assert look.now == 5.0
    assert "Planned as stated: 5" in look.lines[0]


def test_watching_a_whole_copy_is_told_by_the_minute() -> None:
    check = told(SEEN, handling=HandlingMinutes(whole_check=True))["checking a copy"]
    assert (check.at_first, check.now) == (1.0, 0.5)
    assert "for each minute that a copy plays" in check.lines[0]


def test_people_are_named_only_where_they_may_be() -> None:
    assert {"Ada", "Ben"} <= told(SEEN).keys()
    assert not {"Ada", "Ben"} & told(SEEN, names=False).keys()
    alone = replace(SEEN, paces=SEEN.paces[:1])
    assert "Ada" not in told(alone)  # beside nobody


def test_breaks_second_plays_waits_and_arrivals_are_told() -> None:
    found = {about: " ".join(each.lines) for about, each in told(SEEN).items()}
    assert "About 30 minutes after opening, by 33 busy days" in found["start of work"]
    assert "12:30" in found["break"]
    assert "9 of 100 tapes" in found["played again"]
    assert "8%" in found["played again"]
    assert "30 hours on average, by 12 tapes" in found["at the bench"]
    assert "Monday 3.5" in found["orders by weekday"]
