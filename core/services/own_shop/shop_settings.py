"""The shop's settings as a TOML file: read with a sentence for what does not fit, written by a library."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

import msgspec

from core.catalogue import formats
from core.model import resource_files, shaped_toml
from core.model.errors import WrongInput, at
from core.model.own_shop.copying_minutes import CopyingMinutes
from core.model.own_shop.handling_minutes import HandlingMinutes
from core.model.own_shop.settings_file import (
    BackupEntry,
    CallsEntry,
    CopyingEntry,
    ExpectedEntry,
    FrontEntry,
    HandlingEntry,
    HolidayEntry,
    OutageEntry,
    PapersEntry,
    PartnerEntry,
    SettingsFile,
    WorkEntry,
)
from core.model.own_shop.settings_records import (
    BackupPlan,
    CallRules,
    Expected,
    ShopSettings,
)
from core.model.shaped_toml import read, shaped
from core.services.own_shop import (
    deck_entries,
    front_entries,
    opening_entries,
    own_additions,
    own_formats,
    people_entries,
)
from core.services.own_shop.entry_checks import check_printable
from core.store.shop_files import locked_files
from core.wording.messages import say

T = TypeVar("T", bound=msgspec.Struct)


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
    return shaped_toml.parsed(text, where)


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
    country, region = opening_entries.holiday_place(page.holidays, where)
    own = own_formats.of_entries(page.format, where)
    known = formats.of_own(own).names
    decks = deck_entries.of_entries(page.deck, known, where)
    added = own_additions.of_file(page, where)
    return ShopSettings(
        front=replace(
            front_entries.of_entry(page.front, page.papers, where),
            words=tuple(sorted(page.words.items())),
            format_names=own_formats.named(own),
            finding_names=own_additions.named(added),
        ),
        decks=decks,
        openings=opening_entries.of_entries(page.opening, where),
        holiday_country=country,
        holiday_region=region,
        closed_days=frozenset(page.holidays.closed),
        past_closing_minutes=page.work.past_closing_minutes,
        people=page.work.people,
        confidence=page.work.confidence,
        outages=deck_entries.outages(page.outage, [deck.name for deck in decks], where),
        staff=people_entries.of_entries(page.person, where),
        lock_minutes=page.work.lock_minutes,
        file_for_ready=page.work.file_for_ready,
        proof_to_read=page.work.proof_to_read,
        scanner_prefix=page.work.scanner_prefix,
        expected=Expected(**msgspec.structs.asdict(page.expected)),
        partners=deck_entries.partners(page.partner, known, where),
        formats=own,
        additions=added,
        backup=_backup(page.backup, at(where, "backup")),
        calls=_calls(page.calls, at(where, "calls")),
        copying=CopyingMinutes(**msgspec.structs.asdict(page.copying)),
        handling=HandlingMinutes(**msgspec.structs.asdict(page.handling)),
    )


# --- reading -----------------------------------------------------------------------------


def _backup(entry: BackupEntry, place: str) -> BackupPlan:
    """Two different folders, and a warning that does not come before the next backup is due."""
    for key in ("first", "second"):
        check_printable(getattr(entry, key), at(place, key))
    if entry.second and entry.second.rstrip("/\\") == entry.first.rstrip("/\\"):
        raise WrongInput(at(place, "second"), entry.second, say("files", "another-folder"))
    if entry.told_after_hours < entry.every_hours:
        accepted = say("files", "from-every-hours", hours=entry.every_hours)
        raise WrongInput(at(place, "told_after_hours"), str(entry.told_after_hours), accepted)
    if entry.lock:
        locked_files.check_public_key(entry.lock, at(place, "lock"))
    return BackupPlan(**msgspec.structs.asdict(entry))


def _calls(entry: CallsEntry, place: str) -> CallRules:
    """Reminders grow: each comes later than the one before."""
    if list(entry.reminders) != sorted(set(entry.reminders)):
        found = ", ".join(map(str, entry.reminders))
        raise WrongInput(at(place, "reminders"), found, say("files", "reminder-days"))
    return CallRules(**msgspec.structs.asdict(entry))


# --- writing -----------------------------------------------------------------------------


def _file(settings: ShopSettings) -> SettingsFile:
    return SettingsFile(
        front=_entry(FrontEntry, settings.front),
        work=WorkEntry(
            settings.people,
            settings.past_closing_minutes,
            settings.confidence,
            settings.lock_minutes,
            settings.file_for_ready,
            settings.proof_to_read,
            settings.scanner_prefix,
        ),
        holidays=HolidayEntry(
            settings.holiday_country or "", settings.holiday_region or "", tuple(sorted(settings.closed_days))
        ),
        expected=_entry(ExpectedEntry, settings.expected),
        papers=_entry(PapersEntry, settings.front.printing),
        opening=tuple(opening_entries.entries(settings.openings)),
        deck=deck_entries.entries(settings.decks),
        outage=tuple(OutageEntry(each.deck, each.begins, each.ends) for each in settings.outages),
        words=dict(settings.front.words),
        format=own_formats.entries(settings.formats),
        finding=own_additions.finding_entries(settings.additions),
        repair=own_additions.repair_entries(settings.additions),
        medium=own_additions.medium_entries(settings.additions),
        backup=_entry(BackupEntry, settings.backup),
        calls=_entry(CallsEntry, settings.calls),
        copying=_entry(CopyingEntry, settings.copying),
        handling=_entry(HandlingEntry, settings.handling),
        person=tuple(map(people_entries.entry, settings.staff)),
        partner=tuple(
            PartnerEntry(each.name, tuple(sorted(each.formats)), each.price, each.days)
            for each in settings.partners
        ),
    )


def _entry(kind: type[T], record: object) -> T:
    """The table of a record whose fields are called as its keys."""
    return kind(**{name: getattr(record, name) for name in kind.__struct_fields__})
