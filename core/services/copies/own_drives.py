"""A customer's own drive: how large it is and how it is formatted, entered when it comes in or later."""

from __future__ import annotations

from core.model.copies.copy_records import CopyStepKind, FileSystem, OwnDrive
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import JobNumber
from core.services.copies import copy_steps
from core.services.copies.copy_steps import NewStep
from core.store import row_records
from core.store.steps import step
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

MOST_GB = 100_000.0
"""Larger than any drive a customer carries in (an assumption): beyond it is a slip of the pen."""


@step
def describe(
    unit: Unit,
    number: JobNumber,
    item: int,
    *,
    gigabytes: float,
    file_system: FileSystem,
    splits: bool = False,
) -> Job:
    """Keeps size and file system of the drive a copy goes onto; described again, the newest counts.

    Whether all goes onto it is told by `copy_fit.misfits`. Refused for a copy on anything else; WrongInput
    for a size that cannot be.
    """
    row, copy = copy_steps.of_order(unit, number, item)
    if not 0 < gigabytes <= MOST_GB:
        accepted = say("copies", "drive-gigabytes-accepted", most=MOST_GB)
        raise WrongInput(say("copies", "drive-gigabytes"), gigabytes, accepted)
    copy_steps.check_here(unit, copy)
    if not row_records.copy(copy).is_own_drive:
        raise Refused(say("copies", "no-drive", copy=copy.words))
    drive = OwnDrive(round(gigabytes * 1e9), file_system, splits)
    words = say(
        "copies",
        "event-drive",
        gb=locale_figures.figure(gigabytes, digits=1),
        system=say("copies", f"file-system-{file_system.value}"),
    )
    copy_steps.enter(unit, row, copy, NewStep(CopyStepKind.DRIVE, words, drive=drive))
    return row_records.job(row)
