"""Changes of the settings in sentences: what would change, and what a version changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta

from core.model.own_shop import renamed_decks, settings_differences
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_differences import Difference
from core.model.own_shop.settings_records import Outage, ShopSettings
from core.services.own_shop import opening_entries, setting_names, shop_settings
from core.wording import locale_figures, typed_hours
from core.wording.messages import say

_MONDAY = date(2026, 1, 5)
_DAYS = 7
_TOLD_WHOLE = ("opening", "outage")
"""Tables whose entries have no name; they are told as what they say."""
Season = tuple[str, str, str]
"""Name, first and last day, the days as ``06-15``."""


def differences(before: ShopSettings, after: ShopSettings) -> tuple[Difference, ...]:
    """Every key of the settings file that differs."""
    return settings_differences.differences(shop_settings.document(before), shop_settings.document(after))


def foretold(before: ShopSettings, after: ShopSettings) -> tuple[str, ...]:
    """A head and a line for everything that would change; one sentence where nothing would."""
    found = lines(before, after)
    if not found:
        return (say("settings", "own-nothing"),)
    return (say("settings", "own-will-change"), *found, say("settings", "own-stays"))


def lines(before: ShopSettings, after: ShopSettings) -> tuple[str, ...]:
    """A line for everything that differs, in the words of the pages."""
    return tuple(_lines(before, after))


def _lines(before: ShopSettings, after: ShopSettings) -> Iterator[str]:
    names = _new_names(before, after)
    for was, now in names.items():
        yield say("settings", "change-deck-renamed", was=was, now=now)
    before = renamed_decks.renamed(before, names)
    yield from _hours(before, after)
    for each in differences(before, after):
        is_told_apart = each.path[0] == "person" and each.path[2:3] in (("hours",), ("tokens",))
        if each.path[0] not in _TOLD_WHOLE and each.path[-1] != "formerly" and not is_told_apart:
            yield setting_names.line(each)
    yield from _own_hours(before, after)
    yield from _tokens(before, after)
    yield from _outages(before, after)


def _new_names(before: ShopSettings, after: ShopSettings) -> Mapping[str, str]:
    """Decks that are called otherwise, old name to new."""
    known = {deck.name for deck in before.decks}
    return {
        deck.formerly[-1]: deck.name
        for deck in after.decks
        if deck.name not in known and deck.formerly and deck.formerly[-1] in known
    }


# --- hours -------------------------------------------------------------------------------


def _hours(before: ShopSettings, after: ShopSettings) -> Iterator[str]:
    """A line for each weekday whose hours differ, and one for each season that does."""
    was, now = _seasons(before), _seasons(after)
    all_year: Season = ("", "", "")
    for number in range(_DAYS):
        one, other = (_on(hours.get(all_year, ()), number) for hours in (was, now))
        if one != other:
            yield say("settings", "difference", place=_weekday(number), was=one, now=other)
    for season in dict.fromkeys((*was, *now)):
        if season != all_year and was.get(season) != now.get(season):
            key = "change-season" if season in now else "change-season-removed"
            yield say("settings", key, season=season_words(*season), hours=_week(now.get(season, ())))


def season_words(name: str, first: str, last: str) -> str:
    """``Summer (Jun 15–Aug 31)``; the days alone where it has no name."""
    days = locale_figures.between(_day(first), _day(last))
    return say("settings", "season-named", name=name, days=days) if name else days


def _seasons(settings: ShopSettings) -> dict[Season, tuple[OpeningHours, ...]]:
    """The hours of each season; those of the whole year under three empty texts."""
    found: dict[Season, tuple[OpeningHours, ...]] = {}
    for each in settings.openings:
        season = (each.season, each.first, each.last)
        found[season] = (*found.get(season, ()), each)
    return found


def _week(openings: tuple[OpeningHours, ...]) -> str:
    days = sorted({each.weekday for each in openings})
    return "; ".join(
        say("settings", "change-day-hours", day=_weekday(day), hours=_on(openings, day)) for day in days
    )


def _on(openings: tuple[OpeningHours, ...], number: int) -> str:
    """The hours of one weekday."""
    return typed_hours.typed_spans([(each.start, each.end) for each in openings if each.weekday == number])


def _weekday(number: int) -> str:
    return locale_figures.weekday(_MONDAY + timedelta(days=number))


def _day(month_day: str) -> str:
    return locale_figures.day_of_month(date.fromisoformat(f"{opening_entries.LEAP_YEAR}-{month_day}"))


# --- people and outages ------------------------------------------------------------------


def _own_hours(before: ShopSettings, after: ShopSettings) -> Iterator[str]:
    """A line for everyone whose own hours differ."""
    was = {person.name: person.hours for person in before.staff}
    for person in after.staff:
        if was.get(person.name, ()) != person.hours:
            yield say("settings", "change-person-hours", name=person.name)


def _tokens(before: ShopSettings, after: ShopSettings) -> Iterator[str]:
    """A line for every token that was issued or revoked; of their digests nothing is told."""
    was = {(person.name, each.name): each for person in before.staff for each in person.tokens}
    now = {(person.name, each.name): each for person in after.staff for each in person.tokens}
    for name, token in dict.fromkeys((*was, *now)):
        kept, made = was.get((name, token)), now.get((name, token))
        if made is None:
            yield say("settings", "change-token-revoked", name=name, token=token)
        elif made != kept:
            key = "change-token-issued" if kept is None else "change-token-changed"
            day = locale_figures.full_day(made.until)
            yield say("settings", key, name=name, token=token, day=day)


def _outages(before: ShopSettings, after: ShopSettings) -> Iterator[str]:
    for key, some, others in (
        ("change-outage-added", after.outages, before.outages),
        ("change-outage-removed", before.outages, after.outages),
    ):
        for each in some:
            if each not in others:
                yield _outage_line(key, each)


def _outage_line(key: str, outage: Outage) -> str:
    span = locale_figures.span(outage.begins, outage.ends)
    return say("settings", key, deck=outage.deck, span=span)
