"""How the copies of an order stand: which tapes go onto them, what is still to be written, what may go."""

from __future__ import annotations

from core.model.copies.copy_records import CopyRecord
from core.model.job_records import Job
from core.model.names import TapeCode


def copied(job: Job) -> tuple[TapeCode, ...]:
    """The tapes that belong onto every copy: settled as copied."""
    found = (tape for tape in job.tapes if tape.disposition is not None and tape.disposition.is_copied)
    return tuple(tape.code for tape in found)


def still_open(job: Job) -> tuple[TapeCode, ...]:
    """The tapes of which nobody knows yet whether they go onto the copies."""
    found = (tape for tape in job.tapes if tape.disposition is None and tape.station.is_in_the_shop)
    return tuple(tape.code for tape in found)


def has_nothing_to_copy(job: Job) -> bool:
    """Whether every tape is settled and none of them was copied: there is nothing to make copies of."""
    return not copied(job) and not still_open(job)


def lacks(job: Job, copy: CopyRecord) -> tuple[TapeCode, ...]:
    """Copied tapes that are neither on this copy nor on the one it follows."""
    there = _on(job, copy)
    return tuple(code for code in copied(job) if code not in there)


def is_whole(job: Job, copy: CopyRecord) -> bool:
    """Whether a copy may go with nothing left to say: checked, all copied tapes on it, none still open."""
    if not copy.is_followed:
        return True
    return copy.checked is not None and not lacks(job, copy) and not still_open(job)


def here(job: Job) -> tuple[CopyRecord, ...]:
    """The copies that were not handed over; one for the rest of another is none while there is no rest."""
    return tuple(copy for copy in job.copies if copy.handed_back_at is None and not _is_idle(job, copy))


def unfinished(job: Job) -> tuple[CopyRecord, ...]:
    """The copies the shop still has to do something for: make, check, or give the link of."""
    if has_nothing_to_copy(job):
        return ()
    return tuple(copy for copy in here(job) if not is_whole(job, copy) or copy.is_download)


def are_being_written(job: Job) -> bool:
    """Whether every tape is settled and only the copies are not done."""
    return not still_open(job) and bool(unfinished(job))


def _is_idle(job: Job, copy: CopyRecord) -> bool:
    return bool(copy.follows and copy.made is None and not lacks(job, copy) and not still_open(job))


def _on(job: Job, copy: CopyRecord) -> frozenset[TapeCode]:
    """The tapes on a copy and on those it follows."""
    there = frozenset(copy.contents.tapes)
    before = next((each for each in job.copies if each.id == copy.follows), None)
    return there if before is None else there | _on(job, before)
