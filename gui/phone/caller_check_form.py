"""What a caller is asked before anything is said: the answer is not on show until it is right."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QLineEdit, QWidget

from core.model.job_records import CallerMatch
from core.model.names import JobNumber
from core.services.after_ready import caller_check
from gui.toolkit.text import say
from gui.toolkit.workers import Work
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.layouts import stacked, words


class CallerCheckForm(QWidget):
    """A question and a field for what the caller says; a key for whoever is known to the clerk."""

    sure = Signal(str)
    """The number of the order whose caller is sure now."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, work: Work) -> None:
        super().__init__()
        self._work = work
        self._found: CallerMatch | None = None
        self.question = words("", "field")
        self.answer = QLineEdit()
        self.answer.setObjectName("caller-says")
        self.wrong = words("", "attention")
        self.known = key_button("caller-known", "Ctrl+J", say("phone", "check_known", keys="Ctrl+J"))
        column = stacked(self)
        for widget in (self.question, self.answer, self.wrong, ButtonRow((self.known,))):
            column.addWidget(widget)
        self.answer.returnPressed.connect(self._ask)
        self.known.clicked.connect(self._vouch)
        self.show_match(None)

    def show_match(self, found: CallerMatch | None) -> None:
        """Ask for this order, or for none."""
        is_other = found is None or self._found is None or found.job.number != self._found.job.number
        self._found = found
        self.setVisible(found is not None)
        if is_other:
            self.answer.clear()
            self.wrong.hide()
        if found is None:
            return
        question = say("phone", f"check_{found.asks.replace('-', '_')}")
        self.question.setText(question)
        self.answer.setAccessibleName(question)
        is_phrase = found.asks == caller_check.PASS_PHRASE
        self.answer.setEchoMode(QLineEdit.EchoMode.Password if is_phrase else QLineEdit.EchoMode.Normal)
        self.answer.setVisible(found.asks != caller_check.NAME)

    @Slot()
    def _ask(self) -> None:
        if self._found is not None:
            number, said = self._found.job.number, self.answer.text()
            then = partial(self._was_checked, number)
            self._work.run(
                caller_check.fits,
                number,
                self._found.asks,
                said,
                then=then,
                otherwise=self.failed.emit,
                changes=frozenset(),
            )

    def _was_checked(self, number: JobNumber, is_right: bool) -> None:
        if self._found is None or self._found.job.number != number:
            return
        if is_right:
            self.sure.emit(number)
            return
        self.wrong.setText(say("phone", "check_wrong"))
        self.wrong.show()
        self.answer.selectAll()

    @Slot()
    def _vouch(self) -> None:
        if self._found is not None:
            number = self._found.job.number
            then = partial(self._was_vouched, number)
            self._work.run(
                caller_check.vouch, number, then=then, otherwise=self.failed.emit, changes=frozenset()
            )

    def _was_vouched(self, number: JobNumber, _: None) -> None:
        if self._found is not None and self._found.job.number == number:
            self.sure.emit(number)
