"""Records as the JSON that the command line prints; the names are fixed, other programs read them.

Minutes, metres and gigabytes are floats, money is integer minor units, dates and times are ISO 8601.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from core.model.incident_records import Incident, OpenIncident
from core.model.job_records import CallerMatch, Job, Pickup
from core.model.ranges import exactly
from core.model.repair_records import RepairAttempt, Splice
from core.model.spoken_names import spoken
from core.model.tape_records import JournalEntry, TapeRecord
from core.playtime import cuts, habit_words, tape_doubts

if TYPE_CHECKING:
    from core.playtime.evidence import Evidence
    from core.playtime.habits import NoticedChange
    from core.promise.backlogs import Backlog
    from core.scheduling.worktime.work_evidence import WorkEvidence
    from core.services.donors import DonorPlace
    from core.services.promises import Kept
from core.cli import json_copies, json_quotes
from core.cli.json_quotes import Json
from core.papers import tape_words
from core.wording.messages import say


def book(job: Job, papers: Sequence[Path]) -> Json:
    """``book``: the numbers allotted, the papers written, and the quote that was agreed."""
    return {
        "number": job.number,
        "tapes": [{"code": tape.code, "line": tape.line, "n": tape.n} for tape in job.tapes],
        "papers": [str(paper) for paper in papers],
        "customer": _customer(job),
        "booked_at": json_quotes.time(job.booked_at),
        "paid_minor": job.paid_minor,
        "quote": json_quotes.quote(job.quote),
    }


def status(found: Iterable[CallerMatch]) -> Json:
    """``status``: the jobs that match, each with the answer to say."""
    return {
        "jobs": [
            {
                "number": one.job.number,
                "spoken": one.spoken,
                "matched": say("names", f"matched-{one.matched}", language="en"),
                "customer": _customer(one.job),
                "promise": json_quotes.promise(one.job.promise),
                "tapes": [tape(record) for record in one.job.tapes],
                "last_call": json_quotes.time(one.last_call.at) if one.last_call else None,
            }
            for one in found
        ]
    }


def tape(record: TapeRecord) -> dict[str, object]:
    """One cassette in the shop's care."""
    return {
        "code": record.code,
        "line": record.line,
        "n": record.n,
        "format": record.format,
        "marking": record.marking,
        "label": record.label,
        "station": record.station.value,
        "disposition": None if record.disposition is None else record.disposition.value,
        "note_for_customer": record.told_note or None,
        "since": json_quotes.time(record.since),
        "findings": [finding.value for finding in record.findings],
        "findings_words": [spoken(finding) for finding in record.findings],
        "outcome": record.verdict.outcome.value,
        "minutes": json_quotes.span(record.minutes),
        "played_minutes": record.played_minutes,
        "splices": [_splice(record, each) for each in record.splices],
        "struck": [
            {
                **_splice(record, each.splice),
                "struck_at": json_quotes.time(each.at),
                "struck_by": each.by,
                "because": each.because,
            }
            for each in record.struck
        ],
        "tried": [_tried(each) for each in record.tried],
        "look_due": record.look_due,
        "label_to_come_off": record.label_astray,
        "rests_until": None if record.rests_until is None else json_quotes.time(record.rests_until),
        "not_for_reuse": record.not_for_reuse,
        "marked_at": None if record.marked_at is None else json_quotes.time(record.marked_at),
        "left_out_in": record.left_out_in,
        "doubts": list(tape_doubts.of_tape(record)),
        "signed_off_by": record.signed_off_by,
    }


def _splice(record: TapeRecord, splice: Splice) -> dict[str, object]:
    is_known = splice.in_leader or cuts.is_disturbed_known(record.draft)
    return {
        "at_minutes": json_quotes.rounded(splice.at_minutes),
        "at_metres": None if splice.at_metres is None else json_quotes.rounded(splice.at_metres),
        "measured": splice.measured.value,
        "reckoned": None if splice.reckoned is None else json_quotes.span(splice.reckoned),
        "in": None if splice.section is None else splice.section.value,
        "cut_cm": splice.cut_cm,
        "joined_with": splice.joined_with.value,
        "seconds_removed": json_quotes.rounded(splice.seconds_removed),
        "seconds_disturbed": json_quotes.rounded(splice.seconds_disturbed) if is_known else None,
        "removed": json_quotes.span(splice.removed or exactly(splice.seconds_removed)),
        "disturbed": json_quotes.span(splice.disturbed or exactly(splice.seconds_disturbed))
        if is_known
        else None,
        "redone": splice.redone,
        "by": splice.by,
        "at": json_quotes.time(splice.at),
    }


def _tried(tried: RepairAttempt) -> Json:
    return {
        "repair": tried.code,
        "words": tried.words,
        "succeeded": tried.succeeded,
        "part": None if tried.part is None else tried.part.value,
        "came_from": tried.came_from,
        "note": tried.note,
        "by": tried.by,
        "at": json_quotes.time(tried.at),
    }


def donors(places: Iterable[DonorPlace]) -> Json:
    """``donors``: parts on the shelf and the tapes that others of the same lot went into."""
    return {
        "donors": [
            {
                "format": place.donor.format,
                "part": place.donor.part.value,
                "came_from": place.donor.came_from,
                "count": place.donor.count,
                "used_for": [used.tape for used in place.used],
            }
            for place in places
        ]
    }


