"""Where everything lies on the Counter: form, table and questions at the left, slip and deposit right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QSizePolicy, QWidget

from core.model.errors import WrongInput
from core.model.quote_records import Quote
from gui.counter import tape_table
from gui.counter.amend_panel import AmendPanel
from gui.counter.booking_bar import BookingBar
from gui.counter.booking_dock import BookingDock
from gui.counter.box_form import BoxForm
from gui.counter.box_line_field import BoxLineField
from gui.counter.known_customers import KnownCustomers
from gui.counter.price_ways_panel import PriceWaysPanel
from gui.counter.typed_box import ParsedBox, row_sentence
from gui.tables.keyboard_navigation import KeyboardTable
from gui.tables.rows_model import RowsModel
from gui.toolkit import actions, theme
from gui.toolkit.text import say
from gui.widgets.customer_notices import CustomerNotices
from gui.widgets.hint import Hint
from gui.widgets.improvement_lines import ImprovementLines
from gui.widgets.layouts import Columns, scrolled, stacked, words
from gui.widgets.question_panel import QuestionPanel
from gui.widgets.slip import Slip

SLIP_WIDTH = theme.Length(52)
FOLD_BELOW = 1000
"""Logical pixels under which the slip stands below the tray."""
_FOLDED_SLIP = theme.Length(62)
_MESSAGE, _FOLDED_MESSAGE = theme.Length(4.75), theme.Length(8.5)
_KEYS_HIGH = 4
_HEADING = theme.Length(3.5)


class CounterLayout:
    """Builds the parts into a screen and shows what belongs to several of them."""

    def __init__(self, screen: QWidget, today: Callable[[], date]) -> None:
        self.rows = RowsModel(tape_table.columns(), screen)
        self.table = KeyboardTable(self.rows)
        self.form = BoxForm(today)
        self.message = Hint()
        self.line = BoxLineField()
        self.asking = QuestionPanel()
        self.telling = CustomerNotices()
        self.keys = _keys()
        self.look_over = _tool("tool_look", actions.LOOK_OVER)
        self.measure = _tool("tool_packs", actions.MEASURE)
        self.slip = Slip()
        self.help = ImprovementLines("day-help")
        self.ways = PriceWaysPanel()
        self.booking_bar = BookingBar()
        self.amending = AmendPanel()
        self.known = KnownCustomers()
        self._build(screen)

    # --- showing -------------------------------------------------------------------------

    def show_questions(
        self, quote: Quote | None, rows: Sequence[int] = (), said: tuple[str, ...] = ()
    ) -> None:
        """The next question, what must be told and was not ``said`` yet, or else the keys."""
        self.asking.show_questions(quote.questions if quote else (), rows)
        self.telling.show_quote(quote, said)
        nothing_to_say = self.asking.isHidden() and self.telling.isHidden()
        self.keys.setVisible(nothing_to_say)
        for tool in (self.look_over, self.measure):
            tool.setVisible(not nothing_to_say)  # else the keys themselves are told

    @property
    def where_the_box_is(self) -> tuple[QWidget, ...]:
        """The parts in which the box itself is counted."""
        return self.table, self.form, self.line

    def show_amending(self, is_open: bool) -> None:
        """While an order is changed its differences stand in place of questions and keys."""
        self._below.setVisible(not is_open)
        self.booking_bar.show_amending(is_open)

    def show_booked(self) -> None:
        """A job was booked: nothing to ask or tell, and the keyboard on the next order."""
        self.booking_bar.show_booked()
        self.ways.hide()
        self.show_questions(None)
        self.bring(self.booking_bar.next)

    def show_message(self, reading: ParsedBox | None, failure: WrongInput | None) -> None:
        """One line under the tray: the wrong cell here, else any wrong one, else what belongs here."""
        words_here, wrong = self._words(reading, failure)
        self.message.say(words_here)
        theme.set_style_property(self.message, "ink", "attention" if wrong else "muted")

    @Slot(bool)
    def show_line_open(self, is_open: bool) -> None:
        """While the one line has the keyboard it has the whole row below the tapes to itself."""
        self._beside_line.setVisible(not is_open)
        self.line.show_open(is_open)

    def go_to(self, row: int | None, name: str) -> None:
        """Put the keyboard into a cell, or with ``row`` None into a field beside the tray."""
        if row is None:
            others = {"told": self.telling.told, "deposit": self.booking_bar.deposit, "line": self.line}
            self.bring({**self.form.fields, **others}[name])
        else:
            self.bring(self.table)
            self.table.put_cursor(row, self.rows.column_named(name))

    def bring(self, field: QWidget) -> None:
        """Give a field the keyboard and bring it into sight."""
        self._columns.bring(field)

    def _words(self, reading: ParsedBox | None, failure: WrongInput | None) -> tuple[str, bool]:
        here = self.table.currentIndex()
        complaint = self.rows.complaint(here) if here.isValid() else ""
        if complaint:
            return complaint, True
        if failure is not None:
            return failure.sentence, True
        if reading is not None and reading.wrong:
            row, _, sentence = reading.wrong[0]
            return row_sentence(row, sentence), True
        column = self.rows.columns[here.column()] if here.isValid() else None
        return (column.tip if column is not None and column.hint else ""), False

    # --- building ------------------------------------------------------------------------

    def _build(self, screen: QWidget) -> None:
        self._name()
        columns = self._columns = Columns(FOLD_BELOW)
        columns.add(self._left(), 1)
        columns.add(self._right(), 0)
        whole = stacked(screen)
        whole.addWidget(columns, 1)
        whole.addWidget(self.dock)
        columns.folded.connect(self._fold)

    @Slot(bool)
    def _fold(self, is_narrow: bool) -> None:
        """Below the tapes the slip shows all of itself; what books stays in sight."""
        self.slip.setMinimumHeight(_FOLDED_SLIP.px if is_narrow else 0)
        self.message.setFixedHeight((_FOLDED_MESSAGE if is_narrow else _MESSAGE).px)
        self._slip_area.unroll(is_narrow)
        self.dock.take(is_narrow)

    def _name(self) -> None:
        self.table.setObjectName("tray")
        self.table.setAccessibleName(say("counter", "tray"))
        self.table.setMinimumHeight(_HEADING.px + 5 * theme.ROW + 4)
        self.message.setObjectName("row-message")
        self.message.setFont(theme.font(theme.SMALL))
        self.message.setFixedHeight(_MESSAGE.px)
        self.slip.setObjectName("slip")
        self.booking_bar.setObjectName("booking-bar")
        self.amending.setMinimumHeight(26 * theme.UNIT)

    def _left(self) -> QWidget:
        left = QWidget()
        column = stacked(left, theme.UNIT)
        column.addWidget(self.form)
        column.addWidget(self.known)
        column.addWidget(self.table, 1)
        column.addLayout(self._line_and_message())
        self._below = self._questions()
        column.addWidget(self._below)
        column.addWidget(self.amending)
        return left

    def _line_and_message(self) -> QHBoxLayout:
        """The one line, and beside it what belongs in the cell with the keyboard."""
        self._beside_line = QWidget()
        beside = QHBoxLayout(self._beside_line)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.setSpacing(0)
        beside.addWidget(self.message, 1)
        for tool in (self.look_over, self.measure):
            beside.addWidget(tool, 0, Qt.AlignmentFlag.AlignTop)
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        row.addWidget(self.line, 3)
        row.addWidget(self._beside_line, 8)
        self.line.show_open(False)
        return row

    def _questions(self) -> QWidget:
        panel = QWidget()
        panel.setMinimumHeight(round(18.5 * theme.UNIT))
        row = QHBoxLayout(panel)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(3 * theme.UNIT)
        for part, share in ((self.asking, 7), (self.telling, 4), (self.keys, 11)):
            row.addWidget(part, share)
        return panel

    def _right(self) -> QWidget:
        right = QWidget()
        right.setFixedWidth(SLIP_WIDTH.px)
        column = stacked(right, round(1.5 * theme.UNIT))
        self.dock = BookingDock(self.booking_bar, column)
        self._slip_area = scrolled(self.slip, "slip-area", "slip")
        column.addWidget(self._slip_area, 1)
        column.addWidget(self.help)
        column.addWidget(self.ways)
        self.booking_bar.setFixedHeight(round(8.25 * theme.UNIT))
        column.addWidget(self.booking_bar)
        return right


def _tool(words_on_it: str, key: actions.Key) -> QPushButton:
    """A quiet word beneath the tray for a look at a cassette; its key works anywhere on the Counter."""
    button = QPushButton(f"{say('counter', words_on_it)}   {key.keys}")
    button.setObjectName(f"{key.name}-word")
    button.setAccessibleName(key.words)
    button.setProperty("role", "caption")
    button.setFont(theme.font(theme.SMALL))
    button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    button.setFixedHeight(3 * theme.UNIT)
    return button


def _keys_with_words() -> list[tuple[str, str]]:
    plain = [(say("counter", f"key_{n}"), say("counter", f"key_{n}_does")) for n in (1, 2, 3)]
    return plain + [(key.keys, key.words) for key in actions.OF_THE_TRAY]


def _keys() -> QWidget:
    """The keys of the tray, told while there is nothing to ask or tell."""
    panel = QWidget()
    panel.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
    column = stacked(panel, 4)
    column.addWidget(words(say("counter", "keys"), "field", wrap=False))
    grid = QGridLayout()
    grid.setHorizontalSpacing(2 * theme.UNIT)
    grid.setVerticalSpacing(2)
    for place, (keys, does) in enumerate(_keys_with_words()):
        line, side = place % _KEYS_HIGH, 2 * (place // _KEYS_HIGH)
        name = words(keys, wrap=False)
        name.setProperty("ink", "time")
        grid.addWidget(name, line, side)
        told = words(does, "small")
        told.setProperty("ink", "ink")
        grid.addWidget(told, line, side + 1)
        grid.setColumnStretch(side + 1, 1)
    column.addLayout(grid)
    column.addStretch(1)
    return panel
