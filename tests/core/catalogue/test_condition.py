"""What findings mean, finding by finding: common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.catalogue import condition
from core.catalogue.formats import catalogue
from core.model.names import Finding, FormatName, Outcome
from core.model.repair_records import Verdict

VHS = FormatName("vhs")
formats = st.sampled_from(catalogue().names)
findings = st.sets(st.sampled_from(Finding))


def verdict(*found: Finding, name: FormatName = VHS) -> Verdict:
    return condition.verdict(found, name)


def said(found: Verdict) -> str:
    return " ".join(found.told)


def codes(found: Verdict) -> tuple[str, ...]:
    return tuple(repair.code for repair in found.repairs)


# finding: outcome, repairs, not for reuse
TABLE = {
    Finding.SNAPPED: (Outcome.REPAIR, ("splice",), True),
    Finding.OFF_HUB: (Outcome.REPAIR, ("re-anchor",), False),
    Finding.CHEWED: (Outcome.REPAIR, ("straighten",), False),
    Finding.STRETCHED: (Outcome.PARTLY, ("straighten",), False),
    Finding.CREASED: (Outcome.PARTLY, (), False),
    Finding.SCRATCHED: (Outcome.PARTLY, (), False),
    Finding.EDGE_DAMAGE: (Outcome.PARTLY, (), False),
    Finding.MOULD: (Outcome.CANNOT, (), False),
    Finding.STICKY: (Outcome.CANNOT, (), False),
    Finding.SHELL_BROKEN: (Outcome.REPAIR, ("shell-swap",), False),
    Finding.REEL_BROKEN: (Outcome.REPAIR, ("reel-swap",), False),
    Finding.LID_DAMAGED: (Outcome.REPAIR, ("lid-swap",), False),
    Finding.SOUND_MISSING: (Outcome.PARTLY, ("inspect-sound",), False),
    Finding.CRUSHED: (Outcome.PARTLY, (), False),
    Finding.COMMERCIAL_RECORDING: (Outcome.PLAYS, (), False),
    Finding.TORN_PERFORATION: (Outcome.REPAIR, ("splice",), False),
    Finding.SHRUNKEN: (Outcome.CANNOT, (), False),
    Finding.VINEGAR: (Outcome.PARTLY, (), False),
    Finding.NITRATE: (Outcome.CANNOT, (), False),
    Finding.FADED: (Outcome.PARTLY, (), False),
    Finding.DISC_SCRATCHED: (Outcome.PARTLY, (), False),
}


@pytest.mark.parametrize("finding", Finding)
def test_each_finding_leads_to_its_repair_and_outcome(finding: Finding) -> None:
    found = verdict(finding)

    assert (found.outcome, codes(found), found.not_for_reuse) == TABLE[finding]
    assert found.told
    assert found.cautions


def test_a_sound_tape_plays_and_nothing_is_said() -> None:
    assert verdict() == Verdict(Outcome.PLAYS, (), (), (), not_for_reuse=False)


@given(findings, st.sampled_from(Finding), formats)
def test_another_finding_never_makes_a_tape_better(
    found: set[Finding], more: Finding, name: FormatName
) -> None:
    worst_last = list(Outcome)
    before, after = condition.verdict(found, name), condition.verdict(found | {more}, name)

    assert worst_last.index(before.outcome) <= worst_last.index(after.outcome)


@given(findings, formats)
def test_a_tape_that_cannot_be_played_is_not_repaired(found: set[Finding], name: FormatName) -> None:
    judged = condition.verdict(found, name)

    assert set(codes(judged)) <= set(condition.REPAIRS)
    assert len(set(codes(judged))) == len(judged.repairs)
    if judged.outcome is Outcome.CANNOT:
        assert not judged.repairs
        assert not judged.not_for_reuse


@given(st.permutations(list(Finding)[:6]))
def test_the_order_of_findings_does_not_matter(found: list[Finding]) -> None:
    assert condition.verdict(found, VHS) == condition.verdict(list(Finding)[:6], VHS)


def test_a_snapped_tape_is_spliced_before_it_plays_and_never_used_again() -> None:
    found = verdict(Finding.SNAPPED)

    assert "never be played or recorded on again" in said(found)
    assert "damage the heads" in said(found)
    assert any("on the back" in caution for caution in found.cautions)
    assert condition.must_be_spliced([Finding.CREASED, Finding.SNAPPED])
    assert not condition.must_be_spliced([Finding.OFF_HUB, Finding.CHEWED])


def test_nobody_can_restore_a_scratch_and_the_customer_hears_it_first() -> None:
    assert "Nobody can restore it" in said(verdict(Finding.SCRATCHED))


def test_mould_asks_for_protection_and_stays_apart() -> None:
    found = verdict(Finding.MOULD)

    cautions = " ".join(found.cautions)
    assert "breathing protection" in cautions
    assert "asthma" in cautions
    assert "Local rules" in cautions
    assert "apart" in said(found)


def test_a_commercial_recording_is_left_to_who_holds_the_rights_and_to_local_law() -> None:
    found = verdict(Finding.COMMERCIAL_RECORDING)

    assert "unless you hold the rights" in said(found)
    assert "Local copyright law goes first" in said(found)


def test_a_donor_shell_brings_its_own_lid() -> None:
    assert codes(verdict(Finding.SHELL_BROKEN, Finding.LID_DAMAGED)) == ("shell-swap",)


def test_blades_are_warned_of_once_however_many_findings_need_one() -> None:
    cautions = verdict(Finding.SNAPPED, Finding.CHEWED, Finding.OFF_HUB).cautions

    assert sum(caution.startswith("Blades") for caution in cautions) == 1


def test_end_foil_is_a_caution_of_betamax_splices_only() -> None:
    betamax = verdict(Finding.SNAPPED, name=FormatName("betamax"))

    assert any("foil" in caution for caution in betamax.cautions)
    assert not any("foil" in caution for caution in verdict(Finding.SNAPPED).cautions)


@pytest.mark.parametrize("code", condition.REPAIRS)
def test_a_small_shell_never_takes_less_bench_time(code: str) -> None:
    full, small = condition.repair(code, VHS).minutes, condition.repair(code, FormatName("hi8")).minutes

    assert 0 < full.low <= full.likely <= full.high
    assert full.low <= small.low
    assert full.likely <= small.likely
    assert full.high <= small.high


def test_screens_can_offer_every_finding_with_how_it_is_seen() -> None:
    assert [finding for finding, _, _ in condition.choices()] == list(Finding)
    assert all(words and seen for _, words, seen in condition.choices())
