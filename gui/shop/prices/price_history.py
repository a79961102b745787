"""Every entry of the record of prices with who and when, and the button that takes the newest back."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QWidget

from core.services.own_shop.price_preview import PriceOverview
from gui.toolkit import theme
from gui.toolkit.text import moment, say
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import PaperFrame, empty, stacked, words

NEWEST = 12
"""How many of the newest entries are told."""
_HEADS = theme.Length(20)


class PriceHistory(PaperFrame):
    """Empty until the records answer."""

    def __init__(self, timezone: str) -> None:
        super().__init__("price-history")
        self._timezone, entries = timezone, QWidget()
        self._entries = stacked(entries)
        self.take_back = QPushButton(say("settings", "prices-take-back"))
        self.take_back.setObjectName("prices-take-back")
        self.take_back.setEnabled(False)
        self.column.addWidget(words(say("settings", "prices-history"), "heading"))
        self.column.addWidget(entries)
        self.column.addWidget(self.take_back, 0, Qt.AlignmentFlag.AlignLeft)

    def show_overview(self, found: PriceOverview) -> None:
        """Tell the newest entries, and whether one can be taken back."""
        empty(self._entries)
        facts = FactList(_HEADS.px)
        for each in found.versions[:NEWEST]:
            facts.add(f"{moment(each.at, self._timezone)}", [each.words, each.by])
        none = words(say("settings", "prices-history-none"), "small")
        self._entries.addWidget(facts if found.versions else none)
        self.take_back.setEnabled(found.can_take_back)
