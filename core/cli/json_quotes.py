"""A quote as JSON: tapes, charges, storage, questions and promise; and the figures of every answer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime

from core.model.inventory import TapeLine
from core.model.money import MoneyRange
from core.model.price_terms import InspectionFee, StorageFee, TaxAmount
from core.model.price_ways import FlatOffer, FlatRisk, LookFirstOffer, WaysToAgree
from core.model.promise_records import Promise, PromiseBasis, PushedPromise
from core.model.quote_records import Charge, Price, Question, Quote, QuotedTape, Storage
from core.model.ranges import Range
from core.model.repair_records import Elsewhere

Json = Mapping[str, object]

_DECIMALS = 6
"""Enough for a micrometre in metres and a frame in minutes; keeps 0.1 + 0.2 out of sight."""


def quote(quoted: Quote) -> dict[str, object]:
    """``quote``: tapes, charges, storage and promise."""
    return {
        "currency": quoted.price.currency,
        "book": quoted.book,
        "example_prices": quoted.example_prices,
        "made_at": time(quoted.made_at),
        "valid_until": quoted.valid_until.isoformat(),
        "tapes": [_quoted_tape(tape) for tape in quoted.tapes],
        "capture_hours": span(quoted.capture_hours),
        **_price(quoted.price),
        "storage": _storage(quoted.storage),
        "promise": promise(quoted.promise),
        "questions": [_question(question) for question in quoted.questions],
        "warnings": list(quoted.warnings),
        "way": quoted.way.value,
        "ways": None if quoted.ways is None else _ways(quoted.ways),
        "own_tapes": quoted.own_tapes,
        "rush": rush(quoted) if quoted.inventory.rush else None,
    }


def promise(made: Promise) -> Json:
    """A date, the chance of keeping it, and the whole curve."""
    return {
        "date": day(made.day),
        "stated": rounded(made.stated),
        "p50": day(made.p50),
        "p90": day(made.p90),
        "held_by": list(made.held_by),
        "chances": [{"date": chance.day.isoformat(), "by": rounded(chance.by)} for chance in made.chances],
        "made_at": time(made.made_at),
        "footing": None if made.basis is None else _basis(made.basis),
    }


def _basis(basis: PromiseBasis) -> Json:
    return {
        "tapes_waiting": basis.tapes_waiting,
        "decks": list(basis.decks),
        "people": basis.people,
        "hours_a_week": rounded(basis.hours_a_week),
    }


def _price(price: Price) -> Json:
    return {
        "charges": [_charge(charge) for charge in price.charges],
        "net_minor": money(price.net),
        "tax_minor": money(price.tax),
        "gross_minor": money(price.gross),
        "rounding_minor": money(price.rounding),
        "due_minor": money(price.due),
        "tax_words": price.tax_words,
        "taxes": [_tax(tax) for tax in price.taxes],
        "tax_exempt": price.exempt or None,
        "inspection_fee": _inspection_fee(price.inspection_fee),
        "storage_fee": _storage_fee(price.storage_fee),
        "ceiling_minor": price.ceiling_minor,
        "deposit_minor": price.deposit_minor,
    }


def rush(quoted: Quote, pushed: Sequence[PushedPromise] = ()) -> Json:
    """Whether rush is needed at all, and whose promises it would push."""
    pushes = [
        {"number": one.number, "date": day(one.day), "was": rounded(one.was), "will_be": rounded(one.will)}
        for one in pushed
    ]
    return {"is_needed": quoted.needs_rush, "plain_date": day(quoted.without_rush), "pushes": pushes}


def _ways(ways: WaysToAgree) -> Json:
    """What each way to agree on the price comes to; null: not offered for this box."""
    return {
        "by_play": {"due_minor": money(ways.by_play), "ceiling_minor": ways.ceiling_minor},
        "flat": None if ways.flat is None else _flat(ways.flat),
        "play_first": None if ways.look_first is None else _look_first(ways.look_first),
    }


def _flat(flat: FlatOffer) -> Json:
    return {"due_minor": flat.minor, "risk": None if flat.risk is None else _risk(flat.risk)}


def _risk(risk: FlatRisk) -> Json:
    return {
        "expected_minor": rounded(risk.expected_minor),
        "margin_percent": risk.margin_percent,
        "standard_deviation_minor": rounded(risk.deviation_minor),
        "chance_dearer": rounded(risk.dearer),
        "gain_minor": {
            "one_in_ten_at_most": risk.worst_gain_minor,
            "one_in_ten_at_least": risk.best_gain_minor,
        },
    }


def _look_first(offer: LookFirstOffer) -> Json:
    return {"fee_minor": offer.fee_minor, "due_minor": money(offer.due)}


def _tax(tax: TaxAmount) -> Json:
    return {
        "text": tax.words,
        "percent": tax.percent,
        "base_minor": money(tax.base),
        "tax_minor": money(tax.amount),
    }


def _inspection_fee(fee: InspectionFee | None) -> Json | None:
    return None if fee is None else {"minor": fee.minor, "way": fee.way.value}


def _storage_fee(fee: StorageFee | None) -> Json | None:
    if fee is None:
        return None
    return {"minor": fee.minor, "per": fee.per.value, "after_days": fee.after_days}


def _charge(charge: Charge) -> Json:
    return {
        "code": charge.code,
        "text": charge.text,
        "because": charge.because,
        "quantity": charge.quantity,
        "unit_minor": charge.unit_minor,
        "amount_minor": money(charge.amount),
        "kind": None if charge.kind is None else charge.kind.value,
    }


def _quoted_tape(tape: QuotedTape) -> Json:
    return {
        "line": tape.line,
        "n": tape.n,
        "format": tape.draft.format,
        "minutes": span(tape.minutes),
        "outcome": tape.verdict.outcome.value,
        "waits_for": None if tape.verdict.hold is None else tape.verdict.hold.value,
        "repairs": [repair.words for repair in tape.verdict.repairs],
        "cautions": list(tape.verdict.cautions),
        "told": list(tape.verdict.told),
        "not_for_reuse": tape.verdict.not_for_reuse,
        "not_here": _elsewhere(tape.verdict.elsewhere),
    }


def _elsewhere(found: Elsewhere | None) -> Json | None:
    """Why no deck of the shop plays the tape, and who may copy it; the partner's price is in words."""
    if found is None:
        return None
    days = found.days or None
    return {"why": found.why, "partner": found.partner or None, "price": found.price or None, "days": days}


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
        "hours_off": rounded(question.hours_off),
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


# --- figures: ranges, money, days and times, rounded and named the same everywhere ---------


def span(belief: Range) -> Json:
    """A range of floats."""
    return {"low": rounded(belief.low), "likely": rounded(belief.likely), "high": rounded(belief.high)}


def money(amount: MoneyRange) -> Json:
    return {"low": amount.low, "likely": amount.likely, "high": amount.high}


def number_or_span(value: float | Range) -> object:
    return span(value) if isinstance(value, Range) else rounded(value)


def rounded(value: float) -> float:
    return round(float(value), _DECIMALS)


def day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def time(moment: datetime) -> str:
    return moment.isoformat(timespec="seconds")
