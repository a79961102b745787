"""What goes on the free decks now, as a paragraph above the tapes at work."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from core.to_load import ToLoad
from gui import pieces
from gui.text import say, time_of_day
from gui.widgets.deedbutton import DeedButton
from gui.widgets.layouts import stacked, words


class LoadNow(QWidget):
    """One line for each free deck; not there while no deck is free. The key belongs to ``room``."""

    taken = Signal(str)
    """The code of the first tape: it is wanted in hand."""

    def __init__(self, room: QWidget) -> None:
        super().__init__()
        self._first: str | None = None
        self.lines = words()
        self.lines.setObjectName("to-load")
        self.button = DeedButton(room, "take-first", say("bench", "load_first"), "Alt+U")
        self.button.setProperty("role", "quiet")
        self.button.clicked.connect(self._take)
        column = stacked(self)
        column.addWidget(words(say("bench", "to_load"), "small"))
        column.addWidget(self.lines)
        column.addWidget(self.button)
        self.hide()

    def tell(self, found: Sequence[ToLoad]) -> None:
        """Show what each free deck loads."""
        told = [*_tapes(found), *_waiting(found)]
        self._first = next((each.tape.code for each in found if each.tape is not None), None)
        self.lines.setText("\n".join(told))
        self.lines.setAccessibleName(". ".join([say("bench", "to_load"), *told]))
        self.button.setVisible(self._first is not None)
        self.setVisible(bool(told))

    @Slot()
    def _take(self) -> None:
        if self._first is not None:
            self.taken.emit(self._first)


def _tapes(found: Sequence[ToLoad]) -> list[str]:
    return [
        say(
            "bench",
            "load_line",
            deck=each.deck,
            code=pieces.spaced(each.tape.code),
            words=" ".join(filter(None, (each.tape.format_words, each.tape.marking))),
            ends=time_of_day(each.ends),
        )
        for each in found
        if each.tape is not None and each.ends is not None
    ]


def _waiting(found: Sequence[ToLoad]) -> list[str]:
    """Decks that wait for the same reason share a line."""
    reasons: dict[str, list[str]] = {}
    for each in found:
        if each.tape is None:
            reasons.setdefault(each.why, []).append(each.deck)
    return [say("bench", "load_nothing", decks=", ".join(names), why=why) for why, names in reasons.items()]
