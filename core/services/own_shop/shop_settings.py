"""The shop's settings as a TOML file: read with a sentence for what does not fit, written by a library."""

from __future__ import annotations

import base64
import binascii
import io
import tomllib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import cache, lru_cache
from pathlib import Path
from typing import Any, TypeVar, cast
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import msgspec

from core.catalogue import formats
from core.model import accents, resource_files
from core.model.errors import WrongInput, at, one_of
from core.model.folding import folded
from core.model.names import FormatName, Speed, TvSystem
from core.model.settings_file import (
    BackupEntry,
    DeckEntry,
    ExpectedEntry,
    FrontEntry,
    HolidayEntry,
    OpeningEntry,
    OutageEntry,
    PapersEntry,
    PartnerEntry,
    PersonEntry,
    SettingsFile,
    Weekday,
    WorkEntry,
)
from core.model.settings_records import (
    BackupPlan,
    Deck,
    Duty,
    Expected,
    OpeningHours,
    Outage,
    Partner,
    Permission,
    Person,
    Printing,
    ShopFront,
    ShopSettings,
    Skill,
)
from core.model.shaped_toml import read, shaped
from core.papers import label_stock
from core.scheduling.opening_hours import public_holidays
from core.services.own_shop import own_formats
from core.wording import typed_amounts
from core.wording.messages import say

T = TypeVar("T", bound=msgspec.Struct)
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
ANY_YEAR = 2026
LEAP_YEAR = 2024
"""A year that has every day there is."""
PICTURES = (b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff")
"""How a PNG (ISO/IEC 15948) and a JPEG (ISO/IEC 10918) file begin."""

LARGEST_PICTURE = 4000
"""Pixels of the longer side of a logo; the window makes it smaller by itself."""


@cache
def new_shop() -> ShopSettings:
    """What a new, empty shop starts with; the file is read once."""
    return load(resource_files.path("shop", "new.toml"))


def load(path: Path) -> ShopSettings:
    """Read settings; WrongInput names the file, the key, what was found and what is accepted."""
    return of_document(read(path), path.name)


def loads(text: str, where: str = "settings") -> ShopSettings:
    """Settings from a text; ``where`` names it in sentences."""
    return of_document(parsed(text, where), where)


def dump(settings: ShopSettings) -> str:
    """The settings as a TOML text that `loads` reads back to the same settings."""
    return written(document(settings))


def parsed(text: str, where: str) -> dict[str, Any]:
    """A TOML text as plain tables; WrongInput when it is none."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as failure:
        raise WrongInput(where, str(failure), say("files", "toml-file")) from None


def written(content: Mapping[str, Any]) -> str:
    """Plain tables as a TOML text."""
    import tomli_w

    return tomli_w.dumps(content, multiline_strings=False)


def document(settings: ShopSettings) -> dict[str, Any]:
    """The settings as the plain tables of their file; lists in a settled order."""
    found: dict[str, Any] = _listed(msgspec.to_builtins(_file(settings), builtin_types=(date,)))
    return found


def _listed(value: Any) -> Any:
    """Tuples as lists, as a TOML reader gives them."""
    if isinstance(value, dict):
        return {key: _listed(each) for key, each in value.items()}
    return [_listed(each) for each in value] if isinstance(value, list | tuple) else value


def of_document(content: object, where: str) -> ShopSettings:
    """The settings of a file's plain tables; WrongInput as `load`."""
    page = shaped(content, SettingsFile, where)
    country, region = _holiday_place(page.holidays, where)
    own = own_formats.of_entries(page.format, where)
    known = formats.of_own(own).names
    decks = _decks(page.deck, known, where)
    return ShopSettings(
        front=replace(
            _front(page.front, page.papers, where),
            words=tuple(sorted(page.words.items())),
            format_names=own_formats.named(own),
        ),
        decks=decks,
        openings=_openings(page.opening, where),
        holiday_country=country,
        holiday_region=region,
        closed_days=frozenset(page.holidays.closed),
        past_closing_minutes=page.work.past_closing_minutes,
        people=page.work.people,
        confidence=page.work.confidence,
        outages=_outages(page.outage, [deck.name for deck in decks], where),
        staff=_staff(page.person, where),
        lock_minutes=page.work.lock_minutes,
        expected=Expected(**msgspec.structs.asdict(page.expected)),
        partners=_partners(page.partner, known, where),
        formats=own,
        backup=_backup(page.backup, at(where, "backup")),
    )


# --- reading -----------------------------------------------------------------------------


def _front(entry: FrontEntry, papers: PapersEntry, where: str) -> ShopFront:
    place = at(where, "front")
    try:
        ZoneInfo(entry.timezone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        accepted = say("readers", "iana_timezone_accepted_like")
        raise WrongInput(at(place, "timezone"), entry.timezone, accepted) from None
    if not typed_amounts.is_currency(entry.currency):
        raise WrongInput(at(place, "currency"), entry.currency, say("files", "currency"))
    if entry.accent not in accents.NAMES:
        raise WrongInput(at(place, "accent"), entry.accent, one_of(filter(None, accents.NAMES)))
    _check_logo(entry.logo, at(place, "logo"))
    fields = msgspec.structs.asdict(entry)
    for key, value in fields.items():
        for line in value if isinstance(value, tuple) else (value,):
            _check_printable(line, at(place, key))
    front = ShopFront(**fields, printing=Printing(**msgspec.structs.asdict(papers)))
    label_stock.check(front, at(where, "papers"))
    return front


def _check_printable(text: str, place: str) -> None:
    """WrongInput for control characters: no paper could show them."""
    if not text.isprintable():
        raise WrongInput(place, text, say("files", "one-line"))


def _check_logo(text: str, place: str) -> None:
    if text and not _is_logo(text):
        raise WrongInput(place, f"{text[:20]}…", say("files", "logo"))


@lru_cache(maxsize=4)
def _is_logo(text: str) -> bool:
    """Whether a text is a picture in base64; remembered, for it is asked at every pause in the typing."""
    try:
        content = base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError):
        return False
    return content.startswith(PICTURES) and _is_picture(content)


def _is_picture(content: bytes) -> bool:
    """Whether the picture can be drawn, and is no larger than the door lets in."""
    from PIL import Image, UnidentifiedImageError

    try:
        with Image.open(io.BytesIO(content), formats=("PNG", "JPEG")) as picture:
            if max(picture.size) > LARGEST_PICTURE:
                return False
            picture.load()
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, Image.DecompressionBombError):
        return False
    return True


