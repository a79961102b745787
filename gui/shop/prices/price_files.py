"""The prices of the page in a file for a spreadsheet, and back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QWidget

from core.model import json_reader, private_files, regular_files
from core.model.errors import Unavailable, WrongInput
from core.pricing import price_csv
from gui.toolkit.text import say


def ask(page: QWidget | None, mode: QFileDialog.AcceptMode, chosen: Callable[[str], None]) -> QFileDialog:
    """Asks for the file in the system's own dialog; ``chosen`` hears its name."""
    dialog = QFileDialog(page, say("settings", "title-prices"))
    dialog.setAcceptMode(mode)
    dialog.setNameFilter(say("settings", "prices-csv-filter"))
    dialog.setDefaultSuffix("csv")
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.fileSelected.connect(chosen)
    dialog.open()
    return dialog


def write(path: Path, content: Mapping[str, Any]) -> None:
    """Writes the tables of a book; Unavailable, naming the file, where that cannot be."""
    try:
        private_files.write(path, price_csv.written(content).encode())
    except OSError as failure:
        raise Unavailable(f"{path.name}: {failure.strerror}") from failure


def content(path: Path) -> Mapping[str, Any]:
    """The tables of a book as a file holds them; WrongInput, naming it, for one that is none."""
    regular_files.check(path, path.name, say("files", "text-file"))
    try:
        with path.open("rb") as file:
            data = file.read(json_reader.MOST_BYTES + 1)
        json_reader.refuse_size(data, path.name)
        return price_csv.parsed(data.decode("utf-8"), path.name)
    except (OSError, UnicodeDecodeError) as failure:
        raise WrongInput(path.name, str(failure), say("files", "text-file")) from None
