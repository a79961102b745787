"""The page on backups: the two folders they go to, how often, how long, and when the owner is told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, ClassVar

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QHideEvent
from PySide6.QtWidgets import (
    QFileDialog,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QWidget,
)

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopFront, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop import shop_settings
from core.services.own_shop.backup_key import BackupKey
from core.services.own_shop.shop_document import SettingsView
from gui.settings.form_fields import TextField
from gui.settings.settings_page import SettingsPage
from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label
from gui.toolkit.text import say
from gui.widgets.figure_field import FigureField
from gui.widgets.layouts import hinted, labelled, stacked, words

_FOLDERS = ("first", "second")
_FIGURES = ("every_hours", "told_after_hours", "keep", "keep_days", "keep_weeks", "keep_years")


class BackupPage(SettingsPage):
    """Two folders and some figures, with plain advice on where copies are safe."""

    page = SetupPage.BACKUP
    paths: ClassVar[tuple[str, ...]] = tuple(f"backup.{key}" for key in (*_FOLDERS, *_FIGURES, "lock"))

    key_wanted = Signal()
    """A new key is to be made and put on paper; `show_key` answers."""
    key_done = Signal()
    """The new key is not shown any longer."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.folders = {key: TextField(f"backup-{key}") for key in _FOLDERS}
        self.figures = {
            key: FigureField(f"backup-{key}", say("settings", f"backup-{key}")) for key in _FIGURES
        }
        self.lock = TextField("backup-lock")
        self.new_key = QPushButton(say("settings", "backup-new-key"))
        self.new_key.setObjectName("backup-new-key")
        self.shown_key = plain_label()
        self.front: ShopFront | None = None
        """How papers of this shop look, once it is known."""
        self._kept_lock = ""
        self.choose = {key: _choose_button(key) for key in _FOLDERS}
        self._dialog: QFileDialog | None = None
        self._chosen_for = ""
        self._lay_out()
        self._connect()

    def show_settings(self, view: SettingsView) -> None:
        plan, self.front = view.settings.backup, view.settings.front
        for key, field in self._fields.items():
            field.setText(str(getattr(plan, key)))
        self._kept_lock = plan.lock
        self._forget_key()

    def settings(self, before: ShopSettings) -> ShopSettings:
        texts = {**self.folders, "lock": self.lock}
        typed: dict[str, Any] = {key: field.text().strip() for key, field in texts.items()}
        typed |= {key: _whole(field.figure_needed()) for key, field in self.figures.items()}
        draft = replace(before, backup=replace(before.backup, **typed))
        try:
            shop_settings.of_document(shop_settings.document(draft), say("settings", "the-settings"))
        except WrongInput as wrong:
            raise self._at_its_field(wrong) from None
        return draft

    def typed(self) -> dict[str, str]:
        """The text of each field; a new key that nobody saved yet is none."""
        found = {key: field.text() for key, field in self._fields.items()}
        return found if self.shown_key.isHidden() else found | {"lock": self._kept_lock}

    def put_back(self, typed: Mapping[str, str]) -> None:
        for key, text in typed.items():
            self._fields[key].setText(text)

    def hideEvent(self, event: QHideEvent) -> None:
        """Whoever leaves the page without saving locks nothing: nobody may have the new key."""
        if not event.spontaneous() and not self.shown_key.isHidden():
            self.lock.setText(self._kept_lock)
            self._forget_key()
        super().hideEvent(event)

    def focus_first(self) -> None:
        self.folders["first"].setFocus()

    def show_key(self, made: BackupKey) -> None:
        """A key that was put on paper: its public half is typed, the other is shown until that is saved."""
        self.lock.setText(made.public_key)
        self.shown_key.setText(say("settings", "backup-key-shown", key=made.key))
        self.shown_key.show()
        self.shown_key.setFocus()
        self.changed.emit()

    @property
    def _fields(self) -> dict[str, QLineEdit]:
        """Every field by its key."""
        return {**self.folders, **self.figures, "lock": self.lock}

    def _forget_key(self) -> None:
        self.shown_key.hide()
        self.shown_key.clear()
        self.key_done.emit()

    def _at_its_field(self, wrong: WrongInput) -> WrongInput:
        """The complaint by the name of its field, which is marked and given the keyboard."""
        for key, field in self._fields.items():
            if wrong.place.split(", ")[-1] == key:
                theme.set_style_property(field, "wrong", True)
                field.setFocus()
                return WrongInput(say("settings", f"backup-{key}"), wrong.found, wrong.accepted)
        return wrong

    @Slot()
    def _choose(self) -> None:
        """Ask for a folder in the system's own dialog."""
        self._chosen_for = self.sender().objectName().rsplit("-", 1)[-1]
        field = self.folders[self._chosen_for]
        self._dialog = QFileDialog(self, say("settings", f"backup-{self._chosen_for}"))
        self._dialog.setFileMode(QFileDialog.FileMode.Directory)
        self._dialog.setOption(QFileDialog.Option.ShowDirsOnly)
        if Path(field.text()).is_dir() and field.text():
            self._dialog.setDirectory(field.text())
        self._dialog.fileSelected.connect(self._take_folder)
        self._dialog.finished.connect(self._dialog.deleteLater)
        self._dialog.open()

    @Slot(str)
    def _take_folder(self, folder: str) -> None:
        field = self.folders[self._chosen_for]
        field.setText(str(Path(folder)))
        field.setFocus()
        self.changed.emit()

    def _connect(self) -> None:
        for button in self.choose.values():
            button.clicked.connect(self._choose)
        self.new_key.clicked.connect(self.key_wanted)
        for field in self._fields.values():
            field.textEdited.connect(self.changed)

    def _lay_out(self) -> None:
        self.column.addWidget(words(say("settings", "backup-advice")))
        for key, field in self.folders.items():
            hinted(field, say("settings", f"backup-{key}-hint"))
            self.column.addWidget(_with_button(field, self.choose[key], say("settings", f"backup-{key}")))
        grid = QGridLayout()
        grid.setHorizontalSpacing(3 * theme.UNIT)
        grid.setVerticalSpacing(theme.UNIT)
        for row, (key, figure) in enumerate(self.figures.items()):
            figure.setMaximumWidth(16 * theme.UNIT)
            grid.addWidget(labelled(figure, say("settings", f"backup-{key}")), row, 0)
            beside = words(say("settings", f"backup-{key}-means"), "small")
            grid.addWidget(beside, row, 1, Qt.AlignmentFlag.AlignBottom)
        grid.setColumnStretch(1, 1)
        self.column.addLayout(grid)
        self._lay_out_lock()

    def _lay_out_lock(self) -> None:
        hinted(self.lock, say("settings", "backup-lock-hint"))
        self.column.addWidget(_with_button(self.lock, self.new_key, say("settings", "backup-lock")))
        self.shown_key.setTextFormat(Qt.TextFormat.PlainText)
        self.shown_key.setWordWrap(True)
        self.shown_key.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.shown_key.setAccessibleName(say("settings", "backup-key-label"))
        self.shown_key.hide()
        self.column.addWidget(self.shown_key)


PAGE = BackupPage


def _whole(figure: float) -> int | float:
    """A figure without decimals as a whole number; another is left for the rule to refuse."""
    return int(figure) if figure.is_integer() else figure


def _choose_button(key: str) -> QPushButton:
    button = QPushButton(say("settings", "backup-choose"))
    button.setObjectName(f"backup-choose-{key}")
    button.setAccessibleName(say("settings", f"backup-choose-{key}"))
    return button


def _with_button(field: QLineEdit, button: QPushButton, text: str) -> QWidget:
    """A labelled field with a button at its right end."""
    both = QWidget()
    column = stacked(both, 2)
    label = words(text, "field", wrap=False)
    label.setBuddy(field)
    field.setAccessibleName(text)
    row = QHBoxLayout()
    row.setSpacing(theme.UNIT)
    row.addWidget(field, 1)
    row.addWidget(button)
    column.addWidget(label)
    column.addLayout(row)
    return both
