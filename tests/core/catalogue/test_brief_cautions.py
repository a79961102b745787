"""The cautions on the card of a tape at the bench: those that bear on it where it is, a line each."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.catalogue import bench_cards, brief_cautions, condition, hazards
from core.catalogue.format_file import Hazard
from core.model.names import Finding, FormatName
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from tests.support import invented_job

VHS = FormatName("vhs")
LONGEST = 100
"""Letters of a line on the card of a small screen, about."""


def _tape(station: Station, *findings: Finding, name: FormatName = VHS) -> TapeRecord:
    tape = invented_job.job().tapes[0]
    verdict = condition.verdict(findings, name)
    return replace(tape, findings=findings, verdict=verdict, format=name, station=station)


@pytest.mark.parametrize("hazard", Hazard)
def test_a_short_caution_is_one_line(hazard: Hazard) -> None:
    assert len(hazards.brief(hazard)) <= LONGEST


def test_the_heading_over_them_says_whose_rules_go_first() -> None:
    assert "local rules" in brief_cautions.whose_rules().lower()


def test_a_snapped_tape_at_the_bench_has_those_of_its_splice_and_no_others() -> None:
    tape = _tape(Station.AT_THE_BENCH, Finding.SNAPPED)
    told = brief_cautions.of_tape(tape)
    assert {hazards.brief(Hazard.BLADES), hazards.brief(Hazard.SPRINGS)} <= set(told)
    assert len(told) <= 4
    assert len(bench_cards.cautions_of(tape)) > 7, "the whole of them lies behind the key"
    others = (Hazard.MOULD, Hazard.GLUE, Hazard.MAINS, Hazard.OXIDE)
    assert not set(told) & set(map(hazards.brief, others))


@pytest.mark.parametrize("station", [Station.AT_THE_BENCH, Station.KEPT_APART, Station.LOOKED_OVER])
def test_mold_is_told_wherever_the_tape_is(station: Station) -> None:
    told = brief_cautions.of_tape(_tape(station, Finding.MOULD, Finding.SNAPPED))
    assert hazards.brief(Hazard.MOULD) in told


def test_what_was_mended_is_not_warned_of_while_it_plays() -> None:
    assert brief_cautions.of_tape(_tape(Station.PLAYING, Finding.SNAPPED)) == ()
    assert brief_cautions.of_tape(_tape(Station.PLAYING, Finding.CREASED))


def test_a_sound_tape_needs_none_and_one_that_is_gone_has_none() -> None:
    assert brief_cautions.of_tape(_tape(Station.AT_THE_BENCH)) == ()
    assert brief_cautions.of_tape(_tape(Station.HANDED_BACK, Finding.MOULD)) == ()


@pytest.mark.parametrize("finding", Finding)
def test_each_hazard_of_a_finding_that_is_met_at_the_bench_is_told(finding: Finding) -> None:
    tape = _tape(Station.AT_THE_BENCH, finding)
    told = set(brief_cautions.of_tape(tape))
    full = set(bench_cards.cautions_of(tape))
    met = {each for each in Hazard if hazards.caution(each) in tape.verdict.cautions}
    assert set(map(hazards.brief, met)) <= told
    assert {hazards.caution(each) for each in met} <= full
