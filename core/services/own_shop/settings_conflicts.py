"""Two counters changed the settings: who changed what meanwhile, and both versions of what both changed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from core.model.errors import Conflict, TapewrightError
from core.model.own_shop import settings_differences
from core.model.own_shop.settings_differences import Difference
from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop import setting_names, settings_changes, settings_versions, shop_settings
from core.store import current_settings
from core.store.unit import Unit
from core.wording.messages import say

Path = tuple[str, ...]
_KEYED_BY = "name"


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
        merged = _merged((), docs[0], docs[1], docs[2], choose)
        return shop_settings.of_document(merged, say("settings", "the-settings"))


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
    _merged((), docs[0], docs[1], docs[2], note)
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


Choice = Callable[[Path, Any, Any, Any], Any]


def _merged(path: Path, was: Any, theirs: Any, yours: Any, choose: Choice) -> Any:
    """Both changes in one; ``choose`` is asked where both changed the same. ``None``: it is not there."""
    if yours in (was, theirs):
        return theirs
    if theirs == was:
        return yours
    if not all(map(_is_keyed, (theirs, yours))) or not (was is None or _is_keyed(was)):
        return choose(path, was, theirs, yours)
    entries = [_entries(each) for each in (was or {}, theirs, yours)]
    before, one, other = entries
    found = {
        key: _merged((*path, key), before.get(key), one.get(key), other.get(key), choose)
        for key in _order(before, one, other)
    }
    kept = {key: value for key, value in found.items() if value is not None}
    return list(kept.values()) if isinstance(theirs, list) else kept


def _order(before: Mapping[str, Any], theirs: Mapping[str, Any], yours: Mapping[str, Any]) -> list[str]:
    """Every key, in the order of whoever changed it: theirs, unless they left it as it was."""
    left = [key for key in before if key in theirs]
    is_theirs = left != [key for key in theirs if key in before]
    first, second = (theirs, yours) if is_theirs else (yours, theirs)
    return list(dict.fromkeys((*first, *second)))


def _is_keyed(value: Any) -> bool:
    """Whether its parts have names: a table, or a list of tables with names."""
    if isinstance(value, Mapping):
        return True
    return isinstance(value, list) and all(isinstance(each, Mapping) and _KEYED_BY in each for each in value)


def _entries(value: Mapping[str, Any] | Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    if isinstance(value, Mapping):
        return dict(value)
    return {str(each[_KEYED_BY]): each for each in value}
