"""The buttons that take a tape on: the one that leads, and those beside it that go to one station each."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QPushButton

from core.catalogue.next_steps import NextStep
from core.model.spoken_names import spoken
from core.model.stations import Station
from gui.toolkit.text import say, sentence_case
from gui.widgets.layouts import give_key

MOVE_KEYS = "Ctrl+Return"


class LeadingButton(QPushButton):
    """The one button that leads: it goes to a station, or does what has to be done first."""

    picked = Signal(object)
    """A `NextStep`."""

    def __init__(self) -> None:
        super().__init__()
        self._step: NextStep | None = None
        self.setObjectName("move-on")
        self.setProperty("role", "main")
        give_key(self, MOVE_KEYS)
        self._letter = give_key(self, "")
        self.clicked.connect(self._pick)

    def lead_to(self, step: NextStep, letter: str) -> None:
        """Name the step and its key; ``letter``: that of the station, which is its key wherever it stands."""
        self._step = step
        self._letter.setKey(QKeySequence(letter))
        told = say("bench", f"lead-{step.doing.value}") if step.station is None else spoken(step.station)
        self.setText(f"{sentence_case(told)}   {MOVE_KEYS}")
        self.setAccessibleName(told)

    @Slot()
    def _pick(self) -> None:
        if self._step is not None:
            self.picked.emit(self._step)


class StationButton(QPushButton):
    """A button that leads to one station."""

    picked = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._station: Station | None = None
        self.setProperty("role", "quiet")
        self._key = give_key(self, "")
        self.clicked.connect(self._pick)

    def lead_to(self, station: Station, keys: str) -> None:
        """Name the station and its keys."""
        self._station = station
        self.setText(f"{sentence_case(spoken(station))}   {keys}")
        self.setAccessibleName(spoken(station))
        self._key.setKey(QKeySequence(keys))
        self.setObjectName(f"to-{station.value}")

    @Slot()
    def _pick(self) -> None:
        if self._station is not None:
            self.picked.emit(self._station)
