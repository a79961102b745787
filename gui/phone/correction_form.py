"""A correction of the customer: a name wrongly spelled, a phone number with a wrong digit."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton

from core.model.errors import WrongInput
from core.model.inventory import CustomerDraft
from core.model.job_records import Customer
from core.model.own_shop.settings_records import ShopSettings
from core.services import customers
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.keyed_form import Form
from gui.widgets.layouts import labelled, words


class CorrectionForm(Form):
    """Name, phone as it is dialed here, and e-mail, to be typed over."""

    submitted = Signal(object)
    """A `CustomerDraft`, typed over ``seen``."""

    def __init__(self) -> None:
        super().__init__("correction")
        self._country = "US"
        self.seen: Customer | None = None
        """The details on which the typing began: somebody else may have changed them since."""
        self.name = _field("correct-name")
        self.phone = _field("correct-phone")
        self.email = _field("correct-email")
        self._save = QPushButton(say("phone", "correct_save"))
        self._save.setObjectName("correct-save")
        self._save.setProperty("role", "main")
        self._lay_out()
        self._go_with_return((self.name, self.phone, self.email), self._save)

    def keep_country(self, settings: ShopSettings) -> None:
        """Phone numbers are shown as they are dialed from where the shop is."""
        self._country = settings.country

    def begin(self, customer: Customer) -> None:
        """Show the details of a customer."""
        self.seen = customer
        self.name.setText(customer.name)
        self.phone.setText(customers.as_dialled(customer.phone, self._country) if customer.phone else "")
        self.email.setText(customer.email or "")
        self.name.setFocus()
        self.name.selectAll()

    def _keep(self) -> None:
        name, phone, email = (field.text().strip() for field in (self.name, self.phone, self.email))
        if not name:
            self.name.setFocus()
            self.refused.emit(WrongInput(self.name.accessibleName(), "", say("phone", "correct_needed")))
            return
        self.submitted.emit(CustomerDraft(name, phone or None, email or None))

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self.name, say("phone", "correct_name")), 3)
        row.addWidget(labelled(self.phone, say("phone", "correct_phone")), 2)
        row.addWidget(labelled(self.email, say("phone", "correct_email")), 3)
        self.column.addLayout(row)
        self.column.addWidget(words(say("phone", "correct_how"), "small"))
        self.column.addWidget(self._save)


def _field(name: str) -> QLineEdit:
    field = QLineEdit()
    field.setObjectName(name)
    return field
