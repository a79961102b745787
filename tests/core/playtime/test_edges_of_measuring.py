"""How far a figure that somebody read may be off before it says anything: just within, and just beyond."""

from __future__ import annotations

import numpy as np
import pytest

from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.model.ranges import Range, exactly
from core.playtime import length_doubts, pack_reading, packs, places, tape_minutes
from core.playtime.beliefs import as_range, spread
from core.playtime.measured_lengths import LeastLength
from core.playtime.possibilities import facts

T_120 = TapeLine(1, FormatName("vhs"), "T-120", speed=Speed.SP, tv=TvSystem.NTSC)
LONGEST = tape_minutes.belief(T_120, None).longest
A_METER = 1000 / 33.35 / 60
"""Minutes of a metre of VHS at SP in NTSC: 33.35 mm/s (IEC 60774)."""


def test_a_range_holds_four_of_five_around_the_median() -> None:
    """Of the numbers from 1 to 100, each as likely: by definition of the quantiles."""
    points = np.column_stack((np.arange(1.0, 101.0), np.full(100, 0.01)))

    assert spread(points) == Range(10, 50, 90)


@pytest.mark.parametrize(("more", "is_doubted"), [(0.45, False), (0.55, True)])
def test_a_counter_may_be_half_a_minute_off(more: float, is_doubted: bool) -> None:
    assert (length_doubts.of_minutes(T_120, LONGEST + more) is not None) is is_doubted


@pytest.mark.parametrize(("times", "asks"), [(1.09, False), (1.11, True)])
def test_a_tenth_more_than_the_longest_tape_is_asked_about(times: float, asks: bool) -> None:
    found = length_doubts.of_metres(T_120, places.longest_metres(T_120) * times)

    assert found is not None
    assert found.asks is asks


@pytest.mark.parametrize(("more", "is_doubted"), [(0.9, False), (1.1, True)])
def test_metres_may_be_more_by_a_metre_of_leader(more: float, is_doubted: bool) -> None:
    found = length_doubts.of_metres(T_120, places.longest_metres(T_120) + more)

    assert (found is not None) is is_doubted


@pytest.mark.parametrize(("metres", "may_be"), [(0.9, True), (1.1, False)])
def test_the_leader_may_reach_a_metre_into_the_tape(metres: float, may_be: bool) -> None:
    assert places.may_be_leader(T_120, places.after_minutes(T_120, metres * A_METER)) is may_be


@pytest.mark.parametrize(("more", "may_be_sp"), [(0.45, True), (0.55, False)])
def test_a_speed_is_ruled_out_half_a_minute_beyond_what_it_can_play(more: float, may_be_sp: bool) -> None:
    open_speed = TapeLine(1, FormatName("vhs"), "T-120", tv=TvSystem.NTSC)
    believed = tape_minutes.belief_of(facts(open_speed, None, LeastLength(minutes=LONGEST + more)))

    assert (as_range(believed.speed_mm_s).high == pytest.approx(33.35)) is may_be_sp


@pytest.mark.parametrize(("more", "is_beyond"), [(0.9, False), (1.1, True)])
def test_a_radius_read_through_the_window_may_be_a_millimetre_off(more: float, is_beyond: bool) -> None:
    reels = packs.reels(FormatName("vhs"), "T-120")

    assert reels.is_beyond_reel(reels.flange.value + more) is is_beyond


@pytest.mark.parametrize(("share", "place"), [(0.029, "AT_THE_BEGINNING"), (0.031, "ON_THE_WAY")])
def test_three_parts_in_a_hundred_from_an_end_a_tape_is_wound_to_it(share: float, place: str) -> None:
    there, back = (pack_reading._place(exactly(each)) for each in (share, 1 - share))

    assert there.name == place
    assert back.name == place.replace("BEGINNING", "END")
