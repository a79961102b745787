"""What is doubted of one tape at hand, in sentences: what was measured of it, and its TV system."""

from __future__ import annotations

from core.model.deck_showing import NOTHING
from core.model.names import Measure
from core.model.tape_records import TapeRecord
from core.playtime import doubted_systems, length_doubts


def of_tape(tape: TapeRecord) -> tuple[str, ...]:
    """What is doubted of a tape, each sentence once; its system only until it has played."""
    shown = tape.shown or NOTHING
    doubts = [
        length_doubts.of_metres(tape.draft, each.at_metres)
        if each.measured is Measure.METRES and each.at_metres is not None
        else length_doubts.of_minutes(tape.draft, each.at_minutes, shown)
        for each in tape.splices
    ]
    if tape.played_minutes is not None:
        doubts.append(length_doubts.of_minutes(tape.draft, tape.played_minutes, shown))
    told = [each.words for each in doubts if each is not None]
    if tape.played_minutes is None and shown.tv is None:
        told += doubted_systems.warnings(tape.draft, None)
    return tuple(dict.fromkeys(told))
