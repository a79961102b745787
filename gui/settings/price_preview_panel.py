"""What new prices would change: three boxes of the owner's choosing, and the last orders."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QLabel, QLineEdit, QWidget

from core.catalogue import written_tapes
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.services.own_shop.price_preview import BOXES, PriceChange, PricePreview
from gui.toolkit import theme
from gui.toolkit.plain_text import tip
from gui.toolkit.text import money, say
from gui.widgets.layouts import labelled, rule, slip, stacked, words
from gui.widgets.tray import Tray, TrayItem


class PricePreviewPanel(QWidget):
    """Shows old against new; what boxes are compared is typed here."""

    changed = Signal()
    """Another box was written."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fields = [QLineEdit(written_tapes.written(box)) for box in BOXES]
        self._totals: list[QLabel] = [words("", "money") for _ in BOXES]
        self._together = words("")
        self.orders = Tray("price-orders", say("settings", "prices-preview-list"))
        self.orders.setMinimumHeight(5 * theme.ROW)
        self._lay_out()

    @property
    def boxes(self) -> tuple[tuple[TapeLine, ...], ...]:
        """The boxes that can be understood; the last good one stands for what cannot."""
        return tuple(self._read(place) for place in range(len(self.fields)))

    def show_preview(self, preview: PricePreview, currency: str) -> None:
        """Show the totals."""
        for total, change in zip(self._totals, preview.boxes, strict=True):
            total.setText(_told(change, currency))
        was, now = money(preview.was, currency), money(preview.now, currency)
        count = len(preview.orders)
        key = "prices-preview-orders-same" if preview.was == preview.now else "prices-preview-orders"
        self._together.setText(say("settings", key, count=count, was=was, now=now))
        self.orders.setVisible(bool(count))
        self.orders.lay([TrayItem(each.words, each.words, _told(each, currency)) for each in preview.orders])

    def show_waiting(self) -> None:
        """There is no book to compare with just now."""
        self._together.setText(say("settings", "prices-preview-wait"))
        for total in self._totals:
            total.clear()
        self.orders.hide()

    @Slot()
    def _was_written(self) -> None:
        self.changed.emit()

    def _read(self, place: int) -> tuple[TapeLine, ...]:
        field = self.fields[place]
        try:
            found = written_tapes.lines(field.text())
        except WrongInput as wrong:
            field.setToolTip(tip(wrong.sentence))
            field.setAccessibleDescription(wrong.sentence)
            self._notes[place].setText(wrong.accepted)
            self._notes[place].show()
            return self._last[place]
        field.setToolTip("")
        field.setAccessibleDescription("")
        self._notes[place].hide()
        self._last[place] = found
        return found

    def _lay_out(self) -> None:
        self._last = list(BOXES)
        self._notes = [words("", "attention") for _ in BOXES]
        paper, column = slip("price-preview")
        stacked(self).addWidget(paper)
        column.addWidget(words(say("settings", "prices-preview"), "heading"))
        column.addWidget(words(say("settings", "prices-preview-lead"), "small"))
        for n, (field, total) in enumerate(zip(self.fields, self._totals, strict=True), 1):
            field.setObjectName(f"price-box-{n}")
            field.setCursorPosition(0)
            field.textEdited.connect(self._was_written)
            column.addWidget(labelled(field, say("settings", "prices-preview-box", n=n)))
            column.addWidget(self._notes[n - 1])
            column.addWidget(total)
            self._notes[n - 1].hide()
        column.addWidget(rule())
        column.addWidget(self._together)
        column.addWidget(self.orders, 1)


def _told(change: PriceChange, currency: str) -> str:
    if change.now is None or change.was is None:
        return say("settings", "prices-preview-none")
    was, now = money(change.was, currency), money(change.now, currency)
    if change.now == change.was:
        return say("settings", "prices-preview-same", was=was)
    return say("settings", "prices-preview-change", was=was, now=now)
