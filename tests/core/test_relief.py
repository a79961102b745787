"""What would help the queue is said in days and in dates that would hold again."""

from __future__ import annotations

from dataclasses import replace

from core import turnaround
from core.names import JobNumber
from core.ranges import Range
from core.records import Promise
from core.relief import Relief, reliefs
from tests.support.shops import TUESDAY, deck, fittings, queued

WIDE = Range(40, 120, 360)
SHOP = fittings(deck("VHS 1", "vhs"), deck("MiniDV", "minidv"))
QUEUE = [queued(n % 4, minutes=WIDE, job=1 + n // 4) for n in range(24)]


def _too_early(number: JobNumber) -> Promise:
    """A promise of the job half the days it will take."""
    now = turnaround.standing(turnaround.load(SHOP, QUEUE, TUESDAY), number)
    assert now is not None
    assert now.p50 is not None
    return replace(now, day=TUESDAY.date() + (now.p50 - TUESDAY.date()) // 2, stated=0.9)


def test_three_changes_at_most_and_the_best_first() -> None:
    found = reliefs(SHOP, QUEUE, TUESDAY, {})
    assert 1 <= len(found) <= 3
    days = [each.days for each in found]
    assert days == sorted(days, reverse=True)
    assert found[0].change == "with another deck like VHS 1"
    assert found[0].days > 1
    assert not any("MiniDV" in each.change or "broke" in each.change for each in found)


def test_dates_that_would_hold_again_are_counted() -> None:
    number = JobNumber(QUEUE[-1].code[:6])
    (first, *_) = reliefs(SHOP, QUEUE, TUESDAY, {number: _too_early(number)})
    assert first.endangered == 1
    assert first.saved in (0, 1)
    assert ("would hold" if first.saved else "would not hold") in first.sentence


def test_nothing_helps_an_empty_shop() -> None:
    assert reliefs(SHOP, [], TUESDAY, {}) == ()


def test_a_relief_is_said_in_one_line() -> None:
    assert Relief("with one more person", 1.04, 0, 0).sentence == (
        "with one more person: boxes ready 1 day sooner on average"
    )
    assert Relief("open an hour longer", 2.46, 2, 3).sentence == (
        "open an hour longer: boxes ready 2.5 days sooner on average; 2 of 3 endangered dates would hold"
    )
    assert "none of 2 endangered dates would hold" in Relief("open longer", 1.0, 0, 2).sentence
