"""The cautions that bear on one tape at one step of its work, a line each; the bench card has all in full."""

from __future__ import annotations

from collections.abc import Iterator

from core.catalogue import condition, findings, hazards
from core.catalogue.bench_cards import OPENED
from core.catalogue.format_file import Hazard
from core.catalogue.formats import catalogue
from core.model.names import AnyFinding
from core.model.tape_records import TapeRecord
from core.wording.messages import say

_WHEREVER_IT_IS = (Hazard.MOULD, Hazard.OXIDE)
"""What a tape carries about with it."""
_WITH_A_REPAIR = (Hazard.SPRINGS,)
"""A shell is opened for it."""
_WITH_ENDS_JOINED = (Hazard.BLADES, Hazard.FOIL)


def of_tape(tape: TapeRecord) -> tuple[str, ...]:
    """What to be careful of with this tape where it is now; every line stands in full on its card."""
    if not tape.station.is_in_the_shop:
        return ()
    own = dict.fromkeys(hazards.brief(each) for each in _hazards(tape))
    return tuple({**dict.fromkeys(_of_findings(tape)), **own})


def _of_findings(tape: TapeRecord) -> Iterator[str]:
    """Where nothing is to be mended any more only what protects somebody or something is repeated."""
    is_mended_here = tape.station in OPENED and not tape.is_settled
    leading = condition.leading(tape.findings)
    for finding in findings.in_order(tape.findings):
        if findings.of(finding).always_careful or (
            finding in leading and (is_mended_here or not condition.repairs_of(finding))
        ):
            yield from findings.sentences("caution", finding)


def _hazards(tape: TapeRecord) -> Iterator[Hazard]:
    opened, shell = tape.station in OPENED, catalogue().format(tape.format).record.hazards
    codes = () if tape.is_settled else tuple(each.code for each in tape.verdict.repairs)
    for finding in findings.in_order(tape.findings):
        yield from (each for each in _of(finding) if opened or each in _WHEREVER_IT_IS)
    if opened and codes:
        joins = any(code in condition.JOINING for code in codes)
        yield from _WITH_A_REPAIR
        yield from (each for each in shell if each in hazards.WITH_ANY_REPAIR)
        yield from (each for each in _WITH_ENDS_JOINED if joins and (each is Hazard.BLADES or each in shell))


def _of(finding: AnyFinding) -> tuple[Hazard, ...]:
    return findings.of(finding).hazards


def whose_rules() -> str:
    """What the heading over these lines says: they are short, and local rules go first."""
    return say("findings", "brief-heading")
