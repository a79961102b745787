"""Records as the JSON that the command line prints; the names are fixed, other programs read them.

Minutes, metres and gigabytes are floats, money is integer minor units, dates and times are ISO 8601.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from core.model.inventory import TapeLine
from core.model.job_records import CallerMatch, Job
from core.model.money import MoneyRange
from core.model.pickup_records import Pickup
from core.model.promise_records import Promise, PromiseBasis
from core.model.quote_records import Charge, Price, Question, Quote, QuotedTape, Storage
from core.model.ranges import Range, exactly
from core.model.repair_records import RepairAttempt, Splice
from core.model.tape_records import JournalEntry, TapeRecord
from core.playtime import pack_reading
from core.playtime.beliefs import Belief
from core.playtime.cuts import Cut
from core.playtime.pack_reading import PackReading
from core.playtime.packs import Pack

if TYPE_CHECKING:
    from core.playtime.evidence import Evidence
    from core.services.donors import DonorPlace
    from core.services.promises import Kept

Json = Mapping[str, object]
_DECIMALS = 6
"""Enough for a micrometre in metres and a frame in minutes; keeps 0.1 + 0.2 out of sight."""


def playtime(belief: Belief) -> Json:
    """``playtime``: what is believed about one cassette."""
    return {
        "minutes": span(belief.range),
        "full_minutes": _number_or_span(belief.full),
        "metres": _number_or_span(belief.metres),
        "speed_mm_s": _number_or_span(belief.speed_mm_s),
        "sources": list(belief.sources),
    }


def cut(lost: Cut) -> Json:
    """``cut``: what a cut takes away."""
    return {
        "seconds_removed": _rounded(lost.seconds_removed),
        "seconds_disturbed": _rounded(lost.seconds_disturbed),
        "removed": span(lost.removed),
        "disturbed": span(lost.disturbed),
        "sources": list(lost.sources),
    }


def pack(reel: Pack) -> Json:
    """``pack``: what lies on one reel."""
    return {
        "metres": _rounded(reel.metres),
        "minutes": _number_or_span(reel.minutes),
        "sources": list(reel.sources),
    }


def both_packs(found: PackReading) -> Json:
    """``pack`` with both radii: what is to come, what has run, and whether the marking can be right."""
    reels = {"supply": found.to_come, "take_up": found.run}
    return {
        **{
            name: {"metres": span(reel.metres), "minutes": span(reel.minutes)} for name, reel in reels.items()
        },
        "share_run": span(found.share_run),
        "agrees": None if found.fit is None else found.fit.agrees,
        "sentence": pack_reading.fit_words(found),
        "reading_sources": list(found.sources),
    }


def quote(quoted: Quote) -> dict[str, object]:
    """``quote``: tapes, charges, storage and promise."""
    return {
        "currency": quoted.price.currency,
        "book": quoted.book,
        "made_at": _time(quoted.made_at),
        "valid_until": quoted.valid_until.isoformat(),
        "tapes": [_quoted_tape(tape) for tape in quoted.tapes],
        "capture_hours": span(quoted.capture_hours),
        **_price(quoted.price),
        "storage": _storage(quoted.storage),
        "promise": promise(quoted.promise),
        "questions": [_question(question) for question in quoted.questions],
        "warnings": list(quoted.warnings),
    }


def book(job: Job, papers: Sequence[Path]) -> Json:
    """``book``: the numbers allotted, the papers written, and the quote that was agreed."""
    return {
        "number": job.number,
        "tapes": [{"code": tape.code, "line": tape.line, "n": tape.n} for tape in job.tapes],
        "papers": [str(paper) for paper in papers],
        "customer": _customer(job),
        "booked_at": _time(job.booked_at),
        "paid_minor": job.paid_minor,
        "quote": quote(job.quote),
    }


def status(found: Iterable[CallerMatch]) -> Json:
    """``status``: the jobs that match, each with the answer to say."""
    return {
        "jobs": [
            {
                "number": one.job.number,
                "spoken": one.spoken,
                "matched": one.matched,
                "customer": _customer(one.job),
                "promise": promise(one.job.promise),
                "tapes": [tape(record) for record in one.job.tapes],
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
        "since": _time(record.since),
        "findings": [finding.value for finding in record.findings],
        "outcome": record.verdict.outcome.value,
        "minutes": span(record.minutes),
        "played_minutes": record.played_minutes,
        "splices": [_splice(each) for each in record.splices],
        "struck": [
            {
                **_splice(each.splice),
                "struck_at": _time(each.at),
                "struck_by": each.by,
                "because": each.because,
            }
            for each in record.struck
        ],
        "tried": [_tried(each) for each in record.tried],
        "look_due": record.look_due,
        "label_to_come_off": record.label_astray,
        "rests_until": None if record.rests_until is None else _time(record.rests_until),
        "not_for_reuse": record.not_for_reuse,
        "marked_at": None if record.marked_at is None else _time(record.marked_at),
    }


def _splice(splice: Splice) -> dict[str, object]:
    return {
        "at_minutes": _rounded(splice.at_minutes),
        "at_metres": None if splice.at_metres is None else _rounded(splice.at_metres),
        "measured": splice.measured.value,
        "reckoned": None if splice.reckoned is None else span(splice.reckoned),
        "in": None if splice.section is None else splice.section.value,
        "cut_cm": splice.cut_cm,
        "joined_with": splice.joined_with.value,
        "seconds_removed": _rounded(splice.seconds_removed),
        "seconds_disturbed": _rounded(splice.seconds_disturbed),
        "removed": span(splice.removed or exactly(splice.seconds_removed)),
        "disturbed": span(splice.disturbed or exactly(splice.seconds_disturbed)),
        "by": splice.by,
        "at": _time(splice.at),
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
        "at": _time(tried.at),
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
    return {"history": [{"at": _time(one.at), "by": one.by, "words": one.words} for one in happenings]}


def pickup(handed: Pickup, receipt: Path | None) -> Json:
    """``pickup``: what went back, what stays, and the receipt."""
    return {
        "number": handed.job.number,
        "handed_back": [record.code for record in handed.handed_back],
        "still_here": [record.code for record in handed.still_here],
        "copies": [copy.words for copy in handed.copies],
        "receipt": None if receipt is None else str(receipt),
        "at": _time(handed.at),
        "signed_by": handed.signature.name,
        "paid_minor": handed.paid_minor,
        "due_minor": handed.due_minor,
        "gross_minor": handed.final.gross.likely,
        "currency": handed.final.currency,
    }


def promises(kept: Iterable[Kept]) -> Json:
    """``promises``: open jobs, the most endangered first; dates and chances may be null."""
    return {
        "promises": [
            {
                "number": one.job.number,
                "customer": _customer(one.job),
                "date": _day(one.promise.day),
                "stated": _rounded(one.promise.stated),
                "chance": None if one.chance is None else _rounded(one.chance),
                "at_risk": one.is_at_risk,
                "held_by": list(one.held_by),
                "changes": list(one.changes),
                "now": None if one.now is None else promise(one.now),
            }
            for one in kept
        ]
    }


def habits(found: Iterable[Evidence]) -> Json:
    """``habits``: what the shop has learned of its customers' tapes."""
    return {
        "habits": [
            {
                "kind": one.group[0],
                "whose": one.whose,
                "about": one.about,
                "tapes": one.tapes,
                "at_first": {words: _rounded(share) for words, share in one.at_first},
                "seen": {words: _rounded(tapes) for words, tapes in one.seen},
                "now": {words: _rounded(share) for words, share in one.now},
                "sentence": one.sentence,
            }
            for one in found
        ]
    }


