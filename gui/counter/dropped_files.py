"""A file or a table dropped on the Counter: an inventory, or what a spreadsheet wrote, faults and all."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QEvent, QMimeData, QObject, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QWidget

from core.model import json_reader, regular_files
from core.model.errors import AsWritten, WrongInput
from core.model.typed_draft import TypedBox
from core.services.quoting import ShopSnapshot
from gui.counter.box_quote import BoxQuote
from gui.counter.typed_box import box_of
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say

_TABLES = (".csv", ".tsv", ".txt")
_INVENTORY = ".json"


class DroppedFiles(QObject):
    """Watches the whole screen for what is dropped on it."""

    order_read = Signal(object)
    """A `TypedBox` out of a file."""
    table_dropped = Signal(str)
    failed = Signal(object)
    """A `TapewrightError`: nothing was taken."""

    def __init__(self, desk: Desk, box: BoxQuote, screen: QWidget) -> None:
        super().__init__(screen)
        self._desk = desk
        self._box = box
        screen.setAcceptDrops(True)
        screen.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QDropEvent):  # a drag that enters is one, too
            if not _holds_an_order(event.mimeData()):
                return False
            event.acceptProposedAction()
            if not isinstance(event, QDragEnterEvent) and event.type() == QEvent.Type.Drop:
                self.take(event.mimeData())
            return True
        return super().eventFilter(watched, event)

    def take(self, dropped: QMimeData) -> None:
        """The first file, read beside the window; else the text."""
        files = [url.toLocalFile() for url in dropped.urls() if url.isLocalFile()]
        if not files:
            self.table_dropped.emit(dropped.text())
            return
        read = partial(read_file, Path(files[0]), self._box.snapshot)
        self._desk.work.write_paper(read, then=self.order_read.emit, otherwise=self.failed.emit)


def _holds_an_order(dropped: QMimeData) -> bool:
    files = [url.toLocalFile() for url in dropped.urls() if url.isLocalFile()]
    return any(file.lower().endswith((*_TABLES, _INVENTORY)) for file in files[:1]) or (
        not files and dropped.hasText()
    )


def read_file(file: Path, shop: ShopSnapshot | None) -> TypedBox:
    """The order in a file, cell by cell; `WrongInput` where it is neither a table nor JSON with tapes."""
    accepted = say("counter", "dropped_accepted")
    regular_files.check(file, file.name, accepted)
    try:
        with file.open("rb") as opened:
            data = opened.read(json_reader.MOST_BYTES + 1)
    except OSError as error:
        raise WrongInput(file.name, AsWritten(error.strerror or str(error)), accepted) from error
    json_reader.refuse_size(data, file.name)
    if file.suffix.lower() == _INVENTORY:
        return _inventory(data, file.name, shop)
    from core.catalogue.box_line import pasted_table

    rows = pasted_table.read(_text(data), file.name)
    if not rows:
        raise WrongInput(file.name, AsWritten(say("counter", "dropped_empty")), accepted)
    return TypedBox(rows)


def _inventory(data: bytes, name: str, shop: ShopSnapshot | None) -> TypedBox:
    """As it is where the strict reader takes it, else with its faults where they stand."""
    from core.catalogue.box_line import loose_inventory
    from core.services import inventory_file

    if shop is not None:
        try:
            context = inventory_file.InventoryContext(shop.today, shop.settings.country)
            return box_of(inventory_file.read(data, name, context))
        except WrongInput:
            pass
    return loose_inventory.read(data, name)


def _text(data: bytes) -> str:
    """UTF-8, as most programs write; else the code page of older spreadsheets."""
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "cp1252", "replace")
