"""The box as it is read and quoted at every key, and whether the promised day belongs to its tapes."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from core.model.errors import WrongInput
from core.model.quote_records import Quote
from core.model.typed_draft import TypedBox, TypedRow
from core.wording import shop_clock
from gui.counter.live_day import LiveDay
from gui.counter.live_quote import LiveQuote
from gui.counter.tape_table import TableRow
from gui.counter.typed_box import read_box, read_row
from gui.toolkit.screen_context import Desk

if TYPE_CHECKING:
    from core.services.quoting import ShopSnapshot


class BoxQuote(QObject):
    """Reads and quotes one `TypedBox` at a time against the last snapshot of the shop."""

    day_came = Signal()
    """The quote is whole: its day belongs to its tapes."""
    day_became_late = Signal()
    """The day is still that of other tapes, and must be marked."""

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._live = LiveQuote()
        self._day = LiveDay(desk, self._live, self)
        self._day.came.connect(self.day_came)
        self._day.became_late.connect(self.day_became_late)
        self._box = TypedBox()
        self.reading = read_box(self._box, self.today())
        self.quote: Quote | None = None
        self.failure: WrongInput | None = None
        """Why there is no quote of a box that can be read."""

    @property
    def snapshot(self) -> ShopSnapshot | None:
        """The shop the box is quoted against; None before it was read."""
        return self._live.snapshot

    @property
    def is_settled(self) -> bool:
        """Whether the day belongs to the tapes; else it is being worked out."""
        return self._live.is_settled

    @property
    def is_late(self) -> bool:
        """Whether the day is to be marked as that of other tapes."""
        return self._day.is_late

    def today(self) -> date:
        """The day on the shop's own calendar."""
        return shop_clock.day(self._desk.clock()) if self.snapshot is None else self.snapshot.today

    def use_snapshot(self, snapshot: ShopSnapshot) -> None:
        """Quote against another snapshot of the shop from the next `update` on."""
        self._live.snapshot = snapshot

    def update(self, box: TypedBox) -> None:
        """Read and quote ``box``; its day is worked out beside the window."""
        self._box = box
        self.reading = read_box(box, self.today())
        self.quote, self.failure = self._live.quote(self.reading.inventory, self._desk.clock())
        self._day.update()

    def table_rows(self, rows: Sequence[TypedRow]) -> list[TableRow]:
        """The first rows of the box with what the quote says of them; others are still in the line."""
        tapes = self.quote.tapes if self.quote is not None else ()
        first = {self.reading.places[tape.line - 1]: tape for tape in tapes if tape.n == 1}
        return [
            TableRow(row, read_row(row, self._box.tv), None if row.is_empty else first.get(place))
            for place, row in enumerate(rows)
        ]

    def rows_of_questions(self) -> list[int]:
        """The row of each question of the quote, counted from 1."""
        questions = self.quote.questions if self.quote is not None else ()
        return [self.reading.places[question.line - 1] + 1 for question in questions]
