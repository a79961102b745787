"""What the deck showed of a tape that has played: speed, recording, TV system, as far as there is a choice.

Nothing is told until somebody tells it: a likely answer left standing would be taken for a thing seen.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Slot
from PySide6.QtWidgets import QComboBox, QLabel, QWidget

from core.catalogue.formats import catalogue
from core.model.deck_showing import NOTHING, Shown
from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.playtime.deck_readings import Offer, offer
from core.playtime.habits import STARTING, ShopHabits
from gui.toolkit.text import say
from gui.widgets.layouts import stacked, words

Pairs = Sequence[tuple[str, object]]


class DeckReadout(QWidget):
    """Three short lists; letters choose in each, and what was found in one narrows the others."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._line: TapeLine | None = None
        self._shop = STARTING
        self.speed, self.system, self.tv = (_list(f"shown-{name}") for name in ("speed", "system", "tv"))
        column = stacked(self, 2)
        self._labels = {box: _label(box) for box in (self.speed, self.system, self.tv)}
        for box, label in self._labels.items():
            column.addWidget(label)
            column.addWidget(box)
            box.currentIndexChanged.connect(self._narrow)

    def begin(self, line: TapeLine) -> None:
        """Nothing is read off the tape of ``line`` yet."""
        self._line, self._shop = line, STARTING
        self._lay(NOTHING)

    def know(self, shop: ShopHabits) -> None:
        """What is believed of the box, to say which answer is likely."""
        self._shop = shop
        self._narrow()

    @property
    def shown(self) -> Shown:
        """What somebody told; what nobody looked at is None."""
        speed: Speed | None = self.speed.currentData()
        system: FormatName | None = self.system.currentData()
        tv: TvSystem | None = self.tv.currentData()
        return Shown(speed, system, tv)

    @property
    def offers_any(self) -> bool:
        """Whether there is anything to choose from."""
        return any(box.count() > 1 for box in self._labels)

    @Slot()
    def _narrow(self) -> None:
        self._lay(self.shown)

    def _lay(self, said: Shown) -> None:
        if self._line is None:
            return
        line, offered = self._line, offer(self._line, said, self._shop)
        likely = offered.likely
        assert likely.speed is not None
        assert likely.recorded_as is not None
        assert likely.tv is not None
        self._fill(self.speed, _speeds(offered), likely.speed.words, line.speed is likely.speed)
        recording = catalogue().format(likely.recorded_as).words
        self._fill(self.system, _systems(offered), recording, line.recorded_as == likely.recorded_as)
        self._fill(self.tv, _tvs(offered), likely.tv.name, line.tv is likely.tv)

    def _fill(self, box: QComboBox, choices: Pairs, likely: str, is_booked: bool) -> None:
        chosen = box.currentData()
        box.blockSignals(True)
        box.clear()
        box.addItem(say("bench", "shown_booked" if is_booked else "shown_likely", what=likely), None)
        for text, value in choices:
            box.addItem(text, value)
        values = [value for _, value in choices]
        box.setCurrentIndex(1 + values.index(chosen) if chosen in values else 0)
        box.blockSignals(False)
        for widget in (box, self._labels[box]):
            widget.setVisible(bool(choices))


def _speeds(offered: Offer) -> Pairs:
    return [(_typed(each), each) for each in offered.speeds]


def _typed(speed: Speed) -> str:
    """A speed so that its first letters can be typed: ``B2 (βII)``."""
    typed = speed.value.upper()
    return typed if typed == speed.words else f"{typed} ({speed.words})"


def _systems(offered: Offer) -> Pairs:
    return [(catalogue().format(name).words, name) for name in offered.systems]


def _tvs(offered: Offer) -> Pairs:
    return [(each.name, each) for each in offered.tvs]


def _list(name: str) -> QComboBox:
    box = QComboBox()
    box.setObjectName(name)
    return box


def _label(box: QComboBox) -> QLabel:
    text = say("bench", box.objectName().replace("-", "_"))
    label = words(text, "field", wrap=False)
    label.setBuddy(box)
    box.setAccessibleName(text.replace("&", ""))
    return label
