"""The papers of an order that is booked: what is read for each, and the file it is written to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from zoneinfo import ZoneInfo

from core.model.errors import Refused, WrongInput
from core.model.incident_records import Incident
from core.model.job_records import Job, Payment, Pickup
from core.model.names import JobNumber, TapeCode
from core.model.own_shop.settings_records import ShopFront
from core.papers.handover.reminder import Waiting
from core.scheduling import opening_hours
from core.services import incidents, jobs, payments, pickups
from core.services.after_ready import telling
from core.services.paper_files import AGREEMENT, write
from core.store import current_settings, lookup, row_records
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

REFUND = "refund"
"""The kind of a payment that gives money back."""


def waiting(unit: Unit, number: JobNumber) -> tuple[Job, Waiting]:
    """What a reminder of an order says today; Refused while not all of it may be collected."""
    ready = telling.one(unit, number)
    row = lookup.job_row(unit, number)
    due = payments.price(unit, row).due.likely - ready.job.paid_minor
    today = opening_hours.today(current_settings.read(unit), unit.now)
    return ready.job, Waiting(today, ready.told_on, due, ready.storage_minor)


def unsaved(unit: Unit, number: JobNumber) -> tuple[Job, tuple[Incident, ...]]:
    """An order with what is written down of its tapes that were lost or damaged here."""
    row = lookup.job_row(unit, number)
    found = (incidents.of_row(unit, tape) for tape in row.tapes)
    return row_records.job(row), tuple(each for each in found if each is not None)


def last_refund(unit: Unit, number: JobNumber) -> tuple[Job, Payment]:
    """The order and what was given back of it last; Refused where nothing was."""
    job = jobs.get(unit, number)
    found = [each for each in job.payments if each.kind == REFUND]
    if not found:
        raise Refused(say("orders", "no_refund", number=job.number))
    return job, found[-1]


def refund_of(job: Job, minor: int) -> Payment:
    """The newest refund of so much, also where a command that was sent again gave it back before."""
    return [each for each in job.payments if each.kind == REFUND and each.minor == -minor][-1]


def last_pickup(unit: Unit, number: JobNumber) -> Pickup:
    """What was handed back last; Refused where nothing was."""
    pickup = pickups.latest(unit, number)
    if pickup is None:
        raise Refused(say("orders", "no_pickup", number=jobs.get(unit, number).number))
    return pickup


def with_tapes(job: Job, codes: Sequence[TapeCode]) -> Job:
    """The order with these of its tapes alone; all where none are named. WrongInput for one of another."""
    if not codes:
        return job
    known = {tape.code for tape in job.tapes}
    if strange := [code for code in codes if code not in known]:
        accepted = locale_figures.listed([locale_figures.tape_code(code) for code in sorted(known)[:3]], "or")
        raise WrongInput(say("orders", "tape"), strange[0], accepted)
    return replace(job, tapes=tuple(tape for tape in job.tapes if tape.code in set(codes)))


def write_job_sheet(job: Job, front: ShopFront, folder: Path) -> tuple[Path, ...]:
    """The job sheet for the bench."""
    from core.papers.bench import job_sheet

    return (write(folder, f"job-sheet-{job.number}", job_sheet.render(job, front)),)


def write_reminder(job: Job, found: Waiting, front: ShopFront, folder: Path) -> tuple[Path, ...]:
    """The reminder that an order is ready, of one day."""
    from core.papers.handover import reminder

    stem = f"reminder-{job.number}-{found.day:%Y%m%d}"
    return (write(folder, stem, reminder.render(job, found, front)),)


def write_unsaved(job: Job, found: Sequence[Incident], front: ShopFront, folder: Path) -> tuple[Path, ...]:
    """The statement of what could not be saved."""
    from core.papers.handover import not_saved

    return (write(folder, f"not-saved-{job.number}", not_saved.render(job, found, front)),)


def write_refund(
    job: Job, payment: Payment, because: str, front: ShopFront, folder: Path
) -> tuple[Path, ...]:
    """The slip of one refund."""
    from core.papers.handover import refund_slip

    at = payment.at.astimezone(ZoneInfo(front.timezone))
    stem = f"refund-{job.number}-{at:%Y%m%d-%H%M%S}"
    return (write(folder, stem, refund_slip.render(job, payment, because, front)),)


def write_receipt(pickup: Pickup, front: ShopFront, folder: Path, *, on_roll: bool) -> tuple[Path, ...]:
    """The receipt of a pickup on the shop's sheet, or on its roll."""
    from core.papers.handover import receipt, roll_receipt

    at = pickup.at.astimezone(ZoneInfo(front.timezone))
    stem = f"receipt-{pickup.job.number}-{at:%Y%m%d-%H%M%S}"
    if on_roll:
        return (write(folder, f"{stem}-roll", roll_receipt.render(pickup, front)),)
    return (write(folder, stem, receipt.render(pickup, front)),)


def write_slip(
    job: Job, front: ShopFront, folder: Path, *, on_roll: bool, with_agreement: bool
) -> tuple[Path, ...]:
    """The claim slip on the shop's sheet, or on its roll; with the agreement on it where both fit on a page.

    Where they do not, the agreement is a paper of its own.
    """
    from core.papers.booking import claim_slip, drop_off_agreement, roll_slip, signed_slip

    if on_roll:
        return (write(folder, f"claim-slip-{job.number}-roll", roll_slip.render(job, front)),)
    both = signed_slip.render(job, front) if with_agreement else None
    if both is not None:
        return (write(folder, f"claim-slip-{job.number}-signed", both),)
    made = write(folder, f"claim-slip-{job.number}", claim_slip.render(job, front))
    if not with_agreement:
        return (made,)
    return made, write(folder, f"{AGREEMENT}-{job.number}", drop_off_agreement.render(job, front))


def write_labels(
    job: Job,
    front: ShopFront,
    folder: Path,
    *,
    start_at: int | None,
    only_marks: bool,
    one_by_one: bool,
) -> tuple[Path, ...]:
    """Labels of the tapes of ``job``; ``one_by_one``: each on a page of its own, for label printers."""
    from core.papers.stickers import labels

    if one_by_one:
        front = replace(front, printing=replace(front.printing, label_stock="single"))
    made = labels.render(job, front, only_marks, start_at=start_at)
    return (write(folder, f"{'marks' if only_marks else 'labels'}-{job.number}", made),)
