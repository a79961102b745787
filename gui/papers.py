"""Errands for the paper thread: a receipt, or the mark of one tape, written to the folder of papers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

from core import paper_files
from core.errors import Unavailable
from core.records import Job, Pickup, ShopFront, TapeRecord
from gui.text import say


def writing_receipt(pickup: Pickup, front: ShopFront, folder: Path) -> Callable[[], Path]:
    """Answers with the receipt's file, or raises Unavailable."""
    return partial(_write_receipt, pickup, front, folder)


def writing_mark(job: Job, tape: TapeRecord, front: ShopFront, folder: Path) -> Callable[[], Path]:
    """Answers with the file of one not-for-reuse mark, or raises Unavailable."""
    return partial(_write_mark, replace(job, tapes=(tape,)), tape, front, folder)


def _write_receipt(pickup: Pickup, front: ShopFront, folder: Path) -> Path:
    from core.documents import receipt  # the paper library is imported where paper is made

    stem = f"receipt-{pickup.job.number}"
    return _write(folder, stem, receipt.render(pickup, front), "no_receipt_written")


def _write_mark(job: Job, tape: TapeRecord, front: ShopFront, folder: Path) -> Path:
    from core.documents import labels  # as above

    return _write(folder, f"mark-{tape.code}", labels.render(job, front, only_marks=True), "no_paper")


def _write(folder: Path, stem: str, paper: bytes, sentence: str) -> Path:
    try:
        return paper_files.write(paper_files.prepare(folder), stem, paper)
    except OSError as error:
        why = error.strerror or str(error)
        raise Unavailable(say("pickup", sentence, folder=folder, why=why)) from error
