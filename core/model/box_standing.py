"""How an order stands as a whole: whether it may be collected, whether only its owner is waited for."""

from __future__ import annotations

from core.model.copies import copy_standing
from core.model.job_records import Job
from core.model.tape_records import TapeRecord


def lacks_label(tape: TapeRecord) -> bool:
    """Whether the not-for-reuse label is still to be put on: until then the tape may not leave."""
    return tape.station.is_in_the_shop and tape.not_for_reuse and tape.marked_at is None


def may_leave(tape: TapeRecord) -> bool:
    """Whether a caller may be told to come for the tape: done, labeled, and not set aside."""
    return tape.station.is_in_the_shop and tape.is_done and not lacks_label(tape)


def may_be_collected(job: Job) -> bool:
    """Whether everything that is still here may be told to be ready, the copies among it."""
    tapes_may = all(may_leave(tape) for tape in job.tapes if tape.station.is_in_the_shop)
    return job.is_open and tapes_may and not copy_standing.unfinished(job)


def waits_for_owner(job: Job) -> bool:
    """Whether nothing is left to be done here before its owner comes or decides: no promise any more."""
    through = all(tape.station.is_done or tape.station.is_unsettled for tape in job.tapes)
    return job.is_open and through and not copy_standing.are_being_written(job)
