"""The chapter on privacy: the page to show, one customer as a file, one customer erased."""

from __future__ import annotations

import json
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, Qt, Slot
from PySide6.QtWidgets import QFileDialog, QWidget

from core.model import private_files
from core.model.errors import TapewrightError, Unavailable
from core.model.names import EVERY_KIND
from core.model.own_shop.kept_entry import KeptEntry
from core.services.privacy import backup_renewal, customer_export, erasures, kept_entries
from core.services.privacy.backup_renewal import Renewal
from core.services.privacy.emptied_records import Emptied
from core.services.privacy.erasures import Erased, Meant
from core.services.records_door import Shop
from core.services.shop_overview import ShopView
from core.services.shop_places import shop_folders
from core.wording import shop_clock
from gui.shop.chapter import Chapter
from gui.shop.privacy.privacy_sheet import PrivacySheet
from gui.toolkit.paper_writing import writing_kept
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say


class PrivacyChapter(Chapter):
    """Whoever gives out or erases needs the right to; the page is for everybody."""

    name = "privacy"
    place = 97
    kinds = frozenset({"shop"})

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._sheet: PrivacySheet | None = None
        self._view: ShopView | None = None
        self._unclean: Emptied | None = None
        """Who was erased from the records and not yet from everything else."""

    def open(self, view: ShopView) -> QWidget:
        self._view = view
        sheet = PrivacySheet(view.settings.front.name)
        sheet.print_wanted.connect(self._print)
        sheet.file_wanted.connect(self._ask_where_to)
        sheet.erase_asked.connect(self._ask_who)
        sheet.erase_wanted.connect(self._erase)
        sheet.renewal_wanted.connect(self._renew)
        self._sheet = sheet
        self._look()
        return sheet

    def close(self) -> None:
        self._sheet = None

    # --- the page ------------------------------------------------------------------------

    @Slot()
    def _print(self) -> None:
        self.desk.work.ask(kept_entries.entries, then=self._write_kept, otherwise=self.show_failure)

    def _write_kept(self, found: tuple[KeptEntry, ...]) -> None:
        if self._view is not None:
            front, day = self._view.settings.front, shop_clock.day(self.desk.clock())
            self.desk.show_paper(writing_kept(found, front, day, self.desk.papers), self.show_failure)

    def _look(self) -> None:
        self.desk.work.ask(kept_entries.entries, then=self._show_kept, otherwise=self.show_failure)

    def _show_kept(self, found: tuple[KeptEntry, ...]) -> None:
        if self._sheet is not None:
            self._sheet.show_kept(found)

    # --- one customer --------------------------------------------------------------------

    @Slot(str)
    def _ask_where_to(self, who: str) -> None:
        dialog = QFileDialog(self._sheet, say("privacy", "file-title"))
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix("json")
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(partial(self.write_file, who))
        dialog.open()

    def write_file(self, who: str, name: str) -> None:
        """All that is kept of a customer, into a file; where it went is noted first."""
        path = Path(name)
        self.desk.work.write_paper(
            partial(_tried, path), then=partial(self._note, who), otherwise=self.show_failure
        )

    def _note(self, who: str, path: Path) -> None:
        then = partial(self._read, who, path)
        self.desk.work.run(customer_export.note, who, str(path), then=then, otherwise=self.show_failure)

    def _read(self, who: str, path: Path, _: tuple[str, ...]) -> None:
        then = partial(self._write, path)
        self.desk.work.ask(customer_export.export, who, then=then, otherwise=self.show_failure)

    def _write(self, path: Path, found: dict[str, Any]) -> None:
        said = say("privacy", "exported", path=path.name)
        self.desk.work.write_paper(
            partial(_written, path, found),
            then=lambda _: self.said.emit(said),
            otherwise=self.show_failure,
        )

    @Slot(str)
    def _ask_who(self, who: str) -> None:
        self.desk.work.ask(erasures.would_erase, who, then=self._show_meant, otherwise=self.show_failure)

    def _show_meant(self, meant: Meant) -> None:
        if self._sheet is not None:
            self._sheet.show_meant(meant)

    @Slot(str)
    def _erase(self, order: str) -> None:
        """From the records; the same press again, where only what follows had failed, does that again."""
        if self._unclean is not None and order in self._unclean.orders:
            self._clean_up(self._unclean)
            return
        self.desk.work.run(
            erasures.erase_rows, order, then=self._clean_up, otherwise=self.show_failure, changes=EVERY_KIND
        )

    def _clean_up(self, gone: Emptied) -> None:
        self._unclean = gone
        deed = partial(_cleaned_up, gone, self.desk.papers)
        self.desk.work.run_beside(deed, then=self._was_erased, otherwise=self.show_failure)

    def _was_erased(self, done: Erased) -> None:
        self._unclean = None
        if self._sheet is not None:
            self._sheet.forget()
            self._sheet.who.clear()
        self.said.emit(" ".join(done.sentences))
        self._look()

    # --- backups that hold somebody still ------------------------------------------------

    @Slot()
    def _renew(self) -> None:
        self._offer_renewal(False)
        self.desk.work.run_beside(
            backup_renewal.renew,
            then=self._was_renewed,
            otherwise=self._was_not_renewed,
            changes=frozenset({"backups"}),
        )

    def _was_renewed(self, done: Renewal) -> None:
        self._offer_renewal(True)
        self._look()
        said = " ".join(done.sentences)
        if done.is_whole:
            self.said.emit(said)
        else:
            self.show_failure(Unavailable(said))

    def _was_not_renewed(self, failure: TapewrightError) -> None:
        self._offer_renewal(True)
        self.show_failure(failure)

    def _offer_renewal(self, can: bool) -> None:
        if self._sheet is not None:
            self._sheet.offer_renewal(can)


def _cleaned_up(gone: Emptied, papers: Path, shop: Shop) -> Erased:
    folders = dict.fromkeys([papers, *shop_folders.all_papers(shop.where)])
    return erasures.clean_up(shop, gone, tuple(folders))


def _tried(path: Path) -> Path:
    """What cannot be written to is not noted as a copy."""
    try:
        private_files.try_file(path)
    except OSError as failure:
        raise Unavailable(f"{path.name}: {failure.strerror}") from failure
    return path


def _written(path: Path, found: dict[str, Any]) -> Path:
    try:
        return private_files.write(path, json.dumps(found, ensure_ascii=False, indent=2).encode())
    except OSError as failure:
        why = failure.strerror or str(failure)
        raise Unavailable(say("privacy", "export-failed", path=path.name, why=why)) from failure
