"""Orders that are ready, typed: who is to be told, what came of it, what they wish, who called."""

from __future__ import annotations

import os

from core.cli import json_quotes, terminal_text
from core.cli.invocation import Invocation, Reply
from core.model.handover_records import HandoverWishes, Telling, ToldHow, ToldResult
from core.model.names import JobNumber
from core.services import calls
from core.services.after_ready import handover_wishes, noted_calls, telling, telling_text
from core.services.after_ready.telling import ToTell
from core.wording.messages import say


def list_to_tell(call: Invocation) -> Reply:
    with call.open() as shop:
        found = shop.ask(telling.to_tell, everybody=call.asked.all)
    lines = [_line(each) for each in found]
    document = {"to_tell": [_due(each) for each in found], "law": say("telling", "law")}
    law = [say("telling", "law")] if any(each.is_unclaimed for each in found) else []
    return Reply(document, "\n".join([*lines, *law]) or say("cli", "nobody_to_tell"))


def tell(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        number = JobNumber(asked.number)
        how, result = ToldHow(asked.how), ToldResult(asked.result)
        due = call.run(shop, telling.tell, number, how, result, note=asked.note or "")
        text = shop.ask(telling_text.text, number)
    links = {how.value: link for how, link in text.links.items()}
    told = {"subject": text.subject, "body": text.body, "links": links}
    return Reply({**_due(due), "tellings": [*map(_telling, due.tellings)], "text": told}, _line(due))


def wish(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        wishes = call.run(
            shop,
            handover_wishes.wish,
            JobNumber(asked.number),
            how=ToldHow(asked.told_by) if asked.told_by else None,
            collector=asked.collector,
            pass_phrase=_phrase() if asked.pass_phrase else None,
            said_by=asked.said_by or "",
        )
    document = {"number": asked.number, **_wishes(wishes)}
    return Reply(document, say("cli", "wish_kept", number=str(asked.number)))


def note_call(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        number = JobNumber(asked.number)
        kept = call.run(shop, calls.note_call, number, asked.said, caller=asked.caller or "")
        words = shop.ask(noted_calls.words, kept)
    document = {
        "number": asked.number,
        "caller": kept.caller,
        "said": kept.said,
        "at": json_quotes.time(kept.at),
        "by": kept.by,
    }
    return Reply(document, words)


def _phrase() -> str:
    """From TAPEWRIGHT_PASS_PHRASE, else asked for: never among the arguments, which others can read."""
    given = os.environ.get("TAPEWRIGHT_PASS_PHRASE")
    return given if given is not None else terminal_text.ask_secret(say("telling", "type_phrase"))


def _line(each: ToTell) -> str:
    """``000018 Ada Fenwick: tell them (by phone)``."""
    round = 0 if each.round is None else each.round
    what = "nothing" if each.round is None else "ready" if round == 0 else "reminder"
    return say(
        "telling",
        "to_tell",
        number=str(each.job.number),
        name=each.job.customer.name,
        what=what,
        way=say("telling", "way", how=each.how.value),
        round=round,
        days=each.days_waiting,
        storage=telling_text.storage_words(each),
    ).strip()


def _due(each: ToTell) -> dict[str, object]:
    customer = each.job.customer
    return {
        "number": each.job.number,
        "customer": {"name": customer.name, "phone": customer.phone, "email": customer.email},
        "how": each.how.value,
        "round": each.round,
        "told_on": json_quotes.day(each.told_on),
        "days_waiting": each.days_waiting,
        "unclaimed": each.is_unclaimed,
        "storage_minor": each.storage_minor,
        "currency": each.currency,
        "last_try": _telling(each.last_try) if each.last_try else None,
        **_wishes(each.wishes),
    }


def _telling(each: Telling) -> dict[str, object]:
    return {
        "round": each.round,
        "how": each.how.value,
        "result": each.result.value,
        "note": each.note,
        "at": json_quotes.time(each.at),
        "by": each.by,
    }


def _wishes(wishes: HandoverWishes) -> dict[str, object]:
    named = wishes.collector
    return {
        "told_by": wishes.how.value if wishes.how else None,
        "collector": named.words if named else None,
        "collector_said_by": named.said_by if named else None,
        "has_pass_phrase": bool(wishes.pass_phrase),
    }
