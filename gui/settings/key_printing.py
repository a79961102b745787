"""A new key of the backups: made, put on paper, and only then shown and typed into its field."""

from __future__ import annotations

import atexit
import shutil
import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Slot

from core.model.errors import TapewrightError
from core.services.own_shop import backup_key
from core.services.own_shop.backup_key import BackupKey
from gui.settings.backup_page import BackupPage
from gui.toolkit.paper_writing import writing_key
from gui.toolkit.screen_context import Desk


class KeyPrinting(QObject):
    """Whatever screen shows the page has one. The paper lies in a folder of its own, not among the papers of
    the shop: it is deleted when the page is saved or left, and with the program at the latest."""

    def __init__(self, page: BackupPage, desk: Desk, refused: Callable[[TapewrightError], None]) -> None:
        super().__init__(page)
        self._page = page
        self._desk = desk
        self._refused = refused
        self._folder: Path | None = None
        page.key_wanted.connect(self._make)
        page.key_done.connect(self.tidy)

    @Slot()
    def _make(self) -> None:
        """A key nobody has yet. The paper first: backups must not be locked with a key that nobody got."""
        self.tidy()
        front = self._page.front
        if front is None:
            return
        made, self._folder = backup_key.new(), Path(tempfile.mkdtemp(prefix="tapewright-key-"))
        atexit.register(shutil.rmtree, self._folder, ignore_errors=True)
        write = writing_key(made, front, self._desk.clock().date(), self._folder)
        then = partial(self._was_written, made)
        self._desk.work.write_paper(write, then=then, otherwise=self._refused)

    def _was_written(self, made: BackupKey, paper: Path) -> None:
        self._desk.show_file(paper)
        self._page.show_key(made)

    @Slot()
    def tidy(self) -> None:
        """The paper goes; whoever looks at it has it open."""
        if self._folder is not None:
            shutil.rmtree(self._folder, ignore_errors=True)
            self._folder = None
