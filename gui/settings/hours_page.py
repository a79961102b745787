"""The page on when the shop is open: the week, public holidays, own closed days, and how sure a date is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import ClassVar

from PySide6.QtCore import Slot
from PySide6.QtWidgets import QComboBox, QGridLayout, QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.promise import chances
from core.scheduling import opening_hours
from core.services.own_shop.shop_document import SettingsView
from core.wording import typed_amounts
from gui.settings import place_offers
from gui.settings.fields_page import FieldsPage, checked
from gui.settings.form_fields import ChoiceField, LinesField, TextField, WrongField
from gui.settings.minutes_fields import CopyingFields, HandlingFields
from gui.settings.season_fields import SeasonFields
from gui.settings.week_fields import WeekFields, examples
from gui.toolkit import theme
from gui.toolkit.text import day, say, short_day
from gui.widgets import wishes
from gui.widgets.layouts import labelled, words

_COMING = 5
"""How many of the coming holidays are shown."""
_CONFIDENCES = tuple(n / chances.TWENTY for n in range(10, 20))
_YEAR = 366
_CLOSED_LINES = 2


class HoursPage(FieldsPage):
    """A line a weekday, then the days on which the shop is closed."""

    page = SetupPage.HOURS
    paths: ClassVar[tuple[str, ...]] = (
        "opening",
        "holidays.country",
        "holidays.region",
        "holidays.closed",
        "work.past_closing_minutes",
        "work.confidence",
        "copying",
        "handling",
    )

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = date.min
        self._shown = self._words = ("", "")
        """Country and region of the holidays as they came from the records: values, and words."""
        self._gone: frozenset[date] = frozenset()
        """Days closed that are over: they stay in the records and are not shown."""
        self.week = WeekFields("hours")
        self.season = SeasonFields()
        self.country = ChoiceField(
            "hours-country", say("settings", "hours-country"), place_offers.holiday_countries
        )
        self.region = ChoiceField(
            "hours-holiday-region", say("settings", "hours-holiday-region"), self._regions
        )
        self.coming = words("", "small")
        self.closed = LinesField("hours-closed-days", _CLOSED_LINES)
        self.past_closing = TextField("hours-past-closing")
        self.confidence = QComboBox()
        self.copying = CopyingFields()
        self.handling = HandlingFields()
        self._name_fields()
        self._lay_out()
        self._connect()

    # --- what it shows -------------------------------------------------------------------

    def show_settings(self, view: SettingsView) -> None:
        settings = view.settings
        self._today = view.today
        self.week.show_hours([each for each in settings.openings if not each.first])
        self.season.show_hours(settings.openings)
        self._show_holidays(settings)
        self._gone = frozenset(each for each in settings.closed_days if each < view.today)
        days = sorted(settings.closed_days - self._gone)
        self.closed.setPlainText("\n".join(_as_typed(each, view.today) for each in days))
        self.past_closing.setText(str(settings.past_closing_minutes))
        self._show_confidence(settings.confidence)
        self.copying.show_minutes(settings.copying)
        self.handling.show_minutes(settings.handling)

    def draft(self, before: ShopSettings) -> ShopSettings:
        country, region = self._holidays(before)
        draft = replace(
            before,
            openings=(*self.week.hours(), *self.season.hours()),
            holiday_country=country or None,
            holiday_region=(region or None) if country else None,
            closed_days=self._gone | self._closed_days(),
            past_closing_minutes=self._minutes(),
            confidence=self.confidence.currentData(),
            copying=self.copying.minutes(),
            handling=self.handling.minutes(before.handling),
        )
        fields: dict[str, QWidget] = {"past_closing_minutes": self.past_closing, "country": self.country}
        fields |= self.copying.fields | self.handling.fields
        return checked(draft, fields)

    def focus_first(self) -> None:
        self.week.fields[0].setFocus()

    def follow(self, settings: ShopSettings) -> None:
        """Another country has other holidays, unless they were chosen here."""
        kept = (settings.holiday_country or "", settings.holiday_region or "")
        if kept != self._shown and (self.country.text(), self.region.text()) == self._words:
            self._show_holidays(settings)

    # --- what is typed -------------------------------------------------------------------

    def _closed_days(self) -> frozenset[date]:
        """The typed days, each in words of the coming ones or as ISO 8601."""
        place = say("settings", "hours-closed-days")
        try:
            found = (wishes.day(line, self._today, place) for line in self.closed.lines)
            return frozenset(each for each in found if each is not None)
        except WrongInput as wrong:
            raise WrongField(self.closed, place, wrong.found, wrong.accepted) from None

    def _minutes(self) -> int:
        field = self.past_closing
        found = typed_amounts.number_of(field.text())
        if found is None or found != found.to_integral_value():
            raise WrongField(field, field.accessibleName(), field.text(), say("files", "from-0-to-1440"))
        return int(found)

    def _holidays(self, before: ShopSettings) -> tuple[str, str]:
        """Country and region as they were chosen here; what came from elsewhere where nothing was."""
        if (self.country.text(), self.region.text()) == self._words:
            return before.holiday_country or "", before.holiday_region or ""
        country = self.country.value
        return country, self.region.value if country else ""

    # --- holidays ------------------------------------------------------------------------

    def _show_holidays(self, settings: ShopSettings) -> None:
        self._shown = (settings.holiday_country or "", settings.holiday_region or "")
        self.country.show_value(self._shown[0])
        self.region.show_value(self._shown[1])
        self._words = (self.country.text(), self.region.text())
        self._show_coming()

    @Slot()
    def _settle_country(self) -> None:
        """Another country has other regions; a region it does not have is taken out."""
        if self.region.text() not in self._regions().values():
            self.region.show_value("")
        self._show_coming()

    @Slot()
    def _show_coming(self) -> None:
        country, region = self._value(self.country, place_offers.holiday_countries()), ""
        if country:
            region = self._value(self.region, self._regions())
        self.coming.setText(_coming_words(country, region, self._today))

    def _regions(self) -> Mapping[str, str]:
        country = self._value(self.country, place_offers.holiday_countries())
        return place_offers.holiday_regions(country) if country else {"": ""}

    @staticmethod
    def _value(field: ChoiceField, offers: Mapping[str, str]) -> str:
        """The value of what stands there just now; nothing while it is being typed."""
        return next((value for value, told in offers.items() if told == field.text().strip()), "")

    def _show_confidence(self, confidence: float) -> None:
        self.confidence.clear()
        for each in sorted({*_CONFIDENCES, confidence}):
            self.confidence.addItem(chances.words(each), each)
        self.confidence.setCurrentIndex(self.confidence.findData(confidence))

    # --- building ------------------------------------------------------------------------

    def _name_fields(self) -> None:
        self.confidence.setObjectName("hours-confidence")
        self.closed.setPlaceholderText(say("settings", "hours-closed-days-hint"))

    def _connect(self) -> None:
        self.closed.textChanged.connect(self.changed)
        for widget in (self.week, self.season):
            widget.changed.connect(self.changed)
        self.past_closing.textEdited.connect(self.changed)
        for choice in (self.country, self.region):
            choice.textEdited.connect(self.changed)
            choice.settled.connect(self.changed)
        self.country.settled.connect(self._settle_country)
        self.region.settled.connect(self._show_coming)
        self.confidence.activated.connect(self.changed)
        for times in (self.copying, self.handling):
            times.edited.connect(self.changed)

    def _lay_out(self) -> None:
        self.column.addWidget(words(say("settings", "hours-lead", **examples())))
        self.column.addWidget(self.week)
        self.column.addWidget(self.season)
        grid = QGridLayout()
        grid.setHorizontalSpacing(3 * theme.UNIT)
        grid.setVerticalSpacing(theme.UNIT)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        grid.addWidget(labelled(self.country, say("settings", "hours-country")), 0, 0)
        grid.addWidget(labelled(self.region, say("settings", "hours-holiday-region")), 0, 1)
        grid.addWidget(self.coming, 1, 0, 1, 2)
        grid.addWidget(labelled(self.closed, say("settings", "hours-closed-days")), 2, 0, 1, 2)
        grid.addWidget(labelled(self.past_closing, say("settings", "hours-past-closing")), 3, 0)
        grid.addWidget(labelled(self.confidence, say("settings", "hours-confidence")), 3, 1)
        self.column.addLayout(grid)
        self.column.addWidget(self.copying)
        self.column.addWidget(self.handling)
        self.column.addStretch(1)


PAGE = HoursPage


def _as_typed(when: date, today: date) -> str:
    """``Thu, Dec 24`` where `wishes.day` reads that back, else ISO 8601."""
    near = (when - today).days < wishes.DAYS_OFFERED
    return short_day(when) if near else when.isoformat()


def _coming_words(country: str, region: str, today: date) -> str:
    """The coming public holidays, in one sentence."""
    if not country:
        return say("settings", "hours-no-holidays")
    found = {
        **opening_hours.public_holidays(country, region or None, today.year),
        **opening_hours.public_holidays(country, region or None, today.year + 1),
    }
    coming = sorted(each for each in found if today <= each < today + timedelta(days=_YEAR))[:_COMING]
    told = [say("settings", "hours-holiday", day=day(each), name=found[each]) for each in coming]
    return say("settings", "hours-coming", days="; ".join(told))
