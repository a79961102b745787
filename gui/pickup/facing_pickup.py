"""What the person who collects is shown of a pickup, and the ink of both pads: one signature, seen twice."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal, Slot

from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopSettings
from core.model.quote_records import Price
from core.model.signatures import Stroke
from core.papers.handover import pickup_sheet
from core.services import decks
from gui.pickup.checklist import Checklist
from gui.pickup.pickup_slip import PickupSlip
from gui.toolkit.screen_context import Desk


class FacingPickup(QObject):
    """Follows the checklist of the open order; without price or shop there is nothing to be shown yet."""

    changed = Signal(object)
    """The `PickupSheet`; None while no order is open."""
    ink_changed = Signal(object)
    """The strokes on the clerk's pad."""

    def __init__(self, desk: Desk, slip: PickupSlip, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._slip = slip
        self._checklist: Checklist | None = None
        self._price: Price | None = None
        self._settings: ShopSettings | None = None
        slip.signer.textChanged.connect(self._tell)
        slip.signing.pad.changed.connect(self._tell_ink)

    def begin(self, job: Job) -> None:
        """Another order: nothing is shown before its own price is known."""
        if self._checklist is None or self._checklist.job.number != job.number:
            self._price = None
        self._desk.work.ask(decks.settings, then=self._use)

    def follow(self, checklist: Checklist | None) -> None:
        """How far the order is counted back; None: it was closed."""
        self._checklist = checklist
        self._tell()

    def show_price(self, price: Price) -> None:
        """What the open order comes to."""
        self._price = price
        self._tell()

    @Slot(object)
    def take_ink(self, strokes: Sequence[Stroke]) -> None:
        """What the customer drew: it stands on the clerk's pad, and is what is kept."""
        self._slip.signing.pad.show_strokes(strokes)

    def _use(self, settings: ShopSettings) -> None:
        self._settings = settings
        self._tell()

    @Slot()
    def _tell(self) -> None:
        checklist, price, settings = self._checklist, self._price, self._settings
        if checklist is None or price is None or settings is None:
            self.changed.emit(None)
            return
        self.changed.emit(
            pickup_sheet.of_job(
                checklist.job,
                [tape.code for tape in checklist.job.tapes if checklist.is_open(tape.code)],
                checklist.codes,
                [copy.words for copy in checklist.job.copies if copy.id in checklist.copies],
                price,
                self._slip.sentences,
                settings.front,
                self._slip.signer.text().strip(),
            )
        )

    @Slot()
    def _tell_ink(self) -> None:
        self.ink_changed.emit(self._slip.signing.pad.strokes())
