"""The copies of an order as rows of a tray: what it is, how far it is, what is on it."""

from __future__ import annotations

from collections.abc import Iterator

from core.model.copies import copy_standing
from core.model.copies.copy_records import CopyRecord, CopyState
from core.model.job_records import Job
from core.pricing import copy_fit
from gui.toolkit.text import say, short_day
from gui.widgets.tray import TrayItem


def rows(job: Job) -> list[TrayItem]:
    """One row a copy, those to be made first."""
    copies = sorted(job.copies, key=lambda copy: list(CopyState).index(copy.state))
    return [row(job, copy) for copy in copies]


def row(job: Job, copy: CopyRecord) -> TrayItem:
    """One copy; of an older order nobody keeps record of how far it is."""
    place = state(copy) if copy.is_followed or copy.handed_back_at else ""
    return TrayItem(str(copy.id), title(copy), " · ".join(_facts(job, copy)), place)


def title(copy: CopyRecord) -> str:
    """``3 × DVD-R disc: DVD-Video``."""
    return copy.words if copy.pieces == 1 else say("copying", "pieces", n=copy.pieces, copy=copy.words)


def state(copy: CopyRecord) -> str:
    """How far it is, in words."""
    return say("copies", f"state-{copy.state.value}", download="yes" if copy.is_download else "no")


def _facts(job: Job, copy: CopyRecord) -> Iterator[str]:
    if any(each.item == copy.id for each in copy_fit.misfits(job)):
        yield say("copying", "does-not-fit")
    if copy.is_own_drive and copy.drive is not None:
        gb = round(copy.drive.size_bytes / copy_fit.GB, 1)
        system = say("copies", f"file-system-{copy.drive.file_system.value}")
        yield say("copying", "drive", gb=gb, system=system)
    elif copy.is_own_drive:
        yield say("copying", "drive-unknown")
    if copy.made is not None:
        n, lacks = len(copy.contents.tapes), len(copy_standing.lacks(job, copy))
        yield say("copying", "on-it", n=n, files=len(copy.contents.files), lacks=lacks, by=copy.made.by)
    if copy.download is not None:
        yield say("copying", "until", day=short_day(copy.download.until))
