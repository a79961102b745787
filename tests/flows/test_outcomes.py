"""By keys alone: a blank tape, a declined repair and a lost tape, from the bench to the receipt."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton

from core.model.dispositions import Disposition
from core.model.incident_records import IncidentKind, IncidentStep
from core.model.names import Finding, TapeCode
from core.model.stations import Station
from core.services import calls, incidents, jobs, tape_dispositions, tapes
from gui.bench.bench_screen import BenchScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from tests.flows.test_counter_to_receipt import Clerk, clerk, log_folder
from tests.support import pdf
from tests.support.booked import Clock, Desk, line
from tests.support.screens import Place, press, press_text, scan

__all__ = ["clerk", "log_folder"]

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


@pytest.fixture
def codes(place: Place) -> list[TapeCode]:
    """A sound tape that is copied, one that turns out blank, a snapped one, and one that gets lost."""
    job = place.records.book(line(count=2), line(findings=(Finding.SNAPPED,)), line())
    place.records.bring_to(job.tapes[0], Station.READY, minutes=61)
    place.records.bring_to(job.tapes[1], Station.PLAYING)
    return [tape.code for tape in job.tapes]


def settle(place: Place, code: TapeCode, letters: str, note: str = "") -> None:
    scan(place, code)
    press(Qt.Key.Key_T, CTRL)
    press_text(letters)
    press(Qt.Key.Key_Tab)
    press_text(note)
    press(Qt.Key.Key_Return)
    place.settle()


def write_down(place: Place, code: TapeCode, words: str, *, further: int) -> None:
    """One line about a tape that was lost; ``further`` down the list of what can be written."""
    scan(place, code)
    press(Qt.Key.Key_T, CTRL)
    for _ in range(further):
        press(Qt.Key.Key_Down)
    press_text(words)
    press(Qt.Key.Key_Return)
    place.settle()


def print_report(place: Place, code: TapeCode) -> str:
    """The words of the report for the insurer."""
    scan(place, code)
    press(Qt.Key.Key_T, CTRL)
    press(Qt.Key.Key_W, ALT)
    place.settle()
    return pdf.words(Path(place.shown_files[-1]).read_bytes())


def disposition(place: Place, code: TapeCode) -> Disposition | None:
    return place.records.shop.ask(tapes.get, code).disposition


def spoken(place: Place, code: TapeCode) -> str:
    return place.records.shop.ask(calls.status, code[:6])[0].spoken


def hand_back(place: Place, codes: list[TapeCode]) -> str:
    """The words of the receipt, after everything was checked off and signed for on paper."""
    screen = place.turn_to(PickupScreen)
    for code in codes:
        scan(place, code)
    assert screen.checklist is not None
    press(Qt.Key.Key_S, ALT)
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    (receipt,) = [path for path in place.shown_files if Path(path).name.startswith("receipt-")]
    return pdf.words(Path(receipt).read_bytes())


def test_a_blank_and_a_declined_tape_go_home_uncharged(place: Place, codes: list[TapeCode]) -> None:
    place.turn_to(BenchScreen)
    settle(place, codes[1], "nothing")
    settle(place, codes[2], "declined", "she keeps it as it is")
    assert disposition(place, codes[1]) is Disposition.NOTHING_ON_IT
    assert "one is ready, one is blank, one was left as it is" in spoken(place, codes[0])
    price = place.records.shop.ask(jobs.reprice, place.records.shop.ask(jobs.open_jobs)[0].number)
    charged = {each.code: each.amount.likely for each in price.charges}
    assert "repair-splice" not in charged
    said = hand_back(place, codes[:3])
    assert "Nothing on it, not copied" in said
    assert "Not repaired, as you wished" in said
    assert "Copied: 1:01:00" in said
    assert "keeps it as it is" not in said
    assert "One tape is still here" in said


def test_the_list_of_what_is_lost_leads_to_the_tape(clerk: Clerk) -> None:
    """From Shop to the Bench, where the next line is written down."""
    clock = clerk.books.clock
    assert isinstance(clock, Clock)
    tape = Desk(clerk.books, clock, "", "sqlite").book(line(count=2)).tapes[0]
    clerk.books.run(tape_dispositions.settle, tape.code, Disposition.LOST, note="not on its shelf")
    clerk.go(Qt.Key.Key_F5)
    shop = clerk.window.screen_on_show()
    assert isinstance(shop, ShopScreen)
    for _ in shop.chapters.pieces:
        if shop.chapters.current != "incidents":
            press(Qt.Key.Key_Down)
    clerk.settle()
    clerk.qtbot.waitUntil(lambda: shop.page.findChild(QPushButton, f"incident-{tape.code}") is not None)
    for _ in range(20):
        held = QApplication.focusWidget()
        if held is not None and held.objectName() == f"incident-{tape.code}":
            break
        press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Space)
    clerk.settle()
    bench = clerk.window.screen_on_show()
    assert isinstance(bench, BenchScreen)
    assert bench.tape is not None
    assert bench.tape.code == tape.code
    press(Qt.Key.Key_T, CTRL)
    press_text("by phone")
    press(Qt.Key.Key_Return)
    clerk.settle()
    (found,) = clerk.books.ask(incidents.open_ones)
    assert found.next is IncidentStep.SETTLE


def test_a_lost_tape_is_told_settled_and_signed_for(place: Place, codes: list[TapeCode]) -> None:
    place.turn_to(BenchScreen)
    settle(place, codes[3], "lost", "not on its shelf")
    assert disposition(place, codes[3]) is Disposition.LOST
    assert "one we would like to talk to you about" in spoken(place, codes[0])
    assert "shelf" not in spoken(place, codes[0])
    write_down(place, codes[3], "by phone", further=0)
    write_down(place, codes[3], "sixty dollars", further=1)
    told = place.records.shop.ask(incidents.of_tape, codes[3])
    assert told is not None
    assert [(line.kind, line.words) for line in told.lines[1:]] == [
        (IncidentKind.TOLD, "by phone"),
        (IncidentKind.SETTLED, "sixty dollars"),
    ]
    report = print_report(place, codes[3])
    for words in ("not on its shelf", "by phone", "sixty dollars"):
        assert words in report
    place.shown_files.clear()
    settle(place, codes[1], "nothing")
    settle(place, codes[2], "not wanted")
    said = hand_back(place, codes)
    assert "One tape we could not return" in said
    assert "All 3 tapes you get back" in said
    assert "sixty dollars" not in said
    assert not place.records.shop.ask(jobs.open_jobs)
    assert place.records.shop.verify() == ()
