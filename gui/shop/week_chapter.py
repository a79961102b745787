"""The chapter on this week: what each deck plays, days closed, and whom to call about it."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from core.services.shop_overview import ShopView
from gui.shop import promise_lines
from gui.shop.chapter import Chapter
from gui.shop.deck_week_drawing import DeckWeek
from gui.shop.deck_week_words import legend
from gui.toolkit import theme
from gui.toolkit.text import day, say
from gui.widgets.layouts import slip, stacked, words


class WeekChapter(Chapter):
    """The decks this week."""

    name = "week"
    place = 15

    def open(self, view: ShopView) -> QWidget:
        return _week(view)


CHAPTER = WeekChapter


def _week(view: ShopView) -> QWidget:
    """The decks this week, days off, what could not be placed, and whom to call about it."""
    both = QWidget()
    column = stacked(both, 2 * theme.UNIT)
    column.addWidget(_decks_week(view))
    if any(kept.is_at_risk for kept in view.promises):
        column.addWidget(promise_lines.promises(view, only_risky=True))
    return both


def _decks_week(view: ShopView) -> QWidget:
    paper, column = slip("chapter-week")
    column.addWidget(words(say("shop", "week"), "heading"))
    picture = DeckWeek()
    picture.show_week(view.week)
    column.addWidget(picture)
    column.addWidget(legend())
    if view.week.unplaced:
        column.addWidget(words(say("shop", "unplaced", count=view.week.unplaced)))
    for when, why in view.week.shut:
        column.addWidget(words(say("shop", "shut_day", day=day(when), why=why), "small"))
    return paper
