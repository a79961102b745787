"""Places on a tape: minutes and metres lead to each other, and the leader lies at the ends."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.names import FormatName, Join, Measure, Section, Speed, TvSystem
from core.playtime import places, tape_minutes
from core.playtime.places import after_metres, after_minutes, may_be_leader, section

LINES = st.builds(
    TapeLine,
    count=st.just(1),
    format=st.sampled_from(catalogue().names),
    tv=st.none() | st.sampled_from(TvSystem),
)
SHARES = st.floats(0, 1)
T_120 = TapeLine(1, FormatName("vhs"), "T-120", tv=TvSystem.NTSC, speed=Speed.SP)
UNKNOWN = TapeLine(1, FormatName("vhs"), "T-120", tv=TvSystem.NTSC)


@given(LINES, SHARES)
def test_metres_lead_to_minutes_and_back(line: TapeLine, share: float) -> None:
    metres = share * min(marking.metres.value for marking in catalogue().format(line.format).markings)

    back = after_minutes(line, after_metres(line, metres).minutes.likely)

    assert back.metres.likely == pytest.approx(metres, abs=1e-6)


@given(LINES, SHARES)
def test_minutes_lead_to_metres_and_back(line: TapeLine, share: float) -> None:
    # On a cassette with two sides the same metre is played twice.
    assume(catalogue().format(line.format).sides == 1)
    speed = tape_minutes.belief(line, line.tv).speed_mm_s
    fast = speed if isinstance(speed, float) else speed.likely
    shortest = min(marking.metres.value for marking in catalogue().format(line.format).markings)
    minutes = share * shortest * 1000 / 60 / fast

    back = after_metres(line, after_minutes(line, minutes).metres.likely)

    assert back.minutes.likely == pytest.approx(minutes, abs=1e-6)


@given(LINES, SHARES, SHARES)
def test_further_in_metres_is_never_earlier_in_minutes(line: TapeLine, one: float, two: float) -> None:
    longest = places.longest_metres(line)
    near, far = (after_metres(line, share * longest) for share in sorted((one, two)))

    assert near.minutes.low <= far.minutes.low
    assert near.minutes.likely <= far.minutes.likely
    assert far.minutes.low <= far.minutes.likely <= far.minutes.high


def test_a_place_on_vhs_sp_is_reckoned_from_its_speed() -> None:
    # 33.35 mm/s (IEC 60774): one hour is 120.06 m.
    there = after_minutes(T_120, 60)

    assert there.metres.likely == pytest.approx(120.06, abs=0.01)
    assert there.metres.low == there.metres.high
    assert there.measured is Measure.MINUTES
    assert there.words == "60 minutes"


def test_an_unknown_speed_leaves_the_other_figure_a_range() -> None:
    there = after_metres(UNKNOWN, 100)

    # 100 m are 50 minutes at SP and three times that at EP.
    assert there.minutes.low == pytest.approx(49.98, abs=0.01)
    assert there.minutes.high == pytest.approx(149.9, abs=0.2)
    assert there.metres.low == there.metres.high == 100
    assert there.words == "100 meters"


def test_minutes_of_the_second_side_run_back_to_the_head() -> None:
    c_60 = TapeLine(1, FormatName("audio-cassette"), "C60")

    assert after_minutes(c_60, 40).metres.likely == pytest.approx(after_minutes(c_60, 20).metres.likely)
    assert after_minutes(c_60, 60).metres.likely == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("minutes", [-0.1, float("nan"), float("inf")])
def test_minutes_that_are_no_place_are_refused(minutes: float) -> None:
    with pytest.raises(WrongInput, match="from 0 on") as wrong:
        after_minutes(T_120, minutes)
    assert wrong.value.place == "minutes from the start of the tape"


@pytest.mark.parametrize("metres", [-0.1, float("nan"), float("inf")])
def test_metres_that_are_no_place_are_refused(metres: float) -> None:
    with pytest.raises(WrongInput, match="from 0 on") as wrong:
        after_metres(T_120, metres)
    assert wrong.value.place == "meters from the start of the tape"


@pytest.mark.parametrize(
    ("minutes", "leader"), [(0, True), (0.4, True), (2, False), (60, False), (124, True)]
)
def test_the_leader_lies_at_the_two_ends(minutes: float, leader: bool) -> None:
    assert may_be_leader(T_120, after_minutes(T_120, minutes)) is leader


@pytest.mark.parametrize(
    ("minutes", "join", "lies_in"),
    [
        (0, Join.LEADER, Section.LEADER),
        (0, Join.TAPE, Section.PROGRAMME),
        (0, Join.ADHESIVE, Section.PROGRAMME),
        (12.5, Join.LEADER, Section.PROGRAMME),
    ],
)
def test_unless_somebody_says_so_only_a_leader_at_an_end_is_no_programme(
    minutes: float, join: Join, lies_in: Section
) -> None:
    assert section(T_120, after_minutes(T_120, minutes), join) is lies_in


def test_what_the_bench_says_goes_first_where_it_can_be() -> None:
    head, middle = after_minutes(T_120, 0), after_minutes(T_120, 60)

    assert section(T_120, head, Join.TAPE, Section.LEADER) is Section.LEADER
    assert section(T_120, head, Join.LEADER, Section.PROGRAMME) is Section.PROGRAMME
    with pytest.raises(WrongInput, match="60 minutes in is part of the program"):
        section(T_120, middle, Join.LEADER, Section.LEADER)
