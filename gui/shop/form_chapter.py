"""A chapter that is one page of the settings with its buttons: to save what is typed, and to undo."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any, ClassVar, Generic, TypeVar

from PySide6.QtCore import QObject, Slot

from core.model.errors import Conflict, TapewrightError, WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop import settings_conflicts, settings_versions, shop_document
from core.services.own_shop.settings_conflicts import SettingsConflict
from core.services.own_shop.shop_document import SettingsView
from gui.settings.settings_page import SettingsPage
from gui.shop.chapter import Chapter
from gui.shop.conflict_panel import ConflictPanel
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.button_row import key_button
from gui.widgets.layouts import PaperFrame

P = TypeVar("P", bound=SettingsPage)


class FormSlip(PaperFrame, Generic[P]):
    """The page with the two buttons every such chapter has."""

    def __init__(self, name: str, page: P) -> None:
        super().__init__(f"chapter-{name}")
        self.page = page
        self.save = key_button(f"{page.page.value}-save", "F6", say("settings", "save"))
        self.undo = key_button(f"{page.page.value}-undo", "F7", say("settings", "undo"))
        self.save.setProperty("role", "main")
        self.conflict = ConflictPanel()


S = TypeVar("S", bound=FormSlip[Any])


class FormChapter(Chapter, Generic[S]):
    """Reads the settings when it is opened; a save is based on the version that was read."""

    kinds = frozenset({"shop"})
    saved: ClassVar[str]
    """The key of the sentence that tells of a change."""

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._slip: S | None = None
        self._view: SettingsView | None = None
        self._conflict: SettingsConflict | None = None

    def close(self) -> None:
        self._slip = None

    def _fill_in(self, slip: S) -> S:
        """A new slip, filled in as soon as the records answer."""
        self._slip = slip
        slip.save.clicked.connect(self._save)
        slip.undo.clicked.connect(self._undo)
        slip.conflict.settled.connect(self._settle)
        slip.conflict.refused.connect(self.refused)
        self.desk.work.ask(shop_document.view, then=self._show)
        return slip

    def _show(self, view: SettingsView) -> None:
        self._view = view
        if self._slip is not None:
            self._slip.page.show_settings(view)

    def _typed(self) -> ShopSettings | None:
        """The settings as typed; None, after telling why, for what does not fit."""
        if self._slip is None or self._view is None:
            return None
        try:
            wanted: ShopSettings = self._slip.page.settings(self._view.settings)
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return None
        return wanted

    @Slot()
    def _save(self) -> None:
        wanted = self._typed()
        if wanted is not None and self._slip is not None and self._view is not None:
            self._put_in_force(wanted, self._view.number)

    def _put_in_force(self, wanted: ShopSettings, based_on: int) -> None:
        assert self._slip is not None
        step = partial(settings_versions.change, based_on=based_on, confirms=[self._slip.page.page])
        self.desk.work.run(
            step,
            wanted,
            then=partial(self._was_changed, say("settings", self.saved)),
            otherwise=partial(self._was_refused, wanted, based_on),
            changes=frozenset({"shop"}),
        )

    def _was_refused(self, wanted: ShopSettings, based_on: int, failure: TapewrightError) -> None:
        """After somebody else's change both versions are shown; what was typed stays in its fields."""
        if isinstance(failure, Conflict):
            self.desk.work.ask(settings_conflicts.read, wanted, based_on, then=self._show_conflict)
        else:
            self.show_failure(failure)

    def _show_conflict(self, conflict: SettingsConflict) -> None:
        self._conflict = conflict
        self.show_failure(conflict.told())
        if self._slip is not None:
            self._slip.conflict.show_conflict(conflict)

    @Slot(object)
    def _settle(self, settings: ShopSettings) -> None:
        if self._conflict is not None:
            self._put_in_force(settings, self._conflict.number)

    @Slot()
    def _undo(self) -> None:
        self._change_settings(settings_versions.undo)

    def _change_settings(self, step: Callable[..., ShopSettings], *args: object) -> None:
        self.change(step, *args, said=say("settings", self.saved), changes=frozenset({"shop"}))
