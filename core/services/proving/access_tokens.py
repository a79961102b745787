"""Tokens: what a program of a person proves itself with, where nobody can type a PIN.

A token is 256 random bits, made here and shown once. Kept is SHA-256 over a salt and the token: what is drawn
at random from so many cannot be guessed, so that a slow hash would only cost time (NIST SP 800-63B, 5.1.2.2:
look-up secrets of 112 bits and more).
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from dataclasses import dataclass, replace
from datetime import date, timedelta

from core.model.errors import Refused, WrongInput
from core.model.folding import folded
from core.model.own_shop.access_records import AccessToken
from core.model.own_shop.settings_records import Permission, Person
from core.scheduling import opening_hours
from core.services.own_shop import people, settings_versions
from core.store import current_settings, permissions
from core.store.steps import step
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

USUAL_DAYS, MOST_DAYS = 90, 366
"""How long a token is good where nobody says how long, and at most (assumptions)."""
_BITS, _SALT_BITS = 256, 128
_BEGINS = "twt_"


@dataclass(frozen=True, slots=True)
class NewToken:
    """A token nobody has yet, and what is kept of it."""

    token: str
    kept: AccessToken


def new(name: str, today: date, until: date | None = None) -> NewToken:
    """Draws a token; nothing is stored. WrongInput for a last day that is over or too far away."""
    last = today + timedelta(days=USUAL_DAYS) if until is None else until
    if not today <= last <= today + timedelta(days=MOST_DAYS):
        accepted = say("access", "token-day-accepted", n=MOST_DAYS)
        raise WrongInput(say("access", "token-day"), last.isoformat(), accepted)
    token = _BEGINS + secrets.token_urlsafe(_BITS // 8)
    return NewToken(
        token, AccessToken(name.strip(), last, _digest(token, secrets.token_hex(_SALT_BITS // 8)))
    )


@step
def issue(unit: Unit, person: str, token: AccessToken) -> None:
    """Gives a person a token made by `new`. NotPermitted without the right to change settings."""
    permissions.check(unit, Permission.SETTINGS)
    chosen = people.person(unit, person)
    if any(folded(each.name) == folded(token.name) for each in chosen.tokens):
        raise Refused(say("access", "token-is-there", name=person, token=token.name))
    _put(unit, replace(chosen, tokens=(*chosen.tokens, token)))


@step
def revoke(unit: Unit, person: str, token: str) -> None:
    """Takes a token from a person, by its name; it is not taken any more from this moment on.

    NotPermitted without the right to change settings, WrongInput, with those there are, for another name.
    """
    permissions.check(unit, Permission.SETTINGS)
    chosen = people.person(unit, person)
    left = tuple(each for each in chosen.tokens if folded(each.name) != folded(token))
    if len(left) == len(chosen.tokens):
        names = ", ".join(each.name for each in chosen.tokens) or say("files", "none")
        raise WrongInput(say("access", "token"), token, say("files", "one-of", names=names))
    _put(unit, replace(chosen, tokens=left))


@step
def map_user(unit: Unit, person: str, user: str) -> None:
    """Has a user of a computer count as this person.

    NotPermitted without the right to change settings, WrongInput for a user who is somebody else already.
    """
    permissions.check(unit, Permission.SETTINGS)
    chosen = people.person(unit, person)
    for each in current_settings.read(unit).staff:
        if each.name != person and any(_is_same(user, kept) for kept in each.system_users):
            accepted = say("settings", "system-user-of-one", name=each.name)
            raise WrongInput(say("access", "system-user"), user, accepted)
    if user not in chosen.system_users:
        _put(unit, replace(chosen, system_users=(*chosen.system_users, user)))


@step
def unmap_user(unit: Unit, person: str, user: str) -> None:
    """Takes a user of a computer from a person; WrongInput, with those there are, for another."""
    permissions.check(unit, Permission.SETTINGS)
    chosen = people.person(unit, person)
    if user not in chosen.system_users:
        names = ", ".join(chosen.system_users) or say("files", "none")
        raise WrongInput(say("access", "system-user"), user, say("files", "one-of", names=names))
    _put(unit, replace(chosen, system_users=tuple(each for each in chosen.system_users if each != user)))


def holder(unit: Unit, token: str) -> Person:
    """Whose token this is. Refused where it is nobody's, or its last day is over."""
    settings = current_settings.read(unit)
    today = opening_hours.today(settings, unit.now)
    for person in settings.working_staff:
        for each in person.tokens:
            if fits(each, token):
                if each.until < today:
                    day = locale_figures.full_day(each.until)
                    raise Refused(say("access", "token-over", name=person.name, token=each.name, day=day))
                return person
    raise Refused(say("access", "token-unknown"))


def fits(kept: AccessToken, token: str) -> bool:
    """Whether ``kept`` is what is kept of this token."""
    salt = kept.digest.split("$")[1]
    return hmac.compare_digest(kept.digest, _digest(token, salt))


def _put(unit: Unit, changed: Person) -> None:
    settings = current_settings.read(unit)
    staff = tuple(changed if each.name == changed.name else each for each in settings.staff)
    settings_versions.change(unit, replace(settings, staff=staff))


def _is_same(user: str, kept: str) -> bool:
    return user.rpartition("/")[2] == kept.rpartition("/")[2]


def _digest(token: str, salt: str) -> str:
    return f"sha256${salt}${hashlib.sha256((salt + token).encode()).hexdigest()}"
