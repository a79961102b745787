"""Tapes in the shop's care: the answer to a caller, moves, findings, promises."""

from __future__ import annotations

from argparse import Namespace

from core import answers, bench, calls, captures, plain_text, promises, tapes
from core.commands.call import Call, Reply
from core.names import Finding, FormatName, Speed, TapeCode, TvSystem
from core.records import TapeRecord
from core.shown import Shown
from core.stations import Station


def tell_status(call: Call) -> Reply:
    with call.open() as shop:
        found = shop.ask(calls.status, call.asked.query)
    return Reply(answers.status(found), plain_text.status(found))


def move(call: Call) -> Reply:
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


def tell_habits(call: Call) -> Reply:
    with call.open() as shop:
        found = shop.ask(captures.evidence)
    return Reply(answers.habits(found), plain_text.habits(found))


def clear_finding(call: Call) -> Reply:
    asked = call.asked
    with call.open() as shop:
        record = shop.run(bench.clear_finding, TapeCode(asked.code), Finding(asked.finding), asked.note)
    return told(record)


def tell_history(call: Call) -> Reply:
    with call.open() as shop:
        happenings = shop.ask(tapes.history, TapeCode(call.asked.code))
    return Reply(answers.history(happenings), plain_text.history(happenings))


def tell_promises(call: Call) -> Reply:
    with call.open() as shop:
        kept = shop.ask(promises.under_review)
    return Reply(answers.promises(kept), plain_text.promises(kept))


def told(record: TapeRecord) -> Reply:
    """One tape as it is now."""
    return Reply(answers.tape(record), plain_text.tape(record))
