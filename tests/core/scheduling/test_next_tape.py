"""The bench is told which tape to load, by the rule the dates are made with."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from core.model.ranges import exactly
from core.model.stations import Station
from core.scheduling.next_tape import UpNext, up_next
from core.scheduling.queued_tapes import QueuedTape
from tests.support.shops import TUESDAY, deck, fittings, queued

SHOP = fittings(deck("VHS", "vhs"), deck("MiniDV", "minidv"))
LATE = TUESDAY.replace(hour=17)


def tape(n: int, minutes: float, job: int = 1, **changes: object) -> QueuedTape:
    return queued(n, minutes=exactly(minutes), job=job, **changes)  # type: ignore[arg-type]


def ask(*queue: QueuedTape, late: bool = False, on: str = "VHS") -> UpNext:
    return up_next(SHOP, queue, LATE if late else TUESDAY, on)


def test_the_queue_is_played_in_its_order_and_a_box_from_its_longest_tape() -> None:
    first, second = tape(1, 60), tape(2, 90)
    assert ask(first, second, tape(3, 200, job=2)).tape == second


def test_a_rush_box_goes_first_and_other_formats_do_not_count() -> None:
    hurried = tape(1, 30, job=3, rush=True)
    assert ask(tape(1, 60), hurried).tape == hurried
    assert ask(tape(1, 60), hurried, on="MiniDV") == UpNext(None, "No tape of the queue plays on this deck.")


def test_towards_closing_the_longest_that_still_ends_in_time_is_played_instead() -> None:
    long, short, middle = tape(1, 200), tape(1, 40, job=2), tape(2, 110, job=3)
    found = ask(long, short, middle, late=True)
    assert found.tape == middle
    assert found.why == f"Tape {long.code} is next, but would not end before closing: this one does."


def test_when_nothing_ends_in_time_the_morning_is_named() -> None:
    found = ask(tape(1, 200), tape(2, 190), late=True)
    assert found.tape is None
    assert found.why == "Nothing would end before closing; the next tape starts on Wednesday, March 4."


def test_what_is_not_cleared_or_still_cold_waits() -> None:
    at_the_bench = tape(1, 90, station=Station.AT_THE_BENCH)
    ready = tape(1, 60, job=2)
    assert ask(at_the_bench, ready).tape == ready
    assert ask(at_the_bench).why == "The next tapes are not cleared to play yet."
    cold = replace(ready, rests_until=TUESDAY + timedelta(hours=2))
    assert ask(cold) == UpNext(None, "The next tapes came in cold and still rest.")
    warm = tape(2, 30, job=3)
    assert ask(cold, warm) == UpNext(warm, f"Tape {cold.code} is next, but it came in cold and still rests.")


def test_a_shop_without_hours_is_told_so() -> None:
    found = up_next(fittings(deck("VHS", "vhs"), openings=()), [tape(1, 60)], TUESDAY, "VHS")
    assert found == UpNext(None, "The shop has no opening hours in which it could be played.")
