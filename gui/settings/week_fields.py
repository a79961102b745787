"""A line for the hours of each weekday, and a season with a week of its own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from core.model.settings_records import OpeningHours
from core.wording import locale_figures, typed_hours
from core.wording.messages import worded_cache
from gui.settings.form_fields import ChoiceField, TextField, WrongField
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, stacked, words

DAYS = 7
_MONDAY = date(2026, 1, 5)
_NEW_YEAR = date(2024, 1, 1)
"""Of a leap year, which has every day there is."""
_DAYS_OF_YEAR = 366


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
            label = QLabel(weekday(number))
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

    def hours(self, first: str = "", last: str = "") -> Iterator[OpeningHours]:
        """What is typed, for the whole year or a season; WrongField for what are no hours."""
        for number, field in enumerate(self.fields):
            spans = typed_hours.spans_of(field.text())
            if spans is None:
                accepted = say("settings", "hours-accepted", **examples())
                raise WrongField(field, field.accessibleName(), field.text(), accepted)
            for start, end in spans:
                yield OpeningHours(number, start, end, first, last)


class SeasonFields(QWidget):
    """From which day to which day of each year other hours hold; the week is there once a day is."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._others: tuple[OpeningHours, ...] = ()
        """Further seasons, such as the command line can enter; they stay as they are."""
        self.first = ChoiceField("hours-season-first", say("settings", "hours-season-first"), _days)
        self.last = ChoiceField("hours-season-last", say("settings", "hours-season-last"), _days)
        self.week = WeekFields("hours-season")
        self._lay_out()
        for field in (self.first, self.last):
            field.textChanged.connect(self._show_week)
            field.textEdited.connect(self.changed)
            field.settled.connect(self.changed)
        self.week.changed.connect(self.changed)
        self._show_week()

    def show_hours(self, openings: Sequence[OpeningHours]) -> None:
        """The first season, if there is one."""
        seasons = [each for each in openings if each.first]
        here = [each for each in seasons if (each.first, each.last) == (seasons[0].first, seasons[0].last)]
        self._others = tuple(each for each in seasons if each not in here)
        self.first.show_value(here[0].first if here else "")
        self.last.show_value(here[0].last if here else "")
        self.week.show_hours(here)

    def hours(self) -> Iterator[OpeningHours]:
        """Every season; WrongField for one with one end only, or without any hours."""
        first, last = self.first.value, self.last.value
        if first or last:
            for field, value in ((self.first, first), (self.last, last)):
                if not value:
                    raise WrongField(field, field.accessibleName(), "", say("files", "both-ends"))
            found = list(self.week.hours(first, last))
            if not found:
                told = say("settings", "hours-season-needed")
                raise WrongField(self.week.fields[0], say("settings", "hours-season"), "", told)
            yield from found
        yield from self._others

    @Slot()
    def _show_week(self) -> None:
        self.week.setVisible(bool(self.first.text() or self.last.text()))

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(words(say("settings", "hours-season-lead"), "small"))
        grid = QGridLayout()
        grid.setHorizontalSpacing(3 * theme.UNIT)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        grid.addWidget(labelled(self.first, say("settings", "hours-season-first")), 0, 0)
        grid.addWidget(labelled(self.last, say("settings", "hours-season-last")), 0, 1)
        column.addLayout(grid)
        column.addWidget(self.week)


def weekday(number: int) -> str:
    """``Monday`` for 0."""
    return locale_figures.weekday(_MONDAY + timedelta(days=number))


def examples() -> dict[str, str]:
    """How hours are typed here: a whole day, and one with a break."""
    whole, parted = [(9 * 60, 18 * 60)], [(9 * 60, 12 * 60 + 30), (13 * 60 + 30, 18 * 60)]
    return {"whole": typed_hours.typed_spans(whole), "parted": typed_hours.typed_spans(parted)}


@worded_cache(maxsize=2)
def _days() -> Mapping[str, str]:
    """Every day of a year: ``06-15`` as ``Jun 15``."""
    days = (_NEW_YEAR + timedelta(days=n) for n in range(_DAYS_OF_YEAR))
    return {f"{each:%m-%d}": locale_figures.day_of_month(each) for each in days}
