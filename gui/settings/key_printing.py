"""A new key of the backups: made, put on paper, and only then shown and typed into its field."""

from __future__ import annotations

import atexit
import shutil
import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Slot

from core.model.errors import TapewrightError
from core.services.own_shop import backup_key
from core.services.own_shop.backup_key import BackupKey
from gui.toolkit.paper_writing import writing
from gui.toolkit.screen_context import Desk

if TYPE_CHECKING:
    from gui.settings.backup_page import BackupPage


class KeyPrinting(QObject):
    """Whatever screen shows the page has one. The paper lies in a folder of its own, not among the papers of
    the shop: it is deleted when the page is saved or left, and with the program at the latest."""

    def __init__(self, page: BackupPage, desk: Desk, refused: Callable[[TapewrightError], None]) -> None:
        super().__init__(page)
        self._page = page
        self._desk = desk
        self._refused = refused
        self._folder = KeyFolder()
        page.key_wanted.connect(self._make)
        page.key_done.connect(self._folder.remove)
        page.destroyed.connect(self._folder.remove)

    @Slot()
    def _make(self) -> None:
        """A key nobody has yet. The paper first: backups must not be locked with a key that nobody got."""
        front = self._page.front
        if front is not None:
            made, day = backup_key.new(), self._desk.clock().date()
            folder = self._folder.make()
            write = writing(partial(backup_key.written, made, front, day, folder), folder)
            then = partial(self._was_written, made)
            self._desk.work.write_paper(write, then=then, otherwise=self._refused)

    def _was_written(self, made: BackupKey, paper: Path) -> None:
        if paper.exists():  # else the page was left meanwhile
            self._desk.show_file(paper)
            self._page.show_key(made)


class KeyFolder:
    """A folder of this user alone with the paper of one key in it; outlives the page it is for."""

    def __init__(self) -> None:
        self._path: Path | None = None

    def make(self) -> Path:
        """An empty one in place of the one before."""
        self.remove()
        self._path = Path(tempfile.mkdtemp(prefix="tapewright-key-"))
        atexit.register(shutil.rmtree, self._path, ignore_errors=True)
        return self._path

    def remove(self, _: object = None) -> None:
        """The paper goes; whoever looks at it has it open."""
        if self._path is not None:
            shutil.rmtree(self._path, ignore_errors=True)
            self._path = None
