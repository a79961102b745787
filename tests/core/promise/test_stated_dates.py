"""Finish times become a date, a curve and words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from core.model.promise_records import Promise
from core.model.ranges import exactly
from core.promise.stated_dates import Before, DateQuery, chance_by, chances_by, finish_of, promise_of
from core.scheduling.deck_choice import Suited
from core.scheduling.opening_hours import calendar
from core.scheduling.plan_records import Done, Step
from core.wording.messages import say
from tests.support.shops import TUESDAY, fittings

STEP = Step(1, 1, Suited((0,), "VHS"), exactly(60), 0.0)
DAYS = calendar(fittings(), TUESDAY.date(), 200)


def done(*days_from_now: float) -> Done:
    """A tape finished at noon, so many days after the Tuesday."""
    return Done(STEP, np.array([day * 1440.0 + 720.0 for day in days_from_now]))


def promised(*finished: Done, confidence: float = 0.9, needed_by: date | None = None) -> Promise:
    query = DateQuery(DAYS, 540.0, TUESDAY, confidence, needed_by)
    return promise_of(finish_of(finished), query)


def test_a_box_is_done_when_its_last_tape_is() -> None:
    finish = finish_of([done(0, 0, 9), done(1, 0, 2)])
    assert (finish.at // 1440).tolist() == [1, 0, 9]
    assert [round(share, 2) for _, share in finish.last] == [0.67, 0.33]


def test_the_date_and_its_chance_are_read_off_the_scenarios() -> None:
    made = promised(done(*[0] * 5, *[1] * 4, 2))
    assert [(chance.day.day, chance.by) for chance in made.chances] == [(3, 0.5), (4, 0.9), (5, 1.0)]
    assert (made.day, made.stated) == (date(2026, 3, 4), 0.9)
    assert (made.p50, made.p90) == (date(2026, 3, 3), date(2026, 3, 4))


def test_a_day_just_short_of_the_confidence_is_not_promised() -> None:
    made = promised(done(*[0] * 89, *[1] * 11))
    assert (made.day, made.stated) == (date(2026, 3, 4), 1.0)


def test_a_tape_done_exactly_at_closing_is_done_that_day() -> None:
    assert chances_by(np.array([1080.0 + 1e-9]), np.array([1080.0])).tolist() == [1.0]
    assert chances_by(np.array([1080.01]), np.array([1080.0])).tolist() == [0.0]


def test_a_far_date_has_a_curve_that_begins_the_day_before_the_first_chance() -> None:
    made = promised(done(*[90] * 5, *[91] * 5))
    assert [chance.by for chance in made.chances] == [0.0, 0.5, 1.0]


def test_a_day_needed_before_a_far_curve_is_told_by_itself() -> None:
    made = promised(done(*[90] * 5, *[91] * 5), needed_by=date(2026, 3, 15))
    assert made.chances[0].day == date(2026, 3, 13)  # the Friday before that Sunday
    assert chance_by(made, date(2026, 3, 15)) == 0.0
    assert len(made.chances) == 4


def test_a_wide_curve_keeps_forty_days_and_the_promised_one_is_the_last() -> None:
    made = promised(done(*range(140)))
    assert len(made.chances) == 40
    assert made.chances[-1].day == made.day


def test_scenarios_that_never_end_count_against_every_date() -> None:
    endless = Done(STEP, np.array([720.0] * 8 + [np.inf] * 2))
    made = promised(endless)
    assert made.day is None
    assert made.p50 == date(2026, 3, 3)
    assert made.held_by[0] == say("dates", "no_date", days=730, chance="16 chances in 20")


@pytest.mark.parametrize(
    ("waiting", "sentences"),
    [
        (0, ()),
        (1, ("1 tape is already waiting to be played there",)),
        (5, ("5 tapes are already waiting to be played there",)),
    ],
)
def test_what_holds_a_date_is_said_in_whole_words(waiting: int, sentences: tuple[str, ...]) -> None:
    query = DateQuery(DAYS, 540.0, TUESDAY, 0.9)
    made = promise_of(finish_of([done(0, 1)]), query, Before({(0,): waiting}, {}))
    begin = ("only one deck plays VHS, and the last tape finishes there", *sentences)
    assert made.held_by[: len(begin)] == begin
    assert sum("already waiting" in each for each in made.held_by) == len(sentences)


def test_what_holds_a_date_in_most_scenarios_says_in_how_many() -> None:
    others = replace(done(0, 0, 0, 2), step=replace(STEP, suited=Suited((1, 2), "Hi8")))
    made = promised(done(1, 1, 1, 1), others)
    assert made.held_by[0] == ("only one deck plays VHS, and 15 times in 20 the last tape finishes there")


def test_work_bound_to_few_decks_is_set_beside_the_opening_days() -> None:
    query = DateQuery(DAYS, 540.0, TUESDAY, 0.9)
    made = promise_of(finish_of([done(3, 3)]), query, Before({(0,): 5}, {(0,): 20 * 60.0}))
    assert made.held_by[2] == (
        "about 20 hours of tape can only play on one deck: "
        "that takes at least 3 opening days, and the date allows 4"
    )
