"""Copies as the JSON that the command line prints; the names are fixed, other programs read them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from core.cli import json_quotes
from core.cli.json_quotes import Json
from core.model.copies import copy_standing
from core.model.copies.copy_questions import CopyMisfit, CopyQuestion, OfferedCopy
from core.model.copies.copy_records import CopiedFile, CopyRecord, CopyStep
from core.model.job_records import Job
from core.pricing import copy_fit

if TYPE_CHECKING:
    from core.services.copies.downloads import Download


def of_job(job: Job) -> Json:
    """``copies NUMBER`` and every step of a copy: each copy with how far it is."""
    return {
        "number": job.number,
        "being_written": copy_standing.are_being_written(job),
        "copies": [copy(job, each) for each in job.copies],
        "misfits": [misfit(each) for each in copy_fit.misfits(job)],
    }


def copy(job: Job, each: CopyRecord) -> dict[str, object]:
    """One copy: what is on it, what is missing, who made and checked it."""
    drive, link = each.drive, each.download
    return {
        "copy": each.id,
        "code": each.code,
        "words": each.words,
        "pieces": each.pieces,
        "state": each.state.value,
        "tapes": list(each.contents.tapes),
        "files": [file(one) for one in each.contents.files],
        "lacks": list(copy_standing.lacks(job, each)) if each.is_followed else [],
        "made": _step(each.made),
        "checked": _step(each.checked),
        "handed_over_at": json_quotes.time(each.handed_back_at) if each.handed_back_at else None,
        "drive": None
        if drive is None
        else {
            "size_bytes": drive.size_bytes,
            "file_system": drive.file_system.value,
            "splits": drive.splits,
        },
        "download": None if link is None else {"link": link.link, "until": json_quotes.day(link.until)},
        "deleted": _step(each.deleted),
        "rest_of": each.follows,
    }


def file(each: CopiedFile) -> dict[str, object]:
    """One file on a copy."""
    return {
        "name": each.name,
        "size_bytes": each.size_bytes,
        "sha256": each.sha256,
        "tape": each.tape,
    }


def misfit(each: CopyMisfit) -> dict[str, object]:
    """A copy that cannot be made as ordered."""
    return {
        "copy": each.item,
        "reason": each.reason.value,
        "needs": json_quotes.rounded(each.needs),
        "holds": json_quotes.rounded(each.holds),
        "tape": each.longest,
        "sentence": copy_fit.sentence(each),
    }


def question(asked: CopyQuestion) -> Json:
    """``copy-choice`` without a choice: what to ask, and what may be said."""
    return {
        "number": asked.job.number,
        "misfit": misfit(asked.misfit),
        "currency": asked.standing.currency,
        "choices": [_choice(each) for each in asked.choices],
    }


def downloads(found: Iterable[Download]) -> Json:
    """``downloads``: those that are still there, the earliest last day first."""
    return {
        "downloads": [
            {
                "number": each.job.number,
                "copy": each.copy.id,
                "customer": each.job.customer.name,
                "link": each.link.link,
                "until": json_quotes.day(each.link.until),
                "due": each.is_due,
            }
            for each in found
        ]
    }


def _choice(each: OfferedCopy) -> dict[str, object]:
    return {
        "choice": each.choice.value,
        "words": each.becomes.words,
        "pieces": each.becomes.pieces,
        "price_minor": each.price_minor,
        "more_minor": each.more_minor,
        "ceiling_minor": each.ceiling_minor,
        "date": json_quotes.day(each.day),
    }


def _step(step: CopyStep | None) -> dict[str, object] | None:
    return None if step is None else {"at": json_quotes.time(step.at), "by": step.by}
