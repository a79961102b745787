"""The part of the receipt about tapes that were joined: where, how, what is lost, and why it matters."""

from __future__ import annotations

from collections.abc import Sequence

from core.documents.band import band
from core.documents.flow import Cell, Gap
from core.documents.story import Story, text_cell
from core.documents.tape_words import full_name, short_code
from core.documents.tokens import BODY, QUIET, STRONG, UNIT
from core.documents.voice import Voice
from core.records import Splice, TapeRecord


def tell_spliced(told: Story, tapes: Sequence[TapeRecord], speaker: Voice) -> None:
    """Every tape with its band and its joins, then the reason in kind words. Silent without such tapes."""
    if not tapes:
        return
    told.head(speaker.count("splice.head", len(tapes)))
    for tape in tapes:
        told.add(_tape(tape, told.width, speaker), before=UNIT)
    told.head(speaker.say("splice.why_head"))
    told.say(speaker.say("splice.why"))


def _tape(tape: TapeRecord, width: float, speaker: Voice) -> Cell:
    name = f"{short_code(tape)} · {full_name(tape)}"
    cell: Cell = (band(speaker.say("band.short"), width), Gap(UNIT / 2), *text_cell(name, width, STRONG))
    for splice in tape.splices:
        cell += text_cell(joined(splice, speaker), width, BODY)
    return cell + text_cell(_marked(tape, speaker), width, QUIET) + (Gap(UNIT / 2),)


def joined(splice: Splice, speaker: Voice) -> str:
    """Where, how, how much was cut away, and what that did to the recording."""
    name = "splice.cut" if splice.cut_cm else "splice.uncut"
    return speaker.say(
        name,
        where=speaker.length(splice.at_minutes),
        how=speaker.wording.get(f"join.{splice.joined_with.value}", splice.joined_with.words),
        cm=speaker.number(splice.cut_cm, 1),
        removed=speaker.number(splice.seconds_removed, 1),
        disturbed=speaker.number(splice.seconds_disturbed, 1),
    )


def _marked(tape: TapeRecord, speaker: Voice) -> str:
    if tape.marked_at is None:
        return speaker.say("splice.unmarked")
    return speaker.say("splice.marked", day=speaker.day_of(tape.marked_at))
