"""The hours of one person: whenever the shop is open, or a line for each weekday."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QCheckBox, QWidget

from core.model.own_shop.opening_records import OpeningHours
from core.wording import typed_hours
from gui.settings.form_fields import WrongField
from gui.settings.week_fields import DAYS, WeekFields, examples
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import hinted, stacked, words

Typed = tuple[str, ...] | None
"""What stands at each weekday, Monday first; None: here whenever the shop is open."""


class PersonHours(QWidget):
    """The week is there once a person has hours of their own; it begins with those of the shop."""

    edited = Signal(object)
    """The hours as typed now."""

    def __init__(self) -> None:
        super().__init__()
        self._openings: tuple[OpeningHours, ...] = ()
        self.own = QCheckBox(say("settings", "people-own-hours"))
        self.own.setObjectName("person-own-hours")
        self.own.clicked.connect(self._begin)
        self.week = WeekFields("person-hours")
        self.week.changed.connect(self._tell)
        for field in self.week.fields:
            hinted(field, say("settings", "people-not-here"))
        self._lead = words(say("settings", "people-hours-lead"), "small")
        self.week.setMaximumWidth(60 * theme.UNIT)
        column = stacked(self)
        for widget in (self.own, self._lead, self.week):
            column.addWidget(widget)

    def know_openings(self, openings: Sequence[OpeningHours]) -> None:
        """The hours of the shop, with which hours of their own begin."""
        self._openings = tuple(openings)

    def show_typed(self, typed: Typed) -> None:
        """These hours, whether they can be read or not."""
        self.own.setChecked(typed is not None)
        for widget in (self._lead, self.week):
            widget.setVisible(typed is not None)
        for field, text in zip(self.week.fields, typed or ("",) * len(self.week.fields), strict=True):
            if field.text() != text:
                field.setText(text)

    def hours_of(self, typed: Typed, before: Sequence[OpeningHours]) -> tuple[OpeningHours, ...]:
        """The hours typed; those of seasons, which the command line can enter, stay as they were.

        WrongField for what are no hours, and where no day has any.
        """
        if typed is None:
            return ()
        found = [*self._read(typed), *(each for each in before if each.first)]
        if not found:
            first = self.week.fields[0]
            raise WrongField(first, first.accessibleName(), "", say("settings", "people-hours-needed"))
        return tuple(sorted(found, key=lambda one: (one.first, one.last, one.weekday, one.start)))

    def _read(self, typed: Sequence[str]) -> Iterator[OpeningHours]:
        for number, (field, text) in enumerate(zip(self.week.fields, typed, strict=True)):
            spans = typed_hours.spans_of(text)
            if spans is None:
                accepted = say("settings", "hours-accepted", **examples())
                raise WrongField(field, field.accessibleName(), text, accepted)
            yield from (OpeningHours(number, start, end) for start, end in spans)

    @Slot(bool)
    def _begin(self, has_own: bool) -> None:
        self.edited.emit((typed_of(self._openings) or ("",) * DAYS) if has_own else None)

    @Slot()
    def _tell(self) -> None:
        self.edited.emit(tuple(field.text() for field in self.week.fields))


def typed_of(hours: Sequence[OpeningHours]) -> Typed:
    """Hours of the whole year as they are typed, nothing for a day without any; None for none at all."""
    if not hours:
        return None
    spans = [
        [(each.start, each.end) for each in hours if each.weekday == number and not each.first]
        for number in range(DAYS)
    ]
    return tuple(typed_hours.typed_spans(each) if each else "" for each in spans)
