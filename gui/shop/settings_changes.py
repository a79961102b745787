"""Changes of the settings in sentences: what would change, and what was changed, by whom and when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from core.model import accents
from core.model.settings_differences import Difference, spelled
from core.model.settings_records import OpeningHours, ShopSettings
from core.services.own_shop import settings_versions
from core.services.own_shop.settings_versions import SettingsVersion
from core.wording import locale_figures, messages, typed_hours
from gui.toolkit.text import moment, say

_MONDAY = date(2026, 1, 5)
_DAYS = 7
_HOURS = "opening"
MOST_VERSIONS = 8


def change_lines(before: ShopSettings, after: ShopSettings) -> tuple[str, ...]:
    """A head and a line for everything that would change; one sentence where nothing would."""
    lines = tuple(_lines(before, after))
    if not lines:
        return (say("settings", "own-nothing"),)
    return (say("settings", "own-will-change"), *lines, say("settings", "own-stays"))


def version_lines(versions: Sequence[SettingsVersion], timezone: str) -> Iterator[str]:
    """A line for each of the newest versions; ``versions`` are all of them, newest first."""
    for version, before in zip(versions[:MOST_VERSIONS], [*versions[1:], None], strict=False):
        told = _told(version, before)
        yield say("settings", "history-line", at=moment(version.at, timezone), by=version.by, words=told)
    if not versions:
        yield say("settings", "no-history")


def _told(version: SettingsVersion, before: SettingsVersion | None) -> str:
    """What a version changed; the first one, or one that takes another back, in its own words."""
    if before is None or version.undoes is not None:
        return version.words
    return "; ".join(_lines(before.settings, version.settings)) or version.words


def _lines(before: ShopSettings, after: ShopSettings) -> Iterator[str]:
    yield from _hours(before, after)
    for each in settings_versions.differences(before, after):
        if each.path[0] != _HOURS:
            yield _line(each)


def _line(difference: Difference) -> str:
    place = _place(difference.path)
    if difference.path[-1] == "logo":
        return say("settings", "own-logo-changed" if difference.now else "own-logo-removed")
    was, now = _words(difference, difference.was), _words(difference, difference.now)
    return say("settings", "difference", place=place, was=was, now=now)


def _place(path: Sequence[str]) -> str:
    """What the field is called on its page, else the path as it is typed."""
    key = "-".join(path).replace("work-", "hours-").replace("holidays-", "hours-")
    key = {"front-paper": "papers-paper"}.get(key, key)
    return say("settings", key) if messages.knows("settings", key) else ".".join(path)


def _words(difference: Difference, value: object) -> str:
    """A value as its field shows it."""
    if difference.path[-1] == "accent":
        return accents.words(str(value or ""))
    key = f"papers-when-{value}" if difference.path[-1] in ("quote", "claim_slip", "labels") else ""
    return say("settings", key) if key and messages.knows("settings", key) else spelled(value)


def _hours(before: ShopSettings, after: ShopSettings) -> Iterator[str]:
    """A line for each weekday whose hours differ, and one for other seasons."""
    for number in range(_DAYS):
        was, now = (_on(one, number) for one in (before, after))
        if was != now:
            day = locale_figures.weekday(_MONDAY + timedelta(days=number))
            yield say("settings", "difference", place=day, was=was, now=now)
    if _seasons(before) != _seasons(after):
        yield say("settings", "own-seasons-changed" if _seasons(after) else "own-seasons-removed")


def _on(settings: ShopSettings, number: int) -> str:
    """The hours of one weekday outside all seasons."""
    here = (each for each in settings.openings if each.weekday == number and not each.first)
    return typed_hours.typed_spans([(each.start, each.end) for each in here])


def _seasons(settings: ShopSettings) -> set[OpeningHours]:
    return {each for each in settings.openings if each.first}
