"""Customer side: the same slip in large type, turned to the person whose tapes they are.

Read only, but for the signature under what is agreed. Nothing of other customers is ever handed to this
window, and none of the shop's own reasons for a day: it shows one quote, or one job that was just booked.
"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import (
    QFont,
    QGuiApplication,
    QKeyEvent,
    QResizeEvent,
    QScreen,
    QShowEvent,
)
from PySide6.QtWidgets import QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from core.catalogue import containers
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.model.quote_records import Quote, QuotedTape
from core.papers.booking.signing_sheet import SigningSheet
from gui.customer_side.shop_logo import ShopLogo
from gui.customer_side.signing_page import SigningPage
from gui.customer_side.tapes_drawing import DrawnTapes, TapesDrawing, drawn_formats, drawn_tapes
from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label
from gui.toolkit.text import phone, say
from gui.widgets.layouts import Columns, Pages, scroll_by_page, stacked
from gui.widgets.not_for_reuse_strip import NotForReuseStrip
from gui.widgets.notice_sentences import must_tell, paragraphs
from gui.widgets.practice_strip import PracticeStrip
from gui.widgets.slip import Slip

SCALE = 1.25
FOLD_BELOW = 900
"""Logical pixels under which slip and words stand one below the other."""
_MARGIN = 4 * theme.UNIT
_SLIP_HIGH = 84 * theme.UNIT
"""The least that a slip of ten lines with its dots needs in large type."""
_FOLDED_TRAY = 32 * theme.UNIT
_FOLDED_SLIP = 90 * theme.UNIT


class CustomerSide(QWidget):
    """A second window: on the second screen when there is one, else over the whole of the first.

    On a screen of its own it never takes the keyboard from whoever is at the counter.
    """

    signed = Signal(object)
    """The strokes of the signature as they stand; empty while nobody signed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setObjectName("customer-side")
        self.setWindowTitle(say("customer", "title"))
        self.slip = Slip(scale=SCALE, inside=False)
        self.slip.setObjectName("customer-slip")
        self._welcome = ""
        self._logo = ShopLogo()
        self._greeting = _label(theme.GREAT, "ink", bold=True)
        self.tapes = TapesDrawing()
        self._told = _label(theme.BODY, "ink")
        self._told.setObjectName("customer-told")
        self._told.setTextFormat(Qt.TextFormat.RichText)
        self._how = _label(theme.BODY, "muted")
        self._band = NotForReuseStrip(say("customer", "band_words"), theme.LEAD)
        self._band_why = _label(theme.BODY, "ink")
        self.signing = SigningPage(SCALE)
        self.signing.signed.connect(self.signed)
        self._build()
        self.resize(1280, 800)
        self._latest: Quote | Job | None = None
        self._phone = ""
        self._is_late = False
        self._write_quote(None)

    # --- what it shows -------------------------------------------------------------------

    def show_front(self, front: ShopFront) -> None:
        """Show the shop's name at the head of the slip, and its phone number once a box is booked."""
        self._phone = phone(front.phone).replace(" ", "\u00a0") if front.phone else ""
        self.slip.show_front(front)
        self._welcome = front.greeting
        self._logo.show_logo(front.logo)
        if self._latest is None:
            self._write_quote(None)
        self.practice.tell(front.practice)

    @Slot(object, bool)
    def show_quote(self, quote: Quote | None, is_late: bool = False) -> None:
        """Follow the slip of the Counter; None greets the next customer. A day not its own says so."""
        is_same, self._latest, self._is_late = quote is self._latest, quote, is_late
        if self.isVisible() and is_same:
            self.slip.mark_day(is_late)
        elif self.isVisible():
            self._write_quote(quote)

    def _write_quote(self, quote: Quote | None) -> None:
        if quote is None:
            self.slip.show_nothing()
            self._greeting.setText(self._welcome or say("customer", "welcome"))
            self._how.setText(say("customer", "welcome_how"))
            self._show_tapes((), drawn_formats())
            return
        self.slip.show_quote(quote, self._is_late)
        self._greeting.setText(_greeting(quote))
        self._how.setText(say("customer", "how" if quote.flat_minor is None else "how_flat"))
        self._show_tapes(quote.tapes, drawn_tapes(quote.tapes))

    @Slot(object)
    def show_job(self, job: Job) -> None:
        """The box is booked: the number, and thanks."""
        self._latest = job
        if self.isVisible():
            self._write_job(job)

    def _write_job(self, job: Job) -> None:
        self.slip.show_job(job)
        self._greeting.setText(say("customer", "booked"))
        self._how.setText(self._how_to_collect())
        self._show_tapes(job.quote.tapes, drawn_tapes(job.quote.tapes))

    def _how_to_collect(self) -> str:
        if self._phone:
            return say("customer", "booked_how_call", phone=self._phone)
        return say("customer", "booked_how")

    def _show_tapes(self, tapes: tuple[QuotedTape, ...], drawn: tuple[DrawnTapes, ...]) -> None:
        """The cassettes drawn, what must be told of them, and how many come back not for reuse."""
        self.tapes.show_tapes(drawn)
        sentences = must_tell(tapes)
        self._told.setText(paragraphs(sentences, 2 * theme.UNIT))
        self._told.setVisible(bool(sentences))
        count = sum(tape.verdict.not_for_reuse for tape in tapes)
        self._band.setVisible(count > 0)
        self._band_why.setVisible(count > 0)
        if count:
            self._band_why.setText(say("customer", "band" if count > 1 else "band_one", count=count))

    # --- signing -------------------------------------------------------------------------

    @Slot(object)
    def ask_to_sign(self, sheet: SigningSheet) -> None:
        """Show what is signed, with a pad; on a screen of its own it comes into sight by itself."""
        self.signing.show_sheet(sheet)
        self._pages.turn(self.signing)
        if not self.isVisible() and second_screen(QGuiApplication.screens(), self._own_screen()) is not None:
            self.turn()

    @Slot()
    def stop_asking(self) -> None:
        """Back to the slip: it was booked, or what was to be signed has changed."""
        self._pages.turn(self._columns)

    # --- turning -------------------------------------------------------------------------

    @Slot()
    def turn(self) -> None:
        """F9: show it to the customer, or turn it back."""
        if self.isVisible():
            self.hide()
            return
        there = second_screen(QGuiApplication.screens(), self._own_screen())
        self._leave_keyboard(there is not None)
        if there is not None:
            self.setScreen(there)
            self.setGeometry(there.geometry())
        self.showFullScreen()
        if there is None:
            self.activateWindow()

    def _leave_keyboard(self, left: bool) -> None:
        """On a screen of its own the window is never active, whoever touches it."""
        self.setWindowFlag(Qt.WindowType.WindowDoesNotAcceptFocus, left)
        self.setAttribute(Qt.WidgetAttribute.WA_ShowWithoutActivating, left)

    def _own_screen(self) -> QScreen | None:
        parent = self.parentWidget()
        return parent.screen() if parent is not None else None

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where the columns fold all of the page scrolls, so the tray has a height of its own."""
        folded = event.size().width() - 2 * _MARGIN < FOLD_BELOW
        self.tapes.setMinimumHeight(_FOLDED_TRAY if folded else 0)
        self.slip.setMinimumHeight(_FOLDED_SLIP if folded else _SLIP_HIGH)
        super().resizeEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        """What was said while it was turned away."""
        if isinstance(self._latest, Job):
            self._write_job(self._latest)
        else:
            self._write_quote(self._latest)
        super().showEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Escape, Qt.Key.Key_F9):
            self.hide()
        elif not scroll_by_page(self._area_on_show(), event):
            super().keyPressEvent(event)

    def _area_on_show(self) -> QScrollArea:
        return self._columns if self._pages.on_show is self._columns else self.signing.area_to_scroll

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setProperty("role", "ground")
        self.practice = PracticeStrip(theme.BODY * SCALE, leads_on=False)
        outer = stacked(self, 0)
        outer.addWidget(self.practice)
        whole = QVBoxLayout()
        whole.setContentsMargins(_MARGIN, _MARGIN, _MARGIN, _MARGIN)
        outer.addLayout(whole, 1)
        columns = self._columns = Columns(FOLD_BELOW)
        self.slip.setMinimumSize(56 * theme.UNIT, _SLIP_HIGH)
        policy = self.slip.sizePolicy()
        policy.setVerticalPolicy(QSizePolicy.Policy.Ignored)  # else the page scrolls for nothing
        self.slip.setSizePolicy(policy)
        columns.add(self.slip, 6)
        columns.add(self._beside(), 5)
        self._pages = Pages(columns, self.signing)
        whole.addWidget(self._pages)

    def _beside(self) -> QWidget:
        beside = QWidget()
        column = QVBoxLayout(beside)
        column.setContentsMargins(3 * theme.UNIT, 0, 0, 0)
        column.setSpacing(2 * theme.UNIT)
        column.addWidget(self._logo)
        column.addWidget(self._greeting)
        column.addWidget(self.tapes, 1)
        for widget in (self._band, self._band_why, self._told, self._how):
            column.addWidget(widget)
        return beside


def second_screen(screens: list[QScreen], ours: QScreen | None) -> QScreen | None:
    """A screen the shop's own window is not on; None when there is only one."""
    return next((screen for screen in screens if screen is not ours), None) if len(screens) > 1 else None


def _label(size: float, ink: str, bold: bool = False) -> QLabel:
    label = plain_label()
    label.setWordWrap(True)
    label.setProperty("ink", ink)
    label.setFont(theme.font(size * SCALE, QFont.Weight.Bold if bold else QFont.Weight.Normal))
    return label


def _greeting(quote: Quote) -> str:
    """``Your 3 tapes``, or reels, or discs."""
    kind = containers.together(tape.draft.format for tape in quote.tapes)
    key = "tapes" if len(quote.tapes) > 1 else "tape"
    return say("customer", containers.sentence("customer", key, kind), count=len(quote.tapes))
