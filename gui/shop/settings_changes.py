"""Changes of the settings in sentences: what would change, and what was changed, by whom and when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from core.model.settings_differences import Difference, spelled
from core.model.settings_records import ShopSettings
from core.services import settings_versions
from core.services.settings_versions import SettingsVersion
from core.wording import locale_figures, messages, typed_hours
from gui.toolkit.text import moment, say

_MONDAY = date(2026, 1, 5)
_DAYS = 7
_HOURS = "opening"


def change_lines(before: ShopSettings, after: ShopSettings) -> tuple[str, ...]:
    """A head and a line for everything that would change; one sentence where nothing would."""
    found = settings_versions.differences(before, after)
    lines = [*_hours(before, after), *(_line(each) for each in found if each.path[0] != _HOURS)]
    if not lines:
        return (say("settings", "own-nothing"),)
    return (say("settings", "own-will-change"), *lines, say("settings", "own-stays"))


def version_lines(versions: Sequence[SettingsVersion], timezone: str) -> Iterator[str]:
    """A line a version, newest first."""
    for version in versions:
        yield say(
            "settings", "history-line", at=moment(version.at, timezone), by=version.by, words=version.words
        )
    if not versions:
        yield say("settings", "no-history")


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
    key = f"papers-when-{value}" if difference.path[-1] in ("quote", "claim_slip", "labels") else ""
    return say("settings", key) if key and messages.knows("settings", key) else spelled(value)


def _hours(before: ShopSettings, after: ShopSettings) -> Iterator[str]:
    """A line for each weekday whose hours differ."""
    for number in range(_DAYS):
        was, now = (
            typed_hours.typed_spans(
                [(each.start, each.end) for each in one.openings if each.weekday == number]
            )
            for one in (before, after)
        )
        if was != now:
            day = locale_figures.weekday(_MONDAY + timedelta(days=number))
            yield say("settings", "difference", place=day, was=was, now=now)
