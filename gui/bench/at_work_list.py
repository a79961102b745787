"""The tapes at work, by station, under what the free decks load now."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtWidgets import QWidget

from core.model.tape_records import TapeRecord
from gui.bench.load_now import LoadNow
from gui.toolkit.text import say
from gui.widgets import tray_rows
from gui.widgets.layouts import stacked, words
from gui.widgets.tray import Tray


class AtWorkList(QWidget):
    """The left column of the Bench: ``load_now`` above the tray of tapes."""

    def __init__(self, load_now: LoadNow) -> None:
        super().__init__()
        self.tray = Tray("at-work", say("bench", "list"))
        self._heading = words(say("bench", "list"), "small")
        column = stacked(self)
        column.addWidget(load_now)
        column.addWidget(self._heading)
        column.addWidget(self.tray, 1)

    def lay(self, at_work: tuple[TapeRecord, ...], now: datetime) -> None:
        """List these tapes, each with the time since it came to its station."""
        self.tray.lay(tray_rows.by_station(at_work, now))
        self._heading.setText(say("bench", "list") if at_work else say("bench", "none_at_work"))
