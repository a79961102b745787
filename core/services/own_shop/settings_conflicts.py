"""Two counters changed the settings: who changed what meanwhile, and both versions of what both changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from core.model.errors import Conflict, TapewrightError
from core.model.own_shop import settings_differences
from core.model.own_shop.settings_differences import Difference
from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop import setting_names, settings_changes, settings_versions, shop_settings
from core.services.own_shop.merged_documents import Path, merged
from core.store import current_settings
from core.store.unit import Unit
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class SettingsClash:
    """A key that both changed, each to something else, with what each made of it in words."""

    path: Path
    theirs: str
    yours: str


@dataclass(frozen=True, slots=True)
class SettingsConflict:
    """What was typed over an older version than the one in force now."""

    number: int
    """Of the version in force now."""
    by: str
    """Who saved that."""
    changes: tuple[tuple[datetime, str, str], ...]
    """When, who and what in words, of each version since the one that was typed over; oldest first."""
    clashes: tuple[SettingsClash, ...]
    timezone: str
    base: ShopSettings
    theirs: ShopSettings
    yours: ShopSettings

    @property
    def subject(self) -> str:
        """What both changed, as a key of the wording."""
        return "settings"

    def told(self) -> Conflict:
        """That nothing of yours is saved yet, and because of whom."""
        return Conflict(say("access", "conflict-told", who=self.by))

    def settled(self, yours: Mapping[Path, bool]) -> ShopSettings:
        """Both changes in one: of each clash yours where ``yours`` says so, else theirs.

        WrongInput where the two do not go together, as `shop_settings.load`.
        """

        def choose(path: Path, _: Any, theirs: Any, mine: Any) -> Any:
            return mine if yours[path] else theirs

        docs = [shop_settings.document(each) for each in (self.base, self.theirs, self.yours)]
        both = merged((), docs[0], docs[1], docs[2], choose)
        return shop_settings.of_document(both, say("settings", "the-settings"))


def read(unit: Unit, yours: ShopSettings, based_on: int) -> SettingsConflict:
    """What became of version ``based_on``, over which ``yours`` was typed."""
    newest_first = settings_versions.versions(unit)
    told = [(each, words) for each, words in settings_versions.told(newest_first) if each.number > based_on]
    base = next((each.settings for each in newest_first if each.number == based_on), unit.new_shop())
    theirs = current_settings.read(unit)
    return SettingsConflict(
        number=newest_first[0].number if newest_first else 0,
        by=newest_first[0].by if newest_first else "",
        changes=tuple((each.at, each.by, words) for each, words in reversed(told)),
        clashes=_clashes(base, theirs, yours),
        timezone=theirs.front.timezone,
        base=base,
        theirs=theirs,
        yours=yours,
    )


def _clashes(base: ShopSettings, theirs: ShopSettings, yours: ShopSettings) -> tuple[SettingsClash, ...]:
    found: list[SettingsClash] = []

    def note(path: Path, was: Any, one: Any, other: Any) -> Any:
        words = [_words(base, path, was, each) for each in (one, other)]
        found.append(SettingsClash(path, *words))
        return one

    docs = [shop_settings.document(each) for each in (base, theirs, yours)]
    merged((), docs[0], docs[1], docs[2], note)
    return tuple(found)


def _words(base: ShopSettings, path: Path, was: Any, now: Any) -> str:
    """What one side made of a key, as the history would tell it."""
    document = settings_differences.with_value(shop_settings.document(base), path, now)
    try:
        alone = shop_settings.of_document(document, say("settings", "the-settings"))
        lines = settings_changes.lines(base, alone)
    except TapewrightError:  # what goes with it was changed as well: then the key alone is told
        lines = ()
    return "; ".join(lines) or setting_names.line(Difference(path, was, now))
