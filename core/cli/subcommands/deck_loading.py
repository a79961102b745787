"""What goes on the free decks now, typed."""

from __future__ import annotations

from core.cli.invocation import Invocation, Reply
from core.services import decks_to_load
from core.services.decks_to_load import ToLoad
from core.wording import locale_figures
from core.wording.messages import say


def tell_load_now(call: Invocation) -> Reply:
    with call.open() as shop:
        found = shop.ask(decks_to_load.read)
    return Reply({"decks": [_answer(each) for each in found]}, _plainly(found))


def _answer(one: ToLoad) -> dict[str, object]:
    return {
        "deck": one.deck,
        "tape": None if one.tape is None else one.tape.code,
        "ends": None if one.ends is None else one.ends.isoformat(timespec="minutes"),
        "why": one.why,
    }


def _plainly(found: tuple[ToLoad, ...]) -> str:
    return "\n".join(map(_line, found)) or say("cli", "tape_queue_waits_free")


def _line(one: ToLoad) -> str:
    if one.tape is None or one.ends is None:
        return f"{one.deck}: {one.why}"
    name = " ".join(filter(None, (one.tape.format_words, one.tape.marking)))
    return say(
        "cli",
        "ends_about",
        deck=one.deck,
        code=one.tape.code,
        name=name,
        ends=locale_figures.time_of_day(one.ends),
        why=one.why,
    )
