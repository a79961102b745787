"""A page of the settings that is a page of fields, and how a wrong one is found."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop import shop_settings
from gui.settings.form_fields import ChoiceField, WrongField
from gui.settings.settings_page import SettingsPage
from gui.toolkit.text import say


class FieldsPage(SettingsPage):
    """A page of fields. What is typed is read at every key; only who keeps it is led to a wrong field."""

    refused = Signal(object)
    """A `WrongInput` about something that was not typed, such as a file."""

    def draft(self, before: ShopSettings) -> ShopSettings:
        """``before`` with what the page says just now; WrongInput for what does not fit."""
        raise NotImplementedError

    def follow(self, settings: ShopSettings) -> None:
        """Show what another page has settled, where nothing was typed here."""

    def settings(self, before: ShopSettings) -> ShopSettings:
        for choice in self.findChildren(ChoiceField):
            choice.settle()
        try:
            return self.draft(before)
        except WrongField as wrong:
            wrong.point_out()
            raise


def checked(draft: ShopSettings, fields: Mapping[str, QWidget]) -> ShopSettings:
    """The settings as the file's own rules read them; WrongField at the field of the key that does not fit.

    ``fields`` by the last part of the key's path.
    """
    try:
        return _as_read(draft)
    except WrongInput as wrong:
        key = wrong.place.rsplit(", ", 1)[-1].split(" ")[0]
        if key not in fields:
            raise
        place = fields[key].accessibleName() or wrong.place
        raise WrongField(fields[key], place, wrong.found, wrong.accepted) from None


def _as_read(draft: ShopSettings) -> ShopSettings:
    shop_settings.of_document(shop_settings.document(draft), say("settings", "the-settings"))
    return draft
