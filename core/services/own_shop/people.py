"""The people of the shop: their PINs, what they may do, and who signed in.

A PIN is short, so whoever guesses waits: after three wrong ones in a row half a minute, then twice as long
each time, an hour at most (an assumption).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from math import ceil

from sqlalchemy import select

from core.model.errors import WrongInput
from core.model.own_shop.access_records import SystemUser
from core.model.own_shop.settings_records import Permission, Person
from core.services.own_shop import secret_hashes, settings_versions
from core.store import current_settings, history, permissions
from core.store.steps import special_step
from core.store.tables import CounterRow, PinTryRow
from core.store.unit import Unit
from core.wording.messages import say

FREE_TRIES = 3
FIRST_WAIT = timedelta(seconds=30)
LONGEST_WAIT = timedelta(hours=1)
LONGEST_IN_SECONDS = 120
LEAST_DIGITS, MOST_DIGITS = 4, 12


@dataclass(frozen=True, slots=True)
class PinAnswer:
    """Whether the PIN was right; else until when no further one is looked at."""

    is_right: bool
    wait_until: datetime | None = None
    sentence: str = ""
    """Why not."""


def person(unit: Unit, name: str) -> Person:
    """Who works here under a name; WrongInput, with all names, when nobody does."""
    staff = current_settings.read(unit).working_staff
    for each in staff:
        if each.name == name:
            return each
    names = ", ".join(each.name for each in staff) or say("files", "none")
    raise WrongInput(say("settings", "people-name"), name, say("files", "one-of", names=names))


def may(unit: Unit, name: str, permission: Permission) -> bool:
    """Whether a person may do this (see `core.store.permissions`)."""
    return permissions.may(unit, name, permission)


@special_step(secrets=("pin",))
def set_pin(unit: Unit, name: str, pin: str) -> None:
    """Gives a person a PIN, or takes it away (nothing typed). It is kept as an Argon2id hash only.

    One's own, or with the permission to change settings; WrongInput for anything but 4 to 12 digits.
    """
    chosen = person(unit, name)
    kept = replace(chosen, pin=hashed(pin) if pin else "")
    if unit.who != name:
        permissions.check(unit, Permission.SETTINGS)
    settings = current_settings.read(unit)
    staff = tuple(kept if each.name == name else each for each in settings.staff)
    settings_versions.change(unit, replace(settings, staff=staff), needs=None)


def hashed(pin: str) -> str:
    """The Argon2id hash of a PIN with its salt and costs, as a PHC string.

    WrongInput, without repeating what was typed, for anything but 4 to 12 digits.
    """
    if not (pin.isascii() and pin.isdigit() and LEAST_DIGITS <= len(pin) <= MOST_DIGITS):
        raise WrongInput(say("settings", "people-pin"), "…", say("settings", "people-pin-accepted"))
    return secret_hashes.hash_of(pin)


@special_step(secrets=("pin",))
def check_pin(unit: Unit, name: str, pin: str) -> PinAnswer:
    """Whether this is the person's PIN; right for whoever has none.

    A wrong one is written down, also in the history, and a wait after too many of them holds whatever is
    typed meanwhile. A step that writes: carry it out with `Shop.run` and raise nothing inside it.
    """
    chosen = person(unit, name)
    if not chosen.pin:
        return PinAnswer(True)
    _lock_history(unit)
    wrong = _wrong_in_a_row(unit, name)
    until = _wait_until(wrong)
    if until is not None and unit.now < until:
        return _not_yet(unit, until)
    if secret_hashes.fits(chosen.pin, pin):
        if wrong:
            unit.session.add(PinTryRow(person=name, is_right=True, at=unit.now, by=unit.who))
        return PinAnswer(True)
    unit.session.add(PinTryRow(person=name, is_right=False, at=unit.now, by=unit.who))
    history.append(unit, "pin-wrong", say("settings", "people-event-wrong", name=name), person=name)
    until = _wait_until([*wrong, unit.now])
    if until is not None:
        return _not_yet(unit, until)
    return PinAnswer(False, None, say("settings", "people-wrong-pin", name=name))


@special_step(secrets=("pin",))
def sign_in(unit: Unit, name: str, pin: str, *, system_user: SystemUser | None = None) -> PinAnswer:
    """`check_pin`, and a line in the history, under the person's name, that they are here now.

    ``system_user``: who runs the window, where that is to prove it. Whoever has no PIN but is proven in
    another way does not get in by the name alone.
    """
    chosen = person(unit, name)
    is_theirs = system_user is not None and system_user.is_one_of(chosen.system_users)
    asks_proof = current_settings.read(unit).asks_proof
    if asks_proof and chosen.can_be_proven and not chosen.pin and not is_theirs:
        return PinAnswer(False, None, say("access", "sign-in-needs-pin", name=name))
    answer = PinAnswer(True) if is_theirs else check_pin(unit, name, pin)
    if answer.is_right:
        told = say("settings", "people-event-signed-in", name=name)
        history.append(replace(unit, who=name), "signed-in", told, person=name)
    return answer


def has_pin(unit: Unit, name: str) -> bool:
    """Whether whoever acts under this name must know a PIN."""
    return any(each.name == name and each.pin for each in current_settings.read(unit).working_staff)


def _lock_history(unit: Unit) -> None:
    """Nobody tries on another counter at the same time; SQLite has one writer at a time anyway."""
    unit.session.execute(select(CounterRow.last).where(CounterRow.name == "event").with_for_update())


def _wrong_in_a_row(unit: Unit, name: str) -> list[datetime]:
    """The moments of the wrong PINs since the last right one, oldest first."""
    rows = unit.session.scalars(
        select(PinTryRow).where(PinTryRow.person == name).order_by(PinTryRow.id.desc()).limit(50)
    )
    found: list[datetime] = []
    for row in rows:
        if row.is_right:
            break
        found.append(row.at)
    return found[::-1]


def _wait_until(wrong: Sequence[datetime]) -> datetime | None:
    beyond = len(wrong) - FREE_TRIES
    if beyond < 0:
        return None
    wait: timedelta = min(FIRST_WAIT * 2 ** min(beyond, 20), LONGEST_WAIT)
    return wrong[-1] + wait


def _not_yet(unit: Unit, until: datetime) -> PinAnswer:
    seconds = ceil((until - unit.now).total_seconds())
    if seconds <= LONGEST_IN_SECONDS:
        return PinAnswer(False, until, say("settings", "people-wait-seconds", n=seconds))
    return PinAnswer(False, until, say("settings", "people-wait-minutes", n=ceil(seconds / 60)))
