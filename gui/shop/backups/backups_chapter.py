"""The chapter on backups: what each place holds, a backup or a rehearsal now, and the page to set them up."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.model.backup_records import BackupRound
from core.model.errors import TapewrightError
from core.services.own_shop import backup_places
from core.services.own_shop.shop_document import SettingsView
from core.services.records_door import Shop
from core.services.shop_overview import ShopView
from gui.settings.backup_page import BackupPage
from gui.settings.secret_printing import KeyPrinting
from gui.shop.backups import backup_report
from gui.shop.backups.backup_report import BackupReport, BackupSight
from gui.shop.backups.unlock_panel import UnlockPanel
from gui.shop.form_chapter import FormChapter, FormSlip
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.layouts import rule, words

BACKUPS = frozenset({"backups"})
"""The kind of change a backup is."""


class BackupChapter(FormChapter["BackupSlip"]):
    """Looks at the places beside the window: a disk on the network may take its time."""

    name = "backups"
    place = 95
    saved = "backup-saved"

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        desk.work.changed.connect(self._note_backups)

    def open(self, view: ShopView) -> QWidget:
        slip = self._fill_in(BackupSlip())
        slip.make.clicked.connect(self._make)
        slip.rehearse.clicked.connect(self._rehearse)
        slip.unlock.key_given.connect(self._unlock)
        slip.unlock.refused.connect(self.show_failure)
        KeyPrinting(slip.page, self.desk, self.show_failure)
        self._look()
        return slip

    # --- showing -------------------------------------------------------------------------

    def _show(self, view: SettingsView) -> None:
        super()._show(view)
        if self._slip is not None:
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

    # --- backups -------------------------------------------------------------------------

    @Slot()
    def _make(self) -> None:
        self._do(partial(backup_places.keep_up, at_once=True), "backup-made-now")

    @Slot()
    def _rehearse(self) -> None:
        """Tried out at once, or with the key that is asked for first where the newest one is locked."""
        self.desk.work.run_beside(backup_report.look, then=self._try_out, otherwise=self.show_failure)

    def _try_out(self, seen: BackupSight) -> None:
        if self._slip is not None and seen.needs_key:
            self._slip.unlock.ask()
        else:
            self._do(backup_places.rehearse_all, "backup-tried-now")

    @Slot(str)
    def _unlock(self, key: str) -> None:
        self._do(partial(backup_places.rehearse_all, key=key), "backup-tried-now")

    def _do(self, deed: Callable[[Shop], BackupRound], said: str) -> None:
        """One deed in every place, beside the window."""
        if self._slip is not None:
            self._slip.wait(True)
        then = partial(self._was_done, said)
        self.desk.work.run_beside(deed, then=then, otherwise=self._was_not_done, changes=BACKUPS)

    def _was_done(self, said: str, done: BackupRound) -> None:
        if done.failures:
            self._was_not_done(done.failures[0][1])
            return
        if self._slip is not None:
            self._slip.wait(False)
            self._slip.unlock.forget()
        self.said.emit(say("settings", said, n=len(done.files)))

    def _was_not_done(self, failure: TapewrightError) -> None:
        if self._slip is not None:
            self._slip.wait(False)
            if self._slip.unlock.isVisible():
                self._slip.unlock.ask()
        self.show_failure(failure)


class BackupSlip(FormSlip[BackupPage]):
    """What there is, the two deeds, and the page with its buttons."""

    def __init__(self) -> None:
        super().__init__("backups", BackupPage())
        self.report = BackupReport()
        self.make = key_button("backup-now", "F8")
        self.rehearse = key_button("backup-try", "Shift+F8")
        self.unlock = UnlockPanel()
        self._lay_out()
        self.offer(False)

    def offer(self, has_place: bool) -> None:
        """Backups can be made once a place is kept."""
        for button in (self.make, self.rehearse, self.unlock.unlock, self.unlock.file):
            button.setEnabled(has_place)

    def wait(self, is_at_it: bool) -> None:
        """A backup or a rehearsal is under way."""
        self.offer(not is_at_it)
        self.make.setText(say("settings", "backup-at-it" if is_at_it else "backup-now", keys="F8"))

    def _lay_out(self) -> None:
        self.column.addWidget(words(say("settings", "title-backup"), "heading"))
        self.column.addWidget(self.report)
        self.column.addWidget(ButtonRow([self.make, self.rehearse]))
        self.column.addWidget(self.unlock)
        self.column.addWidget(rule())
        self.column.addWidget(self.page)
        self.column.addWidget(self.conflict)
        self.column.addWidget(words(say("settings", "backup-touches"), "small"))
        self.column.addWidget(ButtonRow([self.save, self.undo]))
