"""Tapes that waited for an answer about the price: where each goes once the agreement covers it."""

from __future__ import annotations

from dataclasses import replace

from core.model.agreement_records import CeilingQuestion, OfferedChoice
from core.model.dispositions import said_by
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.services import promise_entries
from core.services.agreement import ceiling_watch
from core.store import history as chain
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say


def send_on(
    unit: Unit,
    row: JobRow,
    questions: dict[int, CeilingQuestion],
    offered: OfferedChoice | None = None,
    words: str = "event_sent_on",
) -> None:
    """Tapes that waited because of the price go where they were going, as soon as the agreement covers it."""
    now = ceiling_watch.standing_of(unit, row)
    if offered is not None:
        now = replace(now, ceiling_minor=offered.ceiling_minor, given_away_minor=offered.given_away_minor)
    if now.over_minor:
        return
    for tape in row.tapes:
        if tape.id in questions and tape.left_out_in is None:
            _send(unit, tape, questions[tape.id], words)


def release(unit: Unit, row: JobRow) -> None:
    """After an entry was taken back: where the price is within what was agreed again, nobody need be
    asked."""
    questions = ceiling_watch.open_questions(unit, row)
    if questions:
        send_on(unit, row, questions, words="event_released")


def sent_to(question: CeilingQuestion) -> Station:
    """Where a tape goes after a yes: one that was on a deck is cleared for it, since the deck went on."""
    return Station.CLEARED_TO_PLAY if question.bound_for is Station.PLAYING else question.bound_for


def _send(unit: Unit, tape: TapeRow, question: CeilingQuestion, sentence: str) -> None:
    before = tape.station
    tape.station, tape.since, tape.note = sent_to(question), unit.now, ""
    tape.note_is_told, tape.disposition = False, said_by(tape.station)
    words = say("agreement", sentence, station=spoken(tape.station))
    chain.append_of_tape(unit, tape, "answered", words)
    promise_entries.note_finish(unit, tape, before)
