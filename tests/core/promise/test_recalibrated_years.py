"""A small share of `tests.bench recalibration`: a shop slower than planned, and one that is as planned."""

from __future__ import annotations

from tests.bench.recalibrated_years import scored
from tests.support.worlds.promise_streams import STREAMS
from tests.support.worlds.recalibrators import AsPlanned, Pooled

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
