"""Where the key of a locked backup is given, for one try: typed, pasted, or out of a file; kept nowhere."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QFileDialog, QLineEdit, QPushButton, QWidget

from core.model.errors import WrongInput
from core.services.own_shop import backup_key
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.layouts import labelled, stacked, words


class UnlockPanel(QWidget):
    """Shown when it is needed. What is typed is hidden, and gone once it opened a backup."""

    key_given = Signal(str)
    refused = Signal(object)
    """A `WrongInput` about the file that was chosen."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("backup-unlock")
        self.field = QLineEdit()
        self.field.setObjectName("backup-unlock-key")
        self.field.setEchoMode(QLineEdit.EchoMode.Password)
        self.field.setInputMethodHints(
            Qt.InputMethodHint.ImhSensitiveData | Qt.InputMethodHint.ImhNoPredictiveText
        )
        self.file = QPushButton(say("settings", "backup-unlock-file"))
        self.file.setObjectName("backup-unlock-file")
        self.unlock = QPushButton(say("settings", "backup-unlock-try"))
        self.unlock.setObjectName("backup-unlock-try")
        self.unlock.setProperty("role", "action")
        self._lay_out()
        self._connect()
        self.hide()

    def ask(self) -> None:
        """The keyboard stands in the field, what was typed before marked so that it can be put right."""
        self.show()
        self.field.setFocus()
        self.field.selectAll()

    @Slot()
    def forget(self) -> None:
        """The key is used up."""
        self.field.clear()
        self.hide()

    @Slot()
    def _give(self) -> None:
        if self.field.text().strip():
            self.key_given.emit(self.field.text())
        else:
            self.ask()

    @Slot()
    def _choose(self) -> None:
        dialog = QFileDialog(self, say("settings", "backup-unlock-file-title"))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(self.take_file)
        dialog.open()

    @Slot(str)
    def take_file(self, name: str) -> None:
        """The key that a file holds, given at once."""
        try:
            key = backup_key.read(Path(name))
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        self.key_given.emit(key)

    def _connect(self) -> None:
        self.field.returnPressed.connect(self._give)
        self.unlock.clicked.connect(self._give)
        self.file.clicked.connect(self._choose)

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(words(say("settings", "backup-unlock-why")))
        column.addWidget(labelled(self.field, say("settings", "backup-unlock")))
        column.addWidget(ButtonRow([self.file, self.unlock]))
