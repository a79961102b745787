"""What tapes turn out to be: beside each belief what it began as and what the decks have shown since."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from core.playtime import evidence, habit_words, starting_beliefs
from core.playtime.beliefs import HIGH, LOW
from core.playtime.evidence import Evidence
from core.playtime.interval_calibration import ENOUGH, ENOUGH_BOXES, IntervalLevels
from core.scheduling.worktime.work_evidence import WorkEvidence
from core.services.shop_overview import ShopView
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.fact_list import FactList, as_sentence
from gui.widgets.layouts import rule, slip, words

_HEADS = theme.Length(20)
_FIGURES = theme.Length(12)


def _page(view: ShopView) -> QWidget:
    """Every habit with its evidence; then those of which nothing was seen yet."""
    paper, column = slip("chapter-habits")
    column.addWidget(words(say("shop", "habits"), "heading"))
    column.addWidget(words(say("shop", "habits_lead")))
    column.addWidget(words(say("shop", "habits_ground", source=starting_beliefs.source()), "small"))
    if not view.habits:
        column.addWidget(words(say("shop", "habits_none"), "lead"))
    if view.change is not None:
        column.addWidget(words(habit_words.changed(view.change), "attention"))
    column.addWidget(words(_ranges(view.levels), "lead" if view.levels.tapes else ""))
    for one in view.habits:
        column.addWidget(rule())
        column.addWidget(words(one.sentence, "lead"))
        column.addWidget(_Table(one))
        if one.group[0] == "length":
            source = starting_beliefs.length_source(one.group)
            column.addWidget(words(say("shop", "habits_length_ground", source=source), "small"))
    column.addWidget(rule())
    column.addWidget(words(say("shop", "work_head"), "field"))
    column.addWidget(words(say("shop", "work_lead")))
    column.addWidget(_work(view.work))
    column.addWidget(rule())
    column.addWidget(words(say("shop", "habits_unseen"), "field"))
    column.addWidget(_unseen(evidence.unseen(view.habits)))
    return paper


def _ranges(levels: IntervalLevels) -> str:
    """How often ranges held lately, and where they begin and end for it."""
    if not levels.tapes:
        return say("shop", "ranges_none", tapes=ENOUGH, boxes=ENOUGH_BOXES)
    wider = round(100 * (LOW - levels.low + levels.high - HIGH))
    drawn = "ranges_wider" if wider > 0 else "ranges_narrower" if wider < 0 else "ranges_as_before"
    found = say(
        "shop",
        "ranges_found",
        outside=levels.outside,
        tapes=levels.tapes,
        right=f"{levels.tapes * (1 - HIGH + LOW):.0f}",
    )
    ends = {"low": f"{100 * levels.low:.0f}", "high": f"{100 * levels.high:.0f}"}
    return f"{found} {say('shop', drawn, **ends)}"


class _Table(QWidget):
    """One habit: a row a possibility, what was believed at first, what was seen, what is believed now."""

    def __init__(self, one: Evidence, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(f"{one.whose}, {one.about}")
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(2 * theme.UNIT)
        self._grid.setColumnMinimumWidth(0, _HEADS.px)
        for column in (1, 2, 3):
            self._grid.setColumnMinimumWidth(column, _FIGURES.px)
        self._grid.setColumnStretch(4, 1)
        heads = ("habits_at_first", "habits_seen", "habits_now")
        self._add(as_sentence(one.about), *(say("shop", head) for head in heads), role="small")
        seen, now = dict(one.seen), dict(one.now)
        for said, share in one.at_first:
            tapes = say("shop", "habits_tapes", count=f"{seen[said]:.0f}", tapes=one.tapes)
            self._add(as_sentence(said), _share(share), tapes, _share(now[said]))

    def _add(self, head: str, *figures: str, role: str = "") -> None:
        row = self._grid.rowCount()
        self._grid.addWidget(words(head, role, wrap=False), row, 0)
        for column, figure in enumerate(figures, 1):
            label: QLabel = words(figure, role, wrap=False)
            self._grid.addWidget(label, row, column, Qt.AlignmentFlag.AlignRight)


def _unseen(found: Iterable[Evidence]) -> FactList:
    facts = FactList(_HEADS.px)
    for whose, several in groupby(found, key=lambda one: one.whose):
        facts.add(whose, [_only(one) for one in several])
    return facts


def _work(found: Iterable[WorkEvidence]) -> FactList:
    """What the history has shown of the shop's work, each beside what was stated."""
    facts = FactList(_HEADS.px)
    for one in found:
        facts.add(as_sentence(one.about), one.lines)
    return facts


def _only(one: Evidence) -> str:
    shares = ", ".join(f"{said} {_share(share)}" for said, share in one.at_first)
    return say("shop", "habits_only", about=one.about, shares=shares)


def _share(share: float) -> str:
    return say("shop", "habits_share", share=f"{100 * share:.0f}")


class HabitsChapter(Chapter):
    """What tapes turn out to be."""

    name = "habits"
    place = 110

    def open(self, view: ShopView) -> QWidget:
        return _page(view)


CHAPTER = HabitsChapter
