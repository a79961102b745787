"""The queue is put in a better order only when no promise is less sure for it."""

from __future__ import annotations

from datetime import date

import numpy as np

from core.model.names import JobNumber
from core.model.ranges import exactly
from core.model.stations import Station
from core.promise import turnaround
from core.promise.order_search import Promised, better
from tests.support.shops import TUESDAY, deck, fittings, queued

SHOP = fittings(deck("VHS", "vhs"))
LONG = [queued(n, minutes=exactly(150), job=1) for n in range(6)]
SHORT = [queued(n, minutes=exactly(60), job=2) for n in range(2)]


def day(of: int) -> date:
    return date(2026, 3, of)


def test_a_small_box_with_a_near_date_goes_before_a_big_one_with_a_far_date() -> None:
    promised = {
        JobNumber("000001"): Promised(day(12), 0.95),
        JobNumber("000002"): Promised(day(3), 0.95),
    }
    found = better(SHOP, [*LONG, *SHORT], TUESDAY, promised)
    assert found is not None
    assert found.order == ("000002", "000001")
    assert found.chances[JobNumber("000002")] == (0.0, 1.0)
    assert found.chances[JobNumber("000001")] == (1.0, 1.0)
    assert found.sooner[JobNumber("000002")] > 1.5
    assert -2 < found.sooner[JobNumber("000001")] < 0


def test_no_date_is_given_up_for_the_sake_of_another() -> None:
    promised = {
        JobNumber("000001"): Promised(day(4), 0.95),
        JobNumber("000002"): Promised(day(3), 0.95),
    }
    given = [*LONG, *SHORT]
    found = better(SHOP, given, TUESDAY, promised)
    kept = {} if found is None else found.chances
    assert all(after >= before for before, after in kept.values())


def test_a_queue_in_good_order_is_left_alone() -> None:
    promised = {
        JobNumber("000001"): Promised(day(12), 0.95),
        JobNumber("000002"): Promised(day(12), 0.95),
    }
    assert better(SHOP, [*SHORT, *LONG], TUESDAY, promised) is None
    assert better(SHOP, [queued(1, station=Station.READY)], TUESDAY, {}) is None


def test_boxes_without_a_date_are_put_in_order_when_they_are_ready_much_sooner() -> None:
    found = better(SHOP, [*LONG, *SHORT], TUESDAY, {})
    assert found is not None
    assert found.order == ("000002", "000001")
    assert found.days > 0.5


def test_the_order_that_is_told_is_the_one_the_queue_is_planned_in() -> None:
    """What is promised of an order comes from a plan of whole boxes, as the bench works them off."""
    found = better(SHOP, [*LONG, *SHORT], TUESDAY, {})
    assert found is not None
    before = turnaround.load(SHOP, [*LONG, *SHORT], TUESDAY)
    after = turnaround.load(SHOP, [*SHORT, *LONG], TUESDAY)
    for number, days in found.sooner.items():
        was, will = (float(np.median(load.jobs[number].at)) for load in (before, after))
        assert days == (was - will) / (24 * 60)


def test_a_rush_box_stays_ahead_of_what_is_moved() -> None:
    hurried = queued(1, minutes=exactly(100), job=3, rush=True)
    found = better(SHOP, [*LONG, *SHORT, hurried], TUESDAY, {})
    assert found is not None
    assert found.order == ("000003", "000002", "000001")


def test_a_search_that_is_stopped_finds_nothing() -> None:
    asked = []

    def stop() -> bool:
        asked.append(True)
        return len(asked) > 3

    assert better(SHOP, [*LONG, *SHORT], TUESDAY, {}, stop=stop) is None
    assert len(asked) < 10


def test_a_day_that_became_a_day_off_is_still_a_promise() -> None:
    """A box promised for a Sunday is due by the closing before; it gives what it can until then."""
    small = [queued(1, minutes=exactly(150), job=job) for job in range(2, 14)]
    sunday = {JobNumber("000001"): Promised(day(8), 0.95)}
    found = better(SHOP, [*LONG, *small], TUESDAY, sunday)
    assert found is not None
    was, will = found.chances[JobNumber("000001")]
    assert was == 1.0
    assert will >= 0.94
    assert found.order[0] != "000001"
    assert found.order[-1] != "000001"
