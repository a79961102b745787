"""In place of deposit and Book while the customer signs: who signs, and what to do when they would not."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.model.agreement_records import AgreedHow
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.instant_buttons import InstantButton
from gui.widgets.layouts import stacked, words

_TURNS: dict[int, int] = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_PageUp: -1}


class SigningBar(QWidget):
    """Book as signed, or as said, or to be signed on paper; Esc goes back to the order."""

    agreed = Signal(object)
    """`AgreedHow`."""
    left = Signal()
    turned = Signal(int)
    """A page on, or one back, of what is signed."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("signing-bar")
        self.name = ""
        """Who is asked to sign."""
        self.state = words("", "field", wrap=False)
        self.state.setObjectName("signing-state")
        self.buttons = {
            how: self._button(how) for how in (AgreedHow.SPOKEN, AgreedHow.PAPER, AgreedHow.SIGNATURE)
        }
        self.buttons[AgreedHow.SIGNATURE].setProperty("role", "main")
        column = stacked(self, 2)
        column.addWidget(self.state)
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT // 2)
        for how, button in self.buttons.items():
            row.addWidget(button, 1 if how is AgreedHow.SIGNATURE else 0)
        column.addLayout(row)

    def begin(self, name: str) -> None:
        """Ask this person; nobody has signed yet."""
        self.name = name
        self.show_ink(False)

    def show_ink(self, is_signed: bool) -> None:
        """Whether there is ink on the Customer side."""
        self.state.setText(say("counter", "sign_done" if is_signed else "sign_wait"))
        theme.set_style_property(self.state, "ink", "time" if is_signed else "muted")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() in _TURNS:
            self.turned.emit(_TURNS[event.key()])
        else:
            super().keyPressEvent(event)

    def _button(self, how: AgreedHow) -> InstantButton:
        text = say("counter", f"sign_{how.value}")
        button = InstantButton(text)
        button.setObjectName(f"sign-{how.value}")
        button.setAccessibleName(text.replace("&", ""))
        button.setAutoDefault(False)
        button.clicked.connect(partial(self.agreed.emit, how))
        return button
