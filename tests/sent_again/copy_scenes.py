"""The records that the examples of steps about copies need: copied tapes, a stick, a drive, a download."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from typing import Any

from core.model.agreement_records import Consent
from core.model.copies.copy_questions import CopyChoice
from core.model.copies.copy_records import FileSystem
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.model.names import Speed
from core.model.stations import Station
from core.services import jobs
from core.services.copies import copy_choices, copy_making, downloads, own_drives
from tests.sent_again.step_scenes import Example, of
from tests.support.booked import Desk, line

LINK = "https://files.example.org/000018"


def _copied(desk: Desk, on: str = "usb", minutes: float = 60.0, count: int = 1) -> tuple[Desk, Job, int]:
    """An order all of whose tapes are copied, and its copy that nobody has made."""
    working = replace(desk, writes_copies=False)
    job = working.book(line(count=count, speed=Speed.SP), deliver=(Delivery("files", "h264", on),))
    working.allow(job)
    for tape in job.tapes:
        working.bring_to(tape, Station.READY, minutes=minutes)
    return working, working.shop.ask(jobs.get, job.number), job.copies[0].id


def to_make(desk: Desk) -> Example:
    _, job, item = _copied(desk)
    return of(copy_making.made, job.number, item)


def to_check(desk: Desk) -> Example:
    working, job, item = _copied(desk)
    working.shop.run(copy_making.made, job.number, item)
    return of(copy_making.checked, job.number, item)


def to_strike(desk: Desk) -> Example:
    working, job, item = _copied(desk)
    working.shop.run(copy_making.made, job.number, item)
    return of(copy_making.strike, job.number, item, because="the wrong stick")


def to_describe(desk: Desk) -> Example:
    _, job, item = _copied(desk, "own-drive")
    return of(own_drives.describe, job.number, item, gigabytes=64.0, file_system=FileSystem.EXFAT)


def too_large(desk: Desk) -> Example:
    _, job, item = _copied(desk, minutes=360.0, count=3)
    return of(copy_choices.answer, job.number, item, CopyChoice.LARGER, Consent("Ada Fenwick"))


def to_give(desk: Desk) -> Example:
    working, job, item = _copied(desk, "download")
    working.shop.run(copy_making.made, job.number, item)
    working.shop.run(copy_making.checked, job.number, item)
    until = desk.clock().date() + timedelta(days=14)
    return of(downloads.give, job.number, None, LINK, until)


def to_delete(desk: Desk) -> Example:
    step, args, named = to_give(desk)
    desk.shop.run(step, *args, **named)
    return of(downloads.delete, args[0], None)


COPY_EXAMPLES: dict[Callable[..., Any], Callable[[Desk], Example]] = {
    copy_making.made: to_make,
    copy_making.checked: to_check,
    copy_making.strike: to_strike,
    own_drives.describe: to_describe,
    copy_choices.answer: too_large,
    downloads.give: to_give,
    downloads.delete: to_delete,
}
