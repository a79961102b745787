"""Papers say what is on each copy: tapes, files with their checksums, and by whom it was made and checked."""

from __future__ import annotations

from dataclasses import replace

from core.model.copies.copy_records import (
    CopiedFile,
    CopyContents,
    CopyRecord,
    CopyStep,
    CopyStepKind,
)
from core.model.dispositions import Disposition
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.papers.handover import delivery_list, receipt
from tests.support import invented_job as records
from tests.support import pdf

FILE = CopiedFile("the beach.mp4", 4_000_000_000, "ab" * 32)


def _copied(on_it: int) -> tuple[Job, CopyRecord]:
    """An order of two copied tapes, and its stick with the first so many on it."""
    job = records.job(2)
    named = zip(job.tapes, ("the beach", "the lake"), strict=True)
    tapes = tuple(replace(tape, disposition=Disposition.COPIED, label=name) for tape, name in named)
    contents = CopyContents(tuple(tape.code for tape in tapes[:on_it]), (FILE,))
    at = records.PICKED_UP_AT
    steps = (
        CopyStep(CopyStepKind.MADE, at, "Sam", contents),
        CopyStep(CopyStepKind.CHECKED, at, "Robin"),
    )
    usb = Delivery("files", "h264", "usb")
    copy = CopyRecord(1, "usb-16", "USB stick, 16 GB: H.264 files", at, 1, usb, steps)
    return replace(job, tapes=tapes, copies=(copy,)), copy


def _receipt(on_it: int) -> str:
    job, copy = _copied(on_it)
    handed = replace(records.pickup(2), job=job, handed_back=job.tapes, still_here=(), copies=(copy,))
    return pdf.words(receipt.render(handed, records.FRONT))


def test_the_receipt_names_files_checksums_and_who_made_and_checked_it() -> None:
    said = _receipt(2)
    assert "1 × USB stick, 16 GB: H.264 files" in said
    assert "On it: the beach and the lake." in said
    assert "Not on it" not in said
    assert "Made by Sam on" in said
    assert "checked by Robin on" in said
    assert "the beach.mp4, 4,000,000,000 bytes" in said
    assert FILE.sha256 in said


def test_a_copy_with_some_of_the_tapes_says_which_are_not_on_it() -> None:
    assert "On it: the beach. Not on it: the lake." in _receipt(1)


def test_the_delivery_list_tells_what_is_on_each_copy_and_repeats_no_file() -> None:
    job, _ = _copied(2)
    listed = records.captured()[0]
    same = replace(listed, report=replace(listed.report, sha256=FILE.sha256))
    said = pdf.words(delivery_list.render(job, [same], records.FRONT))
    assert "What is on each copy" in said
    assert "The file is on the list above." in said
    assert FILE.sha256 not in said
    assert FILE.sha256 in pdf.words(delivery_list.render(job, records.captured(), records.FRONT))