def history(happenings: Iterable[JournalEntry]) -> Json:
    """``history``: what happened to one tape, oldest first."""
    return {
        "history": [{"at": json_quotes.time(one.at), "by": one.by, "words": one.words} for one in happenings]
    }


def pickup(handed: Pickup, receipt: Path | None) -> Json:
    """``pickup``: what went back, what stays, and the receipt."""
    return {
        "number": handed.job.number,
        "handed_back": [record.code for record in handed.returned],
        "not_returned": [record.code for record in handed.not_returned],
        "still_here": [record.code for record in handed.still_here],
        "copies": [copy.words for copy in handed.copies for _ in range(copy.pieces)],
        "handed_over": [json_copies.copy(handed.job, copy) for copy in handed.copies],
        "receipt": None if receipt is None else str(receipt),
        "at": json_quotes.time(handed.at),
        "signed_by": handed.signature.name,
        "named_beforehand": handed.named.words if handed.named else None,
        "shown": handed.shown or None,
        "paid_minor": handed.paid_minor,
        "due_minor": handed.due_minor,
        "gross_minor": handed.final.gross.likely,
        "rounding_minor": handed.final.rounding.likely,
        "tax_exempt": handed.final.exempt or None,
        "currency": handed.final.currency,
    }


def _backlog(backlog: Backlog) -> Json:
    return {
        "short_of": backlog.by,
        "coming_hours_a_week": json_quotes.rounded(backlog.coming),
        "going_hours_a_week": json_quotes.rounded(backlog.going),
        "chance": json_quotes.rounded(backlog.chance),
        "weeks": backlog.weeks,
        "decks": backlog.decks or None,
        "sentence": backlog.sentence,
    }


def promises(kept: Iterable[Kept], backlog: Backlog | None = None) -> Json:
    """``promises``: open jobs, the most endangered first; dates may be null, and chances of those that only
    wait for their owners are. ``backlog``: null where the shop plays what comes in."""
    return {
        "backlog": None if backlog is None else _backlog(backlog),
        "promises": [
            {
                "number": one.job.number,
                "customer": _customer(one.job),
                "date": json_quotes.day(one.promise.day),
                "stated": json_quotes.rounded(one.promise.stated),
                "chance": None if one.chance is None else json_quotes.rounded(one.chance),
                "at_risk": one.is_at_risk,
                "waits_for_owner": one.is_done,
                "held_by": list(one.held_by),
                "changes": list(one.changes),
                "now": None if one.now is None else json_quotes.promise(one.now),
            }
            for one in kept
        ],
    }


def incident(found: Incident, papers: Sequence[Path], altered: Sequence[str]) -> Json:
    """``incident``: every line about a tape lost or damaged, whether it is open, photos no longer as kept."""
    return {
        "code": found.tape,
        "open": found.is_open,
        "lines": [
            {
                "kind": line.kind.value,
                "words": line.words,
                "when": None if line.moment is None else json_quotes.time(line.moment),
                "photo": line.photo,
                "sha256": line.sha256,
                "at": json_quotes.time(line.at),
                "by": line.by,
            }
            for line in found.lines
        ],
        "photos_altered": list(altered),
        "papers": [str(paper) for paper in papers],
    }


def open_incidents(found: Iterable[OpenIncident]) -> Json:
    """``incidents``: tapes lost or damaged and not settled with their owners yet, with what is next."""
    return {
        "incidents": [
            {
                "code": each.incident.tape,
                "number": each.number,
                "tape": tape_words.full_name(each.tape),
                "customer": {"name": each.customer, "phone": each.phone},
                "kind": each.incident.opening.kind.value,
                "words": each.incident.opening.words,
                "happened": json_quotes.time(each.happened),
                "told": each.incident.told is not None,
                "next": each.next.value,
            }
            for each in found
        ]
    }


def habits(found: Iterable[Evidence], change: NoticedChange | None = None) -> Json:
    """``habits``: what the shop has learned of its customers' tapes, and the newest change in them."""
    told = None if change is None else {"tapes": change.tapes, "sentence": habit_words.changed(change)}
    return {
        "change": told,
        "habits": [
            {
                "kind": one.group[0],
                "whose": one.whose,
                "about": one.about,
                "tapes": one.tapes,
                "at_first": {words: json_quotes.rounded(share) for words, share in one.at_first},
                "seen": {words: json_quotes.rounded(tapes) for words, tapes in one.seen},
                "now": {words: json_quotes.rounded(share) for words, share in one.now},
                "sentence": one.sentence,
            }
            for one in found
        ],
    }


def work(found: Iterable[WorkEvidence]) -> Json:
    """``habits``: what the history has shown of the shop's work."""
    return {
        "work": [
            {
                "kind": one.kind,
                "about": one.about,
                "at_first": json_quotes.rounded(one.at_first),
                "now": json_quotes.rounded(one.now),
                "seen": json_quotes.rounded(one.seen),
                "told": json_quotes.rounded(one.told),
                "lines": list(one.lines),
            }
            for one in found
        ]
    }


def _customer(job: Job) -> Json:
    return {"name": job.customer.name, "phone": job.customer.phone, "email": job.customer.email}