def promise(made: Promise) -> Json:
    """A date, the chance of keeping it, and the whole curve."""
    return {
        "date": _day(made.day),
        "stated": _rounded(made.stated),
        "p50": _day(made.p50),
        "p90": _day(made.p90),
        "held_by": list(made.held_by),
        "chances": [{"date": chance.day.isoformat(), "by": _rounded(chance.by)} for chance in made.chances],
        "made_at": _time(made.made_at),
        "footing": None if made.footing is None else _footing(made.footing),
    }


def span(belief: Range) -> Json:
    """A range of floats."""
    return {"low": _rounded(belief.low), "likely": _rounded(belief.likely), "high": _rounded(belief.high)}


def _footing(footing: PromiseBasis) -> Json:
    return {
        "tapes_waiting": footing.tapes_waiting,
        "decks": list(footing.decks),
        "people": footing.people,
        "hours_a_week": _rounded(footing.hours_a_week),
    }


def _price(price: Price) -> Json:
    return {
        "charges": [_charge(charge) for charge in price.charges],
        "net_minor": _money(price.net),
        "tax_minor": _money(price.tax),
        "gross_minor": _money(price.gross),
        "tax_words": price.tax_words,
        "ceiling_minor": price.ceiling_minor,
        "deposit_minor": price.deposit_minor,
    }


def _charge(charge: Charge) -> Json:
    return {
        "code": charge.code,
        "text": charge.text,
        "because": charge.because,
        "quantity": charge.quantity,
        "unit_minor": charge.unit_minor,
        "amount_minor": _money(charge.amount),
    }


def _quoted_tape(tape: QuotedTape) -> Json:
    return {
        "line": tape.line,
        "n": tape.n,
        "format": tape.draft.format,
        "minutes": span(tape.minutes),
        "outcome": tape.verdict.outcome.value,
        "repairs": [repair.words for repair in tape.verdict.repairs],
        "cautions": list(tape.verdict.cautions),
        "told": list(tape.verdict.told),
        "not_for_reuse": tape.verdict.not_for_reuse,
    }


def _storage(storage: Storage) -> Json:
    return {
        "gigabytes": span(storage.gigabytes),
        "discs": span(storage.discs),
        "copies": [
            {"code": copy.code, "text": copy.words, "count": span(copy.count)} for copy in storage.copies
        ],
        "notes": list(storage.notes),
    }


def _question(question: Question) -> Json:
    return {
        "line": question.line,
        "text": question.text,
        "hours_off": _rounded(question.hours_off),
        "answers": [
            {"text": answer.words, "means": answer.means, "tape": line(answer.draft)}
            for answer in question.answers
        ],
    }


def line(draft: TapeLine) -> Json:
    """One entry of ``tapes`` as the inventory file writes it."""
    return {
        "count": draft.count,
        "format": draft.format,
        "marking": draft.marking,
        "recorded_as": draft.recorded_as,
        "speed": "unknown" if draft.speed is None else draft.speed.value,
        "tv": None if draft.tv is None else draft.tv.value,
        "fill": draft.fill,
        "fill_known": None if draft.fill is None else draft.fill_known.value,
        "fill_off": draft.fill_off,
        "findings": [finding.value for finding in draft.findings],
        "label": draft.label,
        "origin": None if draft.origin is None else draft.origin.value,
    }


def _customer(job: Job) -> Json:
    return {"name": job.customer.name, "phone": job.customer.phone, "email": job.customer.email}


def _money(amount: MoneyRange) -> Json:
    return {"low": amount.low, "likely": amount.likely, "high": amount.high}


def _number_or_span(value: float | Range) -> object:
    return span(value) if isinstance(value, Range) else _rounded(value)


def _rounded(value: float) -> float:
    return round(float(value), _DECIMALS)


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def _time(moment: datetime) -> str:
    return moment.isoformat(timespec="seconds")
