"""Who is proven and by what, typed: PINs, tokens, users of computers."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from core.cli import proving
from core.cli.invocation import Invocation, Reply
from core.cli.subcommands import paper_folder
from core.model import private_files, regular_files
from core.model.errors import WrongInput
from core.model.own_shop.access_records import Proof
from core.scheduling import opening_hours
from core.services import decks
from core.services.own_shop import people, reported_changes
from core.services.proving import access_tokens, system_users, token_papers
from core.wording import locale_figures
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop


def set_pin(call: Invocation, shop: Shop) -> Reply:
    name = call.asked.person
    shop.ask(people.person, name)
    change = partial(people.set_pin, name=name, pin=call.new_pin(name))
    return _told(call.run(shop, reported_changes.carry_out, change))


def tell_who(call: Invocation, shop: Shop) -> Reply:
    """``shop who``: who acts, what proves it, and the text of this computer's user."""
    acting, user = call.acting[-1], proving.system_user()
    lines = [
        say("access", f"told-{acting.proof.value}", who=acting.name),
        say("access", "told-user", user=user.text),
    ]
    is_proven = acting.proof not in (Proof.NONE, Proof.UNASKED)
    document = {
        "who": acting.name,
        "proof": acting.proof.value if is_proven else None,
        "asks_proof": shop.ask(decks.settings).asks_proof,
        "system_user": user.text,
    }
    return Reply(document, "\n".join(lines))


def issue(call: Invocation, shop: Shop) -> Reply:
    """``shop token``: the token in the answer, or in a file that only its owner can read; with ``--paper`` on
    a page as well."""
    asked, settings = call.asked, shop.ask(decks.settings)
    shop.ask(people.person, asked.person)
    place, today = paper_folder.folder(call), opening_hours.today(settings, call.clock())
    made = access_tokens.new(asked.token, today, asked.until)
    change = partial(access_tokens.issue, person=asked.person, token=made.kept)
    document = call.run(shop, reported_changes.carry_out, change)
    day = locale_figures.full_day(made.kept.until)
    said = say("access", "token-issued", name=asked.person, token=made.kept.name, day=day)
    papers, unwritten = paper_folder.after(
        say("access", "token-done", name=asked.person, token=made.kept.name),
        place,
        lambda folder: (token_papers.written(made, asked.person, settings.front, today, folder),),
    )
    whole: dict[str, Any] = {**document, "until": made.kept.until.isoformat(), "papers": [*map(str, papers)]}
    said = "\n".join((said, *map(str, papers)))
    if asked.out is None:
        return Reply({**whole, "token": made.token}, f"{said}\n{made.token}", note=unwritten)
    path = regular_files.expanded(asked.out).absolute()
    try:
        private_files.write(path, f"{made.token}\n".encode())
    except OSError as error:  # it is issued all the same, and is shown nowhere else
        note = " ".join(filter(None, (f"{path}: {error.strerror}", unwritten)))
        return Reply({**whole, "token": made.token}, f"{said}\n{made.token}", note=note)
    return Reply({**whole, "file": str(path)}, f"{said}\n{path}", note=unwritten)


def revoke(call: Invocation, shop: Shop) -> Reply:
    change = partial(access_tokens.revoke, person=call.asked.person, token=call.asked.token)
    return _told(call.run(shop, reported_changes.carry_out, change))


def map_user(call: Invocation, shop: Shop) -> Reply:
    """``shop system-user``: this computer's user, a login of it, or a text like ``ada/1000@till-1``."""
    step = access_tokens.unmap_user if call.asked.take_away else access_tokens.map_user
    change = partial(step, person=call.asked.person, user=_user(call.asked.user))
    return _told(call.run(shop, reported_changes.carry_out, change))


def _user(typed: str | None) -> str:
    if typed is None:
        return system_users.current().text
    if "@" in typed:
        return typed
    found = system_users.of_login(typed)
    if found is None:
        example = system_users.current().text
        raise WrongInput(
            say("access", "system-user"), typed, say("access", "system-user-accepted", example=example)
        )
    return found.text


def _told(document: dict[str, Any]) -> Reply:
    return Reply(document, "\n".join(document["told"]) or say("settings", "nothing-changed"))
