"""The shop's fittings as a TOML file: front, decks, hours, holidays and people."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from core.catalogue.formats import catalogue
from core.model import resource_files
from core.model.errors import WrongInput
from core.model.inventory import MOST_TAPES
from core.model.names import FormatName, Speed, TvSystem
from core.model.settings_records import Deck, Expected, OpeningHours, Outage, ShopFront, ShopSettings
from core.model.toml_reader import Page, page_of, read
from core.scheduling.opening_hours import public_holidays
from core.wording.messages import say

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
DAY_MINUTES = 24 * 60
ANY_YEAR = 2026


@cache
def new_shop() -> ShopSettings:
    """What a new, empty shop starts with; the file is read once."""
    return load(resource_files.path("shop", "new.toml"))


def load(path: Path) -> ShopSettings:
    """Read fittings; WrongInput names the file, the key, what was found and what is accepted."""
    return _fittings(read(path))


def loads(text: str, where: str = "fittings") -> ShopSettings:
    """ShopSettings from a text; ``where`` names it in sentences."""
    return _fittings(page_of(text, where))


def dump(fittings: ShopSettings) -> str:
    """The fittings as a TOML text that `loads` reads back to the same fittings."""
    blocks = [_front_text(fittings.front), _work_text(fittings), _holidays_text(fittings)]
    blocks += [_expected_text(fittings.expected)]
    blocks += [_opening_text(opening) for opening in fittings.openings]
    blocks += [_deck_text(deck) for deck in fittings.decks]
    blocks += [_outage_text(outage) for outage in fittings.outages]
    return "\n\n".join(blocks) + "\n"


def _fittings(page: Page) -> ShopSettings:
    work, holidays = page.table("work"), page.table("holidays")
    country, region = _place(holidays)
    fittings = ShopSettings(
        front=_front(page.table("front")),
        decks=_decks(page.tables("deck")),
        openings=tuple(sorted(_openings(page.tables("opening")), key=lambda one: (one.weekday, one.start))),
        holiday_country=country,
        holiday_region=region,
        closed_days=frozenset(holidays.days("closed")),
        past_closing_minutes=work.whole("past_closing_minutes", least=0, most=DAY_MINUTES),
        people=work.whole("people", least=1, most=100),
        confidence=work.share("confidence", least=0.5, most=0.999),
        expected=_expected(page.table("expected")) if "expected" in page else Expected(),
    )
    fittings = replace(fittings, outages=_outages(page.tables("outage"), fittings.decks))
    page.refuse_unread()
    return fittings


def _expected(page: Page) -> Expected:
    return Expected(
        hours_between_failures=page.share("hours_between_failures", least=0, most=1_000_000),
        hours_to_repair=page.share("hours_to_repair", least=0, most=10_000),
        rush_boxes_a_week=page.share("rush_boxes_a_week", least=0, most=1_000),
        tapes_in_a_rush_box=page.share("tapes_in_a_rush_box", least=0, most=MOST_TAPES),
        unplanned_closures=page.share("unplanned_closures", least=0, most=0.5),
    )


def _outages(pages: Iterable[Page], decks: Iterable[Deck]) -> tuple[Outage, ...]:
    names, found = [deck.name for deck in decks], []
    for page in pages:
        deck, begins, ends = page.text("deck"), page.day("begins"), page.day("ends")
        if deck not in names:
            raise page.wrong("deck", deck, say("readers", "decks_shop", names=", ".join(names) or "none"))
        if ends < begins:
            raise page.wrong("ends", ends.isoformat(), say("readers", "day_before_begins_accepted"))
        found.append(Outage(deck, begins, ends))
    return tuple(found)


def _front(page: Page) -> ShopFront:
    timezone = page.text("timezone")
    try:
        ZoneInfo(timezone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        accepted = say("readers", "iana_timezone_accepted_like")
        raise page.wrong("timezone", timezone, accepted) from None
    return ShopFront(
        name=page.text("name"),
        address=page.texts("address"),
        phone=page.text("phone"),
        currency=page.text("currency"),
        timezone=timezone,
        language=page.text("language"),
    )


def _place(page: Page) -> tuple[str | None, str | None]:
    """Country and region whose public holidays the shop keeps; both must be known."""
    country, region = page.optional_text("country"), page.optional_text("region")
    if country is not None:
        try:
            public_holidays(country, region, ANY_YEAR)
        except WrongInput as wrong:
            raise page.wrong("country", wrong.found, wrong.accepted) from None
    return country, region


def _decks(pages: Iterable[Page]) -> tuple[Deck, ...]:
    decks: list[Deck] = []
    for page in pages:
        name = page.text("name")
        if any(deck.name == name for deck in decks):
            raise page.wrong("name", name, say("readers", "every_deck_name_own"))
        decks.append(
            Deck(
                name=name,
                plays=frozenset(FormatName(one) for one in _known(page, "plays", catalogue().names)),
                tv=_known(page, "tv", [system.value for system in TvSystem]),
                speeds=_known(page, "speeds", [speed.value for speed in Speed]),
                in_service=page.flag("in_service"),
            )
        )
    return tuple(decks)


def _known(page: Page, key: str, accepted: Iterable[str]) -> frozenset[str]:
    found, names = page.texts(key), tuple(accepted)
    for one in found:
        if one not in names:
            raise page.wrong(key, one, say("readers", "accepted_3", names=", ".join(names)))
    return frozenset(found)


def _openings(pages: Iterable[Page]) -> Iterable[OpeningHours]:
    for page in pages:
        start, end = _minutes(page, "from"), _minutes(page, "to")
        if end <= start:
            raise page.wrong("to", page.content["to"], say("readers", "time_after_opening_accepted"))
        for day in page.texts("days"):
            if day not in WEEKDAYS:
                raise page.wrong("days", day, say("readers", "accepted_4", weekdays=", ".join(WEEKDAYS)))
            yield OpeningHours(WEEKDAYS.index(day), start, end)


def _minutes(page: Page, key: str) -> int:
    """Minutes after midnight of a text like ``09:00``; ``24:00`` is the end of the day."""
    text = page.text(key)
    hour, colon, minute = text.partition(":")
    if colon and len(minute) == 2 and (hour + minute).isdecimal() and (hour + minute).isascii():
        found = int(hour) * 60 + int(minute)
        if int(minute) < 60 and found <= DAY_MINUTES:
            return found
    raise page.wrong(key, text, say("readers", "time_accepted"))


def _front_text(front: ShopFront) -> str:
    return "\n".join(
        (
            "[front]",
            f"name = {_quoted(front.name)}",
            f"address = {_list(front.address)}",
            f"phone = {_quoted(front.phone)}",
            f"currency = {_quoted(front.currency)}",
            f"timezone = {_quoted(front.timezone)}",
            f"language = {_quoted(front.language)}",
        )
    )


def _work_text(fittings: ShopSettings) -> str:
    return "\n".join(
        (
            "[work]",
            f"people = {fittings.people}",
            f"past_closing_minutes = {fittings.past_closing_minutes}",
            f"confidence = {fittings.confidence!r}",
        )
    )


def _holidays_text(fittings: ShopSettings) -> str:
    closed = ", ".join(day.isoformat() for day in sorted(fittings.closed_days))
    return "\n".join(
        (
            "[holidays]",
            f"country = {_quoted(fittings.holiday_country or '')}",
            f"region = {_quoted(fittings.holiday_region or '')}",
            f"closed = [{closed}]",
        )
    )


def _expected_text(expected: Expected) -> str:
    return "\n".join(
        (
            "[expected]",
            f"hours_between_failures = {expected.hours_between_failures!r}",
            f"hours_to_repair = {expected.hours_to_repair!r}",
            f"rush_boxes_a_week = {expected.rush_boxes_a_week!r}",
            f"tapes_in_a_rush_box = {expected.tapes_in_a_rush_box!r}",
            f"unplanned_closures = {expected.unplanned_closures!r}",
        )
    )


def _outage_text(outage: Outage) -> str:
    return "\n".join(
        (
            "[[outage]]",
            f"deck = {_quoted(outage.deck)}",
            f"begins = {outage.begins.isoformat()}",
            f"ends = {outage.ends.isoformat()}",
        )
    )


def _opening_text(opening: OpeningHours) -> str:
    return "\n".join(
        (
            "[[opening]]",
            f"days = [{_quoted(WEEKDAYS[opening.weekday])}]",
            f"from = {_quoted(_clock(opening.start))}",
            f"to = {_quoted(_clock(opening.end))}",
        )
    )


def _deck_text(deck: Deck) -> str:
    return "\n".join(
        (
            "[[deck]]",
            f"name = {_quoted(deck.name)}",
            f"plays = {_list(sorted(deck.plays))}",
            f"tv = {_list(sorted(deck.tv))}",
            f"speeds = {_list(sorted(deck.speeds))}",
            f"in_service = {'true' if deck.in_service else 'false'}",
        )
    )


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _list(texts: Iterable[str]) -> str:
    return f"[{', '.join(_quoted(text) for text in texts)}]"


def _quoted(text: str) -> str:
    """A TOML basic string; JSON escapes are TOML escapes, but for DEL."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
