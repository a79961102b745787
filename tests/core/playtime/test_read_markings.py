"""What is believed of a tape whose marking is read by rule: the same minutes, a little less surely."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from core.catalogue import cassettes
from core.catalogue.formats import catalogue
from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.model.ranges import Range
from core.playtime import box_habits, packs, places, starting_beliefs, tape_minutes
from core.playtime.beliefs import spread
from core.playtime.box_habits import Box
from core.playtime.explanations import Played, counted, counts_of
from core.playtime.habits import STARTING
from core.playtime.possibilities import Facts, facts
from core.wording.messages import say

NTSC, PAL = TvSystem.NTSC, TvSystem.PAL


def full_tape(name: str, marking: str, tv: TvSystem | None = NTSC) -> TapeLine:
    known = catalogue().format(name).speeds_in(tv)[0]
    return TapeLine(1, FormatName(name), marking, speed=known, tv=tv, fill=1.0)


def width(believed: Range) -> float:
    return (believed.high - believed.low) / believed.likely


@pytest.mark.parametrize(
    ("name", "marking"),
    [
        ("vhs", "T-120"),
        ("vhs", "E-180"),
        ("vhs-c", "TC-30"),
        ("hi8", "P6-120"),
        ("hi8", "P5-90"),
        ("minidv", "DVM60"),
        ("betamax", "L-500"),
        ("audio-cassette", "C60"),
        ("audio-cassette", "C90"),
    ],
)
def test_the_same_marking_read_by_rule_is_believed_a_little_less_surely(
    name: str, marking: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = full_tape(name, marking)
    if name == "vhs" and marking.startswith("E"):
        line = replace(line, tv=PAL)
    listed = tape_minutes.points_of(facts(line), STARTING)
    monkeypatch.setattr(cassettes.Format, "_listed", lambda form, text: None)
    read = tape_minutes.points_of(facts(line), STARTING)
    before, after = spread(listed), spread(read)
    assert width(before) < width(after) < width(before) + 0.07
    assert after.likely == pytest.approx(before.likely, rel=0.03)


def test_told_minutes_are_believed_less_surely_than_a_marking_read_by_rule() -> None:
    told, read = (
        width(tape_minutes.belief(full_tape("minidv", marking), None).range)
        for marking in ("85 min", "DVM85")
    )
    assert read < told


def test_the_longest_and_the_shortest_of_a_rule_are_among_what_is_believed() -> None:
    believed = tape_minutes.belief(full_tape("vhs", "T-130"), None)

    assert believed.full == pytest.approx(264.6 * 1000 / 33.35 / 60)
    assert believed.points[0, 0] < believed.full < believed.points[-1, 0] <= believed.longest
    assert believed.overrun == pytest.approx(0.035)


def test_the_sources_name_the_rule() -> None:
    sources = tape_minutes.belief(full_tape("vhs", "T-130"), None).sources
    (rule,) = [one for one in catalogue().format("vhs").rules if one.entry.names == ("T-{n}",)]
    words = rule.read(130).rule
    assert words is not None
    assert say("playtime", "read-by-rule", marking="T-130", source=words.words) in sources


@pytest.mark.parametrize("marking", ["T-130", "75 min", "T-120", None])
def test_tapes_drawn_together_have_the_mean_of_the_belief(marking: str | None) -> None:
    known = Facts(FormatName("vhs"), marking, FormatName("vhs"), Speed.SP, NTSC, fill=1.0)
    drawn = box_habits.minutes_of_tapes([known], [7], Box(3, 1, 4000))
    points = tape_minutes.points_of(known, STARTING)

    assert drawn.mean() == pytest.approx(float(np.dot(points[:, 0], points[:, 1])), rel=0.01)


def test_a_full_tape_of_a_read_marking_teaches_how_long_such_tapes_are() -> None:
    known = Facts(FormatName("vhs"), "T-130", FormatName("vhs"), Speed.SP, NTSC)
    found = counted(counts_of([Played("1", known, 134.2)], STARTING))

    assert sum(found[("length", "rule")].values()) > 0.5
    assert ("length", "published") not in found


def test_both_packs_of_an_unlisted_cassette_are_compared_with_its_rule() -> None:
    known = packs.reels(FormatName("vhs"), "T-130", NTSC)
    whole = known.marking.metres.value
    half = known.radius(whole / 2)

    assert packs.fit(known, half, half).agrees
    assert not packs.fit(known, known.radius(whole / 4), known.radius(whole / 4)).agrees


def test_a_splice_may_lie_as_far_as_a_read_cassette_may_reach() -> None:
    line = TapeLine(1, FormatName("vhs"), "T-130")
    assert places.longest_metres(line) == pytest.approx(264.6 * 1.035)


def test_every_way_to_know_a_length_has_its_words() -> None:
    for name in starting_beliefs.length_names():
        assert say("habits", f"whose-{name}")
        assert say("playtime", f"longer-{name}", most="3%", source="x")
