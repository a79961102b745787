"""The call card of an order: its price, and each thing the customer may say, with price and day."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from datetime import date

from core.model.agreement_records import CeilingChoice, CeilingQuestion, OfferedChoice
from core.model.names import JobNumber, TapeCode
from core.model.price_questions import PriceQuestion
from core.model.stations import Station
from core.promise import turnaround
from core.scheduling.queued_tapes import QueuedTape
from core.services import deck_queue, promises
from core.services.agreement import ceiling_choices, ceiling_watch
from core.store import current_settings, lookup, row_records
from core.store.tables import JobRow
from core.store.unit import Unit


def question(unit: Unit, number: JobNumber) -> PriceQuestion:
    """What to ask the customer of an order about its price; Refused where nothing is asked."""
    row = lookup.job_row(unit, number)
    questions = ceiling_watch.open_questions(unit, row)
    ceiling_choices.about_tape(row, questions, None)
    return PriceQuestion(
        row_records.job(row),
        ceiling_watch.standing_of(unit, row),
        tuple(questions[each.id] for each in ceiling_choices.asking_tapes(row, questions)),
        choices(unit, number),
    )


def choices(unit: Unit, number: JobNumber, tape: TapeCode | None = None) -> tuple[OfferedChoice, ...]:
    """All that the customer of an order may say, worked out; nothing where no price is asked about.

    ``tape``: which one the question is about; None: the one that was stopped last.
    """
    row = lookup.job_row(unit, number)
    questions = ceiling_watch.open_questions(unit, row)
    if not questions:
        return ()
    about = ceiling_choices.about_tape(row, questions, tape)
    queue = deck_queue.waiting(unit)
    return tuple(
        replace(found, day=_day(unit, row, queue, questions, found.leaves))
        for found in (ceiling_choices.offered(unit, row, questions, each, about) for each in CeilingChoice)
    )


def _day(
    unit: Unit,
    row: JobRow,
    queue: Sequence[QueuedTape],
    questions: dict[int, CeilingQuestion],
    leaves: Collection[TapeCode],
) -> date | None:
    """When the rest would be ready: the tapes that wait for the answer go on, the others as they are."""
    bound = {asked.code: ceiling_watch.sent_to(asked) for asked in questions.values()}
    looked = turnaround.load(
        promises.reckoned(unit),
        [
            replace(tape, station=bound.get(tape.code, tape.station))
            for tape in queue
            if tape.code not in leaves and bound.get(tape.code) is not Station.READY
        ],
        current_settings.local(unit, unit.now),
    )
    made = turnaround.standing(looked, JobNumber(row.number))
    return None if made is None else made.day
