"""How the one line is understood, told beneath it while it is typed."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, Qt, Signal, Slot
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout

from gui.counter.line_words_offered import LineText
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import words

MOST_FAULTS = 4
"""Sentences on unread words at once; the others are marked in the line."""


class LineReadingPanel(QFrame):
    """Lies over what is beneath the line and never takes the keyboard."""

    correction_wanted = Signal(int)
    """The place in the line of words that were pointed at."""
    rows_wanted = Signal()
    """The rows are to be added, by mouse."""

    def __init__(self, field: QLineEdit) -> None:
        super().__init__(field)
        self._field = field
        self.setObjectName("line-reading")
        self.setProperty("role", "slip")
        self._rows = words()
        self._rows.setObjectName("line-understood")
        self._faults = [self._fault(n) for n in range(MOST_FAULTS)]
        self._keys = words(say("counter", "line_keys"), "small")
        self.add = _add_button()
        self.add.clicked.connect(self.rows_wanted)
        self._places: list[int] = []
        self._lay_out()
        self.hide()

    def _lay_out(self) -> None:
        column = self._column = QVBoxLayout(self)
        column.setContentsMargins(12, 6, 12, 6)
        column.setSpacing(2)
        for part in (self._rows, *self._faults):
            column.addWidget(part)
        below = QHBoxLayout()
        below.addWidget(self._keys, 1)
        below.addWidget(self.add, 0, Qt.AlignmentFlag.AlignBottom)
        column.addLayout(below)

    def _fault(self, n: int) -> QPushButton:
        button = QPushButton()
        button.setObjectName(f"line-fault-{n}")
        button.setProperty("role", "word")
        button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        button.clicked.connect(self._pressed)
        theme.set_style_property(button, "ink", "attention")
        return button

    @Slot()
    def _pressed(self) -> None:
        place = int(self.sender().objectName().rpartition("-")[2])
        self.correction_wanted.emit(self._places[place])

    def show_reading(self, read: LineText, *, is_open: bool) -> None:
        """Tell how the text is understood while the line ``is_open``; nothing of an empty one."""
        if not (is_open and read.text.strip()):
            self.hide()
            return
        self._rows.setText(read.rows_told)
        self._places = [place for place, _ in read.faults[:MOST_FAULTS]]
        for n, button in enumerate(self._faults):
            button.setVisible(n < len(self._places))
            if n < len(self._places):
                button.setText(read.faults[n][1].replace("&", "&&"))
        self._place()
        self.show()
        self.raise_()

    def _place(self) -> None:
        """Beneath the line, as wide as it; above it where there is no room beneath."""
        window = self._field.window()
        if self.parentWidget() is not window:
            self.setParent(window)
        wide = max(self._field.width(), 40 * theme.UNIT)
        self.setFixedWidth(wide)
        self._column.activate()
        high = self._column.heightForWidth(wide)
        below = self._field.mapTo(window, QPoint(0, self._field.height() + 2))
        if below.y() + high > window.height():
            below = self._field.mapTo(window, QPoint(0, -high - 2))
        self.setGeometry(QRect(below.x(), max(0, below.y()), wide, high))


def _add_button() -> QPushButton:
    """What Return does, for the mouse; the line keeps the keyboard."""
    button = QPushButton(say("counter", "line_add"))
    button.setObjectName("line-add")
    button.setAccessibleName(say("counter", "line_add"))
    button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    return button
