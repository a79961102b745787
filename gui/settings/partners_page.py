"""The page of the outside partners: who copies what no deck here can play, at which price, in how long."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QLineEdit, QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Partner, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop import setting_names, shop_settings
from core.services.own_shop.shop_document import SettingsView
from core.wording import locale_figures, typed_amounts
from gui.settings.listed_page import ListedPage
from gui.settings.partner_form import PartnerForm
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, words
from gui.widgets.tray import TrayItem

_USUAL_DAYS = 14


@dataclass(frozen=True, slots=True)
class _Row:
    """A partner on the page, and the days as they are typed."""

    key: str
    partner: Partner
    days: str


class PartnersPage(ListedPage[_Row]):
    """A tray of partners, a line that adds one, and the fields of the one that is chosen."""

    page = SetupPage.PARTNERS
    paths: ClassVar[tuple[str, ...]] = ("partner",)

    form: PartnerForm

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.new_name = QLineEdit()
        self.form = PartnerForm()
        self._lay_out()
        self._connect()

    def show_settings(self, view: SettingsView) -> None:
        self.show_draft(view.settings)

    def show_draft(self, draft: ShopSettings) -> None:
        self.form.offer_formats()
        self._begin([_Row(self._key(), each, str(each.days)) for each in draft.partners])

    def draft(self, before: ShopSettings) -> ShopSettings:
        partners = tuple(
            replace(row.partner, name=row.partner.name.strip(), price=row.partner.price.strip(), days=days)
            for number, row in enumerate(self._rows, 1)
            for days in [self._days(number, row)]
        )
        wanted = replace(before, partners=partners)
        try:
            shop_settings.of_document(shop_settings.document(wanted), say("settings", "the-settings"))
        except WrongInput as wrong:
            raise self._named(wrong) from None
        return wanted

    def point_out(self, wrong: WrongInput) -> None:
        """The partner and the field the sentence is about."""
        fields = {
            "name": self.form.name,
            "formats": next(iter(self.form.formats.boxes.values())),
            "price": self.form.price,
            "days": self.form.days,
        }
        for row in self._rows:
            for key, field in fields.items():
                if wrong.place == _place(row.partner, key):
                    self.tray.stand_on(row.key)
                    field.setFocus(Qt.FocusReason.OtherFocusReason)

    # --- the partners --------------------------------------------------------------------

    def _days(self, number: int, row: _Row) -> int:
        found = typed_amounts.number_of(row.days)
        if found is None or found != found.to_integral_value():
            raise WrongInput(_place(row.partner, "days"), row.days, say("files", "from-1-to-365"))
        return int(found)

    def _named(self, wrong: WrongInput) -> WrongInput:
        """The complaint by the partner's name and the field, in place of ``settings, partner 2, formats``."""
        *_, entry, key = ("", *wrong.place.split(", "))
        number = entry.removeprefix("partner ")
        if not number.isdigit() or not 1 <= int(number) <= len(self._rows):
            return wrong
        return WrongInput(_place(self._rows[int(number) - 1].partner, key), wrong.found or "", wrong.accepted)

    @Slot()
    def _add(self) -> None:
        name = self.new_name.text().strip()
        if not name:
            self.new_name.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        row = _Row(self._key(), Partner(name, frozenset(), "", _USUAL_DAYS), str(_USUAL_DAYS))
        self.new_name.clear()
        self._take_in(row)
        self.form.price.setFocus(Qt.FocusReason.OtherFocusReason)

    @Slot()
    def _raise(self) -> None:
        """The first that copies a format is the one who is named: one place further up."""
        place = self._chosen
        if place:
            self._rows[place - 1 : place + 1] = [self._rows[place], self._rows[place - 1]]
            self._lay_rows()
            self._show_chosen(self.tray.current)
            self.changed.emit()

    @Slot(object)
    def _edit(self, partner: Partner) -> None:
        self._put(partner=partner)

    @Slot()
    def _take_days(self) -> None:
        self._put(days=self.form.days.text())

    def _show_row(self, row: _Row) -> None:
        self.form.show_partner(row.partner, row.days)
        self.form.raise_it.setEnabled(bool(self._chosen))

    def _item(self, row: _Row) -> TrayItem:
        partner = row.partner
        formats = [words for name, words in self._offered.items() if name in partner.formats]
        told = locale_figures.listed(formats, "unit") or say("settings", "partners-nothing")
        return TrayItem(row.key, partner.name, small=told, place=partner.price)

    @property
    def _offered(self) -> dict[str, str]:
        return {name: box.text() for name, box in self.form.formats.boxes.items()}

    # --- building ------------------------------------------------------------------------

    def _connect(self) -> None:
        self.new_name.returnPressed.connect(self._add)
        self.form.edited.connect(self._edit)
        self.form.days_typed.connect(self._take_days)
        self.form.raise_wanted.connect(self._raise)
        self.form.remove_wanted.connect(self._remove)

    def _lay_out(self) -> None:
        self.new_name.setObjectName("partners-new-name")
        self.new_name.setMaxLength(200)
        self.column.addWidget(words(say("settings", "partners-lead")))
        self._lay_adder((self.new_name, 1))
        self.column.addWidget(labelled(self.tray, say("settings", "partners-list")))
        self.column.addWidget(self.form)


PAGE = PartnersPage


def _place(partner: Partner, key: str) -> str:
    """What a complaint calls a field of a partner."""
    return setting_names.name_of(("partner", partner.name.strip(), key))
