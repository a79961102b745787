"""A booked order opened again on the Counter: laid out as it stands, its changes shown live, kept with a
yes."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from core.model.errors import TapewrightError, WrongInput
from core.model.inventory import Inventory
from core.model.job_records import Job
from core.model.names import JobNumber
from core.model.typed_draft import TypedBox
from core.pricing.amendment_records import Amended, Amendment, OpenedOrder
from core.services.agreement import amendments
from gui.counter.amend_panel import AmendPanel
from gui.counter.draft_history import Draft
from gui.counter.typed_box import box_of_order, codes_of
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say

if TYPE_CHECKING:
    from core.services.records_door import Shop
    from gui.counter.typed_box import ParsedBox

LOOK_AFTER_MS = 250
"""After the last key: the change is tried out in a transaction that is taken back."""


class Amending(QObject):
    """While the draft names an order, Book changes that order instead of booking another."""

    amended = Signal(object)
    """The `Job` as it was changed."""
    said = Signal(str)
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, desk: Desk, draft: Draft, panel: AmendPanel, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._draft = draft
        self._panel = panel
        self._inventory: Inventory | None = None
        self._under_way = False
        self._timer = QTimer(self, interval=LOOK_AFTER_MS, singleShot=True)
        self._timer.timeout.connect(self._try_out)
        desk.work.broke.connect(self._abandon)

    @property
    def is_open(self) -> bool:
        """Whether the Counter holds a booked order."""
        return bool(self._draft.box.amends)

    def open(self, number: JobNumber) -> None:
        """Lay a booked order out; what was typed before comes back with undo."""
        self._desk.work.ask(amendments.opened, number, then=self._lay_out, otherwise=self.failed.emit)

    def show(self, reading: ParsedBox) -> None:
        """The draft changed: show or hide the panel, and work out what the change leads to."""
        self._panel.setVisible(self.is_open)
        if not self.is_open:
            self._timer.stop()
            return
        box = self._draft.box
        self._panel.head(box.amends, box.version)
        inventory = None if reading.wrong or not reading.inventory.lines else reading.inventory
        if inventory != self._inventory:
            self._inventory = inventory
            self._timer.start()

    def keep(self) -> None:
        """Change the order as it is laid out now; `amended` or `failed` follows."""
        if self._under_way or self._inventory is None:
            return
        try:
            reason, consent = self._panel.reason(), self._panel.consent.consent()
        except WrongInput as wrong:
            self.failed.emit(wrong)
            return
        box = self._draft.box
        self._under_way = True
        self._desk.work.run(
            amendments.amend,
            JobNumber(box.amends),
            Amendment(self._inventory, codes_of(box)),
            reason=reason,
            consent=consent,
            based_on=box.version,
            then=partial(self._was_amended, box),
            otherwise=self._was_refused,
        )

    def _lay_out(self, order: OpenedOrder) -> None:
        self._panel.begin(order.job)
        self._draft.put(box_of_order(order), say("counter", "undo_new_box"))

    @Slot()
    def _try_out(self) -> None:
        inventory, box = self._inventory, self._draft.box
        if inventory is None or not self.is_open:
            self._panel.show_nothing()
            return
        wanted = Amendment(inventory, codes_of(box))

        def look(shop: Shop) -> Amended:
            return shop.rehearse(amendments.tried, JobNumber(box.amends), wanted)

        self._desk.work.run_beside(
            look, then=partial(self._show, inventory), otherwise=partial(self._show_refusal, inventory)
        )

    def _show(self, inventory: Inventory, amended: Amended) -> None:
        if inventory is self._inventory:
            self._panel.show_differences(amended)

    def _show_refusal(self, inventory: Inventory, failure: TapewrightError) -> None:
        if inventory is self._inventory:
            self._panel.show_refusal(failure.sentence)

    def _was_amended(self, box: TypedBox, amended: Amended) -> None:
        self._under_way = False
        if self._draft.box is box:
            self._draft.begin(TypedBox())
        job: Job = amended.job
        self.said.emit(say("agreeing", "amended_said", number=str(job.number), n=amended.version.number))
        self.amended.emit(job)

    def _was_refused(self, failure: TapewrightError) -> None:
        self._under_way = False
        self.failed.emit(failure)

    @Slot()
    def _abandon(self) -> None:
        self._under_way = False
