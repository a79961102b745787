"""A copy is made and checked: by whom, when, what is on it; a wrong entry is struck out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from core.model import entered_text
from core.model.agreement_records import AgreementKind
from core.model.copies import copy_standing
from core.model.copies.copy_records import CopiedFile, CopyContents, CopyRecord, CopyStepKind
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import JobNumber, TapeCode
from core.model.numbers import read_tape_code
from core.pricing import copy_fit
from core.services import promise_entries
from core.services.agreement import agreement_versions
from core.services.copies import copy_steps, files_of_tapes
from core.services.copies.copy_steps import NewStep
from core.store import permissions, row_records
from core.store.copy_tables import CopyRow
from core.store.job_tables import JobRow
from core.store.steps import step
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@step
def made(
    unit: Unit,
    number: JobNumber,
    item: int,
    *,
    tapes: Sequence[TapeCode] | None = None,
    files: Sequence[CopiedFile] | None = None,
) -> Job:
    """Keeps that a copy was made, and what is on it.

    ``tapes`` None: all that were copied so far (and are not on the copy it follows). ``files`` None: those
    recorded from these tapes. Refused for a tape that is not copied, for more than goes onto the piece, and
    while nobody has said what the customer's own drive holds; WrongInput for a tape of another order.
    """
    row, copy = copy_steps.of_order(unit, number, item)
    copy_steps.check_here(unit, copy)
    job, record = copy_steps.record(row, copy)
    codes = _tapes(job, record, tapes)
    contents = CopyContents(codes, _files(unit, row, record, codes, files))
    copy_fit.check(record, contents)
    words = _made_words(record, contents)
    copy_steps.enter(unit, row, copy, NewStep(CopyStepKind.MADE, words, contents))
    return row_records.job(row)


@step
def checked(
    unit: Unit,
    number: JobNumber,
    item: int,
    *,
    files: Sequence[CopiedFile] | None = None,
) -> Job:
    """Keeps that a copy was checked: it opens, and holds what it should.

    ``files`` are those read back from it: they must be the ones it was made with. Refused before it is made,
    and for a file that is missing or another one.
    """
    row, copy = copy_steps.of_order(unit, number, item)
    copy_steps.check_here(unit, copy)
    _, record = copy_steps.record(row, copy)
    if record.made is None:
        raise Refused(say("copies", "not-made", copy=copy.words, number=row.number, item=str(item)))
    if record.checked is not None:
        raise Refused(say("copies", "checked-already", copy=copy.words, by=record.checked.by))
    if files is not None:
        _check_read_back(record, files)
    words = say("copies", "event-checked", copy=copy.words)
    copy_steps.enter(unit, row, copy, NewStep(CopyStepKind.CHECKED, words))
    promise_entries.note_whole(unit, row)
    return row_records.job(row)


@step
def strike(unit: Unit, number: JobNumber, item: int, *, because: str) -> Job:
    """Strikes out the newest of made, checked and link; it stays readable in the books.

    Refused where nothing was entered, once the copy or its order is gone; WrongInput without a reason.
    """
    row, copy = copy_steps.of_order(unit, number, item)
    reason = entered_text.reason(say("copies", "why-strike"), because)
    _, record = copy_steps.record(row, copy)
    wrong = [each for each in record.standing_steps if each.kind.may_be_struck]
    if not wrong:
        raise Refused(say("copies", "nothing-to-strike", copy=copy.words))
    _check_may_be_struck(unit, row, record, copy)
    permissions.check_strike(unit, wrong[-1].by)
    if wrong[-1].kind is CopyStepKind.LINK:
        copy.handed_back_at = None
    words = say("copies", "event-struck", copy=copy.words, kind=wrong[-1].kind.value, reason=reason)
    copy_steps.enter(unit, row, copy, NewStep(CopyStepKind.STRUCK, words, reason=reason))
    return row_records.job(row)


def _check_may_be_struck(unit: Unit, row: JobRow, record: CopyRecord, copy: CopyRow) -> None:
    if not record.is_download:
        copy_steps.check_here(unit, copy)
    is_settled = agreement_versions.current(row).kind is AgreementKind.SETTLED
    if record.deleted is not None or (is_settled and record.is_download):
        raise Refused(say("copies", "over", copy=copy.words))


# --- what is on it -----------------------------------------------------------------------


def _tapes(job: Job, copy: CopyRecord, wanted: Sequence[TapeCode] | None) -> tuple[TapeCode, ...]:
    there = copy_standing.copied(job)
    if wanted is None:
        found = tuple(code for code in there if code in copy_standing.lacks(job, replace(copy, steps=())))
        if not found:
            raise Refused(say("copies", "nothing-copied", number=job.number))
        return found
    codes = tuple(dict.fromkeys(read_tape_code(code) for code in wanted))
    for code in codes:
        if code not in {each.code for each in job.tapes}:
            code_words = locale_figures.tape_code(code)
            raise Refused(say("agreement", "not_of_order", code=code_words, number=job.number))
        if code not in there:
            raise Refused(say("copies", "not-copied", code=locale_figures.tape_code(code)))
    return codes


def _files(
    unit: Unit, row: JobRow, copy: CopyRecord, codes: Sequence[TapeCode], given: Sequence[CopiedFile] | None
) -> tuple[CopiedFile, ...]:
    """The files on a copy made of files: those given, each with its tape where it is known, else all recorded
    from the tapes. A video disc is made from them and holds none."""
    known = files_of_tapes.of_order(unit, row)
    if given is not None:
        of = {each.sha256: each.tape for each in known}
        return tuple(replace(each, tape=each.tape or of.get(each.sha256)) for each in given)
    if copy.delivery is not None and copy.delivery.kind != "files":
        return ()
    return tuple(each for each in known if each.tape in codes)


def _check_read_back(copy: CopyRecord, files: Sequence[CopiedFile]) -> None:
    """Refused, naming the first, where what was read back is not what the copy was made with."""
    made = Counter(each.sha256 for each in copy.contents.files)
    found = Counter(each.sha256 for each in files)
    for each in copy.contents.files:
        if not found[each.sha256]:
            raise Refused(say("copies", "file-missing", name=each.name, copy=copy.words))
    for each in files:
        if not made[each.sha256]:
            raise Refused(say("copies", "file-unknown", name=each.name, copy=copy.words))
    if not files:
        raise WrongInput(say("copies", "files"), "", say("copies", "files-accepted"))


def _made_words(copy: CopyRecord, contents: CopyContents) -> str:
    tapes = locale_figures.listed([locale_figures.tape_code(code) for code in contents.tapes])
    return say("copies", "event-made", copy=copy.words, tapes=tapes, files=len(contents.files))
