"""The scanner is heard on every screen, wherever the keyboard is, and nothing typed is lost by it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from core.model.job_records import Job
from core.model.stations import Station
from core.services import jobs
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.screens import Place, press, press_text, scan


def _begin(records: Desk) -> None:
    for tape in records.book(line("vhs"), line("hi8", marking="P6-120")).tapes:
        records.bring_to(tape, Station.READY)
    records.book(line("vhs"), name="Somebody Else")


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def job(place: Place) -> Job:
    return next(one for one in place.records.shop.ask(jobs.open_jobs) if len(one.tapes) == 2)


def test_at_the_counter_a_scan_in_the_name_is_told_and_leaves_the_name(place: Place, job: Job) -> None:
    screen = place.turn_to(CounterScreen)
    name = screen.parts.form.fields["name"]
    name.setFocus()
    press_text("Ada Fen")
    scan(place, job.tapes[0].code)
    assert name.text() == "Ada Fen"
    assert screen.draft.shown.name == "Ada Fen"
    assert QApplication.focusWidget() is name
    assert "VHS" in place.told
    assert "ready" in place.told


def test_in_the_tray_a_scan_opens_no_cell_and_leaves_an_open_one(place: Place, job: Job) -> None:
    screen = place.turn_to(CounterScreen)
    table = screen.parts.table
    table.setFocus()
    scan(place, job.tapes[0].code)
    assert not table.is_editing
    assert screen.draft.shown.is_empty
    assert "VHS" in place.told
    press_text("3")
    assert table.cells.editor is not None
    scan(place, job.tapes[1].code)
    assert table.cells.editor.text() == "3"
    assert "Hi8" in place.told
    press(Qt.Key.Key_Return)
    assert [row.count for row in screen.draft.box.rows] == ["3"]


def test_a_scan_over_an_open_list_closes_it_again(place: Place, job: Job) -> None:
    screen = place.turn_to(CounterScreen)
    table = screen.parts.table
    table.setFocus()
    press(Qt.Key.Key_Return)
    press_text("hi")
    scan(place, job.tapes[0].code)
    assert table.cells.editor is not None
    assert table.cells.editor.text() == "hi"
    assert "VHS" in place.told


def test_what_was_scanned_at_the_counter_waits_for_the_screen_turned_to(place: Place, job: Job) -> None:
    counter, pickup = CounterScreen(place.desk), PickupScreen(place.desk)
    place.turn_to(CounterScreen)
    place.window.add_screens(place.desk, "", {"counter": counter, "pickup": pickup})
    place.window.go("counter")
    place.settle()
    scan(place, job.tapes[0].code)
    place.window.go("pickup")
    place.settle()
    place.settle()
    assert pickup.checklist is not None
    assert pickup.checklist.codes == (job.tapes[0].code,)


def test_a_code_nobody_knows_is_named(place: Place) -> None:
    place.turn_to(ShopScreen)
    scan(place, "0000990018")
    assert "000099" in place.told


def test_on_the_phone_its_order_is_answered_for(place: Place, job: Job) -> None:
    screen = place.turn_to(PhoneScreen)
    screen.panel.matches.setFocus()
    scan(place, job.tapes[1].code)
    place.settle()
    assert job.customer.name.split()[0] in screen.answer.spoken


def test_on_the_phone_a_form_somebody_types_in_is_not_closed_by_a_scan(place: Place, job: Job) -> None:
    screen = place.turn_to(PhoneScreen)
    screen.box.setText("somebody")
    place.qtbot.waitUntil(lambda: "Somebody" in screen.answer.spoken)
    press(Qt.Key.Key_F7)
    press_text("the deck was out")
    scan(place, job.tapes[1].code)
    assert screen.forms.new_day.isVisible()
    assert screen.forms.new_day.reason.text() == "the deck was out"
    assert "Esc" in place.told


def test_at_pickup_a_scan_in_the_name_of_who_signs_ticks(place: Place, job: Job) -> None:
    screen = place.turn_to(PickupScreen)
    scan(place, job.tapes[0].code)
    place.settle()
    signer = screen.parts.slip.signer
    before = signer.text()
    signer.setFocus()
    scan(place, job.tapes[1].code)
    assert screen.checklist is not None
    assert len(screen.checklist.codes) == 2
    assert (signer.text(), signer.isModified()) == (before, False)


def test_at_the_bench_a_scan_in_the_note_takes_the_tape_up(place: Place, job: Job) -> None:
    screen = place.turn_to(BenchScreen)
    scan(place, job.tapes[0].code)
    screen.side.moves.note.setFocus()
    scan(place, job.tapes[1].code)
    assert screen.tape is not None
    assert screen.tape.code == job.tapes[1].code


@pytest.mark.parametrize("kind", [CounterScreen, ShopScreen])
def test_a_claim_slip_scanned_anywhere_opens_its_pickup(
    place: Place, job: Job, kind: type[CounterScreen | ShopScreen]
) -> None:
    pickup = PickupScreen(place.desk)
    name = kind.name.lower()
    place.window.add_screens(place.desk, "", {name: kind(place.desk), "pickup": pickup}, first=name)
    place.window.show()
    place.window.activateWindow()
    place.settle()
    place.window.scans.watch._clock = lambda: place.key_time
    place.window.scans.watch.prefix = "~"  # six digits alone may be typed
    scan(place, f"~{job.number}")
    assert place.window.screen_on_show() is pickup
    assert pickup.checklist is not None
    assert pickup.checklist.job.number == job.number


def test_after_the_last_tape_space_checks_off_what_bears_no_code(place: Place, job: Job) -> None:
    screen = place.turn_to(PickupScreen)
    for tape in job.tapes:
        scan(place, tape.code)
    assert QApplication.focusWidget() is screen.parts.tray
    press(Qt.Key.Key_Space)
    assert screen.checklist is not None
    assert len(screen.checklist.copies) == 1
    assert len(screen.checklist.codes) == 2


def test_a_tape_scanned_before_the_last_one_leaves_the_keyboard_where_it_is(place: Place, job: Job) -> None:
    screen = place.turn_to(PickupScreen)
    scan(place, job.tapes[0].code)
    assert QApplication.focusWidget() is screen.parts.box
