"""A small share of `tests.bench recalibration`: a shop slower than planned, and one that is as planned."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from math import exp

import numpy as np

from core.model.promise_records import USUAL_WIDTH
from core.promise import recalibration
from tests.bench.recalibrated_years import scored, told
from tests.bench.stated_worlds import LASTS, compared
from tests.support.fed.promise_log import Logged
from tests.support.worlds.promise_streams import DAY, STREAMS, Order
from tests.support.worlds.recalibrators import AsPlanned, Pooled
from tests.support.worlds.told_worlds import STEADY

RIGHT, SLOWER = STREAMS[:2]


def test_a_slower_shop_keeps_what_it_states_after_a_hundred_promises() -> None:
    plan, learned = (scored(SLOWER, way, years=3, count=250) for way in (AsPlanned, Pooled))
    assert plan.after < -4
    assert abs(learned.after) < 2
    assert learned.worst_third < 4 < plan.worst_third
    assert learned.loss < plan.loss


def test_a_shop_as_planned_loses_little_by_learning() -> None:
    plan, learned = (scored(RIGHT, way, years=2, count=220) for way in (AsPlanned, Pooled))
    assert abs(learned.after) < 2
    assert learned.loss < 1.05 * plan.loss


def test_plans_that_err_as_far_as_they_are_unsure_are_right_when_sure_and_when_not() -> None:
    """One spread for all plans, as it was, sets orders behind a long queue too far off."""
    alike, own = (_off_by_kind(partial(Pooled, width=width)) for width in (USUAL_WIDTH, None))
    assert max(map(abs, own)) < 3
    assert max(map(abs, alike)) > 4


def _off_by_kind(way: Callable[[], Pooled]) -> list[float]:
    """Points kept less stated after a hundred promises, of plans that are sure (twenty tapes) and unsure."""
    after = [one for seed in range(4) for one in list(told(_sure_and_unsure(seed), way()))[100:]]
    kinds = ([one for one in after if one.tapes == tapes] for tapes in (20, 2))
    return [100 * float(np.mean([one.kept - one.stated for one in kind])) for kind in kinds]


def _sure_and_unsure(seed: int) -> Iterator[Order]:
    dice, z = np.random.default_rng(seed), recalibration.scores(200)
    for number in range(300):
        tapes, middle, width = (20, 20 * DAY, 0.1) if number % 2 else (2, 3 * DAY, 0.5)
        leads = middle * np.exp(width * z)
        lead = middle * exp(width * float(dice.normal(0.3, 1.4)))
        made = number * DAY / 3 // DAY * DAY
        closings = DAY * np.arange(1, 200.0)
        yield Order(made, leads, lead, tapes, 30, False, closings)


def test_a_promise_that_outlives_its_life_is_judged_by_nobody() -> None:
    """Taken for a miss, a queue of half a year at the end of a life made worlds look 13 points worse."""
    ends = LASTS[STEADY.name]
    one = Logged(
        STEADY.name,
        1,
        1,
        ends - 90.0,
        3,
        "",
        False,
        9,
        9.0,
        False,
        (),
        (),
        (),
        None,
        0.0,
        ends,
        0.9,
        ends,
        None,
    )
    assert (compared([[one]]).promises, compared([[replace(one, day=ends - 1)]]).kept) == (0, 0.0)
    assert compared([[replace(one, day=ends - 1)]]).promises == 1
