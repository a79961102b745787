"""Signing before booking: one quote is worked out, shown on the Customer side, signed and booked so."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot

from core.model.agreement_records import AgreedHow, Consent
from core.model.errors import Refused
from core.model.inventory import Inventory
from core.model.quote_records import Quote
from core.model.signatures import Stroke
from core.model.typed_draft import TypedBox
from gui.counter.signing_bar import SigningBar
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say

if TYPE_CHECKING:
    from core.papers.booking.signing_sheet import SigningSheet
    from core.services.quoting import ShopSnapshot


class Signing(QObject):
    """Holds the quote that is signed. Whatever changes in the box ends it: ink belongs to what was shown."""

    wanted = Signal(object)
    """The `SigningSheet` to be shown to the customer."""
    ended = Signal()
    page_turned = Signal(int)
    """A page on, or one back, of the sheet."""
    changed = Signal()
    """The bar is to be shown, or not any more."""
    book_wanted = Signal(object, object, int, object)
    """`TypedBox`, `Quote`, deposit in minor units and `Consent`: as it was agreed."""
    said = Signal(str)
    failed = Signal(object)

    def __init__(self, desk: Desk, bar: SigningBar, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._bar = bar
        self._box: TypedBox | None = None
        self._quote: Quote | None = None
        self._deposit_minor = 0
        self._strokes: tuple[Stroke, ...] = ()
        bar.agreed.connect(self._agree)
        bar.left.connect(self.end)
        bar.turned.connect(self.page_turned)

    @property
    def is_open(self) -> bool:
        """Whether somebody is asked to sign."""
        return self._quote is not None

    def begin(self, box: TypedBox, snapshot: ShopSnapshot, inventory: Inventory, deposit_minor: int) -> None:
        """Work out the whole quote of ``inventory``, read from ``box``, and ask for a signature."""
        self.end()
        self._box, self._deposit_minor = box, deposit_minor

        def work_out() -> tuple[Quote, SigningSheet]:
            from core.papers.booking import signing_sheet

            quote = snapshot.quote(inventory, self._desk.clock())
            return quote, signing_sheet.of_quote(quote, box.told, snapshot.settings.front, self._desk.who)

        self._desk.work.compute_soon(work_out, then=partial(self._ask, box), otherwise=self.failed.emit)

    def _ask(self, box: TypedBox, found: tuple[Quote, SigningSheet]) -> None:
        if box is not self._box:
            return
        self._quote, sheet = found
        self._strokes = ()
        self._bar.begin(sheet.name)
        self.changed.emit()
        self.wanted.emit(sheet)

    def follow(self, box: TypedBox) -> None:
        """The box as it is now; another than the one that is signed ends the signing."""
        if self._box is None or box == self._box:
            return
        was_open = self.is_open
        self.end()
        if was_open:
            self.said.emit(say("counter", "sign_again"))

    @Slot(object)
    def take_ink(self, strokes: tuple[Stroke, ...]) -> None:
        """The strokes on the Customer side as they stand now."""
        if self.is_open:
            self._strokes = strokes
            self._bar.show_ink(bool(strokes))

    @Slot()
    def end(self) -> None:
        """Ask no more; the ink is thrown away."""
        was_open, self._box, self._quote, self._strokes = self.is_open, None, None, ()
        if was_open:
            self.changed.emit()
            self.ended.emit()

    @Slot()
    def book(self) -> None:
        """Book what was signed; says so while nobody signed."""
        if self._strokes:
            self._agree(AgreedHow.SIGNATURE)
        else:
            self.failed.emit(Refused(say("counter", "sign_missing", name=self._bar.name)))

    @Slot(object)
    def _agree(self, how: AgreedHow) -> None:
        if how is AgreedHow.SIGNATURE and not self._strokes:
            self.book()
        elif self._box is not None and self._quote is not None:
            strokes = self._strokes if how is AgreedHow.SIGNATURE else ()
            consent = Consent(self._box.name.strip(), how, strokes)
            self.book_wanted.emit(self._box, self._quote, self._deposit_minor, consent)
