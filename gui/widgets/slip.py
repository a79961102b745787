"""The slip: the same paper on the Counter, facing the customer, and out of the printer."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from core.model.job_records import Job
from core.model.promise_records import Promise
from core.model.quote_records import Quote
from core.model.settings_records import ShopFront
from gui.toolkit import text, theme
from gui.toolkit.text import say
from gui.widgets import slip_lines
from gui.widgets.twenty_dots import Dots
from gui.widgets.written_lines import Written

_REASONS = 2
"""Reasons for the day that stand on the slip."""
_TOOTH = 8.0
"""Width of one tooth of the torn edge."""


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
        return self._day.text()

    @property
    def price_words(self) -> str:
        """The price as it stands on the slip; empty when there is none."""
        return next((line.amount for line in self._sums.lines if line.kind == "price"), "")

    @property
    def held_words(self) -> str:
        """What holds the day, as far as this slip says so."""
        return self._held.text()

    @property
    def rolls(self) -> bool:
        """Whether even the shortest form of the charges is longer than the paper."""
        return self._roll.verticalScrollBar().maximum() > 0

    def show_front(self, front: ShopFront) -> None:
        """Put the shop's name at the head."""
        self._name.setText(front.name)

    def show_nothing(self) -> None:
        """An empty slip, waiting for the first tape."""
        self._hold_quote(None)
        self._number.hide()
        self._about.setText(say("slip", "empty"))
        self._charges.write(())
        self._sums.write(())
        self._promise_nothing()
        self.setAccessibleDescription(say("slip", "empty"))

    def show_quote(self, quote: Quote, is_late: bool = False) -> None:
        """Write this quote; ``is_late``: its own day is long in coming, and the one before is marked."""
        self._hold_quote(quote)
        self._number.hide()
        made = text.short_day(quote.made_at.date())
        self._about.setText(say("slip", "quoted", day=made, until=text.short_day(quote.valid_until)))
        self._write(quote, quote.promise, None, is_late)

    def show_job(self, job: Job) -> None:
        """Write the slip of a booked job, its number large."""
        self._hold_quote(job.quote)
        self._number.setText(say("slip", "number", number=job.number))
        self._number.show()
        self._about.setText(say("slip", "booked", day=text.short_day(job.booked_at.date())))
        self._write(job.quote, job.promise, job.paid_minor)

    def mark_day(self, is_late: bool) -> None:
        """Say of the day on show that another is being worked out; it stays where it is until that comes."""
        if self._quote is not None:
            self._promise_day(self._promise, is_late)

    def _write(self, quote: Quote, promise: Promise, paid_minor: int | None, is_late: bool = False) -> None:
        charges, sums = slip_lines.charge_lines(quote), slip_lines.sum_lines(quote, paid_minor)
        self._charges.write(charges)
        self._sums.write(sums)
        self.setAccessibleDescription(slip_lines.in_words((*charges, *sums)))
        self._promise = promise
        self._promise_day(promise, is_late)
        self._hold(promise, is_agreed=paid_minor is not None)

    def _promise_day(self, promise: Promise, is_late: bool) -> None:
        """Each label is written once: two texts in a row would lay the whole stub out twice."""
        if _is_to_come(promise):
            ready, day, times = say("slip", "opening"), "", ""
        elif promise.day is None:
            ready, day, times = say("slip", "no_day"), "", ""
        else:
            ready, day = say("slip", "ready_by"), text.day(promise.day)
            times = say("slip", "kept", times=text.times_in_twenty(promise.stated))
        self._ready_by.setText(ready)
        self._day.setText(day)
        self._times.setText(say("slip", "working") if is_late else times)
        theme.mark(self._day, "ink", "muted" if is_late else "time")
        self._day.setVisible(promise.day is not None)
        self._dots.show_promise(promise, is_late)

    def _promise_nothing(self) -> None:
        self._ready_by.setText(say("slip", "opening"))
        self._day.setText("")
        self._day.hide()
        self._times.setText("")
        self._dots.show_promise(None)
        self._held.setText("")

    def _hold_quote(self, quote: Quote | None) -> None:
        if (quote is None) is not (self._quote is None):
            self.update()  # only a blank slip is ruled
        self._quote = quote

    def _hold(self, promise: Promise, is_agreed: bool) -> None:
        """The weightiest reasons; all of them for whoever points at it. None once it is agreed."""
        wanted = promise.day is None or (self._inside and not is_agreed)
        reasons = promise.held_by if wanted else ()
        shown, every = ("; ".join(reasons[:most]) for most in (_REASONS, len(reasons)))
        self._held.setText(say("slip", "held", reasons=shown) if shown else "")
        self._held.setToolTip(say("slip", "held", reasons=every) if every else "")

    # --- paper ---------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tokens = theme.tokens_of()
        painter.setPen(QPen(QColor(tokens.line), 1))
        painter.setBrush(QColor(tokens.slip))
        painter.drawPolygon(self._outline())
        if self._quote is None:
            self._paint_ruling(painter, tokens)
        self._paint_perforation(painter, tokens)
        painter.end()

    def _paint_ruling(self, painter: QPainter, tokens: theme.Tokens) -> None:
        """A blank slip is ruled, so that it is seen to wait for something."""
        side = 2.5 * theme.UNIT * self._scale
        pitch = 4 * theme.UNIT * self._scale
        painter.setPen(QPen(QColor(tokens.line), 1))
        y = self._roll.y() + pitch
        while y < self._stub.y() - pitch / 2:
            painter.drawLine(QPointF(side, round(y) + 0.5), QPointF(self.width() - side, round(y) + 0.5))
            y += pitch

    def _outline(self) -> QPolygonF:
        """A straight sheet whose lower edge was torn off the roll."""
        left, right, top, bottom = 0.5, self.width() - 0.5, 0.5, self.height() - 0.5
        teeth = max(2, round((right - left) / _TOOTH))
        step = (right - left) / teeth
        edge = [
            QPointF(right - n * step / 2, bottom - (_TOOTH / 2 if n % 2 == 0 else 0.0))
            for n in range(2 * teeth + 1)
        ]
        return QPolygonF([QPointF(left, top), QPointF(right, top), *edge])

    def _paint_perforation(self, painter: QPainter, tokens: theme.Tokens) -> None:
        y = self._stub.y() + 0.5
        pen = QPen(QColor(tokens.edge), 1.5)
        pen.setDashPattern([2, 4])
        painter.setPen(pen)
        painter.drawLine(QPointF(_TOOTH, y), QPointF(self.width() - _TOOTH, y))
        painter.setPen(QPen(QColor(tokens.line), 1))
        painter.setBrush(QColor(tokens.ground))
        for x in (0.0, float(self.width())):
            painter.drawEllipse(QPointF(x, y), _TOOTH * 0.75, _TOOTH * 0.75)

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        side = round(2.5 * theme.UNIT * self._scale)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, round(2 * theme.UNIT * self._scale), 0, 0)
        column.setSpacing(0)
        column.addWidget(self._head(side))
        self._charges = Written(self._scale)
        column.addWidget(self._rolling(self._charges, side), 1)
        self._sums = Written(self._scale)
        self._sums.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        column.addWidget(_inset(self._sums, side, round(1.5 * theme.UNIT * self._scale)))
        self._stub = self._build_stub(side)
        column.addWidget(self._stub)

    def _head(self, side: int) -> QWidget:
        head = QWidget()
        column = QVBoxLayout(head)
        column.setContentsMargins(side, 0, side, round(1.5 * theme.UNIT * self._scale))
        column.setSpacing(2)
        self._name = self._label(theme.LEAD, "oxide", bold=True)
        self._number = self._label(theme.GREAT, "ink", bold=True)
        self._number.setObjectName("job-number")
        self._about = self._label(theme.SMALL, "muted")
        top = QHBoxLayout()
        top.addWidget(self._name, 1)
        top.addWidget(self._number, 0, Qt.AlignmentFlag.AlignTop)
        self._number.setWordWrap(False)
        column.addLayout(top)
        column.addWidget(self._about)
        return head

    def _rolling(self, written: Written, side: int) -> QScrollArea:
        """The charges roll when even their short form is longer than the paper."""
        area = QScrollArea()
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setAccessibleName(say("slip", "charges"))
        if not self._inside:
            area.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # nobody types before the customer
        area.setWidget(_inset(written, side, 0))
        area.setMinimumHeight(round(4 * theme.UNIT * self._scale))
        written.fit_into(area.viewport())
        self._roll = area
        return area

    def _build_stub(self, side: int) -> QWidget:
        stub = QWidget()
        column = QVBoxLayout(stub)
        column.setContentsMargins(side, round(1.5 * theme.UNIT * self._scale), side, 2 * theme.UNIT)
        column.setSpacing(0)
        self._ready_by = self._label(theme.SMALL, "muted")
        self._day = self._label(theme.GREAT, "time", bold=True)
        self._day.setObjectName("promised-day")
        self._times = self._label(theme.BODY, "time")
        self._times.setObjectName("promised-times")
        self._dots = Dots(self._scale)
        self._held = self._label(theme.SMALL, "muted")
        for widget in (self._ready_by, self._day, self._times, self._dots, self._held):
            column.addWidget(widget)
        column.insertSpacing(column.indexOf(self._held), round(theme.UNIT * self._scale))
        return stub

    def _label(self, size: float, ink: str, bold: bool = False) -> QLabel:
        label = QLabel()
        label.setWordWrap(True)
        label.setProperty("ink", ink)
        label.setFont(theme.font(size * self._scale, QFont.Weight.Bold if bold else QFont.Weight.Normal))
        return label

    def sizeHint(self) -> QSize:
        return QSize(round(408 * self._scale), round(600 * self._scale))


def _is_to_come(promise: Promise) -> bool:
    """Whether the first day of this box is still being worked out: there is no reason yet why it has none."""
    return promise.day is None and not promise.held_by


def _inset(widget: QWidget, side: int, below: int) -> QWidget:
    frame = QWidget()
    column = QVBoxLayout(frame)
    column.setContentsMargins(side, 0, side, below)
    column.setSpacing(0)
    column.addWidget(widget)
    return frame
