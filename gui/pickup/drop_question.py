"""Before ticks, ink or typing of an open pickup are dropped, the person at the counter is asked."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.wording.locale_figures import listed
from gui.pickup.checklist import Checklist
from gui.pickup.pickup_slip import PickupSlip
from gui.toolkit.plain_text import plain_message
from gui.toolkit.text import say

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMessageBox, QPushButton


class DropQuestion(QObject):
    """One question at a time, over its screen; to keep everything is the answer of Return and Esc."""

    def __init__(self, slip: PickupSlip, over: QWidget) -> None:
        super().__init__(over)
        self._slip = slip
        self._over = over
        self._box: QMessageBox | None = None
        self._drop: QPushButton | None = None
        self._then: Callable[[], None] | None = None

    def ask_first(self, checklist: Checklist | None, then: Callable[[], None]) -> None:
        """Run ``then`` at once where nothing would be lost by it, else when the person says so."""
        what = at_stake(checklist, self._slip) if checklist is not None else ()
        if checklist is None or not what:
            then()
        elif self._box is None:
            self._then = then
            self._ask(say("pickup", "drop_text", what=listed(what), number=checklist.job.number))

    def _ask(self, sentence: str) -> None:
        from PySide6.QtWidgets import QMessageBox

        box = self._box = plain_message(self._over)
        box.setWindowTitle(say("pickup", "drop_title"))
        box.setText(sentence)
        keep = box.addButton(say("pickup", "drop_keep"), QMessageBox.ButtonRole.RejectRole)
        self._drop = box.addButton(say("pickup", "drop_drop"), QMessageBox.ButtonRole.DestructiveRole)
        keep.setObjectName("keep")
        self._drop.setObjectName("drop")
        box.setDefaultButton(keep)
        box.setEscapeButton(keep)
        box.finished.connect(self._was_answered)
        box.open()

    @Slot()
    def _was_answered(self) -> None:
        box, self._box = self._box, None
        then, self._then = self._then, None
        assert box is not None
        chosen = box.clickedButton()
        box.deleteLater()
        if chosen is self._drop and then is not None:
            then()


def at_stake(checklist: Checklist, slip: PickupSlip) -> tuple[str, ...]:
    """What was done for a pickup and is kept nowhere yet, each in words."""
    done = (
        ("drop_ticks", bool(checklist.keys)),
        ("drop_ink", not slip.signing.pad.is_empty),
        ("drop_paid", slip.paid.isModified()),
        ("drop_signer", slip.signer.isModified()),
        ("drop_shown", slip.shown.isModified() and bool(slip.shown.text().strip())),
    )
    return tuple(say("pickup", key, ticks=checklist.summary) for key, is_done in done if is_done)
