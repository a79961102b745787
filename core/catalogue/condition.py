"""What the findings of a tape mean: repairs, cautions, what the customer is told, and the outcome.

Wording and bench times are in ``resources/catalogue/repairs.toml``; the times are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from core.catalogue import findings, hazards
from core.catalogue.cassettes import Format
from core.catalogue.findings import FindingEntry
from core.catalogue.format_words import numbered
from core.catalogue.formats import catalogue
from core.model.names import Container, Finding, FormatName, Outcome
from core.model.ranges import Range
from core.model.repair_records import Elsewhere, Repair, Verdict
from core.model.spoken_names import spoken
from core.wording.messages import say, worded_cache

REPAIRS = tuple(findings.page().repairs)
"""Codes of the actions at the bench; the price book has one price for each."""

_WORST_LAST = tuple(Outcome)


def verdict(found: Iterable[Finding], name: FormatName, elsewhere: Elsewhere | None = None) -> Verdict:
    """What these findings mean on a cassette of format ``name``.

    A tape that cannot be played here is not repaired either: it keeps its cautions and no repairs. Nor is one
    that no deck of the shop plays (``elsewhere``): its customer hears why, and who may copy it.
    WrongInput when the format is not known.
    """
    judged = _verdict(frozenset(found), name)
    if elsewhere is None or judged.outcome is Outcome.CANNOT:
        return judged
    told = (*judged.told, elsewhere.why, *_partner_words(elsewhere))
    return Verdict(Outcome.CANNOT, (), judged.cautions, told, False, elsewhere)


def _partner_words(elsewhere: Elsewhere) -> Iterator[str]:
    if elsewhere.partner:
        key = "partner_takes_priced" if elsewhere.price else "partner_takes"
        told = {"partner": elsewhere.partner, "price": elsewhere.price}
        yield say("dates", key, days=elsewhere.days, **told)


def must_be_spliced(found: Iterable[Finding]) -> bool:
    """Whether a splice has to be on record before the tape meets a machine."""
    return any(findings.of(finding).needs_splice for finding in found)


def splice_ends_reuse(name: FormatName) -> bool:
    """Whether a thing that was spliced must never be played again: tape; film is made to be spliced."""
    return catalogue().format(name).counted_in is Container.TAPE


def possible(name: FormatName) -> frozenset[Finding]:
    """What may be found on a thing of this format."""
    thing = catalogue().format(name).counted_in
    return frozenset(finding for finding in Finding if thing in findings.of(finding).things)


def repair(code: str, name: FormatName) -> Repair:
    """One action of `REPAIRS` with its bench minutes on this format."""
    entry = findings.page().repairs[code]
    times = catalogue().format(name).record.bench_times
    return Repair(code, say("repairs", code), Range(*(entry.small if times == "small" else entry.usual)))


def repairs_of(finding: Finding) -> tuple[str, ...]:
    """Codes of the actions that deal with one finding; none where nothing can be done."""
    return findings.of(finding).repairs


def how_seen(finding: Finding) -> str:
    """What to look for: ``a loose end, or both ends showing under the lid``."""
    return say("findings", f"seen-{finding.value}")


@worded_cache(maxsize=8)
def choices() -> tuple[tuple[Finding, str, str], ...]:
    """For screens: every finding, its short words, and how it is seen."""
    return tuple((finding, spoken(finding), how_seen(finding)) for finding in Finding)


@worded_cache(maxsize=2048)
def _verdict(found: frozenset[Finding], name: FormatName) -> Verdict:
    shell = catalogue().format(name)
    seen = [finding for finding in Finding if finding in found]
    entries = [findings.of(finding) for finding in seen]
    outcome = max((entry.outcome for entry in entries), key=_WORST_LAST.index, default=Outcome.PLAYS)
    plays = outcome is not Outcome.CANNOT
    codes = _codes(entries) if plays else ()
    return Verdict(
        outcome=outcome,
        repairs=tuple(repair(code, name) for code in codes),
        cautions=tuple(dict.fromkeys(_cautions(seen, codes, shell))),
        told=tuple(told for finding in seen for told in numbered("findings", f"told-{finding.value}")),
        not_for_reuse=plays and any(entry.not_for_reuse for entry in entries),
    )


def _codes(entries: Sequence[FindingEntry]) -> tuple[str, ...]:
    wanted = {code for entry in entries for code in entry.repairs}
    repairs = findings.page().repairs
    return tuple(code for code in REPAIRS if code in wanted and repairs[code].covered_by not in wanted)


def _cautions(seen: Sequence[Finding], codes: Sequence[str], shell: Format) -> Iterator[str]:
    for finding in seen:
        yield from numbered("findings", f"caution-{finding.value}")
    for finding in seen:
        yield from map(hazards.caution, findings.of(finding).hazards)
    for hazard in shell.record.hazards:
        spliced = "splice" in codes and hazard in hazards.WITH_A_SPLICE
        if spliced or (codes and hazard in hazards.WITH_ANY_REPAIR):
            yield hazards.caution(hazard)
