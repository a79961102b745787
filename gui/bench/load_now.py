"""What goes on the free decks now, as a paragraph above the tapes at work."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.services.decks_to_load import ToLoad
from gui.toolkit.text import say, time_of_day
from gui.widgets import tray_rows
from gui.widgets.form_button import FormButton
from gui.widgets.layouts import stacked, words


class LoadNow(QWidget):
    """One line for each free deck; not there while no deck is free. The key belongs to ``room``."""

    taken = Signal(str)
    """The code of the first tape: it is wanted in hand."""

    def __init__(self, room: QWidget) -> None:
        super().__init__()
        self._first: str | None = None
        self.told: tuple[str, ...] = ()
        """Each line as it is heard: the deck, then what it loads."""
        self.lines = words()
        self.lines.setObjectName("to-load")
        self.lines.setTextFormat(Qt.TextFormat.RichText)
        self.button = FormButton(room, "take-first", say("bench", "load_first"), "Alt+U")
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
        self.told = tuple(f"{decks}: {line}{', ' if ends else ''}{ends}" for decks, ends, line in told)
        self._first = next((each.tape.code for each in found if each.tape is not None), None)
        self.lines.setText(_on_paper(told))
        self.lines.setAccessibleName(". ".join([say("bench", "to_load"), *self.told]))
        self.button.setVisible(self._first is not None)
        self.setVisible(bool(told))

    @Slot()
    def _take(self) -> None:
        if self._first is not None:
            self.taken.emit(self._first)


def _tapes(found: Sequence[ToLoad]) -> list[tuple[str, str, str]]:
    """The deck, when it is free again, and what goes on it."""
    return [
        (
            each.deck,
            say("bench", "load_ends", ends=time_of_day(each.ends)),
            f"{tray_rows.spaced(each.tape.code)} · {tray_rows.shell_words(each.tape)}",
        )
        for each in found
        if each.tape is not None and each.ends is not None
    ]


def _waiting(found: Sequence[ToLoad]) -> list[tuple[str, str, str]]:
    """Decks that wait for the same reason share a line."""
    reasons: dict[str, list[str]] = {}
    for each in found:
        if each.tape is None:
            reasons.setdefault(each.why, []).append(each.deck)
    return [(", ".join(names), "", why) for why, names in reasons.items()]


def _on_paper(told: Sequence[tuple[str, str, str]]) -> str:
    """The deck stands over what it loads, so that no line breaks in the middle of an hour."""
    return "".join(
        f"<p style='margin: 0 0 4px 0'><b>{escape(decks)}</b> {escape(ends)}<br>{escape(line)}</p>"
        for decks, ends, line in told
    )
