"""A chapter whose settings are typed, weighed and saved: the draft outlives a look at other chapters."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.model.errors import Conflict, TapewrightError
from core.model.names import EVERY_KIND
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop import settings_conflicts, settings_effects, settings_versions
from core.services.own_shop.settings_conflicts import SettingsConflict
from core.services.own_shop.settings_effects import AboutChange, Effects
from gui.shop.chapter import Chapter
from gui.shop.draft_sheet import DraftSheet
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.layouts import stacked


class DraftChapter(Chapter):
    """Saving is based on the version that stood when the typing began: nobody overwrites anybody."""

    kinds = frozenset({"shop"})
    saved: ClassVar[str]
    """The key of the sentence that tells of a save, and of one that tells of an undo."""
    undone: ClassVar[str]

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._room: QWidget | None = None
        self._draft: tuple[int, ShopSettings] | None = None
        """What was typed and is not saved, with the version it was begun on."""
        self._saved_page: SetupPage | None = None
        """The page that was saved last."""
        self._conflict: SettingsConflict | None = None
        """What stands between the draft and a save, until it is settled."""

    def _new_room(self) -> QWidget:
        """What the screen shows until the records have answered."""
        room = self._room = QWidget()
        stacked(room)
        return room

    # --- what it would move --------------------------------------------------------------

    def _show_effects(self, effects: Effects) -> None:
        """Tell under the page what the draft would move."""
        raise NotImplementedError

    def _draft_sheet(self) -> DraftSheet | None:
        """The sheet that is on show, once it is filled in."""
        raise NotImplementedError

    def _follow_sheet(self, sheet: DraftSheet) -> None:
        """Listen to a sheet that was just built; what is not settled yet stands on it again."""
        sheet.undo_wanted.connect(self._undo)
        sheet.refused.connect(self.refused)
        sheet.settled.connect(self._settle)
        sheet.conflict.left.connect(self._leave_conflict)
        self._bring_conflict()

    def _keep_draft(self, draft: ShopSettings, kept: ShopSettings, number: int) -> None:
        """``kept`` are the settings in force, as version ``number``; what is like them is no draft."""
        begun_on = number if self._draft is None else self._draft[0]
        self._draft = (begun_on, draft) if draft != kept else None
        self._ask_effects()

    def _ask_effects(self) -> None:
        """Work out beside the window which open promises the draft would move; the newest answer is shown."""
        if self._draft is not None:
            draft = self._draft[1]
            self.desk.work.ask(settings_effects.about, draft, then=partial(self._work_out, draft))

    def _work_out(self, draft: ShopSettings, about: AboutChange) -> None:
        if self._is_newest(draft):
            self.desk.work.compute_long(about.answer, then=partial(self._tell, draft))

    def _tell(self, draft: ShopSettings, effects: Effects) -> None:
        if self._is_newest(draft):
            self._show_effects(effects)

    def _is_newest(self, draft: ShopSettings) -> bool:
        return self._draft is not None and self._draft[1] is draft

    # --- keeping -------------------------------------------------------------------------

    def _put_in_force(self, wanted: ShopSettings, page: SetupPage, number: int) -> None:
        """``number``: the version on show, for settings that were saved without a pause in the typing."""
        based_on, self._saved_page = (number if self._draft is None else self._draft[0]), page
        self._draft = (based_on, wanted)
        self.desk.work.run(
            settings_versions.change,
            wanted,
            based_on=based_on,
            confirms=(page,),
            then=partial(self._was_kept, self.saved),
            otherwise=self._was_refused,
            changes=EVERY_KIND,
        )

    @Slot()
    def _undo(self) -> None:
        self.desk.work.run(
            settings_versions.undo,
            then=partial(self._was_kept, self.undone),
            otherwise=self.show_failure,
            changes=EVERY_KIND,
        )

    def _was_kept(self, sentence: str, _: object) -> None:
        self._draft = self._conflict = None
        self.said.emit(say("settings", sentence))

    def _was_refused(self, failure: TapewrightError) -> None:
        """After somebody else's change both versions are shown; what was typed stays until it is settled."""
        if isinstance(failure, Conflict) and self._draft is not None:
            based_on, draft = self._draft
            self.desk.work.ask(settings_conflicts.read, draft, based_on, then=self._show_conflict)
        else:
            self.refused.emit(failure)

    def _show_conflict(self, conflict: SettingsConflict) -> None:
        self._conflict = conflict
        self.refused.emit(conflict.told())
        self._bring_conflict()

    def _bring_conflict(self) -> None:
        """What is not settled yet stands on the sheet, also where that was built anew."""
        sheet = self._draft_sheet()
        if sheet is not None and self._conflict is not None:
            sheet.conflict.show_conflict(self._conflict)

    @Slot(object)
    def _settle(self, settings: ShopSettings) -> None:
        assert self._conflict is not None
        assert self._saved_page is not None
        self._draft = (self._conflict.number, settings)
        self._put_in_force(settings, self._saved_page, self._conflict.number)

    @Slot()
    def _leave_conflict(self) -> None:
        self._conflict = None