def _holiday_place(entry: HolidayEntry, where: str) -> tuple[str | None, str | None]:
    """Country and region whose public holidays the shop keeps; both must be known."""
    country, region = entry.country or None, entry.region or None
    if country is not None:
        try:
            public_holidays(country, region, ANY_YEAR)
        except WrongInput as wrong:
            raise WrongInput(at(where, "holidays", "country"), wrong.found, wrong.accepted) from None
    return country, region


def _decks(entries: Sequence[DeckEntry], known: Sequence[str], where: str) -> tuple[Deck, ...]:
    decks: list[Deck] = []
    for number, entry in enumerate(entries, 1):
        place = at(where, f"deck {number}")
        if any(deck.name == entry.name for deck in decks):
            raise WrongInput(at(place, "name"), entry.name, say("readers", "every_deck_name_own"))
        _check_printable(entry.name, at(place, "name"))
        plays = _known(entry.plays, known, at(place, "plays"))
        decks.append(
            Deck(
                name=entry.name,
                plays=frozenset(FormatName(one) for one in plays),
                tv=_known(entry.tv, [system.value for system in TvSystem], at(place, "tv")),
                speeds=_known(entry.speeds, [speed.value for speed in Speed], at(place, "speeds")),
                in_service=entry.in_service and not entry.retired,
                retired=entry.retired,
                formerly=entry.formerly,
            )
        )
    return tuple(decks)


