"""Every screen and dialog: each thing within reach has a name, can be hit, and has a key of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QDialog, QPushButton, QVBoxLayout, QWidget

from core.model.names import Finding, FormatName, JobNumber
from core.model.stations import Station
from core.services import jobs, tapes
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.customer_side.customer_window import CustomerSide
from gui.inspection.guided_look import LookOver
from gui.inspection.look_progress import LookSubject
from gui.inspection.pack_tool import PackTool
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from tests.gui.inspection.test_pack_tool import T_120
from tests.support import access
from tests.support.booked import line
from tests.support.screens import Place, press, press_text

SCREENS = (CounterScreen, PhoneScreen, BenchScreen, PickupScreen, ShopScreen)


@pytest.fixture
def whole(place: Place) -> Place:
    """The window with all its screens, as a counter has it, and a job in the shop."""
    job = place.records.book(line(count=2), line("hi8", marking="P6-120", findings=(Finding.SNAPPED,)))
    code = job.tapes[2].code
    for station in (Station.LOOKED_OVER, Station.AT_THE_BENCH):
        place.records.shop.run(tapes.move, code, station)
    place.window.add_screens(
        place.desk, "The Tape Table", {kind.name.lower(): kind(place.desk) for kind in SCREENS}
    )
    place.window.show()
    place.window.activateWindow()
    place.qtbot.waitExposed(place.window)
    place.settle()
    return place


def sweep(window: QWidget) -> None:
    assert access.within_reach(window)
    assert access.without_name(window) == []
    assert access.too_small(window) == []
    assert access.keys_used_twice(window) == {}


def _nothing(place: Place) -> None:
    """The screen as it is found."""


def _a_box(place: Place) -> None:
    for text in ("12", "hi8", "p6-120"):
        press_text(text)
        press(Qt.Key.Key_Return)


def _the_job(place: Place) -> None:
    press_text("000018")
    press(Qt.Key.Key_Return)


def _the_snapped_tape(place: Place) -> None:
    press_text(place.records.shop.ask(jobs.get, JobNumber("000018")).tapes[2].code)
    press(Qt.Key.Key_Return)


STATES: tuple[tuple[str, Callable[[Place], None]], ...] = (
    *((kind.name.lower(), _nothing) for kind in SCREENS),
    ("counter", _a_box),
    ("phone", _the_job),
    ("bench", _the_snapped_tape),
    ("pickup", _the_job),
)


@pytest.mark.parametrize(("name", "fill"), STATES, ids=[f"{name}{fill.__name__}" for name, fill in STATES])
def test_every_screen_can_be_heard_hit_and_reached(
    whole: Place, name: str, fill: Callable[[Place], None]
) -> None:
    whole.window.go(name)
    fill(whole)
    whole.settle()
    whole.settle()
    sweep(whole.window)


def test_every_chapter_of_the_shop_can_be_heard_hit_and_reached(whole: Place) -> None:
    whole.window.go("shop")
    whole.settle()
    shop = whole.window.screen_named("shop")
    assert isinstance(shop, ShopScreen)
    opened = []
    while shop.chapters.current not in opened:
        opened.append(shop.chapters.current)
        assert shop.chapters.hasFocus(), "a chapter took the keyboard away from the list"
        sweep(whole.window)
        press(Qt.Key.Key_Down)
        whole.settle()
    assert len(opened) == len(shop.chapters.pieces) > 5


def test_the_customer_side_says_what_it_shows_and_asks_for_no_key(whole: Place) -> None:
    counter = whole.window.screen_named("counter")
    assert isinstance(counter, CounterScreen)
    side = CustomerSide(whole.window)
    counter.quote_changed.connect(side.show_quote)
    side.show()
    whole.window.activateWindow()
    counter.take_focus()
    _a_box(whole)
    whole.settle()
    assert access.within_reach(side) == [], "the customer has no keyboard"
    assert access.keys_used_twice(side) == {}
    assert counter.quote is not None
    heard = side.slip.accessibleDescription()
    assert all(charge.text in heard for charge in counter.quote.price.charges)
    assert side.slip.accessibleName()
    side.close()


FORMS: tuple[tuple[str, Callable[[Place], None], Qt.Key], ...] = (
    *(("bench", _the_snapped_tape, key) for key in (Qt.Key.Key_F6, Qt.Key.Key_F7, Qt.Key.Key_F10)),
    *(("phone", _the_job, key) for key in (Qt.Key.Key_F6, Qt.Key.Key_F7, Qt.Key.Key_F8)),
    ("pickup", _the_job, Qt.Key.Key_F6),
)


@pytest.mark.parametrize(("name", "fill", "key"), FORMS, ids=[f"{name}-{key.name}" for name, _, key in FORMS])
def test_every_form_can_be_heard_hit_and_reached(
    whole: Place, name: str, fill: Callable[[Place], None], key: Qt.Key
) -> None:
    whole.window.go(name)
    fill(whole)
    whole.settle()
    whole.settle()
    before = set(access.within_reach(whole.window))
    press(key)
    whole.settle()
    assert set(access.within_reach(whole.window)) != before
    sweep(whole.window)


# --- dialogs -----------------------------------------------------------------------------


@pytest.fixture
def look(place: Place) -> Iterator[LookOver]:
    place.window.show()
    opened = LookOver(place.window, short=False)
    opened.begin(LookSubject("0000180014", "VHS T-120", FormatName("vhs")))
    place.qtbot.waitUntil(opened.isActiveWindow)
    yield opened
    opened.hide()


def test_every_step_of_the_look_over_can_be_heard_hit_and_reached(place: Place, look: LookOver) -> None:
    seen = 0
    while look.step is not None:
        sweep(look)
        seen += 1
        press(Qt.Key.Key_Space)
        place.settle()
        assert seen < 20
    sweep(look)
    assert seen > 3


def test_the_pack_tool_can_be_heard_hit_and_reached(place: Place) -> None:
    place.window.show()
    tool = PackTool(place.window, takes_fill=True)
    tool.begin("row", "VHS T-120", T_120, None)
    place.qtbot.waitUntil(tool.isActiveWindow)
    sweep(tool)
    tool.hide()


def test_the_shelf_of_donors_can_be_heard_hit_and_reached(whole: Place) -> None:
    whole.window.go("bench")
    _the_snapped_tape(whole)
    whole.settle()
    bench = whole.window.screen_named("bench")
    assert isinstance(bench, BenchScreen)
    bench.side.repair.shelf.click()
    whole.settle()
    shelf = bench.repairing.shelf
    assert shelf.isVisible()
    sweep(shelf)
    shelf.close()


# --- the sweep itself --------------------------------------------------------------------


def test_the_sweep_finds_what_is_wrong(place: Place) -> None:
    """A list box that only says its choice, a button without words, a small one, two with one key."""
    dialog = QDialog(place.window)
    column = QVBoxLayout(dialog)
    choice, mute, small = QComboBox(), QPushButton(), QPushButton("Small")
    choice.addItem("VHS")
    small.setStyleSheet(f"min-height: 0; padding: 0; border: none; max-height: {access.LEAST - 1}px")
    for widget in (choice, mute, small, QPushButton("&Keep"), QPushButton("Ta&ke")):
        column.addWidget(widget)
    dialog.show()
    assert len(access.without_name(dialog)) == 2
    assert len(access.too_small(dialog)) == 1
    assert list(access.keys_used_twice(dialog)) == ["Alt+K"]
    dialog.hide()
