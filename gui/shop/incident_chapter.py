"""Tapes lost or damaged and not settled with their owners yet: what happened, and what is next for each."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton, QWidget

from core.model.incident_records import OpenIncident
from core.papers import open_incident_words
from core.services.shop_overview import ShopView
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import PaperFrame, rule, stacked, words


class OpenIncidents(PaperFrame):
    """One entry for each; its button leads to the tape, where the next line is written down."""

    wanted = Signal(object)
    """The `TapeCode` somebody goes on with."""

    def __init__(self, found: Sequence[OpenIncident], timezone: str) -> None:
        super().__init__("chapter-incidents")
        self.column.addWidget(words(say("shop", "incidents"), "heading"))
        self.column.addWidget(words(say("incidents", "open-how" if found else "none-open"), "lead"))
        for each in found:
            self.column.addWidget(rule())
            self.column.addWidget(self._entry(each, timezone))

    def _entry(self, each: OpenIncident, timezone: str) -> QWidget:
        entry = QWidget()
        column = stacked(entry, theme.UNIT // 2)
        column.addWidget(words(open_incident_words.what(each, timezone)))
        column.addWidget(words(open_incident_words.next_step(each), "attention"))
        button = QPushButton(say("incidents", "open-go"))
        button.setObjectName(f"incident-{each.incident.tape}")
        button.setAccessibleName(say("incidents", "open-go-to", code=each.incident.tape))
        button.clicked.connect(partial(self.wanted.emit, each.incident.tape))
        column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        return entry


class IncidentChapter(Chapter):
    """What the owner looks through: nothing lost or damaged is forgotten."""

    name = "incidents"
    place = 25

    def note(self, view: ShopView) -> str:
        count = len(view.incidents)
        return say("incidents", "open-count", count=count) if count else ""

    def open(self, view: ShopView) -> QWidget:
        page = OpenIncidents(view.incidents, view.settings.front.timezone)
        page.wanted.connect(self.wants_tape)
        return page


CHAPTER = IncidentChapter
