"""Tapes in the shop's care: the answer to a caller, moves, findings, promises."""

from __future__ import annotations

from argparse import Namespace

from core.cli import json_answers, plain_answers
from core.cli.invocation import Invocation, Reply
from core.cli.subcommands.tape_reply import told
from core.model.names import Finding, FormatName, Speed, TapeCode, TvSystem
from core.model.stations import Station
from core.playtime.deck_readings import Shown
from core.services import calls, deck_queue, promises, repair_record, tapes


def tell_status(call: Invocation) -> Reply:
    with call.open() as shop:
        found = shop.ask(calls.status, call.asked.query)
    return Reply(json_answers.status(found), plain_answers.status(found))


def move(call: Invocation) -> Reply:
    asked = call.asked
    findings = tuple(Finding(name) for name in dict.fromkeys(asked.finding))
    with call.open() as shop:
        record = shop.run(
            tapes.move,
            TapeCode(asked.code),
            Station(asked.station),
            findings=findings,
            minutes=asked.minutes,
            note=asked.note or "",
            deck=asked.deck,
            without_splice=asked.without_splice,
            shown=_shown(asked),
        )
    return told(record)


def _shown(asked: Namespace) -> Shown:
    return Shown(
        speed=Speed(asked.found_speed) if asked.found_speed else None,
        recorded_as=FormatName(asked.found_as) if asked.found_as else None,
        tv=TvSystem(asked.found_tv) if asked.found_tv else None,
    )


def tell_habits(call: Invocation) -> Reply:
    with call.open() as shop:
        found = shop.ask(deck_queue.evidence)
    return Reply(json_answers.habits(found), plain_answers.habits(found))


def clear_finding(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        record = shop.run(
            repair_record.clear_finding, TapeCode(asked.code), Finding(asked.finding), asked.note
        )
    return told(record)


def tell_history(call: Invocation) -> Reply:
    with call.open() as shop:
        happenings = shop.ask(tapes.history, TapeCode(call.asked.code))
    return Reply(json_answers.history(happenings), plain_answers.history(happenings))


def tell_promises(call: Invocation) -> Reply:
    with call.open() as shop:
        kept = shop.ask(promises.under_review)
    return Reply(json_answers.promises(kept), plain_answers.promises(kept))
