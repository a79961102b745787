"""The people of the shop in the settings file: read, checked and written."""

from __future__ import annotations

from collections.abc import Sequence

from core.model.errors import WrongInput, at
from core.model.folding import folded
from core.model.own_shop.access_records import AccessToken
from core.model.own_shop.settings_file import PersonEntry, TokenEntry
from core.model.own_shop.settings_records import Duty, Permission, Person, Skill
from core.services.own_shop import opening_entries
from core.services.own_shop.entry_checks import check_printable
from core.wording.messages import say


def of_entries(entries: Sequence[PersonEntry], where: str) -> tuple[Person, ...]:
    """The people; one of those who work here must be able to change the settings, or nobody ever could."""
    staff: list[Person] = []
    for number, entry in enumerate(entries, 1):
        place = at(where, f"person {number}")
        if any(folded(person.name) == folded(entry.name) for person in staff):
            raise WrongInput(at(place, "name"), entry.name, say("settings", "people-name-of-their-own"))
        check_printable(entry.name, at(place, "name"))
        staff.append(
            Person(
                name=entry.name.strip(),
                may=frozenset(permission.value for permission in entry.may),
                does=frozenset(duty.value for duty in entry.does),
                pin=entry.pin,
                hours=opening_entries.of_entries(entry.hours, place),
                retired=entry.retired,
                can=frozenset(skill.value for skill in entry.can),
                system_users=entry.system_users,
                tokens=_tokens(entry.tokens, place),
            )
        )
    _check_system_users(staff, where)
    here = [person for person in staff if not person.retired]
    if here and not any(Permission.SETTINGS.value in person.may for person in here):
        names = ", ".join(person.name for person in here)
        raise WrongInput(at(where, "person", "may"), names, say("settings", "people-one-owner"))
    return tuple(staff)


def entry(person: Person) -> PersonEntry:
    """One of them as a table of the file."""
    return PersonEntry(
        name=person.name,
        may=tuple(permission for permission in Permission if permission.value in person.may),
        does=tuple(duty for duty in Duty if duty.value in person.does),
        pin=person.pin,
        hours=tuple(opening_entries.entries(person.hours)),
        retired=person.retired,
        can=tuple(skill for skill in Skill if skill.value in person.can),
        system_users=person.system_users,
        tokens=tuple(TokenEntry(each.name, each.until, each.digest) for each in person.tokens),
    )


def _tokens(entries: Sequence[TokenEntry], place: str) -> tuple[AccessToken, ...]:
    """The tokens of a person; each has a name of its own, by which it is revoked."""
    names = [folded(each.name) for each in entries]
    for number, each in enumerate(entries):
        if folded(each.name) in names[:number]:
            accepted = say("settings", "token-name-of-its-own")
            raise WrongInput(at(place, f"token {number + 1}", "name"), each.name, accepted)
        check_printable(each.name, at(place, f"token {number + 1}", "name"))
    return tuple(AccessToken(each.name.strip(), each.until, each.digest) for each in entries)


def _check_system_users(staff: Sequence[Person], where: str) -> None:
    """WrongInput where one user of a computer would be two people: then it proves neither."""
    owners: dict[str, str] = {}
    for number, person in enumerate(staff, 1):
        for each in person.system_users:
            key = each.rpartition("/")[2]
            if key in owners:
                accepted = say("settings", "system-user-of-one", name=owners[key])
                raise WrongInput(at(where, f"person {number}", "system_users"), each, accepted)
            owners[key] = person.name
