"""The slip: the same paper on the Counter, facing the customer, and out of the printer."""

from __future__ import annotations

from PySide6.QtCore import QSize, QSizeF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.model.promise_records import Promise
from core.model.quote_records import Quote
from core.wording import shop_clock
from gui.toolkit import colors, text, theme
from gui.toolkit.text import say
from gui.widgets import slip_lines, slip_paper
from gui.widgets.slip_label import slip_label
from gui.widgets.slip_roll import SlipRoll
from gui.widgets.slip_stub import SlipStub
from gui.widgets.written_lines import SlipLineList


class Slip(QWidget):
    """Paper with a head, the charges, the price, and below a perforation the stub with the day."""

    def __init__(
        self,
        front: ShopFront | None = None,
        scale: float = 1.0,
        inside: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        """``inside`` says whether the shop's own reasons for the day are shown, too."""
        super().__init__(parent)
        self._scale = scale
        self._inside = inside
        self._quote: Quote | None = None
        self.setAccessibleName(say("slip", "name"))
        self._build()
        self.show_nothing()
        if front is not None:
            self.show_front(front)

    # --- what it shows -------------------------------------------------------------------

    @property
    def quote(self) -> Quote | None:
        return self._quote

    @property
    def day_words(self) -> str:
        """The promised day as it stands on the stub."""
        return self._stub.day.text()

    @property
    def price_words(self) -> str:
        """The price as it stands on the slip; empty when there is none."""
        return next((line.amount for line in self._sums.lines if line.kind == "price"), "")

    @property
    def mark_words(self) -> str:
        """That the prices are no prices of this shop's own; empty when they are."""
        return "" if self._examples.isHidden() else self._examples.text()

    @property
    def held_words(self) -> str:
        """What holds the day, as far as this slip says so."""
        return self._stub.held.text()

    @property
    def rolls(self) -> bool:
        """Whether even the shortest form of the charges is longer than the paper."""
        return self._roll.verticalScrollBar().maximum() > 0

    def show_front(self, front: ShopFront) -> None:
        """Put the shop's name at the head, in its color."""
        self._name.setText(front.name)
        own = colors.accent(theme.current_tokens(), front.accent)
        self._name.setStyleSheet(f"color: {own};" if front.accent else "")

    def show_nothing(self) -> None:
        """An empty slip, waiting for the first tape."""
        self._examples.hide()
        self._hold_quote(None)
        self._number.hide()
        self._about.setText(say("slip", "empty"))
        self._charges.write(())
        self._sums.write(())
        self._stub.show_nothing()
        self.setAccessibleDescription(say("slip", "empty"))

    def show_quote(self, quote: Quote, is_late: bool = False) -> None:
        """Write this quote; ``is_late``: its own day is long in coming, and the one before is marked."""
        self._hold_quote(quote)
        self._number.hide()
        made = text.short_day(shop_clock.day(quote.made_at))
        about = say("slip", "quoted", day=made, until=text.short_day(quote.valid_until))
        self._about.setText(about)
        self._examples.setVisible(quote.example_prices)
        self._write(quote, quote.promise, None, is_late)

    def show_job(self, job: Job) -> None:
        """Write the slip of a booked job, its number large."""
        self._hold_quote(job.quote)
        self._number.setText(say("slip", "number", number=job.number))
        self._number.show()
        self._examples.setVisible(job.quote.example_prices)
        self._about.setText(say("slip", "booked", day=text.short_day(shop_clock.day(job.booked_at))))
        self._write(job.quote, job.promise, job.paid_minor)

    def mark_day(self, is_late: bool) -> None:
        """Say of the day on show that another is being worked out; it stays where it is until that comes."""
        if self._quote is not None:
            self._stub.show_promise(self._promise, is_late)

    def _write(self, quote: Quote, promise: Promise, paid_minor: int | None, is_late: bool = False) -> None:
        charges, sums = (
            slip_lines.charge_lines(quote),
            slip_lines.sum_lines(quote, paid_minor, tells_choice=not self._inside),
        )
        self._charges.write(charges)
        self._sums.write(sums)
        self.setAccessibleDescription(slip_lines.in_words((*charges, *sums)))
        self._promise = promise
        self._stub.show_promise(promise, is_late)
        is_agreed = paid_minor is not None
        tells_reasons = promise.day is None or (self._inside and not is_agreed)
        self._stub.show_reasons(promise.held_by if tells_reasons else ())

    def _hold_quote(self, quote: Quote | None) -> None:
        if (quote is None) is not (self._quote is None):
            self.update()  # only a blank slip is ruled
        self._quote = quote

    # --- paper ---------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tokens, wide, perforation = theme.current_tokens(), self.width(), self._stub.y()
        slip_paper.paint_sheet(painter, QSizeF(self.size()), tokens)
        if self._quote is None:
            slip_paper.paint_ruling(painter, wide, self._roll.y(), perforation, self._scale, tokens)
        slip_paper.paint_perforation(painter, wide, perforation, tokens)
        painter.end()

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        side = round(2.5 * theme.UNIT * self._scale)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, round(2 * theme.UNIT * self._scale), 0, 0)
        column.setSpacing(0)
        column.addWidget(self._head(side))
        self._charges = SlipLineList(self._scale)
        column.addWidget(self._rolling(self._charges, side), 1)
        self._sums = SlipLineList(self._scale)
        self._sums.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        column.addWidget(_inset(self._sums, side, round(1.5 * theme.UNIT * self._scale)))
        self._stub = SlipStub(self._scale, side)
        column.addWidget(self._stub)

    def _head(self, side: int) -> QWidget:
        head = QWidget()
        column = QVBoxLayout(head)
        column.setContentsMargins(side, 0, side, round(1.5 * theme.UNIT * self._scale))
        column.setSpacing(2)
        self._name = slip_label(theme.LEAD * self._scale, "oxide", bold=True)
        self._number = slip_label(theme.GREAT * self._scale, "ink", bold=True)
        self._number.setObjectName("job-number")
        self._about = slip_label(theme.SMALL * self._scale, "muted")
        top = QHBoxLayout()
        top.addWidget(self._name, 1)
        top.addWidget(self._number, 0, Qt.AlignmentFlag.AlignTop)
        self._number.setWordWrap(False)
        column.addLayout(top)
        column.addWidget(self._about)
        self._examples = slip_label(theme.BODY * self._scale, "attention", bold=True)
        self._examples.setObjectName("example-prices")
        self._examples.setText(say("settings", "first-example-prices"))
        self._examples.hide()
        column.addWidget(self._examples)
        return head

    def _rolling(self, written: SlipLineList, side: int) -> SlipRoll:
        """The charges roll when even their short form is longer than the paper."""
        area = SlipRoll(written, self._scale, side)
        if not self._inside:
            area.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # nobody types before the customer
        area.setMinimumHeight(round(4 * theme.UNIT * self._scale))
        self._roll = area
        return area

    def heightForWidth(self, width: int) -> int:
        """What it cannot do without: the charges roll and the dots shrink before the slip itself scrolls."""
        layout = self.layout()
        assert layout is not None
        return layout.minimumHeightForWidth(width)

    def sizeHint(self) -> QSize:
        return QSize(theme.scaled(408 * self._scale), theme.scaled(600 * self._scale))


def _inset(widget: QWidget, side: int, below: int) -> QWidget:
    frame = QWidget()
    column = QVBoxLayout(frame)
    column.setContentsMargins(side, 0, side, below)
    column.setSpacing(0)
    column.addWidget(widget)
    return frame
