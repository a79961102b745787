"""What the paper thread writes to the folder of papers: a receipt, a list of files, the label of one tape."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path

from core.capture.file_report import CapturedFile
from core.model.agreement_records import AgreementVersion
from core.model.errors import Unavailable
from core.model.incident_records import Incident
from core.model.job_records import Job, Pickup
from core.model.own_shop.kept_entry import KeptEntry
from core.model.own_shop.settings_records import ShopFront
from core.model.tape_records import TapeRecord
from core.pricing.agreement_differences import AgreementDifference
from core.services import paper_files
from gui.toolkit.text import say


def writing_receipt(pickup: Pickup, front: ShopFront, folder: Path) -> Callable[[], Path]:
    """Answers with the receipt's file, or raises Unavailable."""
    return partial(_or_unavailable, partial(_receipt, pickup, front, folder), folder, "no_receipt_written")


def writing_quote(job: Job, front: ShopFront, folder: Path) -> Callable[[], Path]:
    """Answers with the file of the quote of a booked job, or raises Unavailable."""
    return partial(_or_unavailable, partial(_quote, job, front, folder), folder, "no_paper")


def writing_label(job: Job, tape: TapeRecord, front: ShopFront, folder: Path) -> Callable[[], Path]:
    """Answers with the file of one not-for-reuse label, or raises Unavailable."""
    alone = replace(job, tapes=(tape,))
    return partial(_or_unavailable, partial(_label, alone, front, folder), folder, "no_paper")


def writing_files(
    job: Job, files: Sequence[CapturedFile], front: ShopFront, folder: Path
) -> Callable[[], Path]:
    """Answers with the delivery list of a job's files, or raises Unavailable."""
    return partial(_or_unavailable, partial(_files, job, files, front, folder), folder, "no_files_written")


def writing_agreement(
    job: Job,
    versions: Sequence[tuple[AgreementVersion, tuple[AgreementDifference, ...]]],
    front: ShopFront,
    folder: Path,
) -> Callable[[], Path]:
    """Answers with the file of what is agreed now, or raises Unavailable."""
    return partial(_or_unavailable, partial(_agreement, job, versions, front, folder), folder, "no_paper")


def _agreement(
    job: Job,
    versions: Sequence[tuple[AgreementVersion, tuple[AgreementDifference, ...]]],
    front: ShopFront,
    folder: Path,
) -> Path:
    (path,) = paper_files.of_newest(job, versions, front, paper_files.prepare(folder))
    return path


def writing_incident(job: Job, incident: Incident, front: ShopFront, folder: Path) -> Callable[[], Path]:
    """Answers with the file of the report about a tape lost or damaged, or raises Unavailable."""
    return partial(_or_unavailable, partial(_incident, job, incident, front, folder), folder, "no_paper")


def _incident(job: Job, incident: Incident, front: ShopFront, folder: Path) -> Path:
    (path,) = paper_files.of_incident(job, incident, front, paper_files.prepare(folder))
    return path


def writing_kept(
    entries: Sequence[KeptEntry], front: ShopFront, day: date, folder: Path
) -> Callable[[], Path]:
    """Answers with the file of the page on what is kept of customers, or raises Unavailable."""
    return partial(_or_unavailable, partial(_kept, entries, front, day, folder), folder, "no_paper")


def _kept(entries: Sequence[KeptEntry], front: ShopFront, day: date, folder: Path) -> Path:
    (path,) = paper_files.of_kept(entries, front, day, paper_files.prepare(folder))
    return path


def writing(write: Callable[[], Path], folder: Path) -> Callable[[], Path]:
    """Answers with the file that ``write`` makes in a folder that is there, or raises Unavailable."""
    return partial(_or_unavailable, write, folder, "no_paper")


def writing_label_test(front: ShopFront, folder: Path) -> Callable[[], Path]:
    """Answers with the file of a test print of the shop's labels, or raises Unavailable."""
    return partial(_or_unavailable, partial(_label_test, front, folder), folder, "no_paper")


def writing_roll_test(front: ShopFront, folder: Path) -> Callable[[], Path]:
    """Answers with the file of a test print of the shop's roll paper, or raises Unavailable."""
    return partial(_or_unavailable, partial(_roll_test, front, folder), folder, "no_paper")


def _roll_test(front: ShopFront, folder: Path) -> Path:
    from core.papers.booking import roll_slip

    return paper_files.write(paper_files.prepare(folder), "roll-test", roll_slip.render_test(front))


def _label_test(front: ShopFront, folder: Path) -> Path:
    from core.papers.stickers import label_test  # the paper library is imported where paper is made

    return paper_files.write(paper_files.prepare(folder), "label-test", label_test.render(front))


def _quote(job: Job, front: ShopFront, folder: Path) -> Path:
    return paper_files.one_of_booking("quote", job, front, paper_files.prepare(folder))


def _files(job: Job, files: Sequence[CapturedFile], front: ShopFront, folder: Path) -> Path:
    (path,) = paper_files.of_files(job, files, front, paper_files.prepare(folder))
    return path


def _receipt(pickup: Pickup, front: ShopFront, folder: Path) -> Path:
    (path,) = paper_files.of_pickup(pickup, front, paper_files.prepare(folder))
    return path


def _label(job: Job, front: ShopFront, folder: Path) -> Path:
    from core.papers.stickers import labels  # the paper library is imported where paper is made

    sheet = labels.render(job, front, only_marks=True)
    return paper_files.write(paper_files.prepare(folder), f"mark-{job.tapes[0].code}", sheet)


def _or_unavailable(write: Callable[[], Path], folder: Path, sentence: str) -> Path:
    try:
        return write()
    except OSError as error:
        why = error.strerror or str(error)
        raise Unavailable(say("pickup", sentence, folder=folder, why=why)) from error
