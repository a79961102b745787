"""The chapter on the shop's settings: decks, hours, days closed, people."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from core.catalogue.formats import catalogue
from core.model.names import FormatName, Speed
from core.model.settings_records import Deck, ShopSettings
from core.scheduling import opening_hours
from core.services.shop_overview import COMING_DAYS, ShopView
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.text import day, say, times_in_twenty
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import rule, slip, words

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_HEADS = 20 * theme.UNIT


class SettingsChapter(Chapter):
    """Decks, hours, people."""

    name = "decks"
    place = 90
    kinds = frozenset({"shop"})

    def open(self, view: ShopView) -> QWidget:
        return _settings(view)


CHAPTER = SettingsChapter


def _settings(view: ShopView) -> QWidget:
    """Decks, hours, days off, people."""
    paper, column = slip("chapter-decks")
    fitted = view.fittings
    machines = FactList(_HEADS)
    for deck in fitted.decks:
        machines.add(deck.name, [_deck(deck)])
    column.addWidget(words(say("shop", "machines"), "heading"))
    column.addWidget(machines)
    column.addWidget(rule())
    facts = FactList(_HEADS)
    facts.add(say("shop", "hours"), _hours(fitted))
    shut = [say("shop", "shut_day", day=day(when), why=why) for when, why in view.shut]
    facts.add(say("shop", "shut_coming"), shut or [say("shop", "none_shut", days=COMING_DAYS)])
    facts.add("", [say("shop", "past_closing", minutes=fitted.past_closing_minutes)])
    facts.add(say("shop", "people"), [str(fitted.people)])
    facts.add("", [say("shop", "confidence", times=times_in_twenty(fitted.confidence))])
    front = fitted.front
    facts.add(say("shop", "front"), [front.name, *front.address, front.phone])
    column.addWidget(facts)
    return paper


def _words(name: FormatName) -> str:
    return catalogue().format(name).words


def _deck(deck: Deck) -> str:
    """What one deck plays, on one line."""
    speeds = [speed.words for speed in Speed if speed.value in deck.speeds]
    parts = [
        ", ".join(map(_words, sorted(deck.plays))),
        ", ".join(sorted(deck.tv)).upper(),
        ", ".join(speeds),
    ]
    if not deck.in_service:
        parts.append(say("shop", "out_of_service"))
    return " · ".join(part for part in parts if part)


def _hours(fitted: ShopSettings) -> list[str]:
    lines = []
    for number, weekday in enumerate(_WEEKDAYS):
        spans = [
            f"{_clock(o.start)}–{_clock(o.end)}" for o in opening_hours.regular(fitted) if o.weekday == number
        ]
        lines.append(f"{weekday}: {', '.join(spans) or say('shop', 'closed_weekday')}")
    return lines


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
