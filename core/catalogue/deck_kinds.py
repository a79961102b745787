"""Kinds of deck and what a deck of each usually plays, checked against the formats of the catalogue.

What each kind plays is common practice, no source; it is only where a new deck starts.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal

from msgspec import Struct

from core.catalogue.formats import Catalogue, catalogue
from core.model import resource_files
from core.model.errors import WrongInput, at, one_of
from core.model.names import FormatName, Speed, TvSystem
from core.model.own_shop.settings_records import Deck, ShopSettings
from core.model.shaped_toml import read, shaped
from core.wording.messages import say


class KindEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """``adapters``: recordings whose cassette goes into an adapter first."""

    plays: tuple[str, ...]
    tv: Literal["own", "every", "none"]
    speeds: tuple[Speed, ...]
    adapters: tuple[str, ...] = ()


class KindsFile(Struct, frozen=True, forbid_unknown_fields=True):
    """All kinds by their names, and the countries whose TV system was NTSC (ISO 3166)."""

    ntsc_countries: tuple[str, ...]
    kinds: dict[str, KindEntry]


@dataclass(frozen=True, slots=True)
class DeckKind:
    """One kind of deck."""

    name: str
    plays: tuple[FormatName, ...]
    adapters: tuple[FormatName, ...]
    tv: Literal["own", "every", "none"]
    speeds: tuple[Speed, ...]

    @property
    def words(self) -> str:
        """What the kind is called in a list."""
        return say("settings", f"kinds-{self.name}")

    @property
    def short(self) -> str:
        """What a deck of the kind is called: ``VHS``."""
        return say("settings", f"kinds-short-{self.name}")

    def deck(self, name: str, own_tv: TvSystem) -> Deck:
        """A new deck of this kind; of its speeds, those its formats have in its TV systems."""
        plays = (*self.plays, *self.adapters)
        tv = {"own": [own_tv], "every": list(TvSystem), "none": []}[self.tv]
        known = {(each.speed, each.tv) for format in plays for each in catalogue().format(format).tape_speeds}
        speeds = {speed for speed in self.speeds if any((speed, system) in known for system in (*tv, None))}
        return Deck(
            name=name,
            plays=frozenset(plays),
            tv=frozenset(system.value for system in tv),
            speeds=frozenset(speed.value for speed in speeds),
        )


@cache
def kinds() -> tuple[DeckKind, ...]:
    """The kinds that come with the program, in the order in which they are offered."""
    return load(_path(), catalogue())


def load(path: Path, known: Catalogue) -> tuple[DeckKind, ...]:
    """The kinds of a file; WrongInput names the kind and the key of a format or speed the catalogue lacks."""
    file = shaped(read(path), KindsFile, path.name)
    return tuple(
        _kind(name, entry, known, at(path.name, "kinds", name)) for name, entry in file.kinds.items()
    )


def kind(name: str) -> DeckKind:
    """The kind of a name; WrongInput, naming all of them, when there is none."""
    for each in kinds():
        if each.name == name:
            return each
    raise WrongInput(say("settings", "kinds-kind"), name, one_of(each.name for each in kinds()))


def own_tv(settings: ShopSettings) -> TvSystem:
    """The TV system of most decks of the shop; without decks that of its country."""
    counts = {system: sum(system.value in deck.tv for deck in settings.decks) for system in TvSystem}
    most = max(counts.values())
    leading = [system for system, count in counts.items() if count == most]
    if most and len(leading) == 1:
        return leading[0]
    return TvSystem.NTSC if settings.country in _ntsc_countries() else TvSystem.PAL


def free_names(short: str, count: int, taken: Sequence[str]) -> tuple[str, ...]:
    """Names for ``count`` decks alike that no deck has: ``VHS``, or ``VHS 1`` and ``VHS 2``."""
    is_first = not any(name == short or name.startswith(f"{short} ") for name in taken)
    if count == 1 and is_first:
        return (short,)
    found = _numbered(short, set(taken))
    return tuple(next(found) for _ in range(count))


def _numbered(short: str, taken: set[str]) -> Iterator[str]:
    number = 0
    while True:
        number += 1
        if f"{short} {number}" not in taken:
            yield f"{short} {number}"


def _kind(name: str, entry: KindEntry, known: Catalogue, place: str) -> DeckKind:
    for key, formats in (("plays", entry.plays), ("adapters", entry.adapters)):
        for format in formats:
            if format not in known.names:
                raise WrongInput(at(place, key), format, one_of(known.names))
    plays = tuple(map(FormatName, entry.plays))
    speeds = {each.speed for format in plays for each in known.format(format).tape_speeds}
    for speed in entry.speeds:
        if speed not in speeds:
            raise WrongInput(at(place, "speeds"), speed.value, one_of(sorted(each.value for each in speeds)))
    return DeckKind(name, plays, tuple(map(FormatName, entry.adapters)), entry.tv, entry.speeds)


@cache
def _ntsc_countries() -> frozenset[str]:
    page: dict[str, Any] = read(_path())
    return frozenset(page["ntsc_countries"])


def _path() -> Path:
    return resource_files.path("catalogue", "deck_kinds.toml")
