"""The box on the Counter saved while it is typed, so that a power cut costs a second of typing."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from core.model.errors import TapewrightError, Unreachable
from core.model.inventory import Inventory
from core.model.typed_draft import TypedBox
from core.services import drafts
from gui.counter.local_draft import LocalDraft
from gui.counter.typed_box import box_of
from gui.toolkit.screen_context import Desk

SAVE_AFTER_MS = 1000
"""The most that a power cut costs: the draft is saved so long after the first unsaved key."""
TRY_AGAIN_AFTER_MS = 5000
"""A draft that could not be saved is tried again so long after (an assumption)."""

SLOW_S = 1.0
"""Records that let somebody wait for so long may not take the box at all."""


class DraftAutosave(QObject):
    """Saves what ``typed`` returns, for this window of this computer, and restores it at the start.

    While the shop's server cannot be reached it is saved on this computer, and in the records afterwards.
    """

    found = Signal(object)
    """The `TypedBox` saved last time and not booked."""
    failed = Signal(object)
    """A `TapewrightError`: the draft could not be saved. Told once until it is saved again."""

    def __init__(self, desk: Desk, typed: Callable[[], TypedBox], parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._key = f"counter {desk.counter}"
        self._earlier = f"counter {desk.who}"
        self._typed = typed
        self._is_restored = False
        self._under_way = 0
        self._has_failed = False
        self._timer = QTimer(self, interval=SAVE_AFTER_MS, singleShot=True)
        self._timer.timeout.connect(self._save)
        self._again = QTimer(self, interval=TRY_AGAIN_AFTER_MS, singleShot=True)
        self._again.timeout.connect(self._save)
        self._is_here = False
        """Whether a box is kept on this computer."""
        self._here = LocalDraft(desk.drafts, self._key)
        desk.work.link_changed.connect(self._note_link)

    @property
    def key(self) -> str:
        """The key under which the box of this counter is saved, whoever signs in meanwhile."""
        return self._key

    @property
    def is_behind(self) -> bool:
        """Whether something typed is not saved, as far as anybody knows."""
        is_on_its_way = self._under_way > 0 or self._timer.isActive()
        return self._has_failed or (is_on_its_way and not self._is_here)

    def restore(self) -> None:
        """Look once for a saved draft; `found` follows when there is one."""
        if not self._is_restored:
            self._is_restored = True
            self._desk.work.write_paper(self._here.kept, then=self._tell_kept_here)

    @Slot()
    def save_soon(self) -> None:
        """A key was typed: save it together with those that follow within a second."""
        if not self._timer.isActive():
            self._timer.start()

    @Slot()
    def save_now(self) -> None:
        """Save without waiting what is not saved yet."""
        if self._timer.isActive() or self._has_failed:
            self._save()

    @Slot()
    def _save(self) -> None:
        self._timer.stop()
        self._again.stop()
        box, work = self._typed(), self._desk.work
        if work.is_cut_off or work.waited_seconds > SLOW_S:
            self._keep_here(box)
        self._under_way += 1
        work.run(
            drafts.keep,
            self.key,
            None if box.is_empty else box,
            then=self._was_saved,
            otherwise=partial(self._was_not_saved, box),
            changes=frozenset(),
        )

    def _was_saved(self, _: object) -> None:
        self._under_way -= 1
        self._has_failed = False
        if self._is_here:
            self._is_here = False
            self._desk.work.write_paper(self._here.drop, then=_unheard)

    def _was_not_saved(self, box: TypedBox, failure: TapewrightError) -> None:
        self._under_way -= 1
        self._again.start()
        if isinstance(failure, Unreachable) and self._here.can_keep:
            self._keep_here(box)
        elif not self._has_failed:
            self._has_failed = True
            self.failed.emit(failure)

    # --- on this computer ----------------------------------------------------------------

    def _keep_here(self, box: TypedBox) -> None:
        self._is_here = True
        self._desk.work.write_paper(partial(self._here.keep, box), then=_unheard, otherwise=self.failed.emit)

    @Slot(bool)
    def _note_link(self, is_there: bool) -> None:
        if is_there and self._is_here:
            self._save()

    # --- at the start --------------------------------------------------------------------

    def _tell_kept_here(self, kept: TypedBox | None) -> None:
        """What was kept here is newer than what the records hold."""
        if kept is None:
            self._desk.work.ask(drafts.kept, self.key, then=self._tell_or_look_further)
            return
        self._is_here = True
        if not kept.is_empty:
            self.found.emit(kept)
        self._save()

    def _tell_or_look_further(self, kept: TypedBox | Inventory | None) -> None:
        """An earlier program kept drafts by who was at the counter."""
        if kept is None:
            self._desk.work.ask(drafts.kept, self._earlier, then=self._take_over)
        else:
            self._tell(kept)

    def _take_over(self, kept: TypedBox | Inventory | None) -> None:
        if kept is not None:
            self._desk.work.run(
                drafts.take_over, self.key, self._earlier, then=self._tell, changes=frozenset()
            )

    def _tell(self, kept: TypedBox | Inventory | None) -> None:
        if kept is not None:
            self.found.emit(box_of(kept) if isinstance(kept, Inventory) else kept)


def _unheard(_: object) -> None:
    """Nobody waits for it."""
