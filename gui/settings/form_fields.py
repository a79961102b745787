"""The fields of the settings' pages: a line of text, and a line that takes one of some offers."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PySide6.QtCore import Slot
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QWidget

from core.model.errors import WrongInput
from core.wording import typed_amounts
from gui.tables import choices
from gui.tables.choices import CellChoice
from gui.tables.type_ahead import TypeAhead
from gui.toolkit import theme
from gui.toolkit.text import say

MOST_NAMED = 4


class WrongField(WrongInput):
    """What was typed into a field cannot be right."""

    def __init__(self, field: QWidget, place: str, found: object, accepted: str) -> None:
        super().__init__(place, found, accepted)
        self.field = field

    def point_out(self) -> None:
        """Show that the field is to be looked at, and put the keyboard there."""
        theme.set_style_property(self.field, "wrong", True)
        self.field.setFocus()


class TextField(QLineEdit):
    """A line of text."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setObjectName(name)
        self.textChanged.connect(self._unmark)

    def _unmark(self) -> None:
        theme.set_style_property(self, "wrong", False)


class LinesField(QPlainTextEdit):
    """A few lines of text; Tab goes on to the next field."""

    def __init__(self, name: str, lines: int) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setTabChangesFocus(True)
        self.setFixedHeight(lines * self.fontMetrics().lineSpacing() + 3 * theme.UNIT)

    @property
    def lines(self) -> tuple[str, ...]:
        """What is typed, without empty lines."""
        return tuple(line.strip() for line in self.toPlainText().splitlines() if line.strip())


class ChoiceField(TypeAhead):
    """A line that takes one of some offers; what is typed opens those that may be meant."""

    def __init__(self, name: str, place: str, offers: Callable[[], Mapping[str, str]]) -> None:
        """``offers``: value and words of each; ``place`` names the field in a complaint."""
        super().__init__(self._choices)
        self.setObjectName(name)
        self._place = place
        self._values = offers
        self.textChanged.connect(self._unmark)

    @property
    def value(self) -> str:
        """The value of the words that stand here; WrongField for any but the offers."""
        typed = self.text().strip()
        if not typed:
            return ""
        found = choices.meant(self._choices(), typed)
        for value, words in self._values().items():
            if found is not None and found.words == words:
                return value
        few = "; ".join(list(self._values().values())[:MOST_NAMED])
        raise WrongField(self, self._place, typed, say("settings", "choice-accepted", few=few))

    def show_value(self, value: str) -> None:
        """Write the words of a value; one that is not offered stands as it is."""
        self.setText(self._values().get(value, value))

    def _choices(self) -> tuple[CellChoice, ...]:
        return tuple(CellChoice(words, (value,)) for value, words in self._values().items())

    @Slot()
    def _unmark(self) -> None:
        theme.set_style_property(self, "wrong", False)


def minutes_typed(field: TextField) -> float:
    """The minutes of a person's time that are typed; WrongField for what is no number."""
    found = typed_amounts.number_of(field.text())
    if found is None:
        raise WrongField(field, field.accessibleName(), field.text(), say("files", "minutes-to-600"))
    return float(found)
