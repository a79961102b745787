"""One season: what it is called, from which day to which day of each year it holds, and its week."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QWidget

from core.model.own_shop.opening_records import OpeningHours
from core.wording import locale_figures
from core.wording.messages import worded_cache
from gui.settings.form_fields import ChoiceField, TextField, WrongField
from gui.settings.week_fields import WeekFields
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import hinted, labelled, stacked

_NEW_YEAR = date(2024, 1, 1)
"""Of a leap year, which has every day there is."""
_DAYS_OF_YEAR = 366
_LONGEST_NAME = 40


class SeasonForm(QWidget):
    """Shows the hours of a season and gives them back as they were changed."""

    changed = Signal()
    remove_wanted = Signal()

    def __init__(self, name: str, openings: Sequence[OpeningHours] = ()) -> None:
        """``openings``: the hours of the season, none for a new one."""
        super().__init__()
        self.setObjectName(name)
        self.name = TextField(f"{name}-name")
        self.first = ChoiceField(f"{name}-first", say("settings", "hours-season-first"), _days)
        self.last = ChoiceField(f"{name}-last", say("settings", "hours-season-last"), _days)
        self.week = WeekFields(name)
        self.remove = QPushButton(say("settings", "hours-season-remove"))
        self.remove.setObjectName(f"{name}-remove")
        self._lay_out()
        self._show(openings)
        self._connect()

    @property
    def title(self) -> str:
        """What the season is called in the list."""
        return self.name.text().strip() or say("settings", "hours-season-unnamed")

    @property
    def span(self) -> str:
        """Its days, as far as they are typed."""
        first, last = self.first.text().strip(), self.last.text().strip()
        return locale_figures.between(first, last) if first and last else first or last

    def hours(self) -> Iterator[OpeningHours]:
        """What is typed, nothing for an empty form; WrongField for one end only, or no hours at all."""
        first, last = self.first.value, self.last.value
        found = list(self.week.hours(first, last, self.name.text().strip()))
        if not (first or last or found or self.name.text().strip()):
            return
        for field, value in ((self.first, first), (self.last, last)):
            if not value:
                raise WrongField(field, field.accessibleName(), "", say("files", "both-ends"))
        if not found:
            told = say("settings", "hours-season-needed")
            raise WrongField(self.week.fields[0], say("settings", "hours-season"), "", told)
        yield from found

    def _show(self, openings: Sequence[OpeningHours]) -> None:
        one = openings[0] if openings else OpeningHours(0, 0, 0)
        self.name.setText(one.season)
        self.first.show_value(one.first)
        self.last.show_value(one.last)
        self.week.show_hours(openings)

    def _connect(self) -> None:
        self.name.textEdited.connect(self.changed)
        for field in (self.first, self.last):
            field.textEdited.connect(self.changed)
            field.settled.connect(self.changed)
        self.week.changed.connect(self.changed)
        self.remove.clicked.connect(self.remove_wanted)

    def _lay_out(self) -> None:
        self.name.setMaxLength(_LONGEST_NAME)
        hinted(self.name, say("settings", "hours-season-name-hint"))
        column = stacked(self)
        column.addWidget(labelled(self.name, say("settings", "hours-season-name")))
        grid = QGridLayout()
        grid.setHorizontalSpacing(3 * theme.UNIT)
        for place, field in enumerate((self.first, self.last)):
            grid.setColumnStretch(place, 1)
            key = "hours-season-last" if place else "hours-season-first"
            grid.addWidget(labelled(field, say("settings", key)), 0, place)
        column.addLayout(grid)
        column.addWidget(self.week)
        row = QHBoxLayout()
        row.addWidget(self.remove)
        row.addStretch(1)
        column.addLayout(row)


@worded_cache(maxsize=2)
def _days() -> Mapping[str, str]:
    """Every day of a year: ``06-15`` as ``Jun 15``."""
    days = (_NEW_YEAR + timedelta(days=n) for n in range(_DAYS_OF_YEAR))
    return {f"{each:%m-%d}": locale_figures.day_of_month(each) for each in days}
