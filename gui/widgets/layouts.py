"""Small pieces of layout that every screen uses alike."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QLabel, QLayout, QScrollArea, QVBoxLayout, QWidget

from gui import theme


class Columns(QScrollArea):
    """Columns side by side; where the room is too narrow they stand one below the other and scroll."""

    def __init__(self, fold_below: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._fold_below = fold_below
        inside = QWidget()
        self._box = QBoxLayout(QBoxLayout.Direction.LeftToRight, inside)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(2 * theme.UNIT)
        _dress_area(self, inside)

    @property
    def is_folded(self) -> bool:
        """Whether the columns stand one below the other."""
        return self._box.direction() is QBoxLayout.Direction.TopToBottom

    def add(self, column: QWidget, stretch: int) -> None:
        """One more column, ``stretch`` parts wide."""
        self._box.addWidget(column, stretch)

    def resizeEvent(self, event: QResizeEvent) -> None:
        narrow = event.size().width() < self._fold_below
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        if self._box.direction() is not way:
            self._box.setDirection(way)
        super().resizeEvent(event)


def scrolled(inside: QWidget, name: str = "") -> QScrollArea:
    """``inside`` in an area that scrolls up and down when the room is short."""
    area = QScrollArea()
    area.setObjectName(name)
    _dress_area(area, inside)
    return area


def scroll_by_page(area: QScrollArea, event: QKeyEvent) -> bool:
    """Let Page Up and Page Down scroll an area that never has the keyboard itself; says whether they did."""
    ways = {int(Qt.Key.Key_PageDown): 1, int(Qt.Key.Key_PageUp): -1}
    way = ways.get(event.key(), 0)
    bar = area.verticalScrollBar()
    bar.setValue(bar.value() + way * (bar.pageStep() - 4 * theme.UNIT))
    return way != 0


def words(text: str = "", role: str = "", *, wrap: bool = True) -> QLabel:
    """A line or paragraph of words in one of the roles of the style sheet."""
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(wrap)
    if role:
        label.setProperty("role", role)
    return label


def labelled(field: QWidget, text: str) -> QWidget:
    """A field under its visible label; the label's access key leads to the field."""
    both = QWidget()
    column = stacked(both, 2)
    label = words(text, "field", wrap=False)
    label.setTextFormat(Qt.TextFormat.AutoText)
    label.setBuddy(field)
    if not field.accessibleName():
        field.setAccessibleName(text.replace("&", ""))
    column.addWidget(label)
    column.addWidget(field)
    return both


def stacked(inside: QWidget, spacing: int = theme.UNIT) -> QVBoxLayout:
    """A column without margins."""
    column = QVBoxLayout(inside)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(spacing)
    return column


def slip(name: str) -> tuple[QFrame, QVBoxLayout]:
    """An empty paper slip and the column to write on it."""
    paper = QFrame()
    paper.setObjectName(name)
    paper.setProperty("role", "slip")
    column = QVBoxLayout(paper)
    margin = 2 * theme.UNIT
    column.setContentsMargins(margin, margin, margin, margin)
    column.setSpacing(theme.UNIT)
    return paper, column


def rule() -> QFrame:
    """A thin line across the slip."""
    line = QFrame()
    line.setProperty("role", "rule")
    return line


def empty(layout: QLayout) -> None:
    """Take everything out of a layout."""
    while (item := layout.takeAt(0)) is not None:
        widget, inner = item.widget(), item.layout()
        if widget is not None:
            widget.hide()
            widget.deleteLater()
        elif inner is not None:
            empty(inner)


def _dress_area(area: QScrollArea, inside: QWidget) -> None:
    area.setWidget(inside)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
