"""The queue is put in a better order only when no promise is less sure for it."""

from __future__ import annotations

from datetime import date

from core.names import JobNumber
from core.ranges import exactly
from core.rearranging import Promised, better
from core.stations import Station
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
    assert [tape.job for tape in found.queue[:2]] == ["000002", "000002"]
    assert found.chances[JobNumber("000002")] == (0.0, 1.0)
    assert found.chances[JobNumber("000001")] == (1.0, 1.0)


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
