"""Every place where a hazard can meet somebody says what to be careful of, and whose rules go first.

Common practice, no source, where none is named; cyanoacrylate: its safety data sheets name fumes that hurt
eyes and airways (from memory); stored charge: capacitors of mains power supplies (IEC 62368-1 asks for a
safeguard or a warning, from memory).
"""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from core.catalogue import bench_cards, condition, findings, hazards, inspection
from core.catalogue.format_file import Hazard
from core.catalogue.format_words import numbered
from core.catalogue.formats import catalogue
from core.cli import plain_answers
from core.model.names import Finding, FormatName
from core.model.stations import Station
from core.papers.booking import quote_paper
from core.papers.handover import home_cautions, receipt
from core.services.own_shop import shop_settings
from tests.support import invented_job, pdf
from tests.support.typed import Typist

VHS = FormatName("vhs")

NAMES = {
    Hazard.MOULD: r"breathing protection, eye protection",
    Hazard.BLADES: r"used blade goes into a sharps container",
    Hazard.GLUE: r"cyanoacrylate\): its fumes",
    Hazard.OXIDE: r"do not breathe it in",
    Hazard.CHARGE: r"unplugged deck can still hold a charge",
    Hazard.MOVING: r"drum and the loading parts",
    Hazard.MAINS: r"unplugged, and by someone qualified",
    Hazard.SOLVENT: r"flammable",
    Hazard.SPRINGS: r"eye protection when a shell is opened",
}
"""By hazard: what its caution has to name."""

MET_BY = {
    Finding.MOULD: (Hazard.MOULD,),
    Finding.STICKY: (Hazard.OXIDE,),
    Finding.SCRATCHED: (Hazard.OXIDE,),
    Finding.CHEWED: (Hazard.OXIDE, Hazard.BLADES),
    Finding.CREASED: (Hazard.OXIDE,),
    Finding.SNAPPED: (Hazard.BLADES,),
    Finding.OFF_HUB: (Hazard.BLADES,),
    Finding.SHELL_BROKEN: (Hazard.GLUE, Hazard.SPRINGS),
    Finding.LID_DAMAGED: (Hazard.GLUE, Hazard.SPRINGS),
    Finding.CRUSHED: (Hazard.GLUE, Hazard.SPRINGS, Hazard.BLADES),
    Finding.REEL_BROKEN: (Hazard.SPRINGS, Hazard.BLADES),
}
"""By finding: what whoever works on such a tape meets."""


def lacking(text: str, wanted: tuple[Hazard, ...]) -> list[Hazard]:
    """Those whose caution is not said."""
    return [each for each in wanted if not re.search(NAMES[each], text)]


@pytest.mark.parametrize("hazard", NAMES)
def test_a_caution_names_its_hazard_and_whose_rules_go_first(hazard: Hazard) -> None:
    said = hazards.caution(hazard)
    assert not lacking(said, (hazard,))
    assert re.search(r"local rules|by local rules", said, re.IGNORECASE)


def test_work_that_is_not_for_everybody_is_left_to_those_who_may() -> None:
    for hazard in (Hazard.MAINS, Hazard.CHARGE, Hazard.MOVING, Hazard.MOULD):
        assert re.search("qualified|licensed", hazards.caution(hazard)), hazard


@pytest.mark.parametrize("name", catalogue().names)
def test_the_card_over_the_bench_has_all_of_them(name: str) -> None:
    """It hangs where shells and decks are opened."""
    assert not lacking(" ".join(bench_cards.card(FormatName(name)).cautions), tuple(NAMES))


@pytest.mark.parametrize("finding", MET_BY)
def test_a_tape_at_the_bench_says_what_its_findings_bring(finding: Finding) -> None:
    """In the verdict, so in quotes as JSON, on the tape's card and in the answers of the command line."""
    verdict = condition.verdict((finding,), VHS)
    assert not lacking(" ".join(verdict.cautions), MET_BY[finding])
    tape = invented_job.job().tapes[0]
    at_bench = replace(tape, findings=(finding,), verdict=verdict, format=VHS, station=Station.AT_THE_BENCH)
    for told in (" ".join(bench_cards.cautions_of(at_bench)), plain_answers.tape(at_bench)):
        assert not lacking(told, MET_BY[finding])
        assert not lacking(told, hazards.IN_A_SHELL)


