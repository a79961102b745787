"""A failing step in the window: the log and the dialog name nobody, the log is for its owner."""

from __future__ import annotations

import logging
import stat
from pathlib import Path

import pytest
from PySide6.QtWidgets import QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from gui.app.composition import LogFile
from gui.toolkit.unexpected_errors import ErrorBoundary

NAME, PHONE = "Ada Fenwick", "(303) 555-0142"


def failed() -> ValueError:
    try:
        raise ValueError(f"Customer(name={NAME!r}, phone={PHONE!r})")
    except ValueError as error:
        return error


def test_log_and_dialog_say_where_and_not_whose(
    qtbot: QtBot, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    file = tmp_path / "log" / "tapewright.log"
    handler = LogFile(file, delay=True)
    log = logging.getLogger("tapewright")
    log.addHandler(handler)
    try:
        ErrorBoundary(window, file).report(failed())
    finally:
        log.removeHandler(handler)
        handler.close()
    (box,) = window.findChildren(QMessageBox)
    shown = box.detailedText()
    box.close()
    for told in (file.read_text(encoding="utf-8"), shown, caplog.text):
        assert "ValueError" in told
        assert "test_unexpected_errors.py" in told
        assert NAME not in told
        assert PHONE not in told
    assert stat.S_IMODE(file.stat().st_mode) & 0o077 == 0
    assert stat.S_IMODE(file.parent.stat().st_mode) & 0o077 == 0
