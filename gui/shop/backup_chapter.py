"""The chapter on backups: what each place holds, a backup or a rehearsal now, and the page to set them up."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from core.model.backup_records import BackupRound
from core.model.errors import WrongInput
from core.model.settings_records import ShopSettings
from core.services.own_shop import backup_places, settings_versions, shop_document
from core.services.own_shop.shop_document import SettingsView
from core.services.records_door import Shop
from core.services.shop_overview import ShopView
from gui.settings.backup_page import BackupPage
from gui.shop import backup_report
from gui.shop.backup_report import BackupReport, BackupSight
from gui.shop.chapter import Chapter
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.layouts import PaperFrame, give_key, rule, words

BACKUPS = frozenset({"backups"})
"""The kind of change a backup is."""


class BackupChapter(Chapter):
    """Looks at the places beside the window: a disk on the network may take its time."""

    name = "backups"
    place = 95
    kinds = frozenset({"shop"})

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._slip: BackupSlip | None = None
        self._view: SettingsView | None = None
        desk.work.changed.connect(self._note_backups)

    def open(self, view: ShopView) -> QWidget:
        slip = self._slip = BackupSlip()
        slip.save.clicked.connect(self._save)
        slip.undo.clicked.connect(self._undo)
        slip.make.clicked.connect(self._make)
        slip.rehearse.clicked.connect(self._rehearse)
        slip.refused.connect(self.refused)
        self.desk.work.ask(shop_document.view, then=self._show)
        self._look()
        return slip

    def close(self) -> None:
        self._slip = None

    # --- showing -------------------------------------------------------------------------

    def _show(self, view: SettingsView) -> None:
        self._view = view
        if self._slip is not None:
            self._slip.page.show_settings(view)
            self._slip.offer(bool(view.settings.backup.places))

    def _look(self) -> None:
        self.desk.work.run_beside(backup_report.look, then=self._show_sight, otherwise=self.show_failure)

    def _show_sight(self, seen: BackupSight) -> None:
        if self._slip is not None:
            self._slip.report.show_sight(seen)

    @Slot(object)
    def _note_backups(self, changed: frozenset[str]) -> None:
        if changed & BACKUPS and self._slip is not None:
            self._look()

    # --- changing ------------------------------------------------------------------------

    @Slot()
    def _save(self) -> None:
        if self._slip is None or self._view is None:
            return
        wanted = self._slip.typed(self._view.settings)
        if wanted is None:
            return
        step = partial(settings_versions.change, based_on=self._view.number, confirms=[BackupPage.page])
        self._change_settings(step, wanted)

    @Slot()
    def _undo(self) -> None:
        self._change_settings(settings_versions.undo)

    def _change_settings(self, step: Callable[..., ShopSettings], *args: object) -> None:
        self.change(step, *args, said=say("settings", "backup-saved"), changes=frozenset({"shop"}))

    # --- backups -------------------------------------------------------------------------

    @Slot()
    def _make(self) -> None:
        self._do(partial(backup_places.keep_up, at_once=True), "backup-made-now")

    @Slot()
    def _rehearse(self) -> None:
        self._do(backup_places.rehearse_all, "backup-tried-now")

    def _do(self, deed: Callable[[Shop], BackupRound], said: str) -> None:
        """One deed in every place, beside the window."""
        if self._slip is not None:
            self._slip.wait(True)
        then = partial(self._was_done, said)
        self.desk.work.run_beside(deed, then=then, otherwise=self.show_failure, changes=BACKUPS)

    def _was_done(self, said: str, done: BackupRound) -> None:
        if self._slip is not None:
            self._slip.wait(False)
        if done.failures:
            self.show_failure(done.failures[0][1])
        else:
            self.said.emit(say("settings", said, n=len(done.files)))


class BackupSlip(PaperFrame):
    """What there is, the two deeds, and the page with its buttons."""

    refused = Signal(object)

    def __init__(self) -> None:
        super().__init__("chapter-backups")
        self.report = BackupReport()
        self.page = BackupPage()
        self.make = _button("backup-now", "F8")
        self.rehearse = _button("backup-try", "Shift+F8")
        self.save = _button("backup-save", "F6")
        self.undo = _button("backup-undo", "F7")
        self.save.setProperty("role", "main")
        self._lay_out()
        self.offer(False)

    def offer(self, has_place: bool) -> None:
        """Backups can be made once a place is kept."""
        for button in (self.make, self.rehearse):
            button.setEnabled(has_place)

    def wait(self, is_at_it: bool) -> None:
        """A backup or a rehearsal is under way."""
        self.offer(not is_at_it)
        self.make.setText(say("settings", "backup-at-it" if is_at_it else "backup-now", keys="F8"))

    def typed(self, before: ShopSettings) -> ShopSettings | None:
        """The settings as typed; None, after telling why, for what does not fit."""
        try:
            return self.page.settings(before)
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return None

    def _lay_out(self) -> None:
        self.column.addWidget(words(say("settings", "title-backup"), "heading"))
        self.column.addWidget(self.report)
        self.column.addWidget(ButtonRow([self.make, self.rehearse]))
        self.column.addWidget(rule())
        self.column.addWidget(self.page)
        self.column.addWidget(words(say("settings", "backup-touches"), "small"))
        self.column.addWidget(ButtonRow([self.save, self.undo]))


def _button(name: str, keys: str) -> QPushButton:
    button = QPushButton(say("settings", name, keys=keys))
    button.setObjectName(name)
    button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    give_key(button, keys)
    return button


CHAPTER = BackupChapter
