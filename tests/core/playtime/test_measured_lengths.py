"""How long a tape can be as its sources say, and what a measured place or time makes of it."""

from __future__ import annotations

import numpy as np
import pytest

from core.catalogue.formats import catalogue
from core.model import common_random_numbers
from core.model.deck_showing import Shown
from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.playtime import box_habits, length_doubts, places, starting_beliefs, tape_minutes
from core.playtime.beliefs import as_range
from core.playtime.box_habits import Box
from core.playtime.measured_lengths import LeastLength
from core.playtime.possibilities import facts

NTSC, PAL = TvSystem.NTSC, TvSystem.PAL


def tape(name: str, marking: str, speed: Speed | None = Speed.SP, tv: TvSystem | None = None) -> TapeLine:
    return TapeLine(1, FormatName(name), marking, speed=speed, tv=tv, fill=1.0)


@pytest.mark.parametrize(
    ("line", "minutes", "source"),
    [
        (tape("vhs", "E-240", tv=PAL), 248, "348 m: vinett, Bandeigenschaften (trade)"),
        (tape("vhs", "E-240", tv=PAL), 250.8, "352 m: WISSEN-digital, Videokassette (encyclopaedia)"),
        (tape("vhs", "T-30", tv=NTSC), 33.4, "64 +3 m: SMPTE 32M table 1, 2nd-hand"),
        (tape("vhs", "T-160", tv=NTSC), 164.9, "327 +3 m: SMPTE 32M table 1, 2nd-hand"),
        (tape("vhs", "T-120", tv=NTSC), 124.9, "up to five minutes over: Wickstrom 1985 (trade)"),
        (tape("audio-cassette", "C90"), 94.5, "135 m: Wikipedia, Compact Cassette (encyclopaedia)"),
        (tape("u-matic", "KCS-10"), 12, "a 10 is nearer 12: umatic.palsite tapes (trade)"),
    ],
)
def test_what_is_printed_or_measured_of_a_cassette_lies_within_its_length(
    line: TapeLine, minutes: float, source: str
) -> None:
    assert tape_minutes.belief(line, None).longest >= minutes, source
    assert length_doubts.of_minutes(line, minutes) is None
    there = places.after_minutes(line, minutes)
    assert there.metres.likely <= places.longest_metres(line) + 0.1


@pytest.mark.parametrize(
    ("marking", "metres"), [("T-30", 67), ("T-60", 128), ("T-90", 188), ("T-160", 330), ("E-240", 352)]
)
def test_a_margin_is_so_many_metres_and_no_percentage(marking: str, metres: float) -> None:
    known = catalogue().format("vhs").marking(marking)
    assert known is not None
    assert known.metres.value * (1 + max(starting_beliefs.over_of(known))) == pytest.approx(metres)


def test_a_little_more_is_told_and_far_more_is_asked() -> None:
    line = tape("vhs", "T-30", tv=NTSC)
    told, far = length_doubts.of_minutes(line, 36), length_doubts.of_minutes(line, 800)

    assert told is not None
    assert far is not None
    assert (told.asks, far.asks) == (False, True)
    assert "VHS T-30" in told.words
    assert "33.5 minutes at most" in told.words
    assert length_doubts.of_minutes(line, 33.9) is None, "a counter may be half a minute off"


def test_a_told_speed_is_no_reading_and_a_shown_one_is() -> None:
    """90 minutes fit a T-30 at EP (95.9), whatever the customer said of its speed."""
    line = tape("vhs", "T-30")
    told = length_doubts.of_minutes(line, 90)
    shown = length_doubts.of_minutes(line, 90, Shown(speed=Speed.SP, tv=NTSC))

    assert told is not None
    assert shown is not None
    assert (told.asks, shown.asks) == (False, True)


@pytest.mark.parametrize(
    ("metres", "doubted", "asks"), [(353, False, False), (360, True, False), (500, True, True)]
)
def test_metres_are_held_against_metres(metres: float, doubted: bool, asks: bool) -> None:
    found = length_doubts.of_metres(tape("vhs", "E-240"), metres)
    assert (found is not None, found is not None and found.asks) == (doubted, asks)


def test_what_was_measured_is_what_the_tape_is_believed_to_hold() -> None:
    line = tape("vhs", "E-240", tv=PAL)
    known = facts(line, None, LeastLength(minutes=255))
    believed = tape_minutes.belief_of(known)

    assert believed.full == 255
    assert believed.longest == 255
    assert believed.range.likely == pytest.approx(255)
    assert believed.metres == pytest.approx(255 * 60 * 0.02339, abs=0.01)
    drawn = box_habits.minutes_of_tapes([known], [common_random_numbers.key(1)], Box(1, 2, 200))
    assert np.allclose(drawn, 255)
    in_metres = tape_minutes.belief_of(facts(line, None, LeastLength(metres=360)))
    assert in_metres.full == pytest.approx(360 / 0.02339 / 60, abs=0.01)


def test_a_place_that_only_a_slower_speed_reaches_tells_the_speed() -> None:
    line = tape("vhs", "T-120", None, NTSC)
    believed = tape_minutes.belief_of(facts(line, None, LeastLength(minutes=250)))

    assert as_range(believed.speed_mm_s).high == pytest.approx(11.12)
    assert (
        tape_minutes.belief_of(facts(line, None, LeastLength(minutes=60))).range
        == tape_minutes.belief(line, None).range
    )
