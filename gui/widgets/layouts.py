"""Small pieces of layout that every screen uses alike."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent, QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QBoxLayout,
    QFrame,
    QLabel,
    QLayout,
    QLineEdit,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from core.wording.messages import say
from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label, tip
from gui.widgets.fading_edge import FadingEdge


class Columns(QScrollArea):
    """Columns side by side; where the room is too narrow they stand one below the other and scroll.

    The field with the keyboard is then always brought into view (WCAG 2.2, 2.4.11).
    """

    folded = Signal(bool)
    """The columns stand one below the other from now on, or side by side again."""

    def __init__(self, fold_below: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._fold_below = fold_below
        self._columns: list[tuple[QWidget, int, int]] = []
        inside = QWidget()
        self._box = QBoxLayout(QBoxLayout.Direction.LeftToRight, inside)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(2 * theme.UNIT)
        _dress_area(self, inside)
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._follow)
        # What is laid above the field with the keyboard afterwards pushes it on.
        self.verticalScrollBar().rangeChanged.connect(self._follow_on)

    @property
    def is_folded(self) -> bool:
        """Whether the columns stand one below the other."""
        return self._box.direction() is QBoxLayout.Direction.TopToBottom

    def add(self, column: QWidget, stretch: int, rank: int = 0) -> None:
        """One more column, ``stretch`` parts wide; folded, columns of higher ``rank`` stand further up."""
        self._columns.append((column, stretch, rank))
        self._box.addWidget(column, stretch)

    def resizeEvent(self, event: QResizeEvent) -> None:
        narrow = event.size().width() < self._fold_below
        if narrow is not self.is_folded:
            self._fold(narrow)
        super().resizeEvent(event)

    def _fold(self, narrow: bool) -> None:
        way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
        self._box.setDirection(way)
        self._box.setContentsMargins(0, 0, theme.UNIT if narrow else 0, 0)
        order = sorted(self._columns, key=lambda each: -each[2]) if narrow else self._columns
        for place, (column, stretch, _) in enumerate(order):
            self._box.removeWidget(column)
            self._box.insertWidget(place, column, stretch)
            if column.minimumWidth() == column.maximumWidth():
                middle = Qt.AlignmentFlag.AlignHCenter if narrow else Qt.AlignmentFlag(0)
                self._box.setAlignment(column, middle)
            if isinstance(column, Sheet):
                column.unroll(narrow)
        self.folded.emit(narrow)

    @Slot()
    def _follow_on(self) -> None:
        if self.is_folded:
            self._follow(None, QApplication.focusWidget())

    @Slot(QWidget, QWidget)
    def _follow(self, _: QWidget | None, now: QWidget | None) -> None:
        if now is not None and self.isAncestorOf(now):
            self._show_field(now)

    def bring(self, field: QWidget) -> None:
        """Give a field the keyboard and bring it into sight, even when it has the keyboard already."""
        field.setFocus(Qt.FocusReason.OtherFocusReason)
        self._show_field(field)

    def _show_field(self, field: QWidget) -> None:
        self.ensureWidgetVisible(field, 0, 4 * theme.UNIT)


class Sheet(QScrollArea):
    """A slip that scrolls in its column; in folded columns it is unrolled, and only the whole scrolls."""

    def __init__(self, inside: QWidget, name: str = "", ground: str = "ground") -> None:
        """``ground``: the token whose color lies under it, into which its lower edge fades."""
        super().__init__()
        self.setObjectName(name)
        self._unrolled = False
        _dress_area(self, inside)
        FadingEdge(self, ground)

    def unroll(self, unrolled: bool) -> None:
        """Show all of it at once, or let it scroll."""
        self._unrolled = unrolled
        self._fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.widget() and event.type() is QEvent.Type.LayoutRequest:
            self._fit()
        return super().eventFilter(watched, event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        inside, wide = self.widget(), self.viewport().width()
        if not self._unrolled or inside is None:
            self.setMinimumHeight(0)
            return
        high = inside.heightForWidth(wide) if inside.hasHeightForWidth() else inside.sizeHint().height()
        self.setMinimumHeight(max(0, high))


def scrolled(inside: QWidget, name: str = "", ground: str = "ground") -> Sheet:
    """``inside`` in an area that scrolls up and down when the room is short."""
    return Sheet(inside, name, ground)


class Pages(QWidget):
    """Pages of which only the one on show asks for room.

    Qt's own stack asks for the room of its tallest page, so that the others would scroll for nothing.
    """

    def __init__(self, *pages: QWidget) -> None:
        super().__init__()
        self._column = stacked(self, 0)
        self.on_show = pages[0]
        for page in pages:
            self.add(page)

    def add(self, page: QWidget) -> None:
        """One more page; the first of all is on show."""
        self._column.addWidget(page)
        page.setVisible(page is self.on_show)

    def turn(self, page: QWidget) -> None:
        """Show this page in place of the other."""
        if page is not self.on_show:
            self.on_show.hide()
            self.on_show = page
            page.show()


def scroll_by_page(area: QScrollArea, event: QKeyEvent) -> bool:
    """Let Page Up and Page Down scroll an area that never has the keyboard itself; says whether they did."""
    ways = {int(Qt.Key.Key_PageDown): 1, int(Qt.Key.Key_PageUp): -1}
    way = ways.get(event.key(), 0)
    bar = area.verticalScrollBar()
    bar.setValue(bar.value() + way * (bar.pageStep() - 4 * theme.UNIT))
    return way != 0


def give_key(button: QAbstractButton, keys: str) -> QShortcut:
    """A key that presses the button at once, while the button is there to be pressed.

    Qt's own shortcut of a button waits a tenth of a second for show; what is typed in between would land
    in the wrong field.
    """
    if keys and keys not in button.text() and not button.toolTip():
        button.setToolTip(tip(say("window", "key_hint", keys=keys)))
    shortcut = QShortcut(QKeySequence(keys), button)
    shortcut.setAutoRepeat(False)
    shortcut.activated.connect(button.click)
    return shortcut


def words(text: str = "", role: str = "", *, wrap: bool = True) -> QLabel:
    """A line or paragraph of words in one of the roles of the style sheet."""
    label = plain_label(text)
    label.setWordWrap(wrap)
    if role:
        label.setProperty("role", role)
    return label


def labelled(field: QWidget, text: str) -> QWidget:
    """A field under its visible label; the label's access key leads to the field."""
    both = QWidget()
    column = stacked(both, 2)
    label = words(text, "field", wrap=False)
    label.setBuddy(field)
    if not field.accessibleName():
        field.setAccessibleName(text.replace("&", ""))
    column.addWidget(label)
    column.addWidget(field)
    return both


def hinted(field: QLineEdit, hint: str) -> None:
    """What belongs into an empty field; Qt shortens what is too long, so that the tool tip has all of it."""
    field.setPlaceholderText(hint)
    field.setToolTip(tip(hint))


def stacked(inside: QWidget, spacing: int | None = None) -> QVBoxLayout:
    """A column without margins, by default a unit of the grid between its parts."""
    column = QVBoxLayout(inside)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(theme.UNIT if spacing is None else spacing)
    return column


class PaperFrame(QFrame):
    """An empty paper slip and the column to write on it."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setProperty("role", "slip")
        self.column = QVBoxLayout(self)
        margin = 2 * theme.UNIT
        self.column.setContentsMargins(margin, margin, margin, margin)
        self.column.setSpacing(theme.UNIT)


def slip(name: str) -> tuple[QFrame, QVBoxLayout]:
    """An empty paper slip and the column to write on it."""
    paper = PaperFrame(name)
    return paper, paper.column


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
