"""Agreements as the JSON that the command line prints; the names are fixed, other programs read them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import is_dataclass
from datetime import date
from pathlib import Path

from core.cli import json_answers, json_quotes
from core.cli.json_quotes import Json
from core.model import serialization
from core.model.agreement_records import (
    AgreementVersion,
    CeilingQuestion,
    OfferedChoice,
    StandingPrice,
    WaitingAnswer,
)
from core.model.job_records import Job
from core.papers import agreement_words
from core.pricing.agreement_differences import AgreementDifference

Versions = Sequence[tuple[AgreementVersion, tuple[AgreementDifference, ...]]]


def agreement(
    job: Job,
    versions: Versions,
    standing: StandingPrice,
    asking: Iterable[CeilingQuestion],
    offered: Iterable[OfferedChoice],
    papers: Sequence[Path] = (),
) -> Json:
    """``amend``, ``agree``, ``cancel`` and ``agreement``: where the order stands, and how it came there."""
    newest = versions[-1][0]
    return {
        "number": job.number,
        "version": newest.number,
        "kind": newest.kind.value,
        "ceiling_minor": newest.ceiling_minor,
        "standing": standing_price(standing),
        "asking": [_question(each) for each in asking],
        "choices": [_choice(each) for each in offered],
        "promise": json_quotes.promise(job.promise),
        "tapes": [json_answers.tape(each) for each in job.tapes],
        "versions": [_version(version, changed) for version, changed in versions],
        "papers": [str(paper) for paper in papers],
    }


def standing_price(standing: StandingPrice) -> Json:
    """The price as it stands against what was agreed."""
    return {
        "currency": standing.currency,
        "stands_minor": standing.stands_minor,
        "ceiling_minor": standing.ceiling_minor,
        "given_away_minor": standing.given_away_minor,
        "over_minor": standing.over_minor,
        "version": standing.version,
    }


def to_call(waiting: Iterable[WaitingAnswer]) -> Json:
    """``to-call``: whom to call first."""
    return {
        "to_call": [
            {
                "number": one.number,
                "customer": {"name": one.customer, "phone": one.phone},
                "rush": one.rush,
                "standing": standing_price(one.standing),
                "asking": [_question(each) for each in one.asking],
                "tapes_asking": one.tapes_asking,
                "misfits": [{"copy": item, "sentence": sentence} for item, sentence in one.misfits],
                "minutes_waiting": round(one.minutes_waiting, 3),
                "since": json_quotes.time(one.since),
            }
            for one in waiting
        ]
    }


def _version(version: AgreementVersion, changed: Iterable[AgreementDifference]) -> Json:
    price, consent = version.quote.price, version.consent
    return {
        "number": version.number,
        "kind": version.kind.value,
        "reason": version.reason,
        "agreed_by": version.agreed_by,
        "agreed_to": version.by,
        "how": None if consent is None else consent.how.value,
        "signed": bool(consent and consent.strokes),
        "choice": None if version.choice is None else version.choice.value,
        "at": json_quotes.time(version.at),
        "ceiling_minor": version.ceiling_minor,
        "given_away_minor": version.given_away_minor,
        "fee_minor": version.fee_minor,
        "net_minor": json_quotes.money(price.net),
        "gross_minor": json_quotes.money(price.gross),
        "date": json_quotes.day(version.promise.day),
        "tapes": list(version.codes),
        "differences": [_difference(each, price.currency) for each in changed],
    }


def _difference(each: AgreementDifference, currency: str) -> Json:
    return {
        "part": each.part.value,
        "about": each.about,
        "before": _plain(each.before),
        "after": _plain(each.after),
        "minor": each.minor,
        "text": agreement_words.told(each, currency).sentence,
    }


def _plain(value: object) -> object:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return list(value)
    return serialization.plain(value) if is_dataclass(value) else value


def _question(each: CeilingQuestion) -> Json:
    return {
        "code": each.code,
        "stands_minor": each.stands_minor,
        "ceiling_minor": each.ceiling_minor,
        "bound_for": each.bound_for.value,
        "at": json_quotes.time(each.at),
    }


def _choice(each: OfferedChoice) -> Json:
    return {
        "choice": each.choice.value,
        "price_minor": each.price_minor,
        "ceiling_minor": each.ceiling_minor,
        "given_away_minor": each.given_away_minor,
        "date": json_quotes.day(each.day),
        "leaves": list(each.leaves),
    }
