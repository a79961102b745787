"""A copy that no longer fits what was ordered: each choice with its price and day, and the answer."""

from __future__ import annotations

from dataclasses import replace

from core.model.agreement_records import AgreementKind, Consent
from core.model.copies.copy_questions import CopyChoice, CopyMisfit, CopyQuestion, NewCopy, OfferedCopy
from core.model.copies.copy_records import CopyStepKind
from core.model.errors import Refused, WrongInput
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.model.names import JobNumber
from core.model.quote_records import Storage
from core.pricing import copy_fit, copy_sizes
from core.services import deck_queue, payments, promise_entries, promises
from core.services.agreement import agreement_versions, ceiling_watch, ordered_copies, standing_quote
from core.services.agreement.agreement_versions import NewVersion
from core.services.copies import copy_options, copy_steps
from core.services.copies.copy_steps import NewStep
from core.store import lookup, row_records
from core.store.copy_tables import CopyRow
from core.store.job_tables import JobRow
from core.store.steps import step
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


def question(unit: Unit, number: JobNumber, item: int | None = None) -> CopyQuestion:
    """What to ask the customer about a copy (None: the first) that cannot be made as ordered.

    Refused where all of them can; WrongInput for a copy that can.
    """
    row = lookup.job_row(unit, number)
    job = row_records.job(row)
    misfit = _misfit(job, item)
    copy = copy_steps.in_order(row, misfit.item)
    day = promises.as_it_looks(unit, row).day if _is_under_way(job) else None
    found = copy_options.options(job, row_records.copy(copy), misfit)
    choices = tuple(replace(_offered(unit, row, copy, *each), day=day) for each in found)
    return CopyQuestion(job, ceiling_watch.standing_of(unit, row), misfit, choices)


@step
def answer(
    unit: Unit,
    number: JobNumber,
    item: int,
    choice: CopyChoice,
    consent: Consent,
    *,
    words: str = "",
    based_on: int | None = None,
) -> Job:
    """Keeps what the customer chose as the next version of the agreement; the copy becomes that.

    Refused where the copy can be made as ordered, or this choice would not solve it.
    """
    row, consent = lookup.job_row(unit, number), agreement_versions.checked_consent(consent)
    agreement_versions.check_newest(row, based_on)
    job = row_records.job(row)
    misfit = _misfit(job, item)
    copy = copy_steps.in_order(row, misfit.item)
    becomes = _chosen(job, copy, misfit, choice)
    offered = _offered(unit, row, copy, choice, becomes)
    said = words.strip() or say("copies", f"said-{choice.value}", copy=becomes.words, pieces=becomes.pieces)
    deliver = _deliver(row, copy, becomes)
    _become(unit, row, copy, becomes)
    questions = ceiling_watch.open_questions(unit, row)
    draft = NewVersion(AgreementKind.REVISED, said, consent, ceiling_minor=offered.ceiling_minor)
    agreement_versions.enter(unit, row, _requoted(unit, row, draft, deliver, consent))
    ceiling_watch.send_on(unit, row, questions)
    ceiling_watch.keep_asking(unit, row)
    unit.session.flush()
    return row_records.job(row)


# --- what may be chosen ------------------------------------------------------------------


def _misfit(job: Job, item: int | None) -> CopyMisfit:
    found = copy_fit.misfits(job)
    if not found:
        raise Refused(say("copies", "all-fit", number=job.number))
    chosen = found[0] if item is None else next((each for each in found if each.item == item), None)
    if chosen is None:
        items = ", ".join(str(each.item) for each in found)
        raise WrongInput(say("handing_back", "copy"), item, say("copies", "asked-about", items=items))
    return chosen


def _is_under_way(job: Job) -> bool:
    return any(not tape.station.is_done for tape in job.tapes)


def _chosen(job: Job, copy: CopyRow, misfit: CopyMisfit, choice: CopyChoice) -> NewCopy:
    found = dict(copy_options.options(job, row_records.copy(copy), misfit))
    if choice not in found:
        choices = locale_figures.listed([each.value for each in found], "or")
        raise Refused(say("copies", "no-way-out", copy=copy.words, choices=choices))
    return found[choice]


def _offered(unit: Unit, row: JobRow, copy: CopyRow, choice: CopyChoice, becomes: NewCopy) -> OfferedCopy:
    """One choice with its price, without its day. The ceiling moves by as much as the estimate does."""
    others = [each for each in lookup.standing_copies(row) if each is not copy]
    pieces = payments.pieces_of(row, [*others, _row(becomes)])
    held = agreement_versions.current(row).ceiling_minor
    ceiling = max(0, held + _estimate(unit, row, pieces) - _estimate(unit, row, None))
    tapes = lookup.standing_tapes(row)
    now = payments.price_of(unit, row, tapes, ceiling_minor=held).due.likely
    then = payments.price_of(unit, row, tapes, ceiling_minor=ceiling, pieces=pieces).due.likely
    return OfferedCopy(choice, becomes, then, then - now, ceiling, None)


def _estimate(unit: Unit, row: JobRow, pieces: Storage | None) -> int:
    """What the ceiling of the order would be if it were quoted now."""
    tapes = lookup.standing_tapes(row)
    habits = deck_queue.habits_of_order(unit, row.id)
    price = payments.price_of(unit, row, tapes, ceiling_minor=None, habits=habits, pieces=pieces)
    return price.ceiling_minor


# --- the answer --------------------------------------------------------------------------


def _deliver(row: JobRow, copy: CopyRow, becomes: NewCopy) -> tuple[Delivery, ...]:
    """What is ordered, with the one order of this copy as it is now."""
    ordered = list(row_records.quote(row).inventory.deliver or (copy_sizes.USUAL,))
    if copy.delivery in ordered:
        ordered[ordered.index(copy.delivery)] = becomes.delivery
    return tuple(ordered)


def _become(unit: Unit, row: JobRow, copy: CopyRow, becomes: NewCopy) -> None:
    """A copy on another piece is another copy, where something was done to the one before."""
    if copy.steps and copy.code != becomes.code:
        ordered_copies.drop(unit, row, copy)
        row.copies.append(_row(becomes))
    else:
        copy.code, copy.words, copy.pieces = becomes.code, becomes.words, becomes.pieces
        copy.delivery = becomes.delivery
    unit.session.flush()
    if becomes.drive is not None and becomes.drive != row_records.copy(copy).drive:
        words = say("copies", "event-drive-changed", copy=copy.words)
        copy_steps.enter(unit, row, copy, NewStep(CopyStepKind.DRIVE, words, drive=becomes.drive))


def _row(becomes: NewCopy) -> CopyRow:
    return CopyRow(code=becomes.code, words=becomes.words, pieces=becomes.pieces, delivery=becomes.delivery)


def _requoted(
    unit: Unit, row: JobRow, draft: NewVersion, deliver: tuple[Delivery, ...], consent: Consent
) -> NewVersion:
    """The version with the order quoted as it stands now, and the day that it leads to."""
    before = row_records.quote(row)
    promise = promises.as_it_looks(unit, row)
    if promise != row.promise:
        row.promise = promise
        promise_entries.enter(unit, row, promise, draft.reason, consent.who)
    pieces = payments.pieces_of(row, lookup.standing_copies(row)).copies
    storage = replace(before.storage, copies=pieces, notes=())
    quote = standing_quote.of(unit, row, replace(before.inventory, deliver=deliver), storage)
    return replace(draft, quote=quote, codes=standing_quote.codes(row), promise=promise)
