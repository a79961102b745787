"""The fields of one outside partner: the name on the slip, what they copy, their price and their days."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLineEdit, QPushButton

from core.catalogue.formats import catalogue
from core.model.names import FormatName
from core.model.own_shop.settings_records import Partner
from gui.settings.check_boxes import CheckBoxes
from gui.settings.listed_page import EntryForm
from gui.toolkit import theme
from gui.toolkit.text import say, sentence_case
from gui.widgets.figure_field import FigureField
from gui.widgets.layouts import hinted, labelled, rule, stacked


class PartnerForm(EntryForm):
    """Shows a partner and says how they were changed; it keeps nothing."""

    edited = Signal(object)
    """The `Partner` as changed; the days, which may be half typed, are not in it yet."""
    days_typed = Signal()
    raise_wanted = Signal()
    remove_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._partner = Partner("", frozenset(), "", 0)
        self.name = QLineEdit()
        self.price = QLineEdit()
        self.days = FigureField("partner-days", say("settings", "partners-days"))
        self.formats = CheckBoxes("partner-formats", _formats())
        self.raise_it = QPushButton(say("settings", "partners-raise"))
        self.remove = QPushButton(say("settings", "partners-remove"))
        self._lay_out()
        self._connect()

    def show_partner(self, partner: Partner, days: str) -> None:
        """Fill the fields in; ``days`` as they are typed."""
        self._partner = partner
        for field, text in ((self.name, partner.name), (self.price, partner.price), (self.days, days)):
            if field.text() != text:
                field.setText(text)
        self.formats.show_chosen(partner.formats)

    def offer_formats(self) -> None:
        """Offer what may be booked in now, formats of the shop's own among them."""
        self.formats.offer(_formats())

    @Slot()
    def _edit(self) -> None:
        formats = frozenset(map(FormatName, self.formats.chosen))
        changed = replace(self._partner, name=self.name.text(), price=self.price.text(), formats=formats)
        self.edited.emit(changed)

    def _connect(self) -> None:
        self.name.textEdited.connect(self._edit)
        self.price.textEdited.connect(self._edit)
        self.formats.changed.connect(self._edit)
        self.days.textEdited.connect(self.days_typed)
        self.raise_it.clicked.connect(self.raise_wanted)
        self.remove.clicked.connect(self.remove_wanted)

    def _lay_out(self) -> None:
        named = {"name": self.name, "price": self.price, "raise": self.raise_it, "remove": self.remove}
        for name, widget in named.items():
            widget.setObjectName(f"partner-{name}")
        self.name.setMaxLength(200)
        self.price.setMaxLength(400)
        hinted(self.price, say("settings", "partners-price-hint"))
        column = stacked(self)
        column.addWidget(rule())
        grid = QGridLayout()
        grid.setHorizontalSpacing(2 * theme.UNIT)
        grid.setVerticalSpacing(theme.UNIT)
        grid.setColumnStretch(0, 3)
        grid.setColumnStretch(1, 1)
        grid.addWidget(labelled(self.name, say("settings", "partners-name")), 0, 0)
        grid.addWidget(labelled(self.days, say("settings", "partners-days")), 0, 1)
        grid.addWidget(labelled(self.price, say("settings", "partners-price")), 1, 0, 1, 2)
        column.addLayout(grid)
        column.addWidget(labelled(self.formats, say("settings", "partners-formats")))
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        row.addWidget(self.raise_it)
        row.addWidget(self.remove)
        row.addStretch(1)
        column.addLayout(row)


def _formats() -> dict[str, str]:
    """Every format a tape may be booked in as."""
    return {str(form.name): sentence_case(form.words) for form in catalogue().offered}
