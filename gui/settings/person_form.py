"""The fields of one person: the name, what they may do, where they work and when, and what proves them."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QPushButton, QWidget

from core.model.own_shop.access_records import AccessToken
from core.model.own_shop.settings_records import ASKED, Duty, Person, Skill
from core.services.own_shop import people
from gui.settings.check_boxes import CheckBoxes
from gui.settings.listed_page import EntryForm
from gui.settings.person_access import SystemUserLines, TokenFields
from gui.settings.person_hours import PersonHours, Typed
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import hinted, labelled, rule, stacked, words


class PersonForm(EntryForm):
    """Shows a person and says how they were changed. The PIN itself leaves the field as a hash only."""

    edited = Signal(object)
    """The `Person` as they were changed; a PIN being typed is not in it yet."""
    pin_typed = Signal()
    remove_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._person = Person("")
        self.name = QLineEdit()
        self.name.setMaxLength(60)
        self.may = CheckBoxes(
            "person-may", {each.value: say("settings", f"people-may-{each.value}") for each in ASKED}
        )
        self.does = CheckBoxes(
            "person-does", {each.value: say("settings", f"people-does-{each.value}") for each in Duty}
        )
        self.can = CheckBoxes(
            "person-can", {each.value: say("settings", f"people-can-{each.value}") for each in Skill}
        )
        self.hours = PersonHours()
        self.pin = QLineEdit()
        self.pin.setEchoMode(QLineEdit.EchoMode.Password)
        self.pin.setMaxLength(people.MOST_DIGITS)
        self.no_pin = QCheckBox(say("settings", "people-no-pin"))
        self.system_users = SystemUserLines()
        self.tokens = TokenFields()
        self.retired = QCheckBox(say("settings", "people-retired"))
        self.remove = QPushButton(say("settings", "people-remove"))
        self._lay_out()
        self._connect()

    def show_person(self, person: Person, pin: str, hours: Typed) -> None:
        """Fill the fields in; ``pin`` is a new one that was typed and is not saved."""
        self._person = person
        if self.name.text() != person.name:
            self.name.setText(person.name)
        self.may.show_chosen(person.may)
        self.does.show_chosen(person.does)
        self.can.show_chosen(person.can)
        self.can.setEnabled(Duty.BENCH.value in person.does)
        self.hours.show_typed(hours)
        if self.pin.text() != pin:
            self.pin.setText(pin)
        hinted(self.pin, say("settings", "people-has-pin" if person.pin else "people-without-pin"))
        self.no_pin.setChecked(False)
        self.no_pin.setVisible(bool(person.pin))
        self.system_users.show_users(person.system_users)
        self.tokens.show_tokens(person.tokens)
        self.retired.setChecked(person.retired)

    @Slot()
    def _edit(self) -> None:
        self.edited.emit(
            replace(
                self._person,
                name=self.name.text(),
                may=self.may.chosen | self._person.may - {each.value for each in ASKED},
                does=self.does.chosen,
                can=self.can.chosen,
                pin="" if self.no_pin.isChecked() else self._person.pin,
                retired=self.retired.isChecked(),
                system_users=self.system_users.users,
            )
        )

    @Slot(object)
    def _take_tokens(self, tokens: tuple[AccessToken, ...]) -> None:
        self.edited.emit(replace(self._person, tokens=tokens))

    def _connect(self) -> None:
        self.name.textEdited.connect(self._edit)
        self.may.changed.connect(self._edit)
        self.does.changed.connect(self._edit)
        self.can.changed.connect(self._edit)
        self.no_pin.clicked.connect(self._edit)
        self.retired.clicked.connect(self._edit)
        self.pin.textEdited.connect(self.pin_typed)
        self.system_users.edited.connect(self._edit)
        self.tokens.edited.connect(self._take_tokens)
        self.remove.clicked.connect(self.remove_wanted)

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(rule())
        named: dict[str, QWidget] = {
            "person-name": self.name,
            "person-pin": self.pin,
            "person-no-pin": self.no_pin,
            "person-retired": self.retired,
            "person-remove": self.remove,
        }
        for name, widget in named.items():
            widget.setObjectName(name)
        self.pin.setInputMethodHints(Qt.InputMethodHint.ImhDigitsOnly | Qt.InputMethodHint.ImhSensitiveData)
        for field in (self.name, self.pin):
            field.setMaximumWidth(40 * theme.UNIT)
        column.addWidget(labelled(self.name, say("settings", "people-field-name")))
        column.addWidget(labelled(self.may, say("settings", "people-field-may")))
        column.addWidget(words(say("settings", "people-may-lead"), "small"))
        column.addWidget(labelled(self.does, say("settings", "people-field-does")))
        column.addWidget(labelled(self.can, say("settings", "people-field-can")))
        column.addWidget(self.hours)
        column.addWidget(labelled(self.pin, say("settings", "people-field-pin")))
        column.addWidget(self.no_pin)
        column.addWidget(labelled(self.system_users, say("access", "system-users")))
        column.addWidget(words(say("access", "system-users-lead"), "small"))
        column.addWidget(labelled(self.tokens, say("access", "tokens")))
        column.addWidget(self.retired)
        row = QHBoxLayout()
        row.addWidget(self.remove)
        row.addStretch(1)
        column.addLayout(row)
