"""A page of the settings that can be read while it is typed, and shown as it was typed before."""

from __future__ import annotations

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from gui.settings.settings_page import SettingsPage
from gui.toolkit.text import say
from gui.widgets.figure_field import FigureField


class DraftedPage(SettingsPage):
    """`draft` leaves the keyboard alone; only who saves is led to what does not fit."""

    def draft(self, before: ShopSettings) -> ShopSettings:
        """``before`` with what the page says just now; WrongInput for what does not fit."""
        raise NotImplementedError

    def show_draft(self, draft: ShopSettings) -> None:
        """Show what was typed before and is not saved, in place of the settings shown last."""
        raise NotImplementedError

    def point_out(self, wrong: WrongInput) -> None:
        """Put the keyboard into the field the sentence is about."""
        raise NotImplementedError

    def settings(self, before: ShopSettings) -> ShopSettings:
        try:
            return self.draft(before)
        except WrongInput as wrong:
            self.point_out(wrong)
            raise


def whole(field: FigureField) -> int:
    """A whole number as typed; WrongInput, the field marked, for a fraction, a word or nothing."""
    value = field.figure_needed()
    if value != int(value):
        field.mark()
        raise WrongInput(field.accessibleName(), field.text(), say("files", "whole-number"))
    return int(value)
