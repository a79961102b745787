"""Secrets on paper: a new key of the backups before it is shown or counts, a new token while it is shown."""

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
from core.services.proving import token_papers
from core.services.proving.access_tokens import NewToken
from core.wording import shop_clock
from gui.toolkit.paper_writing import writing
from gui.toolkit.screen_context import Desk

if TYPE_CHECKING:
    from gui.settings.backup_page import BackupPage
    from gui.settings.people_page import PeoplePage


class KeyPrinting(QObject):
    """Whatever screen shows the page has one. The paper lies in a folder of its own, not among the papers of
    the shop: it is deleted when the page is saved or left, and with the program at the latest."""

    def __init__(self, page: BackupPage, desk: Desk, refused: Callable[[TapewrightError], None]) -> None:
        super().__init__(page)
        self._page = page
        self._desk = desk
        self._refused = refused
        self._folder = SecretFolder()
        page.key_wanted.connect(self._make)
        page.key_done.connect(self._folder.remove)
        page.destroyed.connect(self._folder.remove)

    @Slot()
    def _make(self) -> None:
        """A key nobody has yet. The paper first: backups must not be locked with a key that nobody got."""
        front = self._page.front
        if front is not None:
            made, day = backup_key.new(), shop_clock.day(self._desk.clock())
            folder = self._folder.make()
            write = writing(partial(backup_key.written, made, front, day, folder), folder)
            then = partial(self._was_written, made)
            self._desk.work.write_paper(write, then=then, otherwise=self._refused)

    def _was_written(self, made: BackupKey, paper: Path) -> None:
        if paper.exists():  # else the page was left meanwhile
            self._desk.show_file(paper)
            self._page.show_key(made)


class TokenPrinting(QObject):
    """As `KeyPrinting`; the paper of a token is deleted when the token is no longer shown."""

    def __init__(self, page: PeoplePage, desk: Desk, refused: Callable[[TapewrightError], None]) -> None:
        super().__init__(page)
        self._page = page
        self._desk = desk
        self._refused = refused
        self._folder = SecretFolder()
        page.form.tokens.print_wanted.connect(self._print)
        page.form.tokens.gone.connect(self._folder.remove)
        page.destroyed.connect(self._folder.remove)

    @Slot(object)
    def _print(self, made: NewToken) -> None:
        front = self._page.front
        if front is not None:
            day, person, folder = (
                shop_clock.day(self._desk.clock()),
                self._page.form.name.text(),
                self._folder.make(),
            )
            write = writing(partial(token_papers.written, made, person, front, day, folder), folder)
            self._desk.work.write_paper(write, then=self._show, otherwise=self._refused)

    def _show(self, paper: Path) -> None:
        if paper.exists():  # else the page was left meanwhile
            self._desk.show_file(paper)


class SecretFolder:
    """A folder of this user alone with the paper of one secret in it; outlives the page it is for."""

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
