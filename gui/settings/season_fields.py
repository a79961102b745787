"""Parts of the year with other hours: a list of them, and the form of the one that is chosen."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from core.model.own_shop.opening_records import OpeningHours
from gui.settings.form_fields import WrongField
from gui.settings.season_form import SeasonForm
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import stacked, words
from gui.widgets.tray import Tray, TrayItem

_IN_SIGHT = 4
_ROW_HIGH = theme.Length(6)


class WrongSeason(WrongField):
    """What does not fit in a season, which may not be the one on show."""

    def __init__(self, wrong: WrongField, reveal: Callable[[], object]) -> None:
        super().__init__(wrong.field, wrong.place, wrong.found, wrong.accepted)
        self._reveal = reveal

    def point_out(self) -> None:
        self._reveal()
        super().point_out()


class SeasonFields(QWidget):
    """Return goes to the name of the chosen season, Delete removes it."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.forms: list[SeasonForm] = []
        self._made = 0
        self.tray = Tray("hours-seasons", say("settings", "hours-seasons"), always_lit=True)
        self.add = QPushButton(say("settings", "hours-season-add"))
        self.add.setObjectName("hours-season-add")
        self._forms = QWidget()
        self._lay_out()
        self._connect()

    def show_hours(self, openings: Sequence[OpeningHours]) -> None:
        """Every season among these hours."""
        for form in tuple(self.forms):
            self._drop(form)
        self._made = 0
        seasons: dict[tuple[str, str, str], list[OpeningHours]] = {}
        for each in openings:
            if each.first:
                seasons.setdefault((each.first, each.last, each.season), []).append(each)
        for hours in seasons.values():
            self._append(hours)
        self._list()
        self.tray.stand_on_first()
        self._turn(self.tray.current)

    def hours(self) -> Iterator[OpeningHours]:
        """The hours of every season; WrongField for what does not fit in one."""
        for form in self.forms:
            try:
                yield from form.hours()
            except WrongField as wrong:
                raise WrongSeason(wrong, partial(self.tray.stand_on, form.objectName())) from None

    # --- the list ------------------------------------------------------------------------

    @Slot()
    def _add(self) -> None:
        form = self._append(())
        self._list()
        self.tray.stand_on(form.objectName())
        self._turn(form.objectName())
        form.name.setFocus(Qt.FocusReason.OtherFocusReason)
        self.changed.emit()

    @Slot()
    def _remove(self) -> None:
        form = self._chosen
        if form is None:
            return
        place = self.forms.index(form)
        self._drop(form)
        self._list()
        if self.forms:
            self.tray.stand_on(self.forms[min(place, len(self.forms) - 1)].objectName())
        self._turn(self.tray.current)
        (self.tray if self.forms else self.add).setFocus(Qt.FocusReason.OtherFocusReason)
        self.changed.emit()

    @Slot(str)
    def _turn(self, _: str) -> None:
        """Show the form of the chosen season."""
        for form in self.forms:
            form.setVisible(form is self._chosen)

    @Slot(str)
    def _go_to_name(self, _: str) -> None:
        if self._chosen is not None:
            self._chosen.name.setFocus(Qt.FocusReason.OtherFocusReason)

    @Slot()
    def _note_change(self) -> None:
        self._list()
        self.changed.emit()

    @property
    def _chosen(self) -> SeasonForm | None:
        return next((form for form in self.forms if form.objectName() == self.tray.current), None)

    def _append(self, hours: Sequence[OpeningHours]) -> SeasonForm:
        self._made += 1
        form = SeasonForm(f"hours-season-{self._made}", hours)
        form.hide()
        form.changed.connect(self._note_change)
        form.remove_wanted.connect(self._remove)
        self.forms.append(form)
        self._column.addWidget(form)
        return form

    def _drop(self, form: SeasonForm) -> None:
        self.forms.remove(form)
        self._column.removeWidget(form)
        form.hide()
        form.deleteLater()

    def _list(self) -> None:
        self.tray.lay([TrayItem(form.objectName(), form.title, place=form.span) for form in self.forms])
        self.tray.setVisible(bool(self.forms))
        self.tray.setFixedHeight(max(1, min(len(self.forms), _IN_SIGHT)) * _ROW_HIGH.px + 4)

    # --- building ------------------------------------------------------------------------

    def _connect(self) -> None:
        self.add.clicked.connect(self._add)
        self.tray.moved.connect(self._turn)
        self.tray.taken.connect(self._go_to_name)
        delete = QShortcut(QKeySequence(Qt.Key.Key_Delete), self.tray)
        delete.setContext(Qt.ShortcutContext.WidgetShortcut)
        delete.activated.connect(self._remove)

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(words(say("settings", "hours-season-lead"), "small"))
        column.addWidget(self.tray)
        row = QHBoxLayout()
        row.addWidget(self.add)
        row.addStretch(1)
        column.addLayout(row)
        self._column = stacked(self._forms)
        column.addWidget(self._forms)
