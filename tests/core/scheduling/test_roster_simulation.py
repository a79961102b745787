"""People who differ, by hours and skills; and people who do not, with the dates of people without names."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Person, Skill
from core.scheduling import opening_hours, roster_simulation, rosters, staffed_simulation
from core.scheduling.breakdowns import Breakdowns, fails_after
from core.scheduling.opening_calendar import Openings
from core.scheduling.play_hours import PlayHours
from core.scheduling.rosters import Roster
from core.scheduling.simulated_shop import DeckTimelines, InitialState, Part, Queue, Turnout
from core.scheduling.simulated_staff import Begun, Bench, Found, Times
from tests.support.shops import fittings

MONDAY = date(2026, 3, 2)
CALENDAR = opening_hours.calendar(fittings(), MONDAY)
NINE, NOON, DAY = 540.0, 720.0, 1440.0
NEXT_MONDAY = 7 * DAY + NINE - 60
"""Clocks go forward on March 8, 2026 (IANA database)."""
TIMES = Times(load=3.0, unload=2.0, check=8.0)
MORNINGS = tuple(OpeningHours(day, 8 * 60, 12 * 60) for day in range(5))
TUESDAYS = (OpeningHours(1, 9 * 60, 18 * 60),)


def roster_of(*staff: Person, people: int = 1) -> Roster:
    found = rosters.roster_of(fittings(staff=staff, people=people), CALENDAR)
    assert found is not None
    return found


def worked(
    roster: Roster, minutes: list[float], *, bench: float = 0.0, splices: bool = False, decks: int = 1
) -> tuple[list[float], Found]:
    """When each tape is checked, the bench taking so long for every second one, begun on Monday at nine."""
    parts = [Part(np.full(1, -np.inf)) for _ in minutes]
    rows = zip(minutes, parts, strict=True)
    tapes = [Turnout(tuple(range(decks)), each, 0.0, part) for each, part in rows]
    lanes = DeckTimelines(PlayHours(CALENDAR, 60.0), np.full((decks, 1), NINE))
    benches = [Bench(bench, part, place, splices) for place, part in enumerate(parts)][::2] if bench else []
    queue = Queue(tapes, np.array(minutes)[:, None])
    found = roster_simulation.work_off(InitialState(lanes, 0.0, NINE), queue, roster, TIMES, benches, Begun())
    return [float(part.ends[0]) for part in parts], found


def test_own_hours_count_while_the_shop_is_open() -> None:
    roster = roster_of(Person("Ada", hours=(OpeningHours(0, 7 * 60, 10 * 60), OpeningHours(6, 0, 1440))))
    ends, _ = worked(roster, [30.0, 30.0])
    assert ends == [NINE + 3 + 30 + 5 + 8, NEXT_MONDAY + 2 + 8]  # the second ends at 10:08, Ada is gone
    assert roster.next_here(Skill.LOAD, 0.0) == NINE
    assert roster.next_here(Skill.LOAD, 661.0) == NEXT_MONDAY  # not on Sunday, the shop is closed


def test_a_tape_plays_on_while_its_person_is_gone_and_is_seen_to_the_next_morning() -> None:
    ends, _ = worked(roster_of(Person("Ada", hours=MORNINGS)), [200.0])
    assert ends == [DAY + NINE + 2 + 8]  # it ended at 12:23


def test_a_repair_waits_for_whoever_can_splice_and_looks_do_not_wait_behind_it() -> None:
    ada, ben = Person("Ada", can=frozenset({"load", "check"})), Person("Ben", hours=TUESDAYS)
    ends, _ = worked(roster_of(ada, ben, people=2), [60.0, 60.0], bench=20.0, splices=True)
    assert ends[0] == DAY + NINE + 20 + 3 + 60 + 2 + 8
    assert ends[1] == NINE + 3 + 60 + 2 + 8
    ends, _ = worked(roster_of(ada, ben, people=2), [60.0], bench=20.0)
    assert ends[0] == NINE + 20 + 3 + 60 + 2 + 8


def test_whoever_can_do_less_goes_first_so_that_the_others_are_free_for_what_only_they_can() -> None:
    ada, ben = Person("Ada"), Person("Ben", can=frozenset({"load"}))
    ends, _ = worked(roster_of(ada, ben, people=2), [60.0, 60.0, 60.0], bench=30.0, splices=True, decks=3)
    assert ends[1] == NINE + 3 + 60 + 2 + 8


def test_no_more_work_at_one_time_than_the_owner_says() -> None:
    staff = (Person("Ada"), Person("Ben"), Person("Kim", can=frozenset({"check"})))
    alone = worked(roster_of(*staff, people=1), [60.0, 57.0], decks=2)[0]
    assert alone == [NINE + 63 + 2 + 2 + 8, NINE + 63 + 2 + 2 + 16]
    assert worked(roster_of(*staff, people=2), [60.0, 57.0], decks=2)[0] == [NINE + 73, NINE + 70]


def test_those_not_entered_by_name_are_here_all_day() -> None:
    roster = roster_of(Person("Ada", does=frozenset({"counter"})), people=2)
    assert (len(roster.here), roster.here[0] is roster.shop) == (1, True)


def test_what_nobody_can_do_is_never_done_and_comes_to_an_end() -> None:
    for gone in Skill:
        roster = roster_of(Person("Ada", can=frozenset(skill.value for skill in Skill if skill is not gone)))
        ends, _ = worked(roster, [60.0, 60.0], bench=20.0, splices=True)
        assert ends[0] == np.inf
        assert (ends[1] == np.inf) is (gone is not Skill.SPLICE)


def test_a_shop_without_particulars_has_no_roster() -> None:
    assert rosters.roster_of(fittings(staff=(Person("Ada", pin="x"), Person("Ben"))), CALENDAR) is None
    gone = Person("Kim", hours=TUESDAYS, retired=True)
    assert rosters.roster_of(fittings(staff=(gone, Person("Ben"))), CALENDAR) is None


@pytest.mark.parametrize("seed", range(20))
def test_people_who_do_not_differ_give_the_ends_of_people_without_names(seed: int) -> None:
    """Invented shops with failing decks, cold tapes, repairs: to the minute the same in every scenario."""
    dice, scenarios = np.random.default_rng(seed), 30
    decks, count, people = (int(dice.integers(1, most)) for most in (5, 40, 5))
    minutes = dice.uniform(5, 300, (count, scenarios))
    tapes = [
        (
            tuple(sorted(dice.choice(decks, dice.integers(1, decks + 1), False).tolist())),
            float(dice.integers(5, 400)),
            float(dice.choice([0, 900])),
        )
        for _ in range(count)
    ]
    splices = dice.random(count) < 0.5
    shop = Openings(CALENDAR, 0.0)
    more = int(dice.integers(0, 3))
    everybody = tuple(range(people + more))
    alike = Roster(people, shop, (shop,) * (people + more), dict.fromkeys((None, *Skill), everybody))

    def ends(roster: Roster | None) -> tuple[np.ndarray, Found]:
        parts = [Part(np.full(scenarios, -np.inf)) for _ in tapes]
        turnouts = [Turnout(*each, part) for each, part in zip(tapes, parts, strict=True)]
        lanes = DeckTimelines(PlayHours(CALENDAR, 60.0), np.full((decks, scenarios), NINE))
        ground = InitialState(lanes, 0.0, NINE)
        down = fails_after(Breakdowns(900.0, 800.0), range(count), seed, scenarios)
        queue = Queue(turnouts, minutes.copy(), down, 800.0)
        bench = [
            Bench(15.0, part, place, bool(splices[place])) for place, part in enumerate(parts) if place % 3
        ]
        if roster is None:
            found = staffed_simulation.work_off(ground, queue, people, TIMES, bench, Begun())
        else:
            found = roster_simulation.work_off(ground, queue, roster, TIMES, bench, Begun())
        return np.stack([part.ends for part in parts]), found

    (plain, was), (named, now) = ends(None), ends(alike)
    assert (plain == named).all()
    assert (was.wait, was.check) == (now.wait, now.check)
    assert (was.bench_free == now.bench_free).all()
