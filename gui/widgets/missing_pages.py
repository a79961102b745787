"""What is still to be filled in before the first real order, each with the way to its page."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop.readiness import Readiness
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.instant_buttons import InstantButton
from gui.widgets.layouts import empty, words


class MissingPages(QFrame):
    """One list; it is gone when nothing is missing any more."""

    wanted = Signal(object)
    """The `SetupPage` somebody wants to fill in."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("missing-pages")
        self.setProperty("role", "caution")
        column = QVBoxLayout(self)
        column.setContentsMargins(2 * theme.UNIT, theme.UNIT, 2 * theme.UNIT, theme.UNIT)
        column.setSpacing(theme.UNIT // 2)
        self._words = words()
        column.addWidget(self._words)
        self._ways = QVBoxLayout()
        column.addLayout(self._ways)
        self.hide()

    @property
    def words(self) -> str:
        """What stands there, or nothing."""
        return "" if self.isHidden() else self._words.text()

    def show_readiness(self, found: Readiness) -> None:
        """List what is missing."""
        self._words.setText(sentence(found))
        empty(self._ways)
        ways = [self._way(page) for page in found.needed or found.later]
        self._ways.addWidget(ButtonRow([*ways, QWidget()]))
        self.setVisible(bool(found.needed or found.later))

    def _way(self, page: SetupPage) -> InstantButton:
        button = InstantButton(say("settings", f"title-{page.value}"))
        button.setObjectName(f"fill-in-{page.value}")
        button.setAccessibleName(say("settings", "first-fill-in", page=button.text()))
        button.clicked.connect(partial(self.wanted.emit, page))
        return button


def sentence(found: Readiness) -> str:
    """What it means that pages are missing, or that none is."""
    if found.needed:
        return say("settings", "first-needed")
    return say("settings", "first-later" if found.later else "first-all-done")
