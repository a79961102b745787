"""What is done to a copy: each step one line for good, with its line of history."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.copies.copy_records import CopyContents, CopyRecord, CopyStepKind, DownloadLink, OwnDrive
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import JobNumber
from core.store import current_settings, history, lookup, row_records
from core.store.audits import copy_audit
from core.store.copy_tables import CopyRow, CopyStepRow
from core.store.job_tables import JobRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class NewStep:
    """What one step says."""

    kind: CopyStepKind
    words: str
    """For its line of history."""
    contents: CopyContents | None = None
    drive: OwnDrive | None = None
    download: DownloadLink | None = None
    reason: str = ""


def of_order(unit: Unit, number: JobNumber, item: int) -> tuple[JobRow, CopyRow]:
    """An order and one of its copies; WrongInput when it has no such copy."""
    row = lookup.job_row(unit, number)
    return row, in_order(row, item)


def in_order(row: JobRow, item: int) -> CopyRow:
    """One copy of an order at hand; WrongInput, naming what there is, when it has no such copy."""
    found = next((each for each in lookup.standing_copies(row) if each.id == item), None)
    if found is None:
        raise WrongInput(say("handing_back", "copy"), item, _accepted(row))
    return found


def check_here(unit: Unit, copy: CopyRow) -> None:
    """Refused for a copy that was handed over."""
    if copy.handed_back_at is not None:
        day = locale_figures.day(current_settings.local(unit, copy.handed_back_at).date())
        raise Refused(say("handing_back", "copy_gone", copy=copy.words, id=str(copy.id), day=day))


def enter(
    unit: Unit,
    row: JobRow,
    copy: CopyRow,
    new: NewStep,
) -> None:
    """Appends one step of a copy, and its line of history."""
    step = CopyStepRow(
        kind=new.kind,
        contents=new.contents,
        drive=new.drive,
        download=new.download,
        reason=new.reason,
        at=unit.now,
        by=unit.who,
    )
    copy.steps.append(step)
    unit.session.flush()
    sha = copy_audit.fingerprint(step)
    history.append(unit, copy_audit.KIND, new.words, job=row.number, copy_step=step.id, step_sha256=sha)


def record(row: JobRow, copy: CopyRow) -> tuple[Job, CopyRecord]:
    """The order and the copy as records."""
    return row_records.job(row), row_records.copy(copy)


def _accepted(row: JobRow) -> str:
    copies = ", ".join(str(each.id) for each in lookup.standing_copies(row))
    if not copies:
        return say("handing_back", "no_copies", number=row.number)
    return say("handing_back", "copies_of_order", number=row.number, copies=copies)
