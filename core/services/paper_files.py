"""Finished papers as files: never half written, never over another paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from itertools import count
from pathlib import Path
from zoneinfo import ZoneInfo

from core.capture.file_report import CapturedFile
from core.model import private_files
from core.model.agreement_records import AgreementVersion
from core.model.incident_records import Incident
from core.model.job_records import Job, Pickup
from core.model.own_shop.kept_entry import KeptEntry
from core.model.own_shop.settings_records import ShopFront
from core.model.quote_records import Quote, QuotedTape
from core.model.tape_records import TapeRecord
from core.pricing.agreement_differences import AgreementDifference
from core.store.shop_files import durable_files

BOOKING_PAPERS = ("quote", "claim_slip", "labels")
"""The papers of an order, as the settings call them."""
AGREEMENT = "agreement"
"""How the file of the drop-off agreement begins; it is signed with the claim slip."""


def prepare(folder: Path) -> Path:
    """``folder``, made when it is missing and found writable before anything is stored (else OSError)."""
    durable_files.make_folders(folder)
    return private_files.try_folder(folder)


def of_booking(job: Job, front: ShopFront, folder: Path, *, detail: bool = False) -> tuple[Path, ...]:
    """Quote, claim slip and labels of ``job``, those the shop prints, written into ``folder``.

    With the claim slip comes the drop-off agreement, to be signed; a copy stays in the folder. ``detail``:
    the quote says how its price adds up.
    """
    kinds = [kind for kind in BOOKING_PAPERS if getattr(front.printing, kind) != "no"]
    papers = [one_of_booking(kind, job, front, folder, detail=detail) for kind in kinds]
    if "claim_slip" in kinds:
        papers.append(_agreement(job, front, folder))
    return tuple(papers)


def _agreement(job: Job, front: ShopFront, folder: Path) -> Path:
    from core.papers.booking import drop_off_agreement

    return write(folder, f"{AGREEMENT}-{job.number}", drop_off_agreement.render(job, front))


def of_first_version(job: Job, first: AgreementVersion, front: ShopFront, folder: Path) -> tuple[Path, ...]:
    """The drop-off agreement again, as it was signed: nothing in it that was found or changed since."""
    quoted = dict(zip(first.codes, first.quote.tapes, strict=True))
    tapes = [_as_quoted(tape, quoted[tape.code]) for tape in job.tapes if tape.code in quoted]
    signed = replace(job, quote=first.quote, promise=first.promise, tapes=tuple(tapes))
    return (_agreement(replace(signed, agreed_ceiling_minor=first.ceiling_minor), front, folder),)


def _as_quoted(tape: TapeRecord, quoted: QuotedTape) -> TapeRecord:
    line = replace(quoted.draft, count=1)
    return replace(tape, draft=line, marking=line.marking, label=line.label, verdict=quoted.verdict)


def one_of_booking(kind: str, job: Job, front: ShopFront, folder: Path, *, detail: bool = False) -> Path:
    """One of `BOOKING_PAPERS`, written into ``folder``; ``detail``: of the quote, as in `of_booking`."""
    from core.papers.booking import quote_paper
    from core.papers.stickers import labels

    if kind == "quote":
        made = quote_paper.render(job.quote, front, detail=detail)
    else:
        made = slip(job, front) if kind == "claim_slip" else labels.render(job, front)
    return write(folder, f"{stem_of(kind)}-{job.number}", made)


def of_quote(quote: Quote, front: ShopFront, folder: Path, *, detail: bool) -> tuple[Path, ...]:
    """The quote of a box that is not booked, written into ``folder``."""
    from core.papers.booking import quote_paper

    at = quote.made_at.astimezone(ZoneInfo(front.timezone))
    made = quote_paper.render(quote, front, detail=detail)
    return (write(folder, f"quote-{at:%Y%m%d-%H%M%S}", made),)


def slip(job: Job, front: ShopFront) -> bytes:
    """The claim slip on what the shop prints it on."""
    from core.papers.booking import claim_slip, roll_slip

    is_roll = front.printing.claim_slip_on == "roll"
    return roll_slip.render(job, front) if is_roll else claim_slip.render(job, front)


def stem_of(kind: str) -> str:
    """How the files of one of `BOOKING_PAPERS` begin: ``claim-slip``."""
    return kind.replace("_", "-")


def of_pickup(pickup: Pickup, front: ShopFront, folder: Path) -> tuple[Path, ...]:
    """The signed receipt, written into ``folder``."""
    from core.papers.handover import receipt

    at = pickup.at.astimezone(ZoneInfo(front.timezone))
    stem = f"receipt-{pickup.job.number}-{at:%Y%m%d-%H%M%S}"
    return (write(folder, stem, receipt.render(pickup, front)),)


def of_change(
    job: Job,
    version: AgreementVersion,
    differences: tuple[AgreementDifference, ...],
    front: ShopFront,
    folder: Path,
) -> tuple[Path, ...]:
    """What a version of the agreement changed, written into ``folder``."""
    from core.papers.booking import what_has_changed

    made = what_has_changed.render(job, version, differences, front)
    return (write(folder, f"changed-{job.number}-{version.number}", made),)


def of_newest(
    job: Job,
    versions: Sequence[tuple[AgreementVersion, tuple[AgreementDifference, ...]]],
    front: ShopFront,
    folder: Path,
) -> tuple[Path, ...]:
    """What the newest version changed; the drop-off agreement where nothing was changed since."""
    version, changed = versions[-1]
    if version.number == 1:
        return of_first_version(job, version, front, folder)
    return of_change(job, version, changed, front, folder)


def of_files(job: Job, files: Sequence[CapturedFile], front: ShopFront, folder: Path) -> tuple[Path, ...]:
    """The delivery list of a job's files, written into ``folder``."""
    from core.papers.handover import delivery_list

    return (write(folder, f"files-{job.number}", delivery_list.render(job, files, front)),)


def of_incident(job: Job, incident: Incident, front: ShopFront, folder: Path) -> tuple[Path, ...]:
    """The report about a tape lost or damaged, written into ``folder``."""
    from core.papers import incident_report

    made = incident_report.render(job, incident, front)
    return (write(folder, f"incident-{incident.tape}", made),)


def of_kept(entries: Sequence[KeptEntry], front: ShopFront, day: date, folder: Path) -> tuple[Path, ...]:
    """The page on what is kept of customers, written into ``folder``."""
    from core.papers import privacy_page

    lines = [(each.what, each.why, each.how_long) for each in entries]
    return (write(folder, f"data-kept-{day.isoformat()}", privacy_page.render(lines, front, day)),)


def write(folder: Path, stem: str, data: bytes) -> Path:
    """``data`` as ``stem.pdf`` in ``folder``; a different paper of that name is kept and ours numbered."""
    path = _free(folder, stem, data)
    durable_files.write(path, data)
    return path


def _free(folder: Path, stem: str, data: bytes) -> Path:
    for number in count(1):
        path = folder / (f"{stem}.pdf" if number == 1 else f"{stem}-{number}.pdf")
        if not path.exists() or (path.is_file() and path.read_bytes() == data):
            return path
    raise AssertionError("counting does not end")
