"""What would help: three lines at most, asked for by a key and told when they are worked out."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QLabel

from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import PaperFrame, words


class ImprovementLines(PaperFrame):
    """Empty and out of the way until somebody asks."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.column.setContentsMargins(2 * theme.UNIT, theme.UNIT, 2 * theme.UNIT, theme.UNIT)
        self.column.setSpacing(4)
        self._head = words(say("shop", "help"), "field")
        self.column.addWidget(self._head)
        self.lines: list[QLabel] = [words("", "small") for _ in range(3)]
        for line in self.lines:
            self.column.addWidget(line)
        self.setAccessibleName(say("shop", "help"))
        self.hide()

    def wait(self) -> None:
        """It is being worked out."""
        self._write([say("shop", "help_working")])

    def tell(self, sentences: Sequence[str]) -> None:
        """What would help, best first; or that nothing would."""
        self._write([_capital(each) for each in sentences] or [say("shop", "help_none")])

    def _write(self, sentences: Sequence[str]) -> None:
        for place, line in enumerate(self.lines):
            line.setText(sentences[place] if place < len(sentences) else "")
            line.setVisible(place < len(sentences))
        self.setAccessibleDescription(". ".join(sentences))
        self.show()


def _capital(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]
