"""One, two and three findings at once, on every format: one verdict that never contradicts itself.

What each finding means alone is common practice, no source; that mould and sticky tape stop everything is
told by the AV Artifact Atlas (from memory). What decides for all is written down here once more, apart from
the program: a tape that harms is not worked on; then the right to copy it; then a look at what is crushed;
then each finding for itself.

Told before (of 575 sets of one, two or three findings, on VHS; counted by these rules):

- 266 told a repair, or what stays in the copy, of a tape on which nothing was done; 50 of them "We splice it
  so that it can be copied once", with no splice planned, charged or marked.
- 106 told "we look at it first and ask" (``crushed``) of a tape that "cannot be played", or is stopped.
- 27 told "show us and we quote it" (``commercial-recording``) beside what is not played here at all; alone it
  was one that "cannot be played", though it plays.
- 60 told "We fit one from a donor" (``lid-damaged``) with no lid planned or charged.
- 96 had the bench's caution "square the ends" or "copy it as it is" for a tape nobody was to touch.
- ``sticky`` and kept apart was "because of mold" on the receipt.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import combinations

import pytest

from core.catalogue import condition, findings, hazards, inspection
from core.catalogue.format_words import numbered
from core.catalogue.formats import catalogue
from core.model.inventory import TapeLine
from core.model.names import Container, Finding, FormatName, Outcome
from core.model.quote_records import QuotedTape, Storage
from core.model.ranges import ZERO, Range
from core.model.repair_records import Elsewhere, Hold, Verdict
from core.papers.tape_words import expected
from core.papers.voice import voice
from core.pricing import box_price, price_book
from core.wording.messages import knows, say
from tests.support.invented_job import FRONT

# finding: what decides, what is expected, what is done, why. Common practice, no source.
STOP, RIGHTS, LOOK, WORK = range(4)
TABLE: dict[Finding, tuple[int, Outcome, set[str], str]] = {
    Finding.MOULD: (STOP, Outcome.CANNOT, set(), "spores harm people, decks and other tapes"),
    Finding.STICKY: (STOP, Outcome.CANNOT, set(), "playing tears the oxide off; a specialist's work"),
    Finding.COMMERCIAL_RECORDING: (RIGHTS, Outcome.PLAYS, set(), "it plays; copying needs the right to it"),
    Finding.CRUSHED: (LOOK, Outcome.PARTLY, set(), "nobody can say before it was opened"),
    Finding.SNAPPED: (WORK, Outcome.REPAIR, {"splice"}, "two ends: joined to be copied once"),
    Finding.OFF_HUB: (WORK, Outcome.REPAIR, {"re-anchor"}, "clipped back it is as before"),
    Finding.CHEWED: (WORK, Outcome.REPAIR, {"straighten"}, "straightened, or a bad piece cut out"),
    Finding.STRETCHED: (WORK, Outcome.PARTLY, {"straighten"}, "contact is lost in bands"),
    Finding.CREASED: (WORK, Outcome.PARTLY, set(), "a crease cannot be ironed out"),
    Finding.SCRATCHED: (WORK, Outcome.PARTLY, set(), "oxide that is gone stays gone"),
    Finding.EDGE_DAMAGE: (WORK, Outcome.PARTLY, set(), "control track and linear sound lie there"),
    Finding.SHELL_BROKEN: (WORK, Outcome.REPAIR, {"shell-swap"}, "the tape moves into another shell"),
    Finding.REEL_BROKEN: (WORK, Outcome.REPAIR, {"reel-swap"}, "wound over, or a donor's reel"),
    Finding.LID_DAMAGED: (WORK, Outcome.REPAIR, {"lid-swap"}, "a donor's lid"),
    Finding.SOUND_MISSING: (WORK, Outcome.PARTLY, {"inspect-sound"}, "looked for before it is played"),
    Finding.NITRATE: (STOP, Outcome.CANNOT, set(), "burns and cannot be put out; local fire rules"),
    Finding.SHRUNKEN: (STOP, Outcome.CANNOT, set(), "teeth would tear it; a specialist's work"),
    Finding.TORN_PERFORATION: (
        WORK,
        Outcome.REPAIR,
        {"splice"},
        "mended before it runs; film may be spliced",
    ),
    Finding.VINEGAR: (WORK, Outcome.PARTLY, set(), "the base decays; copied soon, kept apart"),
    Finding.FADED: (WORK, Outcome.PARTLY, set(), "a copy shows what is left"),
    Finding.DISC_SCRATCHED: (WORK, Outcome.PARTLY, set(), "what the drive can read"),
}
ALWAYS_CAREFUL = {Finding.VINEGAR, Finding.DISC_SCRATCHED}
"""Vapor and splinters hurt whatever is done with the film or the disc."""
BOOK = price_book.in_force(date(2026, 3, 2))
NO_COPIES = Storage(ZERO, ZERO, ())
SPEAKER = voice(FRONT)


def stage(found: frozenset[Finding]) -> int:
    return min(TABLE[each][0] for each in found)


def done(found: frozenset[Finding]) -> set[str]:
    """Repairs that are planned: nothing unless nothing stops; a donor shell brings its own lid."""
    if stage(found) != WORK:
        return set()
    codes = set().union(*(TABLE[each][2] for each in found))
    return codes - {"lid-swap"} if "shell-swap" in codes else codes


def sets(name: FormatName) -> Iterator[frozenset[Finding]]:
    """One, two or three of what can be found on a thing of this format."""
    possible = [finding for finding in Finding if finding in condition.possible(name)]
    return (frozenset(some) for n in (1, 2, 3) for some in combinations(possible, n))


def judged(name: FormatName) -> Iterator[tuple[frozenset[Finding], Verdict]]:
    return ((found, condition.verdict(found, name)) for found in sets(name))


every_format = pytest.mark.parametrize("name", catalogue().names)


@every_format
def test_the_verdict_is_that_of_the_table(name: FormatName) -> None:
    worst_last = list(Outcome)
    for found, verdict in judged(name):
        expects = max((TABLE[each][1] for each in found), key=worst_last.index)
        holds = {STOP: None, RIGHTS: Hold.RIGHTS, LOOK: Hold.LOOK, WORK: None}[stage(found)]
        assert (verdict.outcome, verdict.hold) == (expects, holds), found
        assert {each.code for each in verdict.repairs} == done(found), found
        assert verdict.is_worked_on is (stage(found) == WORK), found


@every_format
def test_only_a_tape_that_is_spliced_is_not_for_reuse(name: FormatName) -> None:
    is_tape = catalogue().format(name).counted_in is Container.TAPE
    for found, verdict in judged(name):
        assert verdict.not_for_reuse is (is_tape and "splice" in done(found)), found


def test_a_tape_that_is_expected_to_play_after_a_repair_has_one() -> None:
    for found, verdict in judged(FormatName("vhs")):
        if verdict.outcome is Outcome.REPAIR and verdict.hold is None:
            assert verdict.repairs, found


PROMISES = (
    "We splice",
    "We move",
    "We fit",
    "We wind",
    "Clipped back",
    "in the copy",
    "We look at the tape itself",
    "We mend it",
)
"""Beginnings of what the shop would do, as told to the customer."""
STOPPED = ("do not play it here", "we stop here", "we neither run it", "running it would tear it")


@every_format
def test_what_is_told_is_what_is_done(name: FormatName) -> None:
    for found, verdict in judged(name):
        told = " ".join(verdict.told)
        at = stage(found)
        if at != WORK:
            assert not [each for each in PROMISES if each in told], found
        assert ("we look at it first and ask" in told) is (at == LOOK), found
        assert ("unless you hold the rights" in told) is (at == RIGHTS), found
        assert any(each in told for each in STOPPED) is (at == STOP), found
        assert ("We splice" in told) is ("splice" in done(found) and Finding.SNAPPED in found), found
        assert ("We mend it" in told) is ("splice" in done(found) and Finding.SNAPPED not in found), found
        assert ("We fit one from a donor" in told) is ("lid-swap" in done(found)), found


@every_format
def test_every_finding_is_told_once_and_what_decides_first(name: FormatName) -> None:
    for found, verdict in judged(name):
        first = {each for each in found if TABLE[each][0] == stage(found)}
        assert set(condition.leading(found)) == first, found
        assert len(set(verdict.told)) == len(verdict.told), found
        for each in found - first:
            assert say("findings", f"also-{each.value}-1") in verdict.told, found
        for each in first - {Finding.LID_DAMAGED}:
            assert set(numbered("findings", f"told-{each.value}")) <= set(verdict.told), found
        full = sum(
            1 for each in first - {Finding.LID_DAMAGED} for _ in numbered("findings", f"told-{each.value}")
        )
        assert len(verdict.told) == full + len(found - first) + (Finding.LID_DAMAGED in first), found


@every_format
def test_cautions_are_of_what_is_done_and_hazards_of_all(name: FormatName) -> None:
    for found, verdict in judged(name):
        for each in found:
            told = set(numbered("findings", f"caution-{each.value}")) & set(verdict.cautions)
            assert bool(told) is (TABLE[each][0] == stage(found) or each in ALWAYS_CAREFUL), found
            hurts = {hazards.caution(hazard) for hazard in findings.of(each).hazards}
            assert hurts <= set(verdict.cautions), found


@every_format
def test_charges_are_those_of_the_verdict(name: FormatName) -> None:
    for found, verdict in judged(name):
        minutes = Range(50, 60, 70) if verdict.is_worked_on else ZERO
        tape = QuotedTape(1, 1, TapeLine(1, name, findings=tuple(found)), minutes, verdict)
        charges = box_price.price([tape], NO_COPIES, BOOK, rush=False).charges
        repairs = {each.code.removeprefix("repair-") for each in charges if each.code.startswith("repair-")}
        assert repairs == done(found), found
        played = any(each.code.startswith("capture-") and each.amount.likely > 0 for each in charges)
        assert played is (stage(found) == WORK), found
        if stage(found) != WORK:
            assert sum(each.amount.high for each in charges) == 0, found
            assert ("cannot be played" in charges[0].because) is (stage(found) == STOP), found


def test_the_quote_says_the_same_of_it() -> None:
    for found, verdict in judged(FormatName("vhs")):
        said = expected(TapeLine(1, FormatName("vhs"), findings=tuple(found)), verdict, SPEAKER)
        assert ("annot be played" in said) is (stage(found) == STOP), found
        assert ("We look at it first and ask" in said) is (stage(found) == LOOK), found
        assert ("Not copied unless you hold the rights" in said) is (stage(found) == RIGHTS), found


def test_the_look_over_tells_the_customer_the_same() -> None:
    for found in sets(FormatName("vhs")):
        changes = inspection.ranked(found, FormatName("vhs"))
        at = stage(found)
        for change in changes:
            assert change.decides is (TABLE[change.finding][0] == at), found
            assert set(change.repairs) <= {say("repairs", code) for code in TABLE[change.finding][2]}
            assert not (change.repairs and at != WORK), found
            assert not (change.not_for_reuse and "splice" not in done(found)), found
            if at != WORK:
                assert not any(promise in change.means for promise in ("we splice", "we move", "we fit")), (
                    found
                )


def test_a_tape_for_no_deck_here_is_told_the_facts_and_why() -> None:
    away = Elsewhere("None of our decks plays it.", "The Reel House", "ask them", 10)
    for found in sets(FormatName("u-matic")):
        verdict = condition.verdict(found, FormatName("u-matic"), away)
        if stage(found) != WORK:
            assert verdict == condition.verdict(found, FormatName("u-matic"))
            continue
        assert (verdict.outcome, verdict.repairs, verdict.not_for_reuse) == (Outcome.CANNOT, (), False)
        assert not [each for each in PROMISES if each in " ".join(verdict.told)], found


def test_each_finding_has_the_bare_fact_and_its_reason() -> None:
    assert set(TABLE) == set(Finding)
    assert all(why for *_, why in TABLE.values())
    assert all(knows("findings", f"also-{each.value}-1") for each in Finding)
