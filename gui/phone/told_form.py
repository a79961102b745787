"""What came of telling a customer that all is ready: one key an answer, and the text to send."""

from __future__ import annotations

from PySide6.QtCore import QUrl, Signal, Slot
from PySide6.QtGui import QDesktopServices, QGuiApplication
from PySide6.QtWidgets import QPlainTextEdit, QPushButton

from core.model.handover_records import RESULTS, ToldHow, ToldResult
from core.services.after_ready.telling_text import TellingText
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.layouts import PaperFrame, words

ANSWERS = tuple((how, result) for how, results in RESULTS.items() for result in results)
"""What came of it, in the order of the digits that say so."""
_KEYS = {ToldHow.PHONE: "D", ToldHow.EMAIL: "E", ToldHow.MESSAGE: "M"}
_LINES = 3


class ToldForm(PaperFrame):
    """A digit says what came of it; letters copy the text or open the system's own program with it."""

    chosen = Signal(object, object)
    """A `ToldHow` and a `ToldResult`."""
    said = Signal(str)

    def __init__(self) -> None:
        super().__init__("told-form")
        self.answers = [self._answer(n, *each) for n, each in enumerate(ANSWERS, 1)]
        self.text = QPlainTextEdit()
        self.text.setObjectName("told-text")
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        self.text.setAccessibleName(say("phone", "told_text"))
        self.copy = key_button("told-copy", "C", say("phone", "told_copy"), "action")
        self.links = {
            how: key_button(f"told-open-{how.value}", keys, say("phone", f"open_{how.value}"), "action")
            for how, keys in _KEYS.items()
        }
        self._found: TellingText | None = None
        self._lay_out()
        self.copy.clicked.connect(self._copy)
        self.links[ToldHow.PHONE].clicked.connect(self._dial)
        self.links[ToldHow.EMAIL].clicked.connect(self._write)
        self.links[ToldHow.MESSAGE].clicked.connect(self._message)

    def begin(self, found: TellingText) -> None:
        """Offer the text for an order, and the programs it can be handed to."""
        self._found = found
        self.text.setPlainText(found.body)
        for how, button in self.links.items():
            button.setVisible(how in found.links)
        self.answers[0].setFocus()

    def _answer(self, n: int, how: ToldHow, result: ToldResult) -> QPushButton:
        told = say("phone", "told_answer", n=str(n), how=how.value, result=result.value)
        button = key_button(f"told-{how.value}-{result.value}", str(n), told, "action")
        button.clicked.connect(self._choose)
        return button

    @Slot()
    def _choose(self) -> None:
        pressed = self.sender()
        for button, (how, result) in zip(self.answers, ANSWERS, strict=True):
            if button is pressed:
                self.chosen.emit(how, result)

    @Slot()
    def _copy(self) -> None:
        if self._found is not None:
            QGuiApplication.clipboard().setText(self._found.body)
            self.said.emit(say("phone", "told_copied"))

    @Slot()
    def _dial(self) -> None:
        self._open(ToldHow.PHONE)

    @Slot()
    def _write(self) -> None:
        self._open(ToldHow.EMAIL)

    @Slot()
    def _message(self) -> None:
        self._open(ToldHow.MESSAGE)

    def _open(self, how: ToldHow) -> None:
        """Hand the link to the system; where no program takes it, the text is on the clipboard instead."""
        if self._found is None:
            return
        if not QDesktopServices.openUrl(QUrl(self._found.links[how], QUrl.ParsingMode.StrictMode)):
            QGuiApplication.clipboard().setText(self._found.body)
            self.said.emit(say("phone", "told_no_program"))

    def _lay_out(self) -> None:
        self.column.addWidget(words(say("phone", "told_how"), "field"))
        self.column.addWidget(ButtonRow(self.answers))
        self.text.setFixedHeight(_LINES * self.text.fontMetrics().lineSpacing() + 3 * theme.UNIT)
        self.column.addWidget(self.text)
        self.column.addWidget(ButtonRow((self.copy, *self.links.values())))
