"""Between the bench and the sign-off of copied files."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, Signal, Slot

from core.capture.check_records import TapeCheck
from core.model.own_shop.access_records import NOBODY
from core.model.tape_records import TapeRecord
from core.services import tapes
from core.services.checking import file_checking, sign_offs
from gui.bench.bench_side import BenchSide
from gui.bench.file_check_panel import SignOffEntry
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets import tray_rows


class FileSigning(QObject):
    """Asks what was found in the files of the tape in hand, and keeps who signs them off."""

    kept = Signal(object, str)
    """The `TapeRecord` after it, and the sentence that says so."""
    failed = Signal(object)
    """A `TapewrightError`: nothing was changed."""

    def __init__(self, side: BenchSide, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._side = side
        self._desk = desk
        self._tape: TapeRecord | None = None
        side.check_wanted.connect(self._ask)
        side.check.wanted.connect(self._sign)

    def hold(self, tape: TapeRecord) -> None:
        """This tape is in hand now."""
        self._tape = tape

    @Slot()
    def _ask(self) -> None:
        if self._tape is not None:
            code = self._tape.code
            self._desk.work.ask(file_checking.check, code, then=self._show, otherwise=self.failed.emit)

    def _show(self, found: TapeCheck) -> None:
        if self._tape is not None and self._tape.code == found.tape:
            self._side.show_check(found, "" if self._desk.who == NOBODY else self._desk.who)

    @Slot(object)
    def _sign(self, entry: SignOffEntry) -> None:
        if self._tape is not None:
            self._desk.work.run(
                sign_offs.sign_off,
                self._tape.code,
                name=entry.name,
                accept=entry.accept,
                then=self._signed,
                otherwise=self.failed.emit,
            )

    def _signed(self, found: TapeCheck) -> None:
        name = found.signed.name if found.signed else ""
        self._desk.work.ask(tapes.get, found.tape, then=partial(self._tell, name))

    def _tell(self, name: str, tape: TapeRecord) -> None:
        self.kept.emit(tape, say("checking", "signed", name=name, title=tray_rows.tape_title(tape)))
