"""Copies by key presses alone: the customer's own drive is too small, the answer, the stick, the receipt."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QDialog

from core.model.agreement_records import AgreementKind
from core.model.copies.copy_records import CopyState
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.model.stations import Station
from core.services import jobs, pickups
from core.services.agreement import agreement_versions
from gui.agreement.call_card import CallCard
from gui.bench.bench_screen import BenchScreen
from gui.copying.copies_form import CopiesForm
from gui.pickup.pickup_screen import PickupScreen
from tests.flows.test_counter_to_receipt import ALT, CTRL, Clerk, check_off_copies, clerk, log_folder
from tests.support import pdf
from tests.support.booked import Clock, Desk, line
from tests.support.screens import press, press_text

__all__ = ["clerk", "log_folder"]


def _long_tapes(clerk: Clerk) -> Job:
    """Two tapes of six hours each for a drive that the customer brought; all of it is agreed."""
    clock = clerk.books.clock
    assert isinstance(clock, Clock)
    desk = Desk(clerk.books, clock, "", "sqlite", writes_copies=False)
    job = desk.book(line(count=2), deliver=(Delivery("files", "h264", "own-drive"),))
    desk.allow(job)
    for tape in job.tapes:
        desk.bring_to(tape, Station.READY, minutes=360)
    clerk.settle()
    return desk.shop.ask(jobs.get, job.number)


def _form(clerk: Clerk) -> CopiesForm:
    press(Qt.Key.Key_J, CTRL)
    clerk.qtbot.waitUntil(lambda: isinstance(QApplication.activeWindow(), CopiesForm))
    form = QApplication.activeWindow()
    assert isinstance(form, CopiesForm)
    return form


def _close(clerk: Clerk) -> None:
    press(Qt.Key.Key_Escape)
    clerk.window.activateWindow()
    clerk.settle()


def test_an_own_drive_too_small_is_asked_about_and_the_stick_goes_home(clerk: Clerk) -> None:
    job = _long_tapes(clerk)
    clerk.go(Qt.Key.Key_F3)
    clerk.scan(job.tapes[0].code)
    bench = clerk.window.screen_on_show()
    assert isinstance(bench, BenchScreen)
    clerk.qtbot.waitUntil(lambda: "copies are to be written" in bench.price.words)
    form = _form(clerk)
    press(Qt.Key.Key_Return)
    clerk.settle()
    assert "how large the customer’s drive is" in form.told
    form.drive.gigabytes.setFocus()
    press_text("16")
    press(Qt.Key.Key_Tab)
    press_text("exfat")
    press(Qt.Key.Key_D, ALT)
    clerk.settle()
    assert "holds 15.5 GB" in form.told
    press(Qt.Key.Key_P, CTRL)
    clerk.qtbot.waitUntil(lambda: isinstance(QApplication.activeWindow(), CallCard))
    card = QApplication.activeWindow()
    assert isinstance(card, CallCard)
    assert "USB stick, 32 GB" in card.buttons[0].text()
    press(Qt.Key.Key_1, ALT)
    clerk.settle()
    form.activateWindow()
    clerk.settle()
    version = clerk.books.ask(agreement_versions.versions, job.number)[-1]
    assert (version.kind, version.agreed_by) == (AgreementKind.REVISED, "Ada Fenwick")
    assert [copy.code for copy in clerk.job().copies] == ["usb-32"]
    clerk.qtbot.waitUntil(
        lambda: [row.title for row in form.tray.pieces] == ["USB stick, 32 GB: H.264 files"]
    )
    for state in (CopyState.MADE, CopyState.CHECKED):
        press(Qt.Key.Key_Return)
        clerk.settle()
        assert clerk.job().copies[0].state is state
    _close(clerk)
    _collect(clerk, job)


def _collect(clerk: Clerk, job: Job) -> None:
    """Everything goes home; the receipt says what is on the stick and who made it."""
    clerk.go(Qt.Key.Key_F4)
    screen = clerk.window.screen_on_show()
    assert isinstance(screen, PickupScreen)
    press_text(job.number)
    press(Qt.Key.Key_Return)
    clerk.settle()
    for tape in job.tapes:
        clerk.scan(tape.code)
    check_off_copies(clerk, screen)
    press(Qt.Key.Key_S, ALT)
    press(Qt.Key.Key_Return, CTRL)
    clerk.settle()
    handed = clerk.books.ask(pickups.latest, job.number)
    assert handed is not None
    assert [copy.code for copy in handed.copies] == ["usb-32"]
    receipt = next(path for path in clerk.opened if path.name.startswith("receipt"))
    said = pdf.words(receipt.read_bytes())
    assert "1 × USB stick, 32 GB: H.264 files" in said
    assert "On it:" in said
    assert "Not on it" not in said
    assert "Made by Kim on" in said


def test_a_copy_not_made_cannot_be_ticked_and_the_slip_says_so(clerk: Clerk) -> None:
    job = _long_tapes(clerk)
    clerk.go(Qt.Key.Key_F4)
    screen = clerk.window.screen_on_show()
    assert isinstance(screen, PickupScreen)
    press_text(job.number)
    press(Qt.Key.Key_Return)
    clerk.settle()
    check_off_copies(clerk, screen)
    assert screen.checklist is not None
    assert screen.checklist.copies == ()
    assert any("Not there yet" in each for each in screen.parts.slip.sentences)
    assert not isinstance(QApplication.activeWindow(), QDialog)
