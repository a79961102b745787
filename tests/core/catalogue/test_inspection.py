"""The guided look-over: a safe order, every finding reached, and what a finding changes."""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import get_args

import pytest

from core.catalogue import condition, findings, inspection
from core.catalogue.format_file import Mark
from core.catalogue.formats import catalogue
from core.catalogue.inspection import Change
from core.model.errors import WrongInput
from core.model.names import Container, Finding, FormatName, Outcome

VHS = FormatName("vhs")
ALL = pytest.mark.parametrize("name", catalogue().names)
TAPES = pytest.mark.parametrize(
    "name", [form.name for form in catalogue().formats if form.counted_in is Container.TAPE]
)
OTHERS = pytest.mark.parametrize(
    "name", [form.name for form in catalogue().formats if form.counted_in is not Container.TAPE]
)


@TAPES
def test_nothing_is_opened_before_mould_was_looked_for(name: FormatName) -> None:
    keys = [step.key for step in inspection.steps(name)]

    assert keys.index("cold") < keys.index("mould") < keys.index("lid") < keys.index("tape")
    assert keys.index("protect") < keys.index("reels")


@ALL
def test_every_finding_that_can_be_seen_without_playing_is_looked_for(name: FormatName) -> None:
    looked_for = {finding for step in inspection.steps(name) for finding in step.looks_for}

    thing = catalogue().format(name).counted_in
    possible = {finding for finding in Finding if thing in findings.of(finding).things}
    assert possible - looked_for <= {Finding.SOUND_MISSING}
    assert looked_for <= possible


def test_film_is_judged_before_it_is_unwound() -> None:
    first, *_ = [step for step in inspection.steps(FormatName("film-35mm")) if step.looks_for]

    assert first.looks_for[0] in (Finding.NITRATE, Finding.MOULD)
    assert "Stop here" in first.stop
    assert "fire rules" in first.stop


@OTHERS
def test_nobody_is_told_to_smell_at_film_or_to_open_what_is_moldy(name: FormatName) -> None:
    told = " ".join(how for step in inspection.steps(name) for how in (*step.how, step.ask)).casefold()

    assert "smell the" not in told
    assert "sniff" not in told


@ALL
def test_every_step_says_what_to_do_and_how_well_that_is_known(name: FormatName) -> None:
    for step in inspection.steps(name):
        assert step.title
        assert step.how
        assert step.side in ("above", "below")
        assert step.source.mark in get_args(Mark)
        assert step.source.source


@TAPES
def test_the_counter_asks_few_questions_and_mould_is_among_them(name: FormatName) -> None:
    short = inspection.short_steps(name)

    assert 3 <= len(short) <= 5
    assert any(Finding.MOULD in step.looks_for for step in short)
    assert all(step.ask.endswith("?") for step in short)


def test_an_unknown_format_is_named() -> None:
    with pytest.raises(WrongInput, match="accepted are"):
        inspection.steps(FormatName("wax-cylinder"))


def test_the_mould_step_cautions_and_stops() -> None:
    (mould,) = [step for step in inspection.steps(VHS) if step.key == "mould"]

    assert any("breathing protection" in caution for caution in mould.cautions)
    assert "keep it apart" in mould.stop
    assert mould.source.mark == "handbook"


def test_a_step_where_a_spring_may_jump_says_so() -> None:
    (lid,) = [step for step in inspection.steps(VHS) if step.key == "lid"]

    assert any("eye protection" in caution for caution in lid.cautions)


@pytest.mark.parametrize(
    ("name", "step", "words"),
    [
        ("vhs", "reels", "pin in the middle of the underside"),
        ("s-vhs", "lid", "button on the side"),
        ("hi8", "lid", "edge where a MiniDV cassette has none"),
        ("digital8", "reels", "turn the left reel, the only one to wind by hand, counterclockwise"),
        ("minidv", "lid", "small catch at the edge"),
        ("s-vhs-c", "reels", "gear wheel"),
        ("audio-cassette", "lid", "There is no lid"),
        ("u-matic", "reels", "opposite directions"),
    ],
)
def test_each_shell_is_opened_its_own_way(name: str, step: str, words: str) -> None:
    (found,) = [each for each in inspection.steps(FormatName(name)) if each.key == step]

    assert any(words in sentence for sentence in found.how)


@TAPES
@pytest.mark.parametrize("key", ["lid", "reels"])
def test_every_shell_is_opened_and_freed_in_words_of_its_own(name: FormatName, key: str) -> None:
    """Written in its own file or borrowed from a format of the same shell."""
    (step,) = [each for each in inspection.steps(name) if each.key == key]
    others = {
        " ".join(each.how)
        for other in catalogue().names
        if catalogue().format(other).shell.value != catalogue().format(name).shell.value
        for each in inspection.steps(other)
        if each.key == key
    }

    assert " ".join(step.how) not in others


@ALL
def test_the_lamp_of_a_step_is_drawn_where_its_words_put_it(name: FormatName) -> None:
    where = {
        "A torch held flat, from the side.": "side",
        "The light of the room.": "room",
        "Bench lamp from above.": "above",
        "A raking light: the lamp low, almost along the tape.": "flat",
        "Light from the other side, through the window.": "through",
        "": "",
    }
    assert [step.lamp for step in inspection.steps(name)] == [
        where[step.light] for step in inspection.steps(name)
    ]


