"""The page on who the shop is: what stands at the head of every paper, and what its country settles."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import Any, ClassVar

from PySide6.QtCore import Qt, Slot
from PySide6.QtGui import QColor, QIcon, QPixmap
from PySide6.QtWidgets import QComboBox, QGridLayout, QWidget

from core.catalogue import country_defaults
from core.model import accents
from core.model.own_shop.settings_records import ShopFront, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop import shop_settings
from core.services.own_shop.shop_document import SettingsView
from gui.settings import place_offers
from gui.settings.fields_page import FieldsPage, checked
from gui.settings.form_fields import ChoiceField, LinesField, TextField
from gui.settings.logo_field import LogoField
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import hinted, labelled, words

_ADDRESS_LINES = 6
_TEXTS = ("name", "phone", "email", "tax_number", "greeting", "closing", "welcome")
_BY_COUNTRY = ("currency", "timezone", "language")
"""What the country fills in where nobody typed anything else."""


class FrontPage(FieldsPage):
    """Name, address, country and the look of the papers."""

    page = SetupPage.FRONT
    paths: ClassVar[tuple[str, ...]] = (
        "front.name",
        "front.address",
        "front.phone",
        "front.email",
        "front.tax_number",
        "front.country",
        "front.currency",
        "front.timezone",
        "front.language",
        "front.greeting",
        "front.closing",
        "front.welcome",
        "front.logo",
        "front.accent",
    )

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._country = ""
        self._by_hand: set[str] = set()
        self.texts = {key: TextField(f"front-{key}") for key in _TEXTS}
        self.address = LinesField("front-address", _ADDRESS_LINES)
        self.places = {
            "country": ChoiceField("front-country", say("settings", "front-country"), place_offers.countries),
            "currency": ChoiceField(
                "front-currency", say("settings", "front-currency"), place_offers.currencies
            ),
            "timezone": ChoiceField("front-timezone", say("settings", "front-timezone"), self._timezones),
            "language": ChoiceField("front-language", say("settings", "front-language"), self._languages),
        }
        self.logo = LogoField()
        self.accent = _accents()
        self._lay_out()
        self._connect()

    # --- what it shows -------------------------------------------------------------------

    def show_settings(self, view: SettingsView) -> None:
        front, example = view.settings.front, shop_settings.new_shop().front
        is_new = front.name == example.name
        self._country = view.settings.country
        for key, field in self.texts.items():
            # What a new shop starts with is nobody's name: the fields wait to be filled in.
            is_example = key in ("name", "phone") and getattr(front, key) == getattr(example, key)
            field.setText("" if is_example else getattr(front, key))
        self.address.setPlainText("" if front.address == example.address else "\n".join(front.address))
        for key, choice in self.places.items():
            choice.show_value(self._country if key == "country" else getattr(front, key))
        self.logo.show_text(front.logo)
        self.accent.setCurrentIndex(max(0, self.accent.findData(front.accent)))
        self._by_hand = set() if is_new else self._unusual(front)

    def draft(self, before: ShopSettings) -> ShopSettings:
        typed: dict[str, Any] = {key: field.text().strip() for key, field in self.texts.items()}
        typed |= {key: field.value for key, field in self.places.items()}
        if typed["country"] == before.country:
            typed["country"] = before.front.country  # one that was never stated is as good as said
        front = replace(
            before.front,
            **typed,
            address=self.address.lines,
            logo=self.logo.text,
            accent=self.accent.currentData(),
        )
        fields: dict[str, QWidget] = {**self.texts, **self.places, "address": self.address}
        return checked(_at_home(before, front), fields)

    def focus_first(self) -> None:
        self.texts["name"].setFocus()

    # --- what the country settles --------------------------------------------------------

    @Slot()
    def _settle_country(self) -> None:
        """Fill in what is usual in the country that was chosen, where nothing was typed by hand."""
        chosen = self._known_country()
        if chosen is None or chosen == self._country:
            return
        self._country = chosen
        usual = _usual(chosen)
        for key in _BY_COUNTRY:
            if key not in self._by_hand:
                self.places[key].show_value(usual[key])
        self.changed.emit()

    def _known_country(self) -> str | None:
        typed = self.places["country"].text().strip()
        return next((code for code, name in place_offers.countries().items() if name == typed), None)

    def _unusual(self, front: ShopFront) -> set[str]:
        """What stands otherwise than the country has it, so was typed by hand."""
        usual = _usual(self._country)
        return {key for key in _BY_COUNTRY if getattr(front, key) != usual.get(key)}

    def _timezones(self) -> Mapping[str, str]:
        return place_offers.timezones(self._country)

    def _languages(self) -> Mapping[str, str]:
        return place_offers.languages(self._country)

    # --- building ------------------------------------------------------------------------

    def _connect(self) -> None:
        for field in self.texts.values():
            field.textEdited.connect(self.changed)
        self.address.textChanged.connect(self.changed)
        for key, choice in self.places.items():
            choice.textEdited.connect(partial(self._note_typed, key))
            choice.settled.connect(self.changed)
        self.places["country"].settled.connect(self._settle_country)
        self.logo.chosen.connect(self.changed)
        self.logo.refused.connect(self.refused)
        self.accent.activated.connect(self.changed)

    def _note_typed(self, key: str, _: str) -> None:
        self._by_hand.add(key)
        self.changed.emit()

    def _lay_out(self) -> None:
        self.column.addWidget(words(say("settings", "front-lead")))
        grid = QGridLayout()
        grid.setHorizontalSpacing(3 * theme.UNIT)
        grid.setVerticalSpacing(theme.UNIT)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        top = Qt.AlignmentFlag.AlignTop
        grid.addWidget(self._labelled(self.texts["name"], "name"), 0, 0)
        grid.addWidget(self._labelled(self.address, "address"), 1, 0, 3, 1, top)
        for row, key in enumerate(("country", "currency", "timezone", "language")):
            grid.addWidget(self._labelled(self.places[key], key), row, 1)
        for row, pair in enumerate((("phone", "email"), ("tax_number", "")), 4):
            for column, key in enumerate(filter(None, pair)):
                grid.addWidget(self._labelled(self.texts[key], key), row, column)
        grid.addWidget(self._labelled(self.accent, "accent"), 5, 1)
        for row, key in enumerate(("greeting", "closing", "welcome"), 6):
            grid.addWidget(self._labelled(self.texts[key], key), row, 0, 1, 2)
        grid.addWidget(self._labelled(self.logo, "logo"), 9, 0, 1, 2)
        self.column.addLayout(grid)
        self.column.addStretch(1)
        for key in ("email", "tax_number", "greeting", "closing", "welcome"):
            hinted(self.texts[key], say("settings", f"front-{key}-hint"))

    @staticmethod
    def _labelled(field: QWidget, key: str) -> QWidget:
        return labelled(field, say("settings", f"front-{key}"))


PAGE = FrontPage


def _usual(country: str) -> Mapping[str, str]:
    """What is usual in a country; nothing for one that is not known."""
    if country not in country_defaults.countries():
        return {}
    found = country_defaults.of(country)
    return {
        "currency": found.currency,
        "timezone": found.timezones[0],
        "language": found.languages[0],
        "paper": found.paper,
    }


def _at_home(before: ShopSettings, front: ShopFront) -> ShopSettings:
    """The settings with this front; another country brings its paper and holidays where they were usual."""
    if front.country == before.country or not front.country:
        return replace(before, front=front)
    if before.front.paper in ("", _usual(before.country).get("paper", "")):
        front = replace(front, paper=_usual(front.country).get("paper", ""))
    changed = replace(before, front=front)
    if before.holiday_country in (None, before.country):
        known = country_defaults.of(front.country).holidays
        changed = replace(changed, holiday_country=front.country if known else None, holiday_region=None)
    return changed


def _accents() -> QComboBox:
    """The colors of the list, each with a patch of it."""
    box = QComboBox()
    box.setObjectName("front-accent")
    for name in accents.NAMES:
        patch = QPixmap(2 * theme.UNIT, 2 * theme.UNIT)
        patch.fill(QColor(accents.of(name).light))
        box.addItem(QIcon(patch), accents.words(name), name)
    return box
