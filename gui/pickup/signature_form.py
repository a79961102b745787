"""How a pickup is signed for: on the pad, or by hand on the printed receipt."""

from __future__ import annotations

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QPushButton, QWidget

from core.model.errors import Refused
from core.model.signatures import Signature
from gui.toolkit.text import say
from gui.widgets.layouts import give_key, stacked
from gui.widgets.signature_pad import SignaturePad


class SignatureForm(QWidget):
    """The pad, a button that clears it, and a check box for signing the printed receipt instead."""

    def __init__(self) -> None:
        super().__init__()
        self.pad = SignaturePad()
        self.on_paper = QCheckBox(say("pickup", "on_paper"))
        self.on_paper.setObjectName("on-paper")
        give_key(self.on_paper, "Alt+S")
        self._lay_out()
        self.pad.changed.connect(self._pad_changed)

    def clear(self) -> None:
        """Empty the pad and the check box."""
        self.pad.clear()
        self.on_paper.setChecked(False)

    def signature(self, name: str) -> Signature:
        """The signature of the person called ``name``; Refused while nobody has signed."""
        if self.on_paper.isChecked():
            return Signature(name)
        if self.pad.is_empty:
            self.pad.setFocus()
            raise Refused(say("pickup", "nobody_signed"))
        return self.pad.signature(name)

    @Slot()
    def _pad_changed(self) -> None:
        if not self.pad.is_empty:
            self.on_paper.setChecked(False)

    def _lay_out(self) -> None:
        column = stacked(self, 4)
        row = QHBoxLayout()
        row.addWidget(self.pad)
        clear = QPushButton(say("pickup", "pad_clear"))
        clear.setObjectName("pad-clear")
        clear.setProperty("role", "quiet")
        clear.clicked.connect(self.pad.clear)
        row.addWidget(clear, 0, Qt.AlignmentFlag.AlignBottom)
        row.addStretch(1)
        column.addLayout(row)
        column.addWidget(self.on_paper)
