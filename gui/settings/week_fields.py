"""A line for the hours of each weekday."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from core.model.own_shop.opening_records import OpeningHours
from core.wording import locale_figures, typed_hours
from gui.settings.form_fields import TextField, WrongField
from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label
from gui.toolkit.text import say

DAYS = 7
_MONDAY = date(2026, 1, 5)


class WeekFields(QWidget):
    """Seven lines, Monday first."""

    changed = Signal()

    def __init__(self, name: str) -> None:
        super().__init__()
        self.fields = [TextField(f"{name}-{number}") for number in range(DAYS)]
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(2 * theme.UNIT)
        grid.setVerticalSpacing(theme.UNIT // 2)
        grid.setColumnStretch(1, 1)
        for number, field in enumerate(self.fields):
            label = plain_label(weekday(number))
            label.setBuddy(field)
            field.setAccessibleName(weekday(number))
            field.textEdited.connect(self.changed)
            grid.addWidget(label, number, 0, Qt.AlignmentFlag.AlignVCenter)
            grid.addWidget(field, number, 1)

    def show_hours(self, openings: Sequence[OpeningHours]) -> None:
        """The hours of a week."""
        for number, field in enumerate(self.fields):
            spans = [(each.start, each.end) for each in openings if each.weekday == number]
            field.setText(typed_hours.typed_spans(spans))

    def hours(self, first: str = "", last: str = "", season: str = "") -> Iterator[OpeningHours]:
        """What is typed, for the whole year or a season; WrongField for what are no hours."""
        for number, field in enumerate(self.fields):
            spans = typed_hours.spans_of(field.text())
            if spans is None:
                accepted = say("settings", "hours-accepted", **examples())
                raise WrongField(field, field.accessibleName(), field.text(), accepted)
            for start, end in spans:
                yield OpeningHours(number, start, end, first, last, season)


def weekday(number: int) -> str:
    """``Monday`` for 0."""
    return locale_figures.weekday(_MONDAY + timedelta(days=number))


def examples() -> dict[str, str]:
    """How hours are typed here: a whole day, and one with a break."""
    whole, parted = [(9 * 60, 18 * 60)], [(9 * 60, 12 * 60 + 30), (13 * 60 + 30, 18 * 60)]
    return {"whole": typed_hours.typed_spans(whole), "parted": typed_hours.typed_spans(parted)}