def _known(found: Iterable[str], accepted: Iterable[str], place: str) -> frozenset[str]:
    names = tuple(accepted)
    for one in found:
        if one not in names:
            raise WrongInput(place, one, say("readers", "accepted_3", names=", ".join(names)))
    return frozenset(found)


def _staff(entries: Sequence[PersonEntry], where: str) -> tuple[Person, ...]:
    """The people; one of those who work here must be able to change the settings, or nobody ever could."""
    staff: list[Person] = []
    for number, entry in enumerate(entries, 1):
        place = at(where, f"person {number}")
        if any(folded(person.name) == folded(entry.name) for person in staff):
            raise WrongInput(at(place, "name"), entry.name, say("settings", "people-name-of-their-own"))
        _check_printable(entry.name, at(place, "name"))
        staff.append(
            Person(
                name=entry.name.strip(),
                may=frozenset(permission.value for permission in entry.may),
                does=frozenset(duty.value for duty in entry.does),
                pin=entry.pin,
                hours=_openings(entry.hours, place),
                retired=entry.retired,
                can=frozenset(skill.value for skill in entry.can),
            )
        )
    here = [person for person in staff if not person.retired]
    if here and not any(Permission.SETTINGS.value in person.may for person in here):
        names = ", ".join(person.name for person in here)
        raise WrongInput(at(where, "person", "may"), names, say("settings", "people-one-owner"))
    return tuple(staff)


def _openings(entries: Sequence[OpeningEntry], where: str) -> tuple[OpeningHours, ...]:
    found = []
    for number, entry in enumerate(entries, 1):
        start, end = minutes_of(entry.start), minutes_of(entry.end)
        if end <= start:
            accepted = say("readers", "time_after_opening_accepted")
            raise WrongInput(at(where, f"opening {number}", "to"), entry.end, accepted)
        _check_season(entry, at(where, f"opening {number}"))
        days = (WEEKDAYS.index(day) for day in entry.days)
        season = entry.season.strip()
        found += [OpeningHours(day, start, end, entry.first, entry.last, season) for day in days]
    return tuple(sorted(found, key=lambda one: (one.first, one.last, one.season, one.weekday, one.start)))


def _check_season(entry: OpeningEntry, place: str) -> None:
    """WrongInput for a season with one end only or none, or with a day that no year has."""
    _check_printable(entry.season, at(place, "season"))
    if entry.season.strip() and not entry.first and not entry.last:
        raise WrongInput(at(place, "first"), "", say("files", "both-ends"))
    if bool(entry.first) is not bool(entry.last):
        key = "last" if entry.first else "first"
        raise WrongInput(at(place, key), "", say("files", "both-ends"))
    for key, day in (("first", entry.first), ("last", entry.last)):
        try:
            date.fromisoformat(f"{LEAP_YEAR}-{day or '01-01'}")
        except ValueError:
            raise WrongInput(at(place, key), day, say("files", "month-day")) from None


def _outages(entries: Sequence[OutageEntry], decks: Sequence[str], where: str) -> tuple[Outage, ...]:
    for number, entry in enumerate(entries, 1):
        place = at(where, f"outage {number}")
        if entry.deck not in decks:
            names = ", ".join(decks) or say("files", "none")
            raise WrongInput(at(place, "deck"), entry.deck, say("readers", "decks_shop", names=names))
        if entry.ends < entry.begins:
            accepted = say("readers", "day_before_begins_accepted")
            raise WrongInput(at(place, "ends"), entry.ends.isoformat(), accepted)
    return tuple(Outage(entry.deck, entry.begins, entry.ends) for entry in entries)


