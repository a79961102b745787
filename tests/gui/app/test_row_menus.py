"""Rows have a menu, by right click and by the Menu key, with the commands and keys of elsewhere."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QAbstractItemView, QApplication, QMenu, QWidget

from core.model.job_records import Job
from core.model.stations import Station
from core.services import jobs
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import actions
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.screens import Place, press_text

pytestmark = pytest.mark.qt_log_ignore("grabbing the keyboard", extend=True)  # offscreen, a menu cannot


def _begin(records: Desk) -> None:
    for tape in records.book(line("vhs"), line("hi8", marking="P6-120")).tapes:
        records.bring_to(tape, Station.LOOKED_OVER)
    records.book(line("vhs"), name="Somebody Else")


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def job(place: Place) -> Job:
    return next(one for one in place.records.shop.ask(jobs.open_jobs) if len(one.tapes) == 2)


def menu_at(widget: QWidget, spot: QPoint, reason: QContextMenuEvent.Reason) -> dict[str, str]:
    """What the menu that opens there says, each with its key; it is left open."""
    inside = widget.viewport() if isinstance(widget, QAbstractItemView) else widget
    QApplication.sendEvent(inside, QContextMenuEvent(reason, spot, inside.mapToGlobal(spot)))
    menu = opened()
    if menu is None:
        return {}
    told = (each.text().partition("\t") for each in menu.actions())
    return {words: keys for words, _, keys in told}


def opened() -> QMenu | None:
    menus = (each for each in QApplication.topLevelWidgets() if isinstance(each, QMenu))
    return next((each for each in menus if each.isVisible()), None)


def choose(keys: str) -> None:
    menu = opened()
    assert menu is not None
    next(each for each in menu.actions() if each.text().endswith(f"\t{keys}")).trigger()
    menu.close()


BY_MOUSE, BY_KEY = QContextMenuEvent.Reason.Mouse, QContextMenuEvent.Reason.Keyboard


def test_a_row_of_the_tray_offers_what_its_keys_do(place: Place) -> None:
    screen = place.turn_to(CounterScreen)
    table = screen.parts.table
    screen.tray.start_new()
    press_text("3")
    table.commit()
    table.put_cursor(0, 1)
    spot = table.visualRect(table.currentIndex()).center()
    told = menu_at(table, spot, BY_MOUSE)
    for key in (actions.REPEAT, actions.REMOVE, actions.LOOK_OVER, actions.FINDINGS, actions.UNDO):
        assert told[key.words] == key.keys
    assert "F4" in told.values()
    choose(actions.REPEAT.keys)
    assert len(screen.draft.box.rows) == 2
    assert menu_at(table, QPoint(20, table.viewport().height() - 2), BY_MOUSE) == {}, "no row, no menu"


def test_a_tape_at_the_bench_is_taken_up_and_then_offers_its_buttons(place: Place, job: Job) -> None:
    screen = place.turn_to(BenchScreen)
    assert screen.list.stand_on(job.tapes[0].code)
    spot = screen.list.visualRect(screen.list.currentIndex()).center()
    assert set(menu_at(screen.list, spot, BY_KEY).values()) == {"Return", "F2", "F4"}
    choose("Return")
    place.settle()
    place.settle()
    assert screen.tape is not None
    assert screen.tape.code == job.tapes[0].code
    spot = screen.list.visualRect(screen.list.currentIndex()).center()
    told = menu_at(screen.list, spot, BY_MOUSE)
    assert told["Add a finding"] == "F6"
    assert "Ctrl+Return" in told.values()
    choose("Ctrl+Return")
    place.settle()
    assert place.records.shop.ask(jobs.get, job.number).tapes[0].station is Station.CLEARED_TO_PLAY


def test_an_order_at_phone_goes_on_to_its_pickup(place: Place, job: Job) -> None:
    phone, pickup = PhoneScreen(place.desk), PickupScreen(place.desk)
    place.window.add_screens(place.desk, "", {"phone": phone, "pickup": pickup}, first="phone")
    place.window.show()
    phone.box.setText("vhs")
    phone.box.setText(job.number)
    place.settle()
    place.qtbot.waitUntil(lambda: bool(phone.panel.tapes.pieces))
    tapes = phone.panel.tapes
    told = menu_at(tapes, tapes.visualRect(tapes.model().index(0, 0)).center(), BY_MOUSE)
    assert set(told.values()) == {"F3", "F4"}
    choose("F4")
    place.settle()
    place.settle()
    assert place.window.screen_on_show() is pickup
    assert pickup.checklist is not None
    assert pickup.checklist.job.number == job.number


def test_a_promise_in_shop_leads_to_the_answer_for_its_order(place: Place, job: Job) -> None:
    shop, phone = ShopScreen(place.desk), PhoneScreen(place.desk)
    place.window.add_screens(place.desk, "", {"shop": shop, "phone": phone}, first="shop")
    place.window.show()
    place.settle()
    shop.chapters.stand_on("promises")
    place.settle()
    row = shop.findChild(QWidget, f"promise-{job.number}")
    assert isinstance(row, QWidget)
    assert job.customer.name in row.accessibleName()
    assert row.focusPolicy() is Qt.FocusPolicy.StrongFocus
    assert set(menu_at(row, QPoint(8, 8), BY_KEY).values()) == {"F2", "F4"}
    choose("F2")
    place.settle()
    place.qtbot.waitUntil(lambda: job.customer.name.split()[0] in phone.answer.spoken)
