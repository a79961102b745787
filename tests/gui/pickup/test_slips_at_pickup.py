"""A slip of the hand at Pickup loses nothing: Esc asks first, every tick can be taken back."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMessageBox

from core.model.errors import Refused
from core.model.job_records import Job
from core.model.stations import Station
from core.services import jobs
from gui.pickup.pickup_screen import PickupScreen
from gui.toolkit.text import say
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.screens import Place, press, scan, type_in

CTRL = Qt.KeyboardModifier.ControlModifier


def _begin(records: Desk) -> None:
    """An order of three tapes that are ready, and an order of somebody else."""
    for tape in records.book(line("vhs"), line("vhs"), line("vhs")).tapes:
        records.bring_to(tape, Station.READY)
    records.book(line("vhs"), name="Somebody Else")


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def job(place: Place) -> Job:
    return next(one for one in place.records.shop.ask(jobs.open_jobs) if len(one.tapes) == 3)


@pytest.fixture
def screen(place: Place, job: Job) -> PickupScreen:
    made = place.turn_to(PickupScreen)
    find(place, made, job.number)
    return made


def find(place: Place, screen: PickupScreen, text: str) -> None:
    screen.parts.box.setFocus()
    type_in(screen.parts.box, text, enter=True)
    place.settle()
    place.settle()


def sign(screen: PickupScreen) -> None:
    pad, button = screen.parts.slip.signing.pad, Qt.MouseButton.LeftButton
    QTest.mousePress(pad, button, Qt.KeyboardModifier.NoModifier, QPoint(40, 60))
    QTest.mouseMove(pad, QPoint(120, 30))
    QTest.mouseRelease(pad, button, Qt.KeyboardModifier.NoModifier, QPoint(120, 30))


def checked(screen: PickupScreen) -> list[str]:
    return [piece.key for piece in screen.parts.tray.pieces if piece.checked]


def question(screen: PickupScreen) -> QMessageBox | None:
    """The question on show, if one is."""
    QApplication.processEvents()
    return next((box for box in screen.findChildren(QMessageBox) if box.isVisible()), None)


def back_in(place: Place) -> None:
    """The window is the one with the keyboard again, which no window system does for it here."""
    place.window.activateWindow()
    place.qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)


def answer(screen: PickupScreen, name: str) -> None:
    box = question(screen)
    assert box is not None
    next(button for button in box.buttons() if button.objectName() == name).click()
    QApplication.processEvents()


def test_escape_closes_the_banner_and_nothing_else(place: Place, screen: PickupScreen, job: Job) -> None:
    place.window.banner.refuse(Refused("No."))
    press(Qt.Key.Key_Escape)
    assert place.told == ""
    assert screen.checklist is not None
    press(Qt.Key.Key_Escape)
    assert screen.checklist is None, "nothing was done yet that could be lost"


def test_escape_asks_before_ticks_and_ink_are_dropped(place: Place, screen: PickupScreen, job: Job) -> None:
    for tape in job.tapes[:2]:
        scan(place, tape.code)
    sign(screen)
    press(Qt.Key.Key_Escape)
    box = question(screen)
    assert box is not None
    assert "2 tapes" in box.text()
    assert "signature" in box.text()
    QTest.keyClick(box, Qt.Key.Key_Escape)
    back_in(place)
    assert question(screen) is None
    assert checked(screen) == [tape.code for tape in job.tapes[:2]]
    assert not screen.parts.slip.signing.pad.is_empty
    press(Qt.Key.Key_Escape)
    answer(screen, "drop")
    assert screen.checklist is None
    back_in(place)
    assert QApplication.focusWidget() is screen.parts.box


def test_ink_alone_is_asked_about(place: Place, screen: PickupScreen) -> None:
    sign(screen)
    press(Qt.Key.Key_Escape)
    answer(screen, "keep")
    assert not screen.parts.slip.signing.pad.is_empty


def test_another_order_asks_before_it_takes_the_place_of_ticks(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    scan(place, job.tapes[0].code)
    find(place, screen, "somebody")
    answer(screen, "keep")
    back_in(place)
    assert checked(screen) == [job.tapes[0].code]
    find(place, screen, "somebody")
    answer(screen, "drop")
    assert screen.checklist is not None
    assert screen.checklist.job.number != job.number


def test_the_order_that_is_open_keeps_its_ticks_when_it_is_found_again(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    scan(place, job.tapes[0].code)
    sign(screen)
    find(place, screen, job.number)
    assert question(screen) is None
    assert checked(screen) == [job.tapes[0].code]
    assert not screen.parts.slip.signing.pad.is_empty


def test_every_tick_can_be_taken_back(place: Place, screen: PickupScreen, job: Job) -> None:
    first, second, _ = (tape.code for tape in job.tapes)
    scan(place, first)
    scan(place, second)
    press(Qt.Key.Key_Down)
    screen.parts.tray.stand_on(first)
    press(Qt.Key.Key_Space)
    assert checked(screen) == [second]
    press(Qt.Key.Key_Z, CTRL)
    assert checked(screen) == [first, second]
    press(Qt.Key.Key_Z, CTRL)
    assert checked(screen) == [first]
    press(Qt.Key.Key_Y, CTRL)
    assert checked(screen) == [first, second]
    for _ in range(3):
        press(Qt.Key.Key_Z, CTRL)
    assert checked(screen) == []


def test_what_went_home_meanwhile_is_not_ticked_again_by_undo(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    first = job.tapes[0].code
    scan(place, first)
    place.records.hand_back(job, [first])
    screen.refresh()
    place.settle()
    press(Qt.Key.Key_Z, CTRL)
    press(Qt.Key.Key_Y, CTRL)
    assert checked(screen) == []


def test_undo_in_a_field_is_that_of_the_field(place: Place, screen: PickupScreen, job: Job) -> None:
    scan(place, job.tapes[0].code)
    signer = screen.parts.slip.signer
    signer.setFocus()
    type_in(signer, "x")
    press(Qt.Key.Key_Z, CTRL)
    assert not signer.text().endswith("x")
    assert checked(screen) == [job.tapes[0].code]


def test_what_was_done_takes_no_key(place: Place, screen: PickupScreen) -> None:
    place.window.banner.say("Done.")
    press(Qt.Key.Key_Escape)
    assert screen.checklist is None, "the key went to the screen"


def test_closing_the_window_asks_before_ticks_and_ink_go(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    scan(place, job.tapes[0].code)
    sign(screen)
    press(Qt.Key.Key_Q, CTRL)
    (box,) = place.window.findChildren(QMessageBox, "closing")
    assert "1 tape checked off" in box.text()
    assert "signature" in box.text()
    QTest.keyClick(box, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert place.window.isVisible(), "to stay is what Return answers"
    assert checked(screen) == [job.tapes[0].code]
    assert not place.window.close()
    (box,) = (each for each in place.window.findChildren(QMessageBox, "closing") if each.isVisible())
    next(each for each in box.buttons() if each.text() == say("window", "closing_lose")).click()
    QApplication.processEvents()
    assert not place.window.isVisible()


def test_closing_asks_nothing_where_nothing_was_done(place: Place, screen: PickupScreen) -> None:
    assert place.window.close()
