"""The table of everybody's hours answers as the openings of each person do by themselves."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Person
from core.scheduling import opening_hours, rosters
from core.scheduling.opening_calendar import NEVER, RETIRED
from core.scheduling.roster_hours import RosterHours
from tests.support.shops import fittings

CALENDAR = opening_hours.calendar(fittings(), date(2026, 3, 2))


def person(name: str, dice: np.random.Generator) -> Person:
    """Somebody with up to six times a week, some of a few minutes, with pauses as short."""
    marks = np.sort(dice.choice(np.arange(530, 1090, int(dice.choice([1, 5, 60]))), 4, replace=False))
    days = sorted(dice.choice(7, 3, replace=False).tolist())
    times = [(int(marks[at]), int(marks[at + 1])) for at in (0, 2)]
    hours = tuple(OpeningHours(day, *each) for day in days for each in times)
    return Person(name, hours=hours if dice.random() < 0.8 else (), can=frozenset({"load"}))


@pytest.mark.parametrize("seed", range(20))
def test_the_table_answers_as_openings_do(seed: int) -> None:
    dice = np.random.default_rng(seed)
    staff = tuple(person(name, dice) for name in ("Ada", "Ben", "Kim"))
    roster = rosters.roster_of(fittings(staff=staff), CALENDAR)
    assert roster is not None
    hours = RosterHours(roster.here)
    end = float(CALENDAR.closes[-1])
    moments = np.append(
        dice.uniform(0, 1.02 * end, 400).round(int(dice.integers(0, 3))), [end, NEVER, RETIRED]
    )
    moments = np.concatenate([moments, CALENDAR.closes[:30], CALENDAR.opens[:30]])
    risen = hours.rise(moments, hours.lines)
    work = dice.choice([0.0, 2.0, 8.0, 700.0], len(moments))
    for place, here in enumerate(roster.here):
        assert (risen[place] == here.rise(moments)).all()
        who = np.full(len(moments), place)
        assert (hours.advanced(who, moments, work) == here.advanced(moments, work)).all()
