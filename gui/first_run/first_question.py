"""The first question of an empty place: set up a shop of one's own, or practise in the invented one."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.instant_buttons import InstantButton
from gui.widgets.layouts import scrolled, slip, stacked, words

_WIDE = theme.Length(88)


class FirstQuestion(QWidget):
    """Two ways. Nothing is stored anywhere before one of them is taken."""

    wants_own_shop = Signal()
    wants_practice = Signal()

    def __init__(self, where: str) -> None:
        """``where``: the place at which there is no shop yet, as it may be shown."""
        super().__init__()
        self.setObjectName("first-question")
        self.own = _way("own", self.wants_own_shop.emit)
        self.practice = _way("practice", self.wants_practice.emit)
        self.setFocusProxy(self.own)
        self._lay_out(where)

    def _lay_out(self, where: str) -> None:
        inside = QWidget()
        row = QHBoxLayout(inside)
        row.addStretch(1)
        paper, column = slip("first-slip")
        paper.setMaximumWidth(_WIDE.px)
        column.setSpacing(2 * theme.UNIT)
        column.addWidget(words(say("settings", "first-welcome"), "great"))
        column.addWidget(words(say("settings", "first-nothing-here")))
        column.addWidget(words(where, "small"))
        for button, key in ((self.own, "own"), (self.practice, "practice")):
            column.addWidget(button)
            column.addWidget(words(say("settings", f"first-{key}-means")))
        row.addWidget(paper, 8, Qt.AlignmentFlag.AlignVCenter)
        row.addStretch(1)
        whole: QVBoxLayout = stacked(self)
        whole.addWidget(scrolled(inside, "first-scroll"))


def _way(name: str, take: object) -> InstantButton:
    button = InstantButton(say("settings", f"first-{name}"))
    button.setObjectName(f"first-{name}")
    button.setAccessibleName(button.text().replace("&", ""))
    button.setAccessibleDescription(say("settings", f"first-{name}-means"))
    button.setProperty("role", "main" if name == "own" else "")
    button.clicked.connect(take)
    return button
