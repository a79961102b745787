"""Tapes in the shop's care: the answer to a caller, moves, findings, promises, and the repair record."""

from __future__ import annotations

from argparse import Namespace

from core.catalogue import condition
from core.cli import json_answers, plain_answers
from core.cli.invocation import Invocation, Reply
from core.model.deck_showing import Shown
from core.model.errors import WrongInput
from core.model.names import (
    DonorPart,
    FormatName,
    Join,
    Look,
    Section,
    Speed,
    TapeCode,
    TvSystem,
    finding_of,
)
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import (
    calls,
    deck_findings,
    deck_queue,
    donors,
    promises,
    repair_attempts,
    repair_record,
    tapes,
)
from core.services.shop_work import learned_work
from core.wording.messages import say


def tell_status(call: Invocation) -> Reply:
    with call.open() as shop:
        found = shop.ask(calls.status, call.asked.query)
    return Reply(json_answers.status(found), plain_answers.status(found))


def move(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        findings = tuple(condition.named(name, "--finding") for name in dict.fromkeys(asked.finding))
        record = call.run(
            shop,
            tapes.move,
            TapeCode(asked.code),
            Station(asked.station),
            findings=findings,
            minutes=asked.minutes,
            note=asked.note or "",
            tell=asked.tell,
            deck=asked.deck,
            without_splice=asked.without_splice,
            shown=_shown(asked),
            sure=asked.sure,
        )
    return told(record)


def see_on_deck(call: Invocation) -> Reply:
    """Keeps what a deck shows of the tape that plays."""
    with call.open() as shop:
        record = call.run(shop, deck_findings.see, TapeCode(call.asked.code), _shown(call.asked))
    return told(record)


def _shown(asked: Namespace) -> Shown:
    return Shown(
        speed=Speed(asked.found_speed) if asked.found_speed else None,
        recorded_as=FormatName(asked.found_as) if asked.found_as else None,
        tv=TvSystem(asked.found_tv) if asked.found_tv else None,
    )


def tell_habits(call: Invocation) -> Reply:
    with call.open() as shop:
        found, change = shop.ask(deck_queue.evidence), shop.ask(deck_queue.habits).change
        work = shop.ask(learned_work.evidence)
    answer = {**json_answers.habits(found, change), **json_answers.work(work)}
    return Reply(answer, f"{plain_answers.habits(found, change)}\n{plain_answers.work(work)}")


def clear_finding(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        record = call.run(
            shop, repair_record.clear_finding, TapeCode(asked.code), finding_of(asked.finding), asked.note
        )
    return told(record)


def tell_history(call: Invocation) -> Reply:
    with call.open() as shop:
        happenings = shop.ask(tapes.history, TapeCode(call.asked.code))
    return Reply(json_answers.history(happenings), plain_answers.history(happenings))


def tell_promises(call: Invocation) -> Reply:
    with call.open() as shop:
        looked = shop.ask(promises.load)
        kept = shop.ask(promises.under_review, looked)
    backlog = looked.backlog
    return Reply(json_answers.promises(kept, backlog), plain_answers.promises(kept, backlog))


# --- the repair record ---------------------------------------------------------------------


def splice(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        record = call.run(
            shop,
            repair_record.splice,
            TapeCode(asked.code),
            at_minutes=asked.at_minutes,
            at_metres=asked.at_metres,
            cut_cm=asked.cut_cm,
            joined_with=Join(asked.joined_with),
            section=None if asked.section is None else Section(asked.section),
            redone=None if asked.redone is None else asked.redone == "yes",
            sure=asked.sure,
        )
    return told(record)


def undo_splice(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        code, because = TapeCode(asked.code), asked.because
        record = call.run(shop, repair_record.undo_splice, code, because=because, nth=asked.nth)
    return told(record)


def mark(call: Invocation) -> Reply:
    with call.open() as shop:
        record = call.run(shop, repair_record.mark, TapeCode(call.asked.code))
    return told(record)


def take_label_off(call: Invocation) -> Reply:
    with call.open() as shop:
        record = call.run(shop, repair_record.take_label_off, TapeCode(call.asked.code))
    return told(record)


def repair(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        record = call.run(
            shop,
            repair_attempts.record,
            TapeCode(asked.code),
            asked.repair,
            succeeded=not asked.failed,
            part=None if asked.part is None else DonorPart(asked.part),
            from_elsewhere=asked.from_elsewhere,
            note=asked.note or "",
        )
    return told(record)


def undo_repair(call: Invocation) -> Reply:
    with call.open() as shop:
        record = call.run(shop, repair_attempts.strike, TapeCode(call.asked.code), because=call.asked.because)
    return told(record)


def look(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        record = call.run(
            shop, repair_attempts.look, TapeCode(asked.code), Look(asked.verdict), note=asked.note or ""
        )
    return told(record)


def keep_donors(call: Invocation) -> Reply:
    """What lies on the shelf, after adding to it or putting a count right if asked."""
    asked = call.asked
    added = None if asked.add is None else _parts(*asked.add)
    right = None if asked.correct is None else _parts(*asked.correct)
    if added is None and right is None and asked.came_from is not None:
        raise WrongInput("--came-from", asked.came_from, say("cli", "told_together_add_correct"))
    if right is None and asked.because is not None:
        raise WrongInput("--because", asked.because, say("cli", "told_together_correct"))
    source = asked.came_from or ""
    with call.open() as shop:
        if added is not None:
            call.run(shop, donors.add, *added, came_from=source)
        if right is not None:
            call.run(shop, donors.correct, *right, came_from=source, because=asked.because or "")
        shelf = shop.ask(donors.shelf)
    return Reply(json_answers.donors(shelf.places), plain_answers.donors(shelf.places))


def _parts(name: str, part: str, count: str) -> tuple[FormatName, DonorPart, int]:
    parts = [each.value for each in DonorPart]
    if part not in parts:
        raise WrongInput("part", part, say("cli", "accepted", parts=", ".join(parts)))
    if not (count.isascii() and count.isdigit()) or len(count) > 6:
        raise WrongInput("count", count, say("cli", "up_parts_accepted", most_at_once=donors.MOST_AT_ONCE))
    return FormatName(name), DonorPart(part), int(count)


def told(record: TapeRecord) -> Reply:
    """One tape as it is now: the answer of every subcommand about one tape."""
    return Reply(json_answers.tape(record), plain_answers.tape(record))
