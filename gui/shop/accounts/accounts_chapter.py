"""The chapter on money: counts the drawer, closes the day, tells takings, writes the journal to a file."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QFileDialog, QWidget

from core.model import private_files
from core.model.accounts.drawer_records import DrawerCount, DrawerNow
from core.model.accounts.taking_records import Takings
from core.model.errors import Unavailable
from core.services.accounts import drawer, journal, takings
from core.services.shop_overview import ShopView
from core.wording import shop_clock
from gui.shop.accounts.accounts_sheet import AccountsSheet
from gui.shop.chapter import Chapter
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import money, say


class AccountsChapter(Chapter):
    """Whoever is at the counter counts; the day is closed in a minute."""

    name = "accounts"
    place = 18
    kinds = frozenset()
    """A count that is half typed is never cleared away; it is compared anew when it is stored."""

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._sheet: AccountsSheet | None = None
        self._found: Takings | None = None
        self._span = "day"

    def open(self, view: ShopView) -> QWidget:
        sheet = AccountsSheet()
        sheet.drawer.float_counted.connect(self._count)
        sheet.drawer.day_closed.connect(self._close_day)
        sheet.drawer.refused.connect(self.show_failure)
        sheet.span_wanted.connect(self._show_span)
        sheet.journal_wanted.connect(self._ask_where_to)
        self._sheet = sheet
        self._look()
        return sheet

    def close(self) -> None:
        self._sheet = None

    def _look(self) -> None:
        work = self.desk.work
        work.ask(drawer.now, then=self._show_now, otherwise=self.show_failure)
        self._show_span(self._span)

    def _show_now(self, found: DrawerNow) -> None:
        then = partial(self._show_drawer, found)
        self.desk.work.ask(drawer.currency, then=then, otherwise=self.show_failure)

    def _show_drawer(self, found: DrawerNow, currency: str) -> None:
        if self._sheet is not None:
            self._sheet.drawer.show_now(found, currency)

    # --- counting ------------------------------------------------------------------------

    @Slot(int, str)
    def _count(self, minor: int, note: str) -> None:
        self.desk.work.run(
            drawer.count_float, minor, note=note, then=self._was_counted, otherwise=self.show_failure
        )

    @Slot(int, int, str)
    def _close_day(self, minor: int, out: int, note: str) -> None:
        self.desk.work.run(
            drawer.close_day,
            minor,
            taken_out_minor=out,
            note=note,
            then=self._was_counted,
            otherwise=self.show_failure,
        )

    def _was_counted(self, count: DrawerCount) -> None:
        currency = "" if self._sheet is None else self._sheet.drawer.counted.currency
        key = "was-closed" if count.closes else "was-counted"
        left = money(count.left_minor, currency) if currency else ""
        self.said.emit(say("accounts", key, left=left))
        self._look()

    # --- takings -------------------------------------------------------------------------

    @Slot(str)
    def _show_span(self, span: str) -> None:
        self._span = span
        today = shop_clock.day(self.desk.clock())
        spans = {"day": (today, today), "month": takings.month(today), "year": takings.year(today)}
        self.desk.work.ask(
            takings.of_days, *spans[span], then=self._show_takings, otherwise=self.show_failure
        )

    def _show_takings(self, found: Takings) -> None:
        self._found = found
        if self._sheet is not None:
            self._sheet.show_takings(found)

    @Slot()
    def _ask_where_to(self) -> None:
        dialog = QFileDialog(self._sheet, say("accounts", "file-title"))
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix("csv")
        dialog.fileSelected.connect(self.write_journal)
        dialog.open()

    @Slot(str)
    def write_journal(self, name: str) -> None:
        """The postings of what is on show, into a file."""
        if self._found is not None:
            posted = len(journal.postings(self._found))
            said = say("accounts", "told-journal", n=posted, file=Path(name).name)
            self.desk.work.write_paper(
                partial(_written, Path(name), self._found),
                then=lambda _: self.said.emit(said),
                otherwise=self.show_failure,
            )


def _written(path: Path, found: Takings) -> Path:
    try:
        return private_files.write(path, journal.written(found).encode())
    except OSError as failure:
        raise Unavailable(f"{path.name}: {failure.strerror}") from failure
