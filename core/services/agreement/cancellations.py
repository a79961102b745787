"""Calling an order off, all of it or some tapes, with the fee of its price book."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from core.model import numbers
from core.model.agreement_records import AgreementKind, Consent
from core.model.errors import Refused
from core.model.job_records import Job
from core.model.names import JobNumber, TapeCode
from core.services import deck_queue, payments, promise_entries, promises
from core.services.agreement import (
    agreement_versions,
    ceiling_choices,
    ceiling_watch,
    left_out,
    standing_quote,
)
from core.services.agreement.agreement_versions import NewVersion
from core.store import lookup, row_records
from core.store.steps import step
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit
from core.wording.locale_figures import tape_code
from core.wording.messages import say


@step
def cancel(
    unit: Unit,
    number: JobNumber,
    codes: Sequence[TapeCode] | None,
    *,
    reason: str,
    consent: Consent,
    based_on: int | None = None,
) -> Job:
    """Calls an order off, or the tapes of ``codes`` (None: all that are not copied yet).

    What was copied stays in the order and is charged. The fee is that of the order's own price book. Refused
    for a tape that was copied, is home or belongs to another order, and when nothing is left to call off;
    WrongInput without a reason or who asked for it.
    """
    row = lookup.job_row(unit, number)
    said, consent = agreement_versions.checked_reason(reason), agreement_versions.checked_consent(consent)
    agreement_versions.check_newest(row, based_on)
    leaves = _all(row) if codes is None else _chosen(row, codes)
    left_out.check(leaves)
    draft = _draft(unit, row, leaves, said, consent)
    questions = ceiling_watch.open_questions(unit, row)
    left_out.leave_out(unit, row, leaves, agreement_versions.current(row).number + 1, said)
    promise = promises.as_it_looks(unit, row)
    if promise != row.promise:
        row.promise = promise
        promise_entries.enter(unit, row, promise, said, consent.who)
    quote = standing_quote.of(unit, row, row_records.quote(row).inventory)
    draft = replace(draft, quote=quote, codes=standing_quote.codes(row), promise=promise)
    agreement_versions.enter(unit, row, draft)
    ceiling_watch.send_on(unit, row, questions)
    ceiling_watch.keep_asking(unit, row)
    unit.session.flush()
    return row_records.job(row)


def _all(row: JobRow) -> list[TapeRow]:
    found = [each for each in lookup.standing_tapes(row) if not left_out.was_copied(each)]
    if not found:
        raise Refused(say("agreement", "nothing_to_cancel", number=row.number))
    return found


def _chosen(row: JobRow, codes: Sequence[TapeCode]) -> list[TapeRow]:
    found = []
    for code in dict.fromkeys(numbers.read_tape_code(each) for each in codes):
        tape = next((each for each in row.tapes if each.code == code), None)
        if tape is None:
            raise Refused(say("agreement", "not_of_order", code=tape_code(code), number=row.number))
        if tape.left_out_in is not None:
            raise Refused(say("agreement", "left_out_already", code=tape_code(code), n=tape.left_out_in))
        found.append(tape)
    if not found:
        raise Refused(say("agreement", "nothing_to_cancel", number=row.number))
    return found


def _draft(unit: Unit, row: JobRow, leaves: Sequence[TapeRow], said: str, consent: Consent) -> NewVersion:
    """The ceiling moves by as much as the estimate does, the fee included."""
    held = agreement_versions.current(row)
    standing = lookup.standing_tapes(row)
    rest = [each for each in standing if each not in leaves]
    fee = held.fee_minor + ceiling_choices.fee_for(unit, row, leaves)
    habits = deck_queue.habits_of_order(unit, row.id)
    was = payments.price_of(unit, row, standing, ceiling_minor=None, habits=habits).ceiling_minor
    will = payments.price_of(unit, row, rest, ceiling_minor=None, habits=habits, fee_minor=fee).ceiling_minor
    return NewVersion(
        AgreementKind.REVISED if rest else AgreementKind.CANCELLED,
        said,
        consent,
        ceiling_minor=max(0, held.ceiling_minor + will - was),
        fee_minor=fee,
    )
