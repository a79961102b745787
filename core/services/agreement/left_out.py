"""Tapes that an agreement leaves out: they go home as they came, and nothing is charged for them.

A tape that was copied stays in the agreement, since the work is done and the copy exists. One that was
spliced may be left out: the splice and its label stay on record. A tape on a deck is taken off it.
"""

from __future__ import annotations

from collections.abc import Sequence

from core.model.dispositions import Disposition
from core.model.errors import Refused
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.services import promise_entries
from core.services.agreement import ordered_copies
from core.store import history, lookup, row_records
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit
from core.wording.locale_figures import tape_code
from core.wording.messages import say


def was_copied(tape: TapeRow) -> bool:
    """Whether a tape was played to its end, is home, or was settled otherwise: its story is told."""
    settled = row_records.disposition(tape) is not None
    return settled or tape.played_minutes is not None or not tape.station.is_in_the_shop


def check(tapes: Sequence[TapeRow]) -> None:
    """Refused, with the reason, for a tape that cannot be left out any more."""
    for tape in tapes:
        if not tape.station.is_in_the_shop:
            raise Refused(say("agreement", "is_home", code=tape_code(tape.code)))
        if (settled := row_records.disposition(tape)) is not None and not settled.is_copied:
            code = tape_code(tape.code)
            raise Refused(say("agreement", "was_settled", code=code, disposition=spoken(settled)))
        if was_copied(tape):
            raise Refused(say("agreement", "was_copied", code=tape_code(tape.code)))


def leave_out(unit: Unit, row: JobRow, tapes: Sequence[TapeRow], version: int, reason: str) -> None:
    """Leaves tapes of an order at hand out in ``version``; copies of an order without tapes are not made."""
    for tape in tapes:
        before = tape.station
        words = say(
            "agreement", "event_left_out", n=version, playing=str(before is Station.PLAYING), reason=reason
        )
        if before is not Station.KEPT_APART:  # what harms others stays apart until it goes home
            tape.station = Station.READY
        tape.since, tape.deck, tape.note, tape.note_is_told = unit.now, None, reason, False
        tape.left_out_in, tape.disposition = version, Disposition.NOT_WANTED
        history.append_of_tape(unit, tape, "left-out", words, left_out_in=version, deck=None)
        promise_entries.note_finish(unit, tape, before)
    if tapes and not lookup.standing_tapes(row):
        drop_copies(unit, row)


def drop_copies(unit: Unit, row: JobRow) -> None:
    """Takes the copies off an order that were not handed over."""
    for copy in lookup.standing_copies(row):
        ordered_copies.drop(unit, row, copy)
