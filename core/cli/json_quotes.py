"""A quote as JSON: tapes, charges, storage, questions and promise."""

from __future__ import annotations

from typing import TYPE_CHECKING

from core.model.inventory import TapeLine
from core.model.promise_records import Promise, PromiseBasis
from core.model.quote_records import Charge, Price, Question, Quote, QuotedTape, Storage

if TYPE_CHECKING:
    pass
from core.cli import json_figures
from core.cli.json_figures import Json


def quote(quoted: Quote) -> dict[str, object]:
    """``quote``: tapes, charges, storage and promise."""
    return {
        "currency": quoted.price.currency,
        "book": quoted.book,
        "made_at": json_figures.time(quoted.made_at),
        "valid_until": quoted.valid_until.isoformat(),
        "tapes": [_quoted_tape(tape) for tape in quoted.tapes],
        "capture_hours": json_figures.span(quoted.capture_hours),
        **_price(quoted.price),
        "storage": _storage(quoted.storage),
        "promise": promise(quoted.promise),
        "questions": [_question(question) for question in quoted.questions],
        "warnings": list(quoted.warnings),
    }


def promise(made: Promise) -> Json:
    """A date, the chance of keeping it, and the whole curve."""
    return {
        "date": json_figures.day(made.day),
        "stated": json_figures.rounded(made.stated),
        "p50": json_figures.day(made.p50),
        "p90": json_figures.day(made.p90),
        "held_by": list(made.held_by),
        "chances": [
            {"date": chance.day.isoformat(), "by": json_figures.rounded(chance.by)} for chance in made.chances
        ],
        "made_at": json_figures.time(made.made_at),
        "footing": None if made.footing is None else _footing(made.footing),
    }


def _footing(footing: PromiseBasis) -> Json:
    return {
        "tapes_waiting": footing.tapes_waiting,
        "decks": list(footing.decks),
        "people": footing.people,
        "hours_a_week": json_figures.rounded(footing.hours_a_week),
    }


def _price(price: Price) -> Json:
    return {
        "charges": [_charge(charge) for charge in price.charges],
        "net_minor": json_figures.money(price.net),
        "tax_minor": json_figures.money(price.tax),
        "gross_minor": json_figures.money(price.gross),
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
        "amount_minor": json_figures.money(charge.amount),
    }


def _quoted_tape(tape: QuotedTape) -> Json:
    return {
        "line": tape.line,
        "n": tape.n,
        "format": tape.draft.format,
        "minutes": json_figures.span(tape.minutes),
        "outcome": tape.verdict.outcome.value,
        "repairs": [repair.words for repair in tape.verdict.repairs],
        "cautions": list(tape.verdict.cautions),
        "told": list(tape.verdict.told),
        "not_for_reuse": tape.verdict.not_for_reuse,
    }


def _storage(storage: Storage) -> Json:
    return {
        "gigabytes": json_figures.span(storage.gigabytes),
        "discs": json_figures.span(storage.discs),
        "copies": [
            {"code": copy.code, "text": copy.words, "count": json_figures.span(copy.count)}
            for copy in storage.copies
        ],
        "notes": list(storage.notes),
    }


def _question(question: Question) -> Json:
    return {
        "line": question.line,
        "text": question.text,
        "hours_off": json_figures.rounded(question.hours_off),
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
