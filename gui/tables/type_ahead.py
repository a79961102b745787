"""A field that offers what is accepted while it is typed, and takes the offer on Return."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from gui.tables import choices as words_of
from gui.tables.choices import CellChoice
from gui.tables.suggestion_list import SuggestionList
from gui.toolkit.before_scan import TAKEN_BACK


class TypeAhead(QLineEdit):
    """Letters, a click, F4, Down in an empty field or Alt+Down open the offers; Up and Down choose, Return
    takes.

    Escape closes them and puts back what was there. A word that is written out needs no list.

    What matches nothing stays as it was typed: the owner says what is accepted.
    """

    considered = Signal(str)
    """At every key: the text as it would be taken now."""
    settled = Signal(str)
    """Return, Tab or leaving: the text as it now stands."""

    def __init__(
        self, offers: Callable[[], Sequence[CellChoice]], many: bool = False, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._offers = offers
        self._many = many
        self._before: str | None = None
        """The text before an entry of the list was walked to."""
        self._list = SuggestionList(self)
        self._list.pointed.connect(self.take)
        self.textEdited.connect(self._look_up)
        self.destroyed.connect(self._list.deleteLater)

    @property
    def offered(self) -> tuple[CellChoice, ...]:
        """What is offered just now; nothing while the list is closed."""
        return self._list.choices if self._list.is_open else ()

    def settle(self) -> str:
        """Take the offer that is lit, close the list, and return the text."""
        taken = self._as_taken()
        if taken != self.text():
            self.setText(taken)
        self._close()
        return self.text()

    def _close(self) -> None:
        self._list.close_list()
        if self._before is not None:
            self._before = None
            self.end(False)

    def _as_taken(self) -> str:
        is_open = self._list.is_open
        lit = self._list.lit if is_open else words_of.meant(self._offers(), self._typed())
        if lit is None or not self._typed():
            return self.text()
        return words_of.with_last_part(self.text(), lit.words) if self._many else lit.words

    @Slot(str)
    def _look_up(self, _: str) -> None:
        self._before = None
        typed = self._typed()
        offers = self._offers()
        found = words_of.matching(offers, typed) if typed else ()
        is_written_out = len(found) == 1 and words_of.meant(offers, typed) is not None
        self._list.offer(() if is_written_out else found)
        self._speak()
        self.considered.emit(self._as_taken())

    def _typed(self) -> str:
        return words_of.last_part(self.text()) if self._many else self.text().strip()

    def _speak(self) -> None:
        lit = self._list.lit
        self.setAccessibleDescription(f"{lit.words}. {lit.note}" if lit and self._list.is_open else "")

    @Slot(object)
    def take(self, choice: CellChoice) -> None:
        """A choice was pointed at."""
        self.setText(words_of.with_last_part(self.text(), choice.words) if self._many else choice.words)
        self._list.close_list()
        self.textEdited.emit(self.text())
        self._list.close_list()

    # --- Qt's own ------------------------------------------------------------------------

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            is_closing = event.key() == Qt.Key.Key_Escape and self._list.is_open
            if is_closing or (_is_f4(event) and self._offers()):
                event.accept()
                return True
        if event.type() == TAKEN_BACK:
            self._close()
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key == Qt.Key.Key_Down and event.modifiers() & Qt.KeyboardModifier.AltModifier:
            self.open_all()
            return
        if _is_f4(event):
            self._put_back() if self._list.is_open else self.open_all()
            return
        if key in (Qt.Key.Key_Down, Qt.Key.Key_Up) and self._walk(1 if key == Qt.Key.Key_Down else -1):
            return
        if key == Qt.Key.Key_Escape and self._list.is_open:
            self._put_back()
            return
        if self._many and event.text() == "," and self._list.is_open:
            self.settle()
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.settled.emit(self.settle())
        super().keyPressEvent(event)

    def _walk(self, step: int) -> bool:
        if not self._list.is_open:
            if step < 0 or self._typed():
                return False
            self.open_all()
            if not self._list.is_open:
                return False
        self._list.walk(step)
        if self._before is None:
            self._before = self.text()
        lit = self._list.lit
        if lit is not None:
            shown = words_of.with_last_part(self.text(), lit.words) if self._many else lit.words
            self.setText(shown)
            self.setSelection(len(shown) - len(lit.words), len(lit.words))  # a letter begins another word
            self.considered.emit(shown)
        self._speak()
        return True

    def open_all(self) -> None:
        """Everything that may be chosen, nothing of it lit."""
        self._list.offer(tuple(self._offers()), lit=-1)

    def _put_back(self) -> None:
        """What was there before the list was walked."""
        before = self._before
        self._close()
        if before is not None and before != self.text():
            self.setText(before)
            self.considered.emit(before)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A click shows what may be chosen."""
        super().mouseReleaseEvent(event)
        is_click = event.button() == Qt.MouseButton.LeftButton and not self.hasSelectedText()
        if is_click and not self._list.is_open and not self.isReadOnly():
            self.open_all()

    def focusOutEvent(self, event: object) -> None:
        self.settled.emit(self.settle())
        super().focusOutEvent(event)  # type: ignore[arg-type]  # the stubs want QFocusEvent

    def hideEvent(self, event: object) -> None:
        self._list.close_list()


def _is_f4(event: QKeyEvent) -> bool:
    return event.key() == Qt.Key.Key_F4 and not event.modifiers()
