"""The heartbeat that tells what the window does of its own from what a busy machine does to it."""

from __future__ import annotations

import pytest

from tests.eight_tills.heartbeat import BEAT_MS, Silence, Stop, stop_between

BEAT = BEAT_MS / 1000


def _stop(wall: float, worked: float, waited: float, other_waited: float = 0.0) -> Stop:
    before = (10.0, {"main": (1.0, 1.0), "other": (2.0, 2.0)})
    now = (10.0 + BEAT + wall, {"main": (1.0 + worked, 1.0 + waited), "other": (2.0, 2.0 + other_waited)})
    return stop_between(before, now, "main")


def _seconds(stop: Stop) -> list[float]:
    return [stop.wall, stop.given, stop.own]


def test_what_the_thread_works_or_sleeps_is_its_own() -> None:
    assert _seconds(_stop(0.3, 0.3, 0.0)) == pytest.approx([0.3, 0.3, 0.3])
    assert _seconds(_stop(0.3, 0.0, 0.0)) == pytest.approx([0.3, 0.3, 0.3])


def test_waiting_for_a_processor_is_not() -> None:
    assert _seconds(_stop(0.3, 0.1, 0.2)) == pytest.approx([0.3, 0.1, 0.1])


def test_the_wait_of_another_thread_counts_only_while_this_one_slept() -> None:
    assert _seconds(_stop(0.3, 0.0, 0.0, 0.2)) == pytest.approx([0.3, 0.3, 0.1])
    assert _seconds(_stop(0.3, 0.3, 0.0, 0.2)) == pytest.approx([0.3, 0.3, 0.3])


def test_silence_lasts_from_the_asking_or_the_last_word_until_the_next() -> None:
    silence = Silence()
    silence.note({1}, False, 10.0)
    silence.note({1, 2}, False, 13.0)
    silence.note({1, 2}, True, 13.5)
    silence.note({2}, True, 20.0)
    silence.note({2}, False, 21.0)
    silence.note(set(), False, 40.0)
    assert silence.longest == 3.0
    silence.note({3}, False, 50.0)
    silence.note({3}, False, 54.0)
    assert silence.longest == 4.0
