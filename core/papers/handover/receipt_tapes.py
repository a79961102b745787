"""The tapes of a receipt: the spliced ones first, then the others, then what is not here or still is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from core.model.job_records import Pickup
from core.model.names import FormatName
from core.model.tape_records import TapeRecord
from core.papers.handover.home_cautions import facts
from core.papers.handover.spliced_tapes import splice_cell, tried_cell
from core.papers.tape_words import became, full_name, short_code, spliced, standing
from core.papers.typesetting.not_for_reuse_band import band
from core.papers.typesetting.paper_tokens import BODY, QUIET, STRONG, UNIT
from core.papers.typesetting.story import (
    GUTTER,
    Cell,
    PaperTable,
    Story,
    TableColumn,
    table_row,
    text_cell,
)
from core.papers.voice import Voice

_CODE_WIDTH, _LAST_WIDTH = 72.0, 142.0
_FEW = 8
"""Tapes still here that are named; of more the codes alone are told."""


def tell(told: Story, pickup: Pickup, speaker: Voice) -> None:
    """The tables of what goes back and what was lost, and what is still here."""
    marked = spliced(pickup.returned)
    plain = tuple(tape for tape in pickup.returned if not tape.not_for_reuse)
    table = _table(told, speaker)
    if pickup.returned:
        told.head(speaker.things("receipt-tapes", formats(pickup.returned), n=len(pickup.returned)))
        told.table(table, ())
        for tape in (*marked, *plain):
            _tell_row(told, table, tape, speaker)
    _tell_lost(told, table, pickup.not_returned, speaker)
    _tell_still_here(told, pickup, speaker)


def formats(tapes: Sequence[TapeRecord]) -> list[FormatName]:
    """What the tapes are, for sentences about them."""
    return [tape.format for tape in tapes]


def named(tape: TapeRecord, name: str, speaker: Voice) -> str:
    """The tape with what was found of it."""
    if not tape.findings:
        return name
    found = ", ".join(speaker.finding(finding) for finding in tape.findings)
    return speaker.say("receipt-found", name=name, found=found)


def _table(told: Story, speaker: Voice) -> PaperTable:
    columns = (
        TableColumn(speaker.say("receipt-code"), _CODE_WIDTH),
        TableColumn(speaker.say("receipt-tape")),
        TableColumn(speaker.say("receipt-became"), _LAST_WIDTH),
    )
    return PaperTable(columns, told.width)


def _tell_lost(told: Story, table: PaperTable, gone: Sequence[TapeRecord], speaker: Voice) -> None:
    """Below the others, with the sentence that is owed."""
    if not gone:
        return
    heading = speaker.things("receipt-not_returned", formats(gone), n=len(gone))
    told.say(heading, STRONG, before=UNIT, with_next=True)
    for tape in gone:
        _tell_row(told, table, tape, speaker)
    told.keep_last()
    told.say(speaker.say("receipt-not_returned_says"), before=0)


def _tell_row(told: Story, table: PaperTable, tape: TapeRecord, speaker: Voice) -> None:
    """One line where that says it all; what is to be known of the tape stands below it, across."""
    across = told.width - _CODE_WIDTH - GUTTER
    more = tuple(line for fact in facts(tape, speaker) for line in text_cell(fact, across))
    told.rows(table, (table_row(table, _cells(table, tape, speaker), ruled=not more),), with_next=bool(more))
    if more:
        below = replace(table_row(table, ((), more), widths=(_CODE_WIDTH, across)), air=UNIT / 8)
        told.rows(table, (below,))


def _cells(table: PaperTable, tape: TapeRecord, speaker: Voice) -> tuple[Cell, ...]:
    """What was spliced or tried stands below the name, beside the band."""
    width = table.widths[1]
    what = text_cell(named(tape, full_name(tape), speaker), width) + tried_cell(tape, width, speaker)
    last = table.cell(2, became(tape, speaker), (tape.told_note, QUIET))
    if tape.not_for_reuse and tape.is_returned:
        what += splice_cell(tape, width, speaker)
        last += (band(speaker.say("band-short"), table.widths[2]),)
    return table.cell(0, (short_code(tape), STRONG if tape.not_for_reuse else BODY)), what, last


def _tell_still_here(told: Story, pickup: Pickup, speaker: Voice) -> None:
    """Where each is now; of many only the codes, so that a part of a large box is not a book."""
    here = pickup.still_here
    if not here:
        return
    told.head(speaker.things("receipt-still_here", formats(here), n=len(here)))
    where: dict[str, list[TapeRecord]] = {}
    for tape in here:
        where.setdefault(standing(tape, speaker), []).append(tape)
    for words, tapes in where.items():
        widths = told.beside_widths(3, 7)
        named = [short_code(tape) + (f" · {full_name(tape)}" if len(here) <= _FEW else "") for tape in tapes]
        if len(here) > _FEW:
            named = [", ".join(code.replace(" ", "\N{NO-BREAK SPACE}") for code in named)]
        cell = tuple(line for name in named for line in text_cell(name, widths[1]))
        told.beside((text_cell(words, widths[0], QUIET), cell), widths, before=UNIT / 2)