def test_what_has_to_be_opened_comes_with_every_caution_of_opening() -> None:
    said = " ".join(inspection.cautions([Finding.SNAPPED], VHS))

    for words in ("Blades", "springs", "Isopropyl", "mains-powered", "by someone qualified", "local rules"):
        assert words in said
    assert "Very small screws" in " ".join(inspection.cautions([Finding.SNAPPED], FormatName("hi8")))
    assert "End foil" in " ".join(inspection.cautions([Finding.SNAPPED], FormatName("betamax")))


def test_mould_is_cautioned_against_and_nothing_is_opened() -> None:
    said = " ".join(inspection.cautions([Finding.MOULD], VHS))

    assert "asthma" in said
    assert "Local rules on health" in said
    assert "Blades" not in said


def test_nothing_found_is_nothing_to_be_careful_of() -> None:
    assert inspection.cautions([], VHS) == ()


@pytest.mark.parametrize("name", ["betamax", "betacam", "micromv", "vhs-c", "u-matic", "dvcam"])
def test_where_nobody_knows_the_latch_the_step_says_so(name: str) -> None:
    (lid,) = [each for each in inspection.steps(FormatName(name)) if each.key == "lid"]

    assert any("no source we have says" in sentence.lower() for sentence in lid.how)
    assert not any("button on the side" in sentence for sentence in lid.how)


def test_save_is_the_opposite_way_on_8mm_and_minidv() -> None:
    eight, dv = (
        " ".join(step.how)
        for name in ("video8", "minidv")
        for step in inspection.steps(FormatName(name))
        if step.key == "protect"
    )

    assert "hole is closed" in eight
    assert "hole is open" in dv


# --- ranking ------------------------------------------------------------------------------


def order(*findings: Finding) -> list[Finding]:
    return [each.finding for each in inspection.ranked(findings, VHS)]


def test_safety_goes_before_everything() -> None:
    assert order(Finding.CRUSHED, Finding.SNAPPED, Finding.MOULD)[0] is Finding.MOULD


def test_safety_goes_before_the_worst_outcome() -> None:
    harms = replace(changed(Finding.EDGE_DAMAGE), harms=True, outcome=Outcome.PLAYS)
    lost = changed(Finding.CRUSHED)

    assert inspection.in_order((lost, harms)) == (harms, lost)


def test_a_worse_outcome_goes_before_a_dearer_repair() -> None:
    assert order(Finding.REEL_BROKEN, Finding.SCRATCHED) == [Finding.SCRATCHED, Finding.REEL_BROKEN]


def test_a_tape_never_to_be_used_again_goes_before_one_that_can_be() -> None:
    assert order(Finding.REEL_BROKEN, Finding.SNAPPED) == [Finding.SNAPPED, Finding.REEL_BROKEN]


def test_among_equals_the_longer_repair_goes_first() -> None:
    assert order(Finding.LID_DAMAGED, Finding.SHELL_BROKEN) == [Finding.SHELL_BROKEN, Finding.LID_DAMAGED]


@ALL
def test_the_ranking_is_one_order_whatever_was_seen_first(name: FormatName) -> None:
    whole = [each.finding for each in inspection.ranked(Finding, name)]

    assert set(whole) == set(Finding)
    for pair in itertools.combinations(Finding, 2):
        found = [each.finding for each in inspection.ranked(pair, name)]
        assert found == sorted(pair, key=whole.index)


@ALL
def test_what_is_looked_for_stands_in_the_order_of_what_it_changes(name: FormatName) -> None:
    whole = [each.finding for each in inspection.ranked(Finding, name)]

    for step in inspection.steps(name):
        assert list(step.looks_for) == sorted(step.looks_for, key=whole.index)


@pytest.mark.parametrize("finding", Finding)
def test_each_finding_means_one_sentence_to_the_customer(finding: Finding) -> None:
    means = inspection.change(finding, VHS).means

    assert means.endswith(".")
    assert means.count(".") == 1
    assert len(means) < 120


def test_a_change_agrees_with_the_verdict() -> None:
    for finding in Finding:
        found, verdict = inspection.change(finding, VHS), condition.verdict((finding,), VHS)

        assert found.outcome is verdict.outcome
        assert found.not_for_reuse is verdict.not_for_reuse
        assert found.bench_minutes.high == sum(repair.minutes.high for repair in verdict.repairs)


def test_only_what_spreads_or_sheds_harms() -> None:
    harming = {finding for finding in Finding if changed(finding).harms}

    assert harming == {Finding.MOULD, Finding.STICKY, Finding.NITRATE}
    assert all(changed(finding).outcome is Outcome.CANNOT for finding in harming)


def changed(finding: Finding) -> Change:
    return inspection.change(finding, VHS)


# --- from the cold ------------------------------------------------------------------------


def test_a_tape_from_the_frost_waits_and_the_sentence_says_how_long() -> None:
    """10 °C an hour: SMPTE RP 103-1995 table 1."""
    assert "at least 2 hours" in inspection.waiting(0)
    assert "at least 2.5 hours" in inspection.waiting(-5)
    assert "a full day or more" in inspection.waiting(-5)


def test_half_an_hour_begun_is_waited_out() -> None:
    assert "at least 1 hour " in inspection.waiting(14)


def test_a_tape_from_a_hot_car_cools_down() -> None:
    sentence = inspection.waiting(45)

    assert "cool down" in sentence
    assert "2.5 hours" in sentence
    assert "damp" not in sentence


def test_a_tape_near_the_room_need_not_wait() -> None:
    """From 5 °C of difference on: EMTEC/AGFA archiving advice."""
    assert "no need to wait" in inspection.waiting(15)
    assert "no need" not in inspection.waiting(14.9)