def _backup(entry: BackupEntry, place: str) -> BackupPlan:
    """Two different folders, and a warning that does not come before the next backup is due."""
    for key in ("first", "second"):
        _check_printable(getattr(entry, key), at(place, key))
    if entry.second and entry.second.rstrip("/\\") == entry.first.rstrip("/\\"):
        raise WrongInput(at(place, "second"), entry.second, say("files", "another-folder"))
    if entry.told_after_hours < entry.every_hours:
        accepted = say("files", "from-every-hours", hours=entry.every_hours)
        raise WrongInput(at(place, "told_after_hours"), str(entry.told_after_hours), accepted)
    return BackupPlan(**msgspec.structs.asdict(entry))


def _partners(entries: Sequence[PartnerEntry], known: Sequence[str], where: str) -> tuple[Partner, ...]:
    partners: list[Partner] = []
    for number, entry in enumerate(entries, 1):
        place = at(where, f"partner {number}")
        if any(partner.name == entry.name for partner in partners):
            raise WrongInput(at(place, "name"), entry.name, say("settings", "partner-name-of-its-own"))
        for key in ("name", "price"):
            _check_printable(getattr(entry, key), at(place, key))
        taken = frozenset(map(FormatName, _known(entry.formats, known, at(place, "formats"))))
        partners.append(Partner(entry.name, taken, entry.price, entry.days))
    return tuple(partners)


def minutes_of(text: str) -> int:
    """Minutes after midnight of a time like ``09:00``; ``24:00`` is the end of the day."""
    hour, _, minute = text.partition(":")
    return int(hour) * 60 + int(minute)


# --- writing -----------------------------------------------------------------------------


def _file(settings: ShopSettings) -> SettingsFile:
    return SettingsFile(
        front=_entry(FrontEntry, settings.front),
        work=WorkEntry(
            settings.people, settings.past_closing_minutes, settings.confidence, settings.lock_minutes
        ),
        holidays=HolidayEntry(
            settings.holiday_country or "", settings.holiday_region or "", tuple(sorted(settings.closed_days))
        ),
        expected=_entry(ExpectedEntry, settings.expected),
        papers=_entry(PapersEntry, settings.front.printing),
        opening=tuple(_opening_entries(settings.openings)),
        deck=tuple(
            DeckEntry(
                deck.name,
                tuple(sorted(deck.plays)),
                tuple(sorted(deck.tv)),
                tuple(sorted(deck.speeds)),
                deck.in_service,
                deck.retired,
                deck.formerly,
            )
            for deck in settings.decks
        ),
        outage=tuple(OutageEntry(each.deck, each.begins, each.ends) for each in settings.outages),
        words=dict(settings.front.words),
        format=own_formats.entries(settings.formats),
        backup=_entry(BackupEntry, settings.backup),
        person=tuple(map(_person_entry, settings.staff)),
        partner=tuple(
            PartnerEntry(each.name, tuple(sorted(each.formats)), each.price, each.days)
            for each in settings.partners
        ),
    )


def _person_entry(person: Person) -> PersonEntry:
    return PersonEntry(
        name=person.name,
        may=tuple(permission for permission in Permission if permission.value in person.may),
        does=tuple(duty for duty in Duty if duty.value in person.does),
        pin=person.pin,
        hours=tuple(_opening_entries(person.hours)),
        retired=person.retired,
        can=tuple(skill for skill in Skill if skill.value in person.can),
    )


def _entry(kind: type[T], record: object) -> T:
    """The table of a record whose fields are called as its keys."""
    return kind(**{name: getattr(record, name) for name in kind.__struct_fields__})


def _opening_entries(openings: Sequence[OpeningHours]) -> Iterator[OpeningEntry]:
    """Days with the same hours stand together, as a person would write them."""
    days: dict[tuple[int, int, str, str, str], list[str]] = {}
    for each in openings:
        same = (each.start, each.end, each.first, each.last, each.season)
        days.setdefault(same, []).append(WEEKDAYS[each.weekday])
    for (start, end, first, last, season), names in days.items():
        weekdays = cast("tuple[Weekday, ...]", tuple(names))
        yield OpeningEntry(weekdays, clock(start), clock(end), first, last, season)


def clock(minutes: int) -> str:
    """Minutes after midnight as a file has them: ``09:00``."""
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
