"""What whoever takes a tape home is to know of it: what can hurt somebody, and what it is and was."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from core.model.dispositions import Disposition
from core.model.names import Finding
from core.model.tape_records import TapeRecord
from core.papers.tape_words import short_code
from core.papers.typesetting.paper_tokens import STRONG, UNIT
from core.papers.typesetting.story import Cell, Gap, text_cell
from core.papers.voice import Voice

AT_HOME = (Finding.MOULD, Finding.NITRATE, Finding.STICKY, Finding.VINEGAR)
"""Findings that can hurt somebody who takes the tape home."""

_TOLD = frozenset(
    {
        Disposition.DAMAGED,
        Disposition.REPAIR_DECLINED,
        Disposition.NOTHING_ON_IT,
        Disposition.COPIED_IN_PART,
        Disposition.CANNOT_BE_PLAYED,
        Disposition.SENT_ELSEWHERE,
    }
)


def hazards_cell(tapes: Sequence[TapeRecord], width: float, speaker: Voice) -> Cell:
    """What can hurt somebody at home, and whose rules go first, over it the tapes it is about."""
    cell: Cell = ()
    for finding in AT_HOME:
        if about := [short_code(tape) for tape in tapes if finding in tape.findings]:
            heading = speaker.say("receipt-at_home", codes=" · ".join(about))
            cell += (Gap(UNIT / 2), *text_cell(heading, width, STRONG))
            cell += text_cell(speaker.say(f"home-{finding.value}"), width)
    return cell


def facts(tape: TapeRecord, speaker: Voice) -> Iterator[str]:
    """What to do with a tape that is not simply copied. Of one that can hurt somebody, that is told above."""
    if Finding.SCRATCHED in tape.findings:
        yield speaker.say("know-scratched")
    told_above = tape.disposition is Disposition.CANNOT_BE_PLAYED and set(AT_HOME) & set(tape.findings)
    if tape.disposition in _TOLD and not told_above:
        yield speaker.say(f"know-{tape.disposition.value}")
