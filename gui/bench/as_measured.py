"""What is hardly possible is asked before it is stored: kept as measured, or changed."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.model.errors import TapewrightError, Unconfirmed
from gui.toolkit.plain_text import plain_message
from gui.toolkit.text import say
from gui.toolkit.workers import Work

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMessageBox, QPushButton


class AsMeasured(QObject):
    """Sends steps that may have to be confirmed; one question at a time, over its widget."""

    def __init__(self, work: Work, over: QWidget) -> None:
        super().__init__(over)
        self._work = work
        self._over = over
        self.box: QMessageBox | None = None
        self._keep: QPushButton | None = None
        self._again: Callable[[], None] | None = None

    def run(self, step: Callable[..., Any], *args: Any, otherwise: Callable[..., None], **named: Any) -> None:
        """As `Work.run`; what nobody confirmed yet is asked, and sent again when it is."""
        again = partial(self._work.run, step, *args, otherwise=otherwise, sure=True, **named)
        self._work.run(step, *args, otherwise=partial(self._refused, again, otherwise), **named)

    def _refused(
        self, again: Callable[[], None], otherwise: Callable[..., None], failure: TapewrightError
    ) -> None:
        if isinstance(failure, Unconfirmed) and self.box is None:
            self._again = again
            self._ask(failure.sentence)
        else:
            otherwise(failure)

    def _ask(self, sentence: str) -> None:
        from PySide6.QtWidgets import QMessageBox

        box = self.box = plain_message(self._over)
        box.setObjectName("as-measured")
        box.setWindowTitle(say("lengths", "title"))
        box.setText(sentence)
        self._keep = box.addButton(say("lengths", "keep"), QMessageBox.ButtonRole.AcceptRole)
        change = box.addButton(say("lengths", "change"), QMessageBox.ButtonRole.RejectRole)
        box.setDefaultButton(change)
        box.setEscapeButton(change)
        box.finished.connect(self._was_answered)
        box.open()

    @Slot()
    def _was_answered(self) -> None:
        box, self.box = self.box, None
        again, self._again = self._again, None
        assert box is not None
        chosen = box.clickedButton()
        box.deleteLater()
        if chosen is self._keep and again is not None:
            again()
