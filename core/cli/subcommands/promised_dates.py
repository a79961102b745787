"""Dates that were said, typed: said again, held against what happened, and what came between."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from math import exp

from core.catalogue import hazards
from core.cli import plain_answers
from core.cli.invocation import Invocation, Reply
from core.cli.json_quotes import promise as promise_of
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopSettings
from core.model.promise_records import Recalibration
from core.promise import recalibration
from core.promise.reliability import Group, Judged, Reliability
from core.scheduling import event_rates
from core.services import closed_days, decks, event_counts, promise_entries, promises
from core.wording import locale_figures
from core.wording.messages import say


def promise_again(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        number = JobNumber(asked.number)
        job = call.run(
            shop, promises.renew, number, asked.reason, agreed_with=asked.agreed_with, day=asked.day
        )
        said = shop.ask(promise_entries.said, number)
    told = [
        {
            **promise_of(each.promise),
            "reason": each.reason,
            "agreed_with": each.agreed_with,
            "at": each.at.isoformat(timespec="seconds"),
            "by": each.by,
        }
        for each in said
    ]
    return Reply(
        {"number": job.number, "promise": promise_of(job.promise), "said": told},
        f"{job.number}: {plain_answers.promise(job.promise)}",
    )


def switch_deck(call: Invocation) -> Reply:
    asked = call.asked
    step = decks.broke_down if asked.state == "out" else decks.back_in_service
    with call.open() as shop:
        fitted = call.run(shop, step, asked.name, asked.because or "")
    return _fitted(fitted, cautions=hazards.in_a_deck())


def stay_shut(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        fitted = call.run(shop, closed_days.stayed_shut, asked.day, asked.because)
    return _fitted(fitted)


def tell_kept(call: Invocation) -> Reply:
    with call.open() as shop:
        found, counted = shop.ask(promises.kept), shop.ask(event_counts.counted)
        planned = shop.ask(promises.of_plans, found)
        stated = shop.ask(decks.settings).expected
        expected = shop.ask(promises.reckoned).expected
    broken = event_rates.failures(counted, stated)
    document = {
        **_record(found),
        "counted": {
            "failures": counted.failures,
            "play_hours": round(counted.play_hours, 3),
            "hours_between_failures": round(broken.between, 3),
            "hours_to_repair": round(expected.hours_to_repair, 3),
            "shut_days": counted.shut_days,
            "opening_days": counted.opening_days,
            "rush_boxes_a_week": round(expected.rush_boxes_a_week, 4),
        },
        "overrun": round(recalibration.typical(expected.recalibration), 4),
        "recalibration": _recalibration(expected.recalibration, planned),
    }
    return Reply(document, plain_answers.kept(found, recalibration.explained(expected.recalibration)))


def _fitted(fitted: ShopSettings, cautions: tuple[str, ...] = ()) -> Reply:
    out = [deck.name for deck in fitted.working_decks if not deck.in_service]
    closed = sorted(day.isoformat() for day in fitted.closed_days)
    document: dict[str, object] = {
        "decks": [_deck(deck.name, deck.in_service) for deck in fitted.working_decks],
        "closed": closed,
    }
    shut = ", ".join(map(locale_figures.short_day, sorted(fitted.closed_days)))
    said = say("cli", "out_service_shut", out=", ".join(out) or "–", closed=shut or "–")
    if cautions:
        document["cautions"] = list(cautions)
    return Reply(document, "\n".join((said, *plain_answers.careful(cautions))))


def _deck(name: str, in_service: bool) -> Mapping[str, object]:
    return {"name": name, "in_service": in_service}


def _recalibration(learned: Recalibration, planned: Sequence[float]) -> dict[str, object]:
    """The map from the plan's curve to the stated one: factors on a typical plan's time."""
    return {
        "promises": learned.promises,
        "median": round(exp(learned.middle + learned.width * learned.later), 4),
        "per_standard_deviation": round(exp(learned.width * learned.spread), 4),
        "twice_as_many_tapes": round(exp(learned.size), 4),
        "rush": round(exp(learned.rush), 4),
        "deciles_as_planned": [round(share, 4) for share in planned],
        "words": recalibration.explained(learned),
    }


def _record(found: Reliability) -> dict[str, object]:
    return {
        "whole": None if found.whole is None else _group(found.whole),
        "groups": [_group(each) for each in found.groups],
        "deciles": [round(share, 4) for share in found.deciles],
        "days_off": round(found.days_off, 3),
        "alarm": found.alarms,
        "late": [_late(each) for each in found.late],
    }


def _group(group: Group) -> dict[str, object]:
    return {
        "from": group.low,
        "to": group.high,
        "promises": group.count,
        "kept": group.kept,
        "stated": round(group.stated, 4),
        "luck": [group.least, group.most],
    }


def _late(judged: Judged) -> dict[str, object]:
    day: date | None = judged.promise.day
    return {
        "number": judged.number,
        "date": None if day is None else day.isoformat(),
        "ready": None if judged.ready_on is None else judged.ready_on.isoformat(),
        "days_late": judged.days_late,
        "reasons": list(judged.reasons),
    }
