"""The page of the people: who works here, what each may do, when screens lock, what callers are asked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ASKED, Permission, Person, ShopFront, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.scheduling import opening_hours
from core.services.own_shop import people, shop_settings
from core.services.own_shop.shop_document import SettingsView
from gui.settings.call_rules import CallRulesFields
from gui.settings.drafted_page import whole
from gui.settings.form_fields import WrongField
from gui.settings.listed_page import ListedPage
from gui.settings.person_form import PersonForm
from gui.settings.person_hours import Typed, typed_of
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.figure_field import FigureField
from gui.widgets.instant_buttons import InstantCheckBox
from gui.widgets.layouts import labelled, words
from gui.widgets.tray import TrayItem


@dataclass(frozen=True, slots=True)
class _Row:
    """A person on the page, and a new PIN that was typed for them."""

    key: str
    person: Person
    pin: str = ""
    hours: Typed = None
    """Their own hours as typed, readable or not."""


class PeoplePage(ListedPage[_Row]):
    """A tray of people, a line that adds one, and the fields of the one that is chosen."""

    page = SetupPage.PEOPLE
    paths: ClassVar[tuple[str, ...]] = (
        "work.people",
        "work.lock_minutes",
        "work.file_for_ready",
        "work.proof_to_read",
        "calls.check",
        "calls.reminders",
        "person",
    )

    form: PersonForm

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.front: ShopFront | None = None
        """How papers of this shop look, once it is known."""
        self._hashes: dict[str, str] = {}
        """Hashes of PINs typed on this page: each costs a blink, and a draft is read at every pause."""
        self.at_once = FigureField("people-at-once", say("settings", "people-at-once"))
        self.lock = FigureField("people-lock", say("settings", "people-lock"))
        self.file_needed = InstantCheckBox(say("settings", "people-file-for-ready"))
        self.file_needed.setObjectName("people-file-for-ready")
        self.proof_to_read = InstantCheckBox(say("access", "proof-to-read"))
        self.proof_to_read.setObjectName("people-proof-to-read")
        self.calls = CallRulesFields()
        self.new_name = QLineEdit()
        self.form = PersonForm()
        self._lay_out()
        self._connect()

    def show_settings(self, view: SettingsView) -> None:
        self.front = view.settings.front
        self.form.tokens.know_today(view.today)
        self.show_draft(view.settings)

    def show_draft(self, draft: ShopSettings) -> None:
        self.at_once.setText(str(draft.people))
        self.lock.setText(str(draft.lock_minutes))
        self.file_needed.setChecked(draft.file_for_ready)
        self.proof_to_read.setChecked(draft.proof_to_read)
        self.calls.show_rules(draft.calls)
        self.form.hours.know_openings(opening_hours.regular(draft))
        self._begin([_Row(self._key(), each, hours=typed_of(each.hours)) for each in draft.staff])

    def draft(self, before: ShopSettings) -> ShopSettings:
        staff = tuple(map(self._person, self._rows))
        wanted = replace(
            before,
            staff=staff,
            people=whole(self.at_once),
            lock_minutes=whole(self.lock),
            calls=self.calls.rules(),
            file_for_ready=self.file_needed.isChecked(),
            proof_to_read=self.proof_to_read.isChecked(),
        )
        shop_settings.of_document(shop_settings.document(wanted), say("settings", "the-settings"))
        return wanted

    def point_out(self, wrong: WrongInput) -> None:
        """The person and the field the sentence is about: ``settings, person 2, name``."""
        if isinstance(wrong, WrongField):
            self._stand_on_wrong_hours()
            wrong.point_out()
            return
        places = wrong.place.split(", ")
        fields: dict[str, QWidget] = {
            "people": self.at_once,
            "lock_minutes": self.lock,
            "check": self.calls.check,
            "reminders": self.calls.reminders,
            say("settings", "calls-check"): self.calls.check,
            say("settings", "calls-reminders"): self.calls.reminders,
            say("settings", "people-at-once"): self.at_once,
            say("settings", "people-lock"): self.lock,
            say("settings", "people-pin"): self.form.pin,
            "system_users": self.form.system_users.typed,
        }
        for number, row in enumerate(self._rows, 1):
            if f"person {number}" in places or wrong.place == f"{say('settings', 'people-pin')} {number}":
                self.tray.stand_on(row.key)
        field = fields.get(places[-1], self.form.name)
        field.setFocus(Qt.FocusReason.OtherFocusReason)

    # --- the people ----------------------------------------------------------------------

    def _person(self, row: _Row) -> Person:
        """A row as it is kept; WrongInput for a PIN or hours that cannot be read."""
        hours = self.form.hours.hours_of(row.hours, row.person.hours)
        return replace(row.person, name=row.person.name.strip(), pin=self._pin(row), hours=hours)

    def _stand_on_wrong_hours(self) -> None:
        for row in self._rows:
            try:
                self.form.hours.hours_of(row.hours, row.person.hours)
            except WrongField:
                self.tray.stand_on(row.key)
                return

    def _pin(self, row: _Row) -> str:
        """The hash that is kept; WrongInput, never repeating what was typed, for what is no PIN."""
        if not row.pin:
            return row.person.pin
        if row.pin not in self._hashes:
            try:
                self._hashes[row.pin] = people.hashed(row.pin)
            except WrongInput:
                self.tray.stand_on(row.key)
                raise
        return self._hashes[row.pin]

    @Slot()
    def _add(self) -> None:
        """One more; whoever is entered first may do everything, for somebody must."""
        name = self.new_name.text().strip()
        if not name:
            self.new_name.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        may = frozenset() if self._rows else frozenset(each.value for each in Permission)
        self.new_name.clear()
        self._take_in(_Row(self._key(), Person(name, may=may)))

    @Slot(object)
    def _edit(self, person: Person) -> None:
        self._put(person=person)

    @Slot(object)
    def _take_hours(self, typed: Typed) -> None:
        self._put(hours=typed)

    @Slot()
    def _take_pin(self) -> None:
        self._put(pin=self.form.pin.text())

    def _show_row(self, row: _Row) -> None:
        self.form.show_person(row.person, row.pin, row.hours)

    def _item(self, row: _Row) -> TrayItem:
        person = row.person
        may = [say("settings", f"people-may-{each.value}") for each in ASKED if each.value in person.may]
        return TrayItem(row.key, person.name, small=" · ".join(may), place=self._state(row))

    def _state(self, row: _Row) -> str:
        person = row.person
        if person.may and not (person.can_be_proven or row.pin or person.retired) and self._asks_proof():
            return say("access", "state-waits")
        state = "retired" if person.retired else "pin" if person.pin or row.pin else "no-pin"
        return say("settings", f"people-state-{state}")

    def _asks_proof(self) -> bool:
        """Whether somebody on the page, as it is typed, may change the settings and has a PIN."""
        owns = Permission.SETTINGS.value
        here = (each for each in self._rows if not each.person.retired)
        return any((each.pin or each.person.pin) and owns in each.person.may for each in here)

    # --- building ------------------------------------------------------------------------

    def _connect(self) -> None:
        for field in (self.at_once, self.lock):
            field.textEdited.connect(self.changed)
        self.file_needed.clicked.connect(self.changed)
        self.proof_to_read.clicked.connect(self.changed)
        self.calls.edited.connect(self.changed)
        self.new_name.returnPressed.connect(self._add)
        self.form.edited.connect(self._edit)
        self.form.pin_typed.connect(self._take_pin)
        self.form.hours.edited.connect(self._take_hours)
        self.form.remove_wanted.connect(self._remove)

    def _lay_out(self) -> None:
        self.new_name.setObjectName("people-new-name")
        self.new_name.setMaxLength(60)
        self.column.addWidget(words(say("settings", "people-lead")))
        figures = QHBoxLayout()
        figures.setSpacing(2 * theme.UNIT)
        figures.addWidget(labelled(self.at_once, say("settings", "people-at-once")), 1)
        figures.addWidget(labelled(self.lock, say("settings", "people-lock")), 1)
        self.column.addLayout(figures)
        self.column.addWidget(words(say("settings", "people-plans"), "small"))
        self.column.addWidget(self.file_needed)
        self.column.addWidget(self.proof_to_read)
        self._lay_adder((self.new_name, 1))
        self.column.addWidget(labelled(self.tray, say("settings", "people-list")))
        self.column.addWidget(self.form)
        self.column.addWidget(self.calls)


PAGE = PeoplePage
