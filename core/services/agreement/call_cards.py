"""The call card of an order: its price, and each thing the customer may say, with price and day."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from datetime import date

from core.model.agreement_records import CeilingChoice, CeilingQuestion, OfferedChoice
from core.model.names import JobNumber, TapeCode
from core.model.own_shop.settings_records import ShopSettings
from core.model.price_questions import PriceQuestion
from core.model.stations import Station
from core.pricing import copy_fit
from core.promise import turnaround
from core.scheduling.queued_tapes import QueuedTape
from core.services import deck_queue, promises
from core.services.agreement import ceiling_choices, ceiling_watch
from core.store import current_settings, lookup, row_records
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit


def is_about_copy(unit: Unit, number: JobNumber) -> bool:
    """Whether a customer is asked about a copy that no longer fits (`copy_choices.question`).

    The price of the order comes first.
    """
    row = lookup.job_row(unit, number)
    return not ceiling_watch.open_questions(unit, row) and bool(copy_fit.misfits(row_records.job(row)))


def question(unit: Unit, number: JobNumber) -> PriceQuestion:
    """What to ask the customer of an order about its price; Refused where nothing is asked."""
    row = lookup.job_row(unit, number)
    questions = ceiling_watch.open_questions(unit, row)
    about = ceiling_choices.about_tape(row, questions, None)
    return PriceQuestion(
        row_records.job(row),
        ceiling_watch.standing_of(unit, row),
        tuple(questions[each.id] for each in ceiling_choices.asking_tapes(row, questions)),
        _choices(unit, row, questions, about),
    )


def choices(unit: Unit, number: JobNumber) -> tuple[OfferedChoice, ...]:
    """All that the customer of an order may say of the tape that was stopped last, worked out.

    Nothing where no price is asked about.
    """
    row = lookup.job_row(unit, number)
    questions = ceiling_watch.open_questions(unit, row)
    if not questions:
        return ()
    return _choices(unit, row, questions, ceiling_choices.about_tape(row, questions, None))


def _choices(
    unit: Unit, row: JobRow, questions: dict[int, CeilingQuestion], about: TapeRow
) -> tuple[OfferedChoice, ...]:
    """Choices that leave the same tapes have the same day: the queue is worked through once for them."""
    offered = [ceiling_choices.offered(unit, row, questions, each, about) for each in CeilingChoice]
    settings, queue = promises.reckoned(unit), deck_queue.waiting(unit)
    days = {
        leaves: _day(unit, row, settings, queue, questions, leaves)
        for leaves in {frozenset(each.leaves) for each in offered}
    }
    return tuple(replace(each, day=days[frozenset(each.leaves)]) for each in offered)


def _day(
    unit: Unit,
    row: JobRow,
    settings: ShopSettings,
    queue: Sequence[QueuedTape],
    questions: dict[int, CeilingQuestion],
    leaves: Collection[TapeCode],
) -> date | None:
    """When the rest would be ready: the tapes that wait for the answer go on, the others as they are."""
    bound = {asked.code: ceiling_watch.sent_to(asked) for asked in questions.values()}
    looked = turnaround.load(
        settings,
        [
            replace(tape, station=bound.get(tape.code, tape.station))
            for tape in queue
            if tape.code not in leaves and bound.get(tape.code) is not Station.READY
        ],
        current_settings.local(unit, unit.now),
    )
    made = turnaround.standing(looked, JobNumber(row.number))
    return None if made is None else made.day