@pytest.mark.parametrize("name", catalogue().names)
def test_each_step_of_the_look_over_warns_of_what_may_be_found_in_it(name: str) -> None:
    """Seen red for the pack, where mold may be found, and for the tape and the reels, which may shed."""
    for step in inspection.steps(FormatName(name)):
        met = {
            each
            for found in step.looks_for
            if found in (Finding.MOULD, Finding.STICKY)
            for each in MET_BY[found]
        }
        assert not lacking(" ".join(step.cautions), tuple(met)), step.key


def test_nobody_is_told_to_smell_at_anything() -> None:
    """Spores and vapors are breathed in. Every sentence of the program that speaks of smelling forbids it, or
    tells what somebody notices by itself. Seen red: *Smell the sleeve, not the tape*."""
    folder = Path(__file__).parents[3] / "resources" / "wording" / "en"
    lines = [line for file in folder.rglob("*.ftl") for line in file.read_text().splitlines()]
    told = [line for line in lines if re.search(r"\b(smell|sniff|nose)\b", line, re.IGNORECASE)]
    forbidden = re.compile(r"(do|Do) not|never|neither|sour smell|vinegar smell", re.IGNORECASE)
    assert len(told) > 5
    assert [line for line in told if not forbidden.search(line)] == []


# --- typed -------------------------------------------------------------------------------


def test_a_deck_that_is_taken_out_or_put_back_is_spoken_of_with_its_dangers(typed: Typist) -> None:
    """Seen red: it told the decks and no more."""
    deck = shop_settings.new_shop().working_decks[0].name
    out = typed("deck", deck, "out", "--because", "belt", as_json=False).out
    back = typed("deck", deck, "back").document["cautions"]
    for said in (out, " ".join(back)):
        assert not lacking(said, hazards.IN_A_DECK)


@pytest.mark.parametrize("finding", [Finding.MOULD, Finding.SNAPPED, Finding.SHELL_BROKEN, Finding.STICKY])
def test_a_typed_quote_is_careful(finding: Finding) -> None:
    quoted = invented_job.quote()
    first = replace(quoted.tapes[0], verdict=condition.verdict((finding,), VHS))
    assert not lacking(plain_answers.quote(replace(quoted, tapes=(first,))), MET_BY[finding])


# --- on paper ----------------------------------------------------------------------------


def test_a_quote_says_what_a_moldy_tape_may_do_at_home() -> None:
    quoted = invented_job.quote()
    first = replace(quoted.tapes[0], verdict=condition.verdict((Finding.MOULD,), VHS))
    said = pdf.words(quote_paper.render(replace(quoted, tapes=(first,)), invented_job.FRONT))
    for sentence in numbered("findings", "told-mould"):
        assert sentence in said
    assert "do not smell at it" in said


@pytest.mark.parametrize("finding", [Finding.MOULD, Finding.STICKY, Finding.NITRATE, Finding.VINEGAR])
def test_a_receipt_says_what_goes_home_with_the_tape(finding: Finding) -> None:
    pickup = invented_job.pickup()
    first, *rest = pickup.handed_back
    again = replace(pickup, handed_back=(replace(first, findings=(finding,)), *rest))
    said = pdf.words(receipt.render(again, invented_job.FRONT))
    assert "Careful at home" in said
    assert re.search(r"local \w* ?rules", said, re.IGNORECASE)
    assert "Careful at home" not in pdf.words(receipt.render(pickup, invented_job.FRONT))


def test_what_is_kept_apart_is_among_what_goes_home_with_a_word() -> None:
    """Whatever hurts other tapes hurts somebody who takes it home."""
    assert {each for each in Finding if findings.of(each).kept_apart} <= set(home_cautions.AT_HOME)
