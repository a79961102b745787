"""The likely week of the decks: each tape once, in opening hours, on a deck that plays it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from core.model.own_shop.handling_minutes import USUAL_HANDLING
from core.model.own_shop.settings_records import Outage
from core.model.ranges import Range, exactly
from core.model.stations import Station
from core.promise import turnaround
from core.scheduling import deck_week
from tests.support.shops import TUESDAY, deck, fittings, queued


def test_tapes_follow_each_other_on_one_deck_with_a_person_between() -> None:
    week = deck_week.week(fittings(deck("VHS 1", "vhs")), [queued(1), queued(2)], TUESDAY)
    first, second = week.timelines[0].runs
    assert first.start == TUESDAY
    assert first.likely == TUESDAY + timedelta(minutes=60)
    assert second.start > first.likely
    assert (first.early, first.late) == (TUESDAY + timedelta(minutes=50), TUESDAY + timedelta(minutes=70))


def test_two_decks_play_side_by_side() -> None:
    week = deck_week.week(fittings(deck("A", "vhs"), deck("B", "vhs")), [queued(1), queued(2)], TUESDAY)
    assert [timeline.runs[0].start for timeline in week.timelines] == [TUESDAY, TUESDAY]


def test_a_tape_in_a_deck_goes_on_from_when_it_began() -> None:
    began = TUESDAY - timedelta(minutes=20)
    playing = queued(1, station=Station.PLAYING, since=began)
    (run,) = deck_week.week(fittings(deck("VHS 1", "vhs")), [playing], TUESDAY).timelines[0].runs
    assert run.is_playing
    assert run.start == began
    assert run.likely == began + timedelta(minutes=60)


def test_a_tape_that_should_be_over_ends_now_and_not_in_the_past() -> None:
    playing = queued(1, station=Station.PLAYING, since=TUESDAY - timedelta(hours=5))
    (run,) = deck_week.week(fittings(deck("VHS 1", "vhs")), [playing], TUESDAY).timelines[0].runs
    assert run.late == TUESDAY


def test_a_cold_tape_starts_when_its_rest_is_over() -> None:
    cold = replace(queued(1), rests_until=TUESDAY + timedelta(hours=3))
    (run,) = deck_week.week(fittings(deck("VHS 1", "vhs")), [cold], TUESDAY).timelines[0].runs
    assert run.start == TUESDAY + timedelta(hours=3)


def test_rush_goes_before_the_others() -> None:
    week = deck_week.week(fittings(deck("VHS 1", "vhs")), [queued(1), queued(2, rush=True, job=2)], TUESDAY)
    assert [run.tape.rush for run in week.timelines[0].runs] == [True, False]


def test_a_tape_that_does_not_fit_before_closing_waits_for_the_morning() -> None:
    long = queued(1, minutes=Range(340, 350, 360))
    late = TUESDAY + timedelta(hours=8)
    (run,) = deck_week.week(fittings(deck("VHS 1", "vhs")), [long], late).timelines[0].runs
    assert run.start == TUESDAY + timedelta(days=1)


def test_tapes_no_deck_plays_are_counted_and_not_drawn() -> None:
    week = deck_week.week(fittings(deck("VHS 1", "vhs")), [queued(1, format="hi8")], TUESDAY)
    assert week.unplaced == 1
    assert week.timelines[0].runs == ()


def test_tapes_set_aside_or_ready_are_no_part_of_the_plan() -> None:
    queue = [queued(1, station=Station.ASKING_THE_CUSTOMER), queued(2, station=Station.BEING_CHECKED)]
    week = deck_week.week(fittings(deck("VHS 1", "vhs")), queue, TUESDAY)
    assert week.unplaced == 0
    assert week.timelines[0].runs == ()


def test_closed_days_are_named_and_have_no_opening() -> None:
    closed = date(2026, 3, 5)
    week = deck_week.week(fittings(closed_days=frozenset({closed})), [], TUESDAY)
    assert closed not in {opening.opens.date() for opening in week.openings}
    assert [day for day, _ in week.shut] == [closed]


def test_a_shop_that_never_opens_has_an_empty_week() -> None:
    week = deck_week.week(fittings(openings=()), [queued(1)], TUESDAY)
    assert week.openings == ()
    assert week.unplaced == 1


def test_a_tape_stays_on_the_deck_it_was_put_on() -> None:
    playing = replace(queued(1, station=Station.PLAYING), deck="B")
    week = deck_week.week(fittings(deck("A", "vhs"), deck("B", "vhs")), [playing, queued(2)], TUESDAY)
    assert [[run.tape.code for run in timeline.runs] for timeline in week.timelines] == [
        [queued(2).code],
        [playing.code],
    ]


def test_a_deck_that_is_out_by_plan_plays_nothing_then_and_says_so() -> None:
    out = Outage("VHS 1", TUESDAY.date() + timedelta(days=1), TUESDAY.date() + timedelta(days=2))
    shop = fittings(deck("VHS 1", "vhs"), outages=(out,))
    long = Range(290, 300, 310)
    (timeline,) = deck_week.week(shop, [queued(n, minutes=long) for n in (1, 2)], TUESDAY).timelines
    assert [run.start.date() for run in timeline.runs] == [TUESDAY.date(), TUESDAY.date() + timedelta(days=3)]
    ((begins, ends),) = timeline.out
    assert (begins.date(), ends.date()) == (out.begins, out.ends + timedelta(days=1))


def test_a_deck_that_was_out_last_week_is_drawn_as_usual() -> None:
    out = Outage("VHS 1", TUESDAY.date() - timedelta(days=9), TUESDAY.date() - timedelta(days=8))
    (timeline,) = deck_week.week(
        fittings(deck("VHS 1", "vhs"), outages=(out,)), [queued(1)], TUESDAY
    ).timelines
    assert timeline.out == ()
    assert timeline.runs[0].start == TUESDAY


def test_the_end_of_the_day_is_filled_with_the_longest_that_still_ends() -> None:
    lengths = (350, 60, 110, 100)
    queue = [queued(n, minutes=exactly(minutes), job=n) for n, minutes in enumerate(lengths, 1)]
    late = TUESDAY + timedelta(hours=8)  # two hours and what may play past closing
    (timeline,) = deck_week.week(fittings(deck("VHS 1", "vhs")), queue, late).timelines
    assert [run.tape.minutes.likely for run in timeline.runs] == [110, 350, 60, 100]
    assert [run.start.date() - TUESDAY.date() for run in timeline.runs[:2]] == [
        timedelta(0),
        timedelta(days=1),
    ]


@pytest.mark.parametrize("people", [1, 3])
def test_a_week_is_the_beginning_of_a_month(people: int) -> None:
    """The plan is not worked out farther than it is shown."""
    shop = fittings(deck("A", "vhs"), deck("B", "vhs", "s-vhs"), deck("C", "hi8"), people=people)
    kinds = ("vhs", "hi8", "s-vhs")
    tapes = [queued(n, kinds[n % 3], Range(40, 60 + 7 * n, 300), job=n) for n in range(1, 31)]
    queue = [replace(each, station=Station.BOOKED_IN, bench_minutes=40.0) for each in tapes]
    week, month = (deck_week.week(shop, queue, TUESDAY, days=days) for days in (2, 30))
    for timeline, longer in zip(week.timelines, month.timelines, strict=True):
        early = tuple(run for run in longer.runs if run.start < TUESDAY + timedelta(days=2))
        assert timeline.runs == early
    assert week.unplaced > month.unplaced == 0


@pytest.mark.parametrize("people", [1, 3], ids=["one person followed", "minutes added for the people"])
def test_the_week_is_what_dates_are_promised_by(people: int) -> None:
    """With minutes that are sure, each box is done when its last run has been unloaded and checked."""
    shop = fittings(deck("A", "vhs"), deck("B", "vhs", "s-vhs"), deck("C", "hi8"), people=people)
    minutes = (55, 118, 190, 236, 61, 352, 118, 97, 240, 119, 30, 235)
    queue = [
        queued(n, format=("vhs", "hi8", "s-vhs")[n % 3], minutes=exactly(each), job=n, rush=n % 5 == 0)
        for n, each in enumerate(minutes * 2, 1)
    ]
    load = turnaround.load(shop, queue, TUESDAY)
    week = deck_week.week(shop, queue, TUESDAY, days=30)
    assert load.by_hand is (people == 1)
    runs = {run.tape.job: run for timeline in week.timelines for run in timeline.runs}
    assert set(runs) == set(load.jobs)
    for number, finish in load.jobs.items():
        seen_to = 2.0 + USUAL_HANDLING.check_of(runs[number].tape.minutes.likely)
        done = load.calendar.advanced(np.array([load.calendar.at(runs[number].likely)]), seen_to)[0]
        assert set(finish.at) == {finish.at[0]}  # the same in every scenario
        assert finish.at[0] == pytest.approx(done) if people == 3 else finish.at[0] >= done
