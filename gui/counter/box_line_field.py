"""The field for an order in one line: words that were not understood are marked where they stand."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QMimeData, QPoint, QPointF, QRect, Qt, Signal, Slot
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QFocusEvent,
    QFontMetricsF,
    QGuiApplication,
    QHideEvent,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QLineEdit, QSizePolicy, QWidget

from gui.counter.line_words_offered import LineText, WordOffer
from gui.tables.choices import CellChoice
from gui.tables.suggestion_list import SuggestionList
from gui.toolkit import actions, theme
from gui.toolkit.text import say
from gui.widgets.layouts import hinted

_UNDO = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)
LEAST_WIDTH = theme.Length(14)
REST_WIDTH = theme.Length(24)
_WIDEST = 16_777_215
"""Qt's own bound of a width (QWIDGETSIZE_MAX): none."""


class BoxLineField(QLineEdit):
    """Return takes the rows, Tab a completion; Down opens what may have been meant by unread words."""

    entered = Signal()
    left = Signal()
    """Escape: the keyboard goes back to the tapes, what was typed stays."""
    opened = Signal(bool)
    """It has the keyboard, or not any more."""
    table_pasted = Signal(str)
    """Cells of a spreadsheet came from the clipboard."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("box-line")
        self.setAccessibleName(say("counter", "line"))
        self.setMinimumWidth(LEAST_WIDTH.px)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.read = LineText("")
        self._offer: WordOffer | None = None
        self._list = SuggestionList(self, above=True)
        self._list.pointed.connect(self._take)
        self.textChanged.connect(self._read_again)
        self.textEdited.connect(self._complete)
        self.destroyed.connect(self._list.deleteLater)

    def show_open(self, is_open: bool) -> None:
        """All of the row while it has the keyboard; else what its name needs, unless words are left in it."""
        is_wide = is_open or bool(self.text())
        self.setMaximumWidth(_WIDEST if is_wide else REST_WIDTH.px)
        hinted(self, say("counter", "hint_line" if is_wide else "hint_line_rest", keys=actions.LINE.keys))

    @property
    def offered(self) -> tuple[CellChoice, ...]:
        """The words that are offered just now."""
        return self._list.choices if self._list.is_open else ()

    @Slot(str)
    def _read_again(self, text: str) -> None:
        """Qt tells of an edited text first that it was edited, then that it changed: it is read once."""
        if text == self.read.text:
            return
        self.read = LineText(text)
        self._list.close_list()
        self.setAccessibleDescription(self.read.spoken)
        self.update()

    # --- offers --------------------------------------------------------------------------

    @Slot(str)
    def _complete(self, text: str) -> None:
        self._read_again(text)
        self._show_offer(self.read.completion(self.cursorPosition()), lit=-1)

    def offer_correction(self, place: int = -1) -> None:
        """WordOffer what may have been meant by the unread words at a place; by the first ones at -1."""
        self._show_offer(self.read.correction(place), lit=0)

    def _show_offer(self, offer: WordOffer | None, lit: int) -> None:
        self._offer = offer
        self._list.offer(offer.choices if offer else (), lit)

    @Slot(object)
    def _take(self, choice: CellChoice) -> None:
        """Put the words that were chosen in the place of those typed."""
        offer = self._offer
        if offer is None:
            return
        text = self.text()
        self.setSelection(offer.start, offer.end - offer.start)
        self.insert(choice.words)
        self._list.close_list()
        if self.text() != text:
            self.textEdited.emit(self.text())
            self._list.close_list()

    # --- keys ----------------------------------------------------------------------------

    def event(self, event: QEvent) -> bool:
        """Undo is that of the whole order; Escape closes the list first; Tab takes what is offered."""
        if isinstance(event, QKeyEvent):
            if event.type() == QEvent.Type.ShortcutOverride:
                if any(event.matches(key) for key in _UNDO):
                    event.ignore()
                    return True
                if event.key() == Qt.Key.Key_Escape:
                    event.accept()
                    return True
            elif event.type() == QEvent.Type.KeyPress and self._takes_tab(event):
                return True
        return super().event(event)

    def _takes_tab(self, event: QKeyEvent) -> bool:
        if event.key() != Qt.Key.Key_Tab or event.modifiers() or not self._list.is_open:
            return False
        self._take(self._list.lit or self._list.choices[0])
        return True

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste_from(QGuiApplication.clipboard().mimeData())
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.modifiers():
            self._take(self._list.lit) if self._list.is_open and self._list.lit else self.entered.emit()
        elif key in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            self._walk(1 if key == Qt.Key.Key_Down else -1)
        elif key == Qt.Key.Key_Escape:
            self._list.close_list() if self._list.is_open else self.left.emit()
        else:
            super().keyPressEvent(event)

    def _walk(self, step: int) -> None:
        if self._list.is_open:
            self._list.walk(step if self._list.lit or step > 0 else 0)
        elif step > 0:
            self.offer_correction()
        lit = self._list.lit if self._list.is_open else None
        self.setAccessibleDescription(lit.words if lit else self.read.spoken)

    # --- pasting -------------------------------------------------------------------------

    def paste_from(self, data: QMimeData) -> None:
        """Words go into the line; cells and rows of a spreadsheet become rows at once."""
        text = data.text() if data.hasText() else ""
        if LineText.is_table(text):
            self.table_pasted.emit(text)
        elif text.strip():
            self.insert(", ".join(line.strip() for line in text.splitlines() if line.strip()))
            self.textEdited.emit(self.text())

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """The menu's own paste would put a whole table into the line."""
        menu = self.createStandardContextMenu()
        for each in menu.actions():
            if each.objectName() == "edit-paste":
                each.triggered.disconnect()
                each.triggered.connect(self._paste_by_menu)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.popup(event.globalPos())

    @Slot()
    def _paste_by_menu(self) -> None:
        self.paste_from(QGuiApplication.clipboard().mimeData())

    # --- Qt's own ------------------------------------------------------------------------

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A click on words that were not understood offers what may have been meant."""
        super().mouseReleaseEvent(event)
        if event.button() == Qt.MouseButton.LeftButton and not self.hasSelectedText():
            self.offer_correction(self.cursorPositionAt(event.position().toPoint()))

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.opened.emit(True)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self._list.close_list()
            self.opened.emit(False)

    def hideEvent(self, event: QHideEvent) -> None:
        self._list.close_list()
        super().hideEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self.read.unread:
            return
        painter = QPainter(self)
        painter.setClipRect(self.rect().adjusted(6, 0, -6, 0))
        painter.setPen(QPen(QColor(theme.current_tokens().attention), 2, Qt.PenStyle.DashLine))
        for start, end in self.read.unread:
            left, right = self._at(start), self._at(end)
            painter.drawLine(left, right)
        painter.end()

    def _at(self, place: int) -> QPointF:
        """The point below a character, whatever part of the line is in sight."""
        wide = QFontMetricsF(self.font()).horizontalAdvance
        cursor: QRect = self.cursorRect()
        here = cursor.center().x() - wide(self.text()[: self.cursorPosition()])
        bottom = self.rect().center() + QPoint(0, round(QFontMetricsF(self.font()).height() / 2))
        return QPointF(here + wide(self.text()[:place]), bottom.y())
