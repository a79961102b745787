"""Who acts on the command line: proven by a token, by the user of this computer, or by a PIN.

A name that was typed is nobody's: once somebody who may change the settings has a PIN, an unproven name
writes nothing, and that of a person who can be proven is not taken at all.
"""

from __future__ import annotations

import os
import stat
from argparse import Namespace
from typing import TYPE_CHECKING

from core.cli import terminal_text
from core.model import regular_files
from core.model.errors import Refused, Unavailable, WrongInput
from core.model.own_shop.access_records import NOBODY, Acting, Proof, SystemUser
from core.wording.messages import say

if TYPE_CHECKING:
    from core.model.own_shop.settings_records import Person, ShopSettings
    from core.services.records_door import Shop

MOST_BYTES = 4096
"""Of a file with a token; a token has some fifty."""


def prove(shop: Shop, asked: Namespace, settings: ShopSettings | None) -> Acting:
    """Finds out who acts, and has the shop act for them; it writes nothing for a name that is not proven.

    Refused for the name of a person who can be proven and is not, for a token that is none, and where the
    shop shows nothing without proof. Without ``settings`` (damaged records) nobody is proven: `verify` tells
    what is wrong with them.
    """
    if settings is None:
        return Acting(asked.who, Proof.UNASKED)
    acting = _acting(shop, settings, asked)
    shop.who = acting.name
    if acting.proof is Proof.NONE:
        user = system_user().text
        if settings.proof_to_read:
            raise Refused(say("access", "to-read", who=acting.name, user=user))
        shop.refuses_to_write = say("access", "to-write", who=acting.name, user=user)
    return acting


def system_user() -> SystemUser:
    """Who runs this program."""
    from core.services.proving import system_users

    return system_users.current()


def _acting(shop: Shop, settings: ShopSettings, asked: Namespace) -> Acting:
    token = given_token(asked.token_file)
    if token:
        return Acting(_holder(shop, token, asked.who), Proof.TOKEN)
    user = system_user()
    mapped = next((each for each in settings.working_staff if user.is_one_of(each.system_users)), None)
    if mapped is not None and asked.who in (NOBODY, mapped.name):
        return Acting(mapped.name, Proof.SYSTEM_USER)
    named = next((each for each in settings.working_staff if each.name == asked.who), None)
    if named is not None and named.pin:
        _check_pin(shop, named, asks=asked.pin)
        return Acting(named.name, Proof.PIN)
    if not settings.asks_proof:
        return Acting(asked.who, Proof.UNASKED)
    if named is not None and named.can_be_proven:
        raise Refused(say("access", "to-be-named", name=named.name))
    return Acting(asked.who, Proof.NONE)


def _holder(shop: Shop, token: str, who: str) -> str:
    from core.services.proving import access_tokens

    holder = shop.ask(access_tokens.holder, token).name
    if who not in (NOBODY, holder):
        raise Refused(say("access", "token-two-people", holder=holder, who=who))
    return holder


def _check_pin(shop: Shop, person: Person, *, asks: bool) -> None:
    from core.services.own_shop import people

    pin = os.environ.get("TAPEWRIGHT_PIN")
    if asks:
        pin = terminal_text.ask_secret(say("settings", "people-type-pin", name=person.name))
    if pin is None:
        needed = say("settings", "people-pin-needed", name=person.name)
        raise Refused(f"{needed} {say('access', 'token-or-user', name=person.name)}")
    answer = shop.run(people.check_pin, person.name, pin)
    if not answer.is_right:
        raise Refused(answer.sentence)


def given_token(file: str | None) -> str:
    """The token in the file named, else in TAPEWRIGHT_TOKEN, else nothing.

    Refused for a file that other users of this computer can read; WrongInput for one that is none.
    """
    if file is None:
        return os.environ.get("TAPEWRIGHT_TOKEN", "").strip()
    accepted = say("access", "token-file-accepted")
    path = regular_files.expanded(file)
    regular_files.check(path, file, accepted)
    try:
        mode = path.stat().st_mode
        if os.name == "posix" and stat.S_IMODE(mode) & 0o077:
            raise Refused(say("access", "token-file-open", file=file))
        with path.open("rb") as held:
            token = held.read(MOST_BYTES).decode("ascii", "replace").strip()
    except (FileNotFoundError, NotADirectoryError, IsADirectoryError, ValueError) as error:
        raise WrongInput("--token-file", file, accepted) from error
    except OSError as error:
        raise Unavailable(f"{file}: {error.strerror}") from error
    if not token:
        raise WrongInput("--token-file", "", accepted)
    return token
