"""The tasks of the desk, done at the real window by keys and by mouse as the flow tests do them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from PySide6.QtCore import QPoint, QPointF, Qt

from core.model.stations import Station
from core.services import tapes
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from tests.bench.typing import wait_until
from tests.klm import spreadsheet_layout
from tests.klm.desk_window import DeskWindow, desk_window
from tests.klm.operators import Deed, Operators, operators
from tests.klm.recorded_deeds import Recorder, click, recorded
from tests.support.booked import line
from tests.support.screens import press, press_text

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
WHO = ("ada fenwick", "5550142")
"""As somebody types who knows that names get their capitals and numbers the area code of the shop."""
LINE = "5vhs t120,3vhsc,hi8 snap,2beta mold,dv"
"""Twelve mixed tapes as somebody types who knows the line."""
CELLS = (
    ("5", "vhs", "t120", ""),
    ("3", "vhsc", ""),
    ("1", "hi8", "snap"),
    ("2", "beta", "mold"),
    ("1", "dv", ""),
)
"""The same tapes cell by cell."""
SHEET = (
    ("5", "vhs", "t120"),
    ("3", "vhsc"),
    ("1", "hi8", "", "snap"),
    ("2", "beta", "", "mold"),
    ("1", "dv"),
)
Play = Callable[[DeskWindow, Recorder], object]


@dataclass(frozen=True, slots=True)
class Task:
    """One task with its goals in seconds; None where there is no such way or goal."""

    name: str
    goal_keys: float | None
    goal_mouse: float | None
    ready: Callable[[DeskWindow], object]
    by_keys: Play
    by_mouse: Play | None
    sheet_by_keys: Sequence[Deed]
    sheet_by_mouse: Sequence[Deed]
    done: Callable[[DeskWindow], bool]
    """Whether the task was really done: a path that fails costs nothing."""

    def played(self, play: Play) -> Operators:
        """The operators of one way, played now in a new window."""
        with desk_window() as desk:
            self.ready(desk)
            desk.settle()
            did = recorded(partial(play, desk))
            desk.settle()
            if not self.done(desk):
                raise AssertionError(f"not done: {self.name}, {desk.told}")
        return operators(did)


# --- taking tapes in ---------------------------------------------------------------------


def _nothing(desk: DeskWindow) -> None:
    """The Counter is empty when the window opens."""


def _by_line(desk: DeskWindow, recorder: Recorder) -> None:
    """Words in the first cell begin the line by themselves."""
    press_text(LINE)
    press(Qt.Key.Key_Return)


def _by_line_and_mouse(desk: DeskWindow, recorder: Recorder) -> None:
    counter = desk.screen(CounterScreen)
    click(counter.parts.line)
    press_text(LINE)
    click(counter.line.panel.add)


def _by_cells(desk: DeskWindow, recorder: Recorder) -> None:
    """Return goes on from cell to cell, F7 to what is wrong; Down ends a row and opens the next one."""
    for number, (*cells, wrong) in enumerate(CELLS):
        if number:
            press(Qt.Key.Key_Down)
        for place, cell in enumerate(cells):
            if place:
                press(Qt.Key.Key_Return)
            press_text(cell)
        if wrong:
            press(Qt.Key.Key_F7)
            press_text(wrong)
        press(Qt.Key.Key_Return)


def _twelve(desk: DeskWindow) -> bool:
    counter = desk.screen(CounterScreen)
    return counter.quote is not None and len(counter.quote.tapes) == 12


def _walk_in(desk: DeskWindow, recorder: Recorder) -> None:
    press_text(f"{LINE};{' '.join(WHO)}")
    desk.settle()
    _tell_and_book()


def _tell_and_book() -> None:
    press(Qt.Key.Key_F8)
    press(Qt.Key.Key_Return, CTRL)


def _known(desk: DeskWindow) -> None:
    """Ada Fenwick has been here."""
    desk.records.book(line(count=2))
    desk.refresh()
    desk.go("counter")


def _walk_in_again(desk: DeskWindow, recorder: Recorder) -> None:
    press_text(f"{LINE};fenw")
    wait_until(lambda: desk.screen(CounterScreen).parts.known.isVisible())
    press(Qt.Key.Key_7, ALT)
    desk.settle()
    _tell_and_book()


def _walk_in_by_mouse(desk: DeskWindow, recorder: Recorder) -> None:
    counter = desk.screen(CounterScreen)
    click(counter.parts.line)
    press_text(f"{LINE};{' '.join(WHO)}")
    desk.settle()
    click(counter.parts.telling.told, QPoint(10, counter.parts.telling.told.height() // 2))
    click(counter.parts.booking_bar.book)


def _booked(desk: DeskWindow) -> bool:
    desk.settle()
    job = desk.screen(CounterScreen).job
    assert job is None or job.customer.phone == "+13035550142", job.customer
    return job is not None and len(job.tapes) == 12 and job.customer.name == "Ada Fenwick"


# --- the phone, the bench, pickup ----------------------------------------------------------


def _order(desk: DeskWindow, station: Station = Station.BOOKED_IN) -> None:
    """Two tapes of Ada Fenwick, both at a station."""
    job = desk.records.book(line(count=2))
    for tape in job.tapes:
        desk.records.bring_to(tape, station)
    desk.codes = tuple(tape.code for tape in job.tapes)
    desk.refresh()


def _ask(desk: DeskWindow, recorder: Recorder) -> None:
    press(Qt.Key.Key_F2)
    press_text("0142")


def _ask_by_mouse(desk: DeskWindow, recorder: Recorder) -> None:
    click(*desk.moment("phone"))
    press_text("0142")


def _answered(desk: DeskWindow) -> bool:
    wait_until(lambda: desk.screen(PhoneScreen).answer.spoken.startswith("Ada"))
    return True


def _at_the_bench(desk: DeskWindow) -> None:
    _order(desk, Station.CLEARED_TO_PLAY)
    desk.go("bench")


def _put_on_deck(desk: DeskWindow, recorder: Recorder) -> None:
    recorder.scan(desk.codes[0])
    desk.settle()
    press(Qt.Key.Key_Return, CTRL)


def _put_on_deck_by_mouse(desk: DeskWindow, recorder: Recorder) -> None:
    recorder.scan(desk.codes[0])
    desk.settle()
    click(desk.main_button())


def _plays(desk: DeskWindow) -> bool:
    return desk.records.shop.ask(tapes.get, desk.codes[0]).station is Station.PLAYING


def _ready_to_go(desk: DeskWindow) -> None:
    _order(desk, Station.READY)
    desk.go("counter")


def _hand_back(desk: DeskWindow, recorder: Recorder) -> None:
    """Claim slip and tapes are scanned, the copy is checked off by hand, the customer signs on the pad.

    The scanner of the task types no prefix, or the slip would open Pickup by itself.
    """
    press(Qt.Key.Key_F4)
    _scan_all(desk, recorder)
    press(Qt.Key.Key_Space)
    _sign(desk)
    press(Qt.Key.Key_Return, CTRL)


def _sign(desk: DeskWindow) -> None:
    """The customer's own time, which no clerk spends: no deed of this task, nor is it one of the sheet's."""
    pad = desk.screen(PickupScreen).parts.slip.signing.pad
    pad._strokes.append([QPointF(10, 20), QPointF(80, 40)])
    pad._redraw()


def _hand_back_by_mouse(desk: DeskWindow, recorder: Recorder) -> None:
    click(*desk.moment("pickup"))
    _scan_all(desk, recorder)
    parts = desk.screen(PickupScreen).parts
    copy = next(n for n, piece in enumerate(parts.tray.pieces) if piece.key.startswith("copy"))
    place = parts.tray.visualRect(parts.tray.model().index(copy, 0))
    click(parts.tray.viewport(), QPoint(12, place.center().y()))
    _sign(desk)
    click(parts.slip.button)


def _scan_all(desk: DeskWindow, recorder: Recorder) -> None:
    for code in (desk.codes[0][:6], *desk.codes):
        recorder.scan(code)
        desk.settle()


def _handed_back(desk: DeskWindow) -> bool:
    desk.settle()
    stations = {desk.records.shop.ask(tapes.get, code).station for code in desk.codes}
    return stations == {Station.HANDED_BACK}


# --- all of them -------------------------------------------------------------------------

TASKS = (
    Task(
        "twelve mixed tapes, in one line",
        *(20.0, 35.0, _nothing, _by_line, _by_line_and_mouse),
        tuple(spreadsheet_layout.rows(SHEET)),
        tuple(spreadsheet_layout.rows(SHEET, by_mouse=True)),
        _twelve,
    ),
    Task(
        "twelve mixed tapes, cell by cell",
        *(20.0, None, _nothing, _by_cells, None),
        tuple(spreadsheet_layout.rows(SHEET)),
        (),
        _twelve,
    ),
    Task(
        "walk-in: who, twelve tapes, told, booked",
        *(20.0, 35.0, _nothing, _walk_in, _walk_in_by_mouse),
        tuple(spreadsheet_layout.walk_in(WHO, SHEET)),
        tuple(spreadsheet_layout.walk_in(WHO, SHEET, by_mouse=True)),
        _booked,
    ),
    Task(
        "walk-in of somebody known: as above",
        *(20.0, None, _known, _walk_in_again, None),
        tuple(spreadsheet_layout.walk_in(WHO, SHEET)),
        (),
        _booked,
    ),
    Task(
        "phone: a caller answered",
        *(4.0, None, _order, _ask, _ask_by_mouse),
        tuple(spreadsheet_layout.look_up("0142")),
        tuple(spreadsheet_layout.look_up("0142", by_mouse=True)),
        _answered,
    ),
    Task(
        "bench: a tape scanned and put on",
        *(3.0, None, _at_the_bench, _put_on_deck, _put_on_deck_by_mouse),
        tuple(spreadsheet_layout.station("00014", "playing")),
        tuple(spreadsheet_layout.station("00014", "playing", by_mouse=True)),
        _plays,
    ),
    Task(
        "pickup: two tapes and their copies handed back",
        *(10.0, None, _ready_to_go, _hand_back, _hand_back_by_mouse),
        tuple(spreadsheet_layout.hand_back("fenwick", 3)),
        tuple(spreadsheet_layout.hand_back("fenwick", 3, by_mouse=True)),
        _handed_back,
    ),
)
