"""A chapter that is one page of the settings with its buttons; what is typed outlives the page."""

from __future__ import annotations

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
        """The settings over which is typed."""
        self._clean: object = None
        """The page as the records filled it in; None until then."""
        self._kept: tuple[SettingsView, object] | None = None
        """What was typed and is not saved, with the settings over which that was begun."""
        self._conflict: SettingsConflict | None = None

    def close(self) -> None:
        self._keep_typed()
        self._slip = None

    def _fill_in(self, slip: S) -> S:
        """A new slip, filled in as soon as the records answer."""
        self._slip, self._clean = slip, None
        slip.save.clicked.connect(self._save)
        slip.undo.clicked.connect(self._undo)
        slip.conflict.settled.connect(self._settle)
        slip.conflict.refused.connect(self.refused)
        slip.conflict.left.connect(self._leave_conflict)
        self.desk.work.ask(shop_document.view, then=self._show)
        return slip

    def _show(self, view: SettingsView) -> None:
        if self._slip is None:
            return
        self._keep_typed()
        self._slip.page.show_settings(view)
        self._view, self._clean = view, self._slip.page.typed()
        if self._kept is not None:
            self._view, typed = self._kept
            self._slip.page.put_back(typed)
        if self._conflict is not None:
            self._slip.conflict.show_conflict(self._conflict)

    def _keep_typed(self) -> None:
        if self._slip is not None and self._view is not None and self._clean is not None:
            typed = self._slip.page.typed()
            self._kept = (self._view, typed) if typed != self._clean else None

    def _forget_typed(self, said: str, stood: object, _: object) -> None:
        """It is in force, or was given up; what was typed since ``stood`` on the page is not."""
        self._kept, self._clean, self._conflict = None, stood, None
        self.said.emit(said)

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
            then=partial(self._forget_typed, say("settings", self.saved), self._slip.page.typed()),
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
    def _leave_conflict(self) -> None:
        self._conflict = None

    @Slot()
    def _undo(self) -> None:
        assert self._slip is not None
        self.desk.work.run(
            settings_versions.undo,
            then=partial(self._forget_typed, say("settings", self.saved), self._slip.page.typed()),
            otherwise=self.show_failure,
            changes=frozenset({"shop"}),
        )
