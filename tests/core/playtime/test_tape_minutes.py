"""Beliefs about play time: what is known collapses them, what is not widens them, and they never lie."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.names import FillKnown, FormatName, Origin, Speed, TvSystem
from core.model.ranges import Range
from core.playtime import length_doubts, tape_minutes
from core.playtime.beliefs import Belief, gathered, quantile
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import Facts

NTSC, PAL = TvSystem.NTSC, TvSystem.PAL
SLOWER = {Speed.SP: Speed.LP, Speed.LP: Speed.EP, Speed.B1: Speed.B2, Speed.B2: Speed.B3}


def line(name: str, marking: str | None = None, **known: object) -> TapeLine:
    return replace(TapeLine(1, FormatName(name), marking), **known)  # type: ignore[arg-type]


@st.composite
def lines(draw: st.DrawFn) -> TapeLine:
    """Any line the counter can hold, its speed one that exists for what is recorded."""
    form = catalogue().format(draw(st.sampled_from(catalogue().names)))
    recorded_as = draw(st.none() | st.sampled_from(form.systems))
    tv = draw(st.none() | st.sampled_from(TvSystem))
    system = catalogue().format(recorded_as) if recorded_as else form
    way = draw(st.sampled_from(FillKnown))
    return TapeLine(
        count=draw(st.integers(1, 500)),
        format=form.name,
        marking=draw(st.none() | st.sampled_from([marking.name for marking in form.markings])),
        recorded_as=recorded_as,
        speed=draw(st.none() | st.sampled_from(system.speeds_in(tv))),
        tv=tv,
        fill=draw(st.none() | st.floats(0.01, 1.0)),
        origin=draw(st.none() | st.sampled_from(Origin)),
        fill_known=way,
        fill_off=None if way is FillKnown.AT_LEAST else draw(st.none() | st.floats(0.01, 0.5)),
    )


@given(lines())
def test_a_belief_is_a_distribution_in_order(drawn: TapeLine) -> None:
    belief = tape_minutes.belief(drawn, None)

    assert sum(probability for _, probability in belief.points) == pytest.approx(1)
    assert (np.diff(belief.points[:, 0]) > 0).all()
    assert all(minutes > 0 and probability > 0 for minutes, probability in belief.points)
    assert 0 < belief.range.low <= belief.range.likely <= belief.range.high <= belief.longest
    assert belief.sources


@given(lines(), st.floats(0, 1), st.floats(0, 1))
def test_a_higher_quantile_is_never_a_shorter_time(drawn: TapeLine, p: float, q: float) -> None:
    belief = tape_minutes.belief(drawn, None)

    assert belief.quantile(min(p, q)) <= belief.quantile(max(p, q))
    assert belief.range == Range(*(belief.quantile(p) for p in (0.1, 0.5, 0.9)))


@given(lines(), st.data())
def test_a_longer_tape_never_plays_shorter(drawn: TapeLine, data: st.DataObject) -> None:
    """Among cassettes marked for the same TV system: another one would change what is believed of it."""
    markings = catalogue().format(drawn.format).markings
    one = data.draw(st.sampled_from(markings))
    alike = [marking for marking in markings if marking.nominal_tv is one.nominal_tv]
    other = data.draw(st.sampled_from(alike))
    short, long = sorted((one, other), key=lambda marking: marking.metres.value)

    less = tape_minutes.belief(replace(drawn, marking=short.name), None).range
    more = tape_minutes.belief(replace(drawn, marking=long.name), None).range

    assert less.low <= more.low
    assert less.likely <= more.likely
    assert less.high <= more.high


@given(lines())
def test_a_slower_speed_never_plays_shorter(drawn: TapeLine) -> None:
    system = catalogue().format(drawn.recorded_as or drawn.format)
    tv = drawn.tv or NTSC
    for fast, slow in SLOWER.items():
        if {fast, slow} <= set(system.speeds_in(tv)):
            quick = tape_minutes.belief(replace(drawn, speed=fast, tv=tv), None).range
            slower = tape_minutes.belief(replace(drawn, speed=slow, tv=tv), None).range
            assert quick.low < slower.low
            assert quick.high < slower.high


@given(lines(), st.floats(0.01, 1.0), st.floats(0.01, 1.0))
def test_a_fuller_tape_never_plays_shorter(drawn: TapeLine, one: float, other: float) -> None:
    less = tape_minutes.belief(replace(drawn, fill=min(one, other)), None).range
    more = tape_minutes.belief(replace(drawn, fill=max(one, other)), None).range

    assert less.likely <= more.likely


def test_everything_known_leaves_only_the_length_of_the_cassette_open() -> None:
    belief = tape_minutes.belief(line("vhs", "T-120", speed=Speed.SP, fill=1.0), NTSC)

    assert isinstance(belief.full, float)
    assert belief.range.low == belief.full
    # up to five minutes over: Wickstrom, Chicago Tribune, 2 August 1985
    assert belief.range.high <= belief.longest == pytest.approx(125, abs=0.05)
    assert belief.metres == 246
    assert belief.speed_mm_s == 33.35
    assert any("SMPTE 32M" in source for source in belief.sources)
    assert any("+3/−0 m" in source for source in belief.sources)


@pytest.mark.parametrize(("recorded_as", "measured"), [("hi8", 123.2), ("digital8", 61.6)])
def test_a_real_length_lies_within_the_grades_of_a_marking(recorded_as: str, measured: float) -> None:
    """A P6-120 of 106 m (from memory) plays 2.6 % over its marking; Digital8 on it 61.6 minutes."""
    known = line("hi8", "P6-120", recorded_as=FormatName(recorded_as), speed=Speed.SP, fill=1.0)
    belief = tape_minutes.belief(known, NTSC)

    assert isinstance(belief.full, float)
    assert belief.full <= belief.range.low < measured < belief.range.high <= belief.longest


def test_a_told_share_is_an_estimate_and_a_full_tape_is_full() -> None:
    """Told a half, all from 22 to 78 % explains it alike; of those the starting belief has

    0.034 up to 28 %, 0.10 to 42 %, 0.13 to 58 %, 0.13 to 72 % and 0.06 above: the middle is 53.4 % (by hand).
    """
    half = tape_minutes.belief(line("vhs", "T-120", speed=Speed.SP, fill=0.5), NTSC)

    assert 0.22 * 122.9 < half.range.low < 61.47 < half.range.high < 0.79 * 122.9
    assert half.range.likely == pytest.approx(0.534 * 122.9, rel=0.015)
    full = tape_minutes.belief(line("vhs", "T-120", speed=Speed.SP, fill=1.0), NTSC)
    assert full.range.low == full.full


@pytest.mark.parametrize(("told", "least", "most"), [(0.70, 0.42, 0.98), (0.22, 0.0, 0.43)])
def test_an_answer_of_the_counter_stands_for_all_that_it_says(told: float, least: float, most: float) -> None:
    belief = tape_minutes.belief(line("vhs", "T-120", speed=Speed.SP, fill=told), NTSC)

    full = 122.94
    assert belief.points[0][0] == pytest.approx(least * full, abs=0.03 * full)
    assert belief.points[-1][0] == pytest.approx(most * full, abs=0.03 * full)


def test_a_share_that_was_read_is_narrower_than_one_that_was_told_and_at_least_leaves_the_rest_open() -> None:
    read, told, unknown, at_least = (
        tape_minutes.belief(line("vhs", "T-120", speed=Speed.SP, **known), NTSC).range
        for known in (
            {"fill": 0.5, "fill_known": FillKnown.READ},
            {"fill": 0.5},
            {},
            {"fill": 0.5, "fill_known": FillKnown.AT_LEAST},
        )
    )
    widths = [span.high - span.low for span in (read, told, unknown)]

    assert widths == sorted(widths)
    assert widths[0] < 0.25 * widths[1]
    assert read.likely == pytest.approx(0.5 * 122.9, rel=0.03)
    assert 0.5 * 122.9 <= at_least.low < told.high < at_least.high == pytest.approx(unknown.high, rel=0.02)


def test_a_told_share_is_believed_the_way_the_shop_knows_its_tapes() -> None:
    emptier, fuller = (
        ShopHabits({("fill", "vhs"): {stretch: 60.0}})
        for stretch in ("3", "6")  # 42–58 %, 86–99 %
    )
    told = Facts(FormatName("vhs"), "T-120", speed=Speed.SP, tv=NTSC, fill=0.7)
    less, more = (tape_minutes.belief_of(told, shop).range for shop in (emptier, fuller))

    assert less.likely < 0.58 * 123.5
    assert more.likely > 0.86 * 122


def test_a_camcorder_tape_is_hardly_ever_slow_and_a_broadcast_more_often() -> None:
    tape = line("vhs", "T-120", fill=1.0)
    camera, both, broadcast = (
        tape_minutes.belief(replace(tape, origin=origin), NTSC)
        for origin in (Origin.CAMERA, None, Origin.BROADCAST)
    )

    def slow(belief: Belief) -> float:
        return sum(probability for minutes, probability in belief.points if minutes > 200)

    assert slow(camera) == pytest.approx(0.04, abs=0.001)  # shares of the starting beliefs
    assert slow(both) == pytest.approx(0.50, abs=0.001)
    assert 0.35 * slow(camera) + 0.65 * slow(broadcast) == pytest.approx(slow(both))


def test_an_unknown_speed_is_a_range_from_the_fastest_to_the_slowest() -> None:
    full = tape_minutes.belief(line("vhs", "T-120"), NTSC).full

    assert isinstance(full, Range)
    assert full.low == pytest.approx(122.9, abs=0.1)
    assert full.high == pytest.approx(368.7, abs=0.1)


def test_assumptions_of_the_shop_are_named_among_the_sources() -> None:
    sources = tape_minutes.belief(line("vhs"), None).sources

    assert "invented" in sources[-1]


def test_the_line_goes_before_the_box_in_its_tv_system() -> None:
    assert tape_minutes.belief(line("vhs", "T-120", speed=Speed.SP, tv=PAL), NTSC).speed_mm_s == 23.39


def test_the_tv_system_does_not_matter_on_dv() -> None:
    beliefs = {tape_minutes.belief(line("minidv", "DVM60"), tv).range for tv in (None, NTSC, PAL)}

    assert len(beliefs) == 1


def test_a_speed_that_only_one_tv_system_has_settles_the_tv_system() -> None:
    assert tape_minutes.belief(line("vhs-c", "EC-45", speed=Speed.LP), None).speed_mm_s == 11.7
    assert tape_minutes.belief(line("betamax", "L-750", speed=Speed.B3), None).speed_mm_s == 13.3


def test_a_hi8_label_is_a_claim_so_digital8_stays_possible() -> None:
    marked = line("hi8", "P6-120", speed=Speed.SP, fill=1.0)

    assert tape_minutes.belief(marked, NTSC).full == 120
    assert tape_minutes.belief(marked, NTSC).range.low == pytest.approx(60, rel=0.03)
    known = replace(marked, recorded_as=FormatName("hi8"))
    assert tape_minutes.belief(known, NTSC).range.low >= 120


def test_an_unnamed_8mm_shell_is_a_mixture_of_three() -> None:
    full = tape_minutes.belief(line("8mm-unknown", "P6-120", speed=Speed.SP), NTSC).full

    assert isinstance(full, Range)
    assert (full.low, full.high) == (pytest.approx(60, abs=0.1), 120)


@pytest.mark.parametrize(
    ("wrong", "place", "accepted"),
    [
        (line("vhs", "T-999"), "marking", "T-120"),
        (line("vhs", speed=Speed.B2), "speed", "sp, lp, ep"),
        (line("dvcam", speed=Speed.LP), "speed", "sp"),
        (line("vhs", recorded_as=FormatName("hi8")), "recorded_as", "vhs, s-vhs"),
        (line("vhs", fill=0.0), "fill", "above 0"),
        (line("vhs", "T-120", fill=3.0), "fill", "up to the longest tape sold in a VHS shell"),
        (line("minidv", "DVM60", fill=float("inf")), "fill", "up to the longest tape"),
        (line("vhs", fill=float("nan")), "fill", "above 0"),
        (line("vhs", fill=0.0, fill_known=FillKnown.AT_LEAST), "fill", "above 0"),
        (line("vhs", fill=0.5, fill_off=-0.1), "fill_off", "either way"),
        (line("wire"), "format", "vhs"),
    ],
)
def test_what_cannot_be_is_refused_by_place(wrong: TapeLine, place: str, accepted: str) -> None:
    with pytest.raises(WrongInput, match=accepted) as refusal:
        tape_minutes.belief(wrong, None)
    assert refusal.value.place == place
    with pytest.raises(WrongInput) as placed:
        tape_minutes.check(wrong, None, "tapes[2]")
    assert placed.value.place == f"tapes[2].{place}"


def test_more_than_all_of_the_tape_was_told_of_one_longer_than_its_marking() -> None:
    """T-120: 246 m (SMPTE 32M, 2nd-hand); 1.05 of it run 129.1 minutes at 33.35 mm/s."""
    told = line("vhs", "T-120", speed=Speed.SP, fill=1.05)
    found = tape_minutes.belief(told, NTSC)

    assert found.range.low == pytest.approx(246 * 1.05 / 33.35e-3 / 60, rel=1e-6)
    assert found.longest == pytest.approx(found.range.low)
    doubt = length_doubts.of_fill(told)
    assert doubt is not None
    assert not doubt.asks
    far = length_doubts.of_fill(replace(told, fill=1.3))
    assert far is not None
    assert far.asks
    assert length_doubts.of_fill(replace(told, fill=1.005)) is None, "T-120 may run 3 m over"


def test_a_length_from_minutes_may_be_overrun_and_a_published_one_not() -> None:
    assert tape_minutes.belief(line("video8", "P6-60"), NTSC).overrun == 0.07
    assert tape_minutes.belief(line("vhs", "T-120"), NTSC).overrun == 0


@pytest.mark.parametrize("name", ["hi8", "video8", "8mm-unknown"])
def test_the_digital8_question_leads_to_changed_lines(name: str) -> None:
    (question,) = tape_minutes.questions(line(name, "P5-120", speed=Speed.SP), PAL, position=3)

    assert question.line == 3
    assert "Digital8" in question.text
    yes, *no = question.answers
    assert yes.draft.recorded_as == "digital8"
    assert "84 minutes" in yes.means
    assert no
    assert all(answer.draft.recorded_as != "digital8" and "120 minutes" in answer.means for answer in no)
    assert not tape_minutes.questions(yes.draft, PAL, position=3)


@pytest.mark.parametrize("name", ["vhs", "minidv", "digital8", "audio-cassette"])
def test_nothing_is_asked_where_the_shell_tells(name: str) -> None:
    assert tape_minutes.questions(line(name), None, 1) == ()


def test_a_format_booked_under_any_name_weighs_its_recordings_to_one() -> None:
    for name in catalogue().names:
        assert sum(case.weight for case in tape_minutes.recordings(name, None, None)) == pytest.approx(1)


def test_a_box_of_tapes_alike_is_believed_once() -> None:
    """Forty tapes are asked about at every key; only their labels tell them apart."""
    tape_minutes.belief_of.cache_clear()
    for n in range(40):
        tape_minutes.belief(line("vhs", "T-120", label=f"{n}"), None)
    assert tape_minutes.belief_of.cache_info().misses == 1


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(0.01, 1)), min_size=1), st.floats(0.001, 1))
def test_a_quantile_leaves_no_more_than_its_share_below(cases: list[tuple[float, float]], p: float) -> None:
    points = gathered(cases)
    found = quantile(points, p)

    assert sum(probability for value, probability in points if value < found) <= p + 1e-6
    assert sum(probability for value, probability in points if value <= found) >= p - 1e-6


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(0.01, 9)), min_size=1))
def test_weights_of_any_size_are_scaled_to_one(cases: list[tuple[float, float]]) -> None:
    assert sum(probability for _, probability in gathered(cases)) == pytest.approx(1)


def test_a_speed_that_leaves_out_one_recording_leaves_a_whole_distribution() -> None:
    """DVCAM has no LP, so an LP tape is surely DV."""
    points = tape_minutes.belief(line("minidv", "DVM60", speed=Speed.LP), None).points

    assert sum(probability for _, probability in points) == pytest.approx(1)
