"""From an empty shop to the signed receipt: the real window on a real file, by key presses alone.

The one thing no key can do is to draw a signature; one of the two stories signs with the pen, the other on
the printed receipt.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog
from pytestqt.qtbot import QtBot

from core.model.job_records import Job
from core.model.names import Finding, JobNumber, Join, TapeCode
from core.model.stations import Station
from core.services import jobs, pickups, tapes
from core.services.own_shop import shop_document
from core.services.records_door import Shop
from gui.app import composition
from gui.app.main_window import Window
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.toolkit import theme
from tests.support.booked import Clock, set_up
from tests.support.pdf import words as words_of_paper
from tests.support.screens import press, press_text

NONE, SHIFT = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier
CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


@dataclass
class Clerk:
    """Somebody at the keyboard of one window, and the shop's records to look the truth up in."""

    window: Window
    shop: composition.CompositionRoot
    books: Shop
    qtbot: QtBot
    opened: list[Path]

    def settle(self) -> None:
        for _ in range(3):
            self.qtbot.waitUntil(lambda: self.shop.desk.work.is_idle)
            QApplication.processEvents()

    def go(self, key: Qt.Key) -> None:
        press(key)
        self.settle()

    def to_counter(self) -> None:
        press(Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier)
        self.settle()

    def tab_back_to(self, name: str) -> None:
        """Shift+Tab until the field has the keyboard."""
        for _ in range(40):
            focus = QApplication.focusWidget()
            if focus is not None and focus.objectName() == name:
                return
            press(Qt.Key.Key_Tab, SHIFT)
        pytest.fail(f"{name} cannot be reached by Shift+Tab")

    def scan(self, code: str) -> None:
        press_text(code)
        press(Qt.Key.Key_Return)
        self.settle()

    def move_on(self) -> None:
        press(Qt.Key.Key_Return, CTRL)
        self.settle()

    def job(self) -> Job:
        return self.books.ask(jobs.get, JobNumber("000018"))

    def station(self, code: TapeCode) -> Station:
        return self.books.ask(tapes.get, code).station

    @property
    def told(self) -> str:
        banner = self.window.banner
        return banner.accessibleName() if banner.sentence else ""


@pytest.fixture
def clerk(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, log_folder: Path) -> Iterator[Clerk]:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    theme.apply(app)
    opened: list[Path] = []
    monkeypatch.setattr(composition, "show_file", opened.append)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    file, clock = tmp_path / "shop.sqlite", Clock()
    set_up(file)
    window = Window()
    qtbot.addWidget(window)
    window.show()
    qtbot.waitExposed(window)
    shop = composition.compose(window, str(file), "Kim", clock, tmp_path / "papers")
    qtbot.waitUntil(lambda: window.screen_on_show() is not None)
    with Shop.open(file, clock=clock, who="Kim") as books:
        at_desk = Clerk(window, shop, books, qtbot, opened)
        window.activateWindow()
        at_desk.settle()
        yield at_desk
        at_desk.settle()
    window.closing.ask_nothing()
    window.close()
    assert not list(log_folder.rglob("*.log")), "something went wrong that only the log tells"


@pytest.fixture
def log_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where an unexpected failure would be written."""
    folder = tmp_path / "log"
    folder.mkdir()
    monkeypatch.setattr(composition, "_log_to_file", lambda: folder / "tapewright.log")
    return folder


def type_box(clerk: Clerk, *rows: Sequence[str]) -> CounterScreen:
    """Ada Fenwick's name and number, then the cells of each row, with the Counter in front."""
    counter = clerk.window.screen_on_show()
    assert isinstance(counter, CounterScreen)
    clerk.tab_back_to("customer-name")
    press_text("Ada Fenwick")
    press(Qt.Key.Key_Return)
    press_text("(303) 555-0142")
    clerk.to_counter()
    press(Qt.Key.Key_Home)
    for cell in (cell for row in rows for cell in row):
        press_text(cell)
        press(Qt.Key.Key_Return)
    return counter


def take_in(clerk: Clerk) -> list[TapeCode]:
    """One sound VHS tape and one snapped Hi8 tape of Ada Fenwick, booked by keys."""
    counter = type_box(
        clerk,
        ("1", "vhs", "t-120", "", "sp", "", "", "Christmas"),
        ("1", "hi8", "p6-120", "hi8", "sp", "", "snapped", "First steps"),
    )
    say_what_must_be_told(clerk, counter)
    clerk.move_on()
    return [tape.code for tape in clerk.job().tapes]


def say_what_must_be_told(clerk: Clerk, counter: CounterScreen) -> None:
    """The customer hears that the snapped tape will not be for reuse; the clerk confirms it by key."""
    clerk.settle()
    assert not counter.parts.telling.is_settled
    press(Qt.Key.Key_Return, CTRL)
    assert clerk.told, "nothing says why the box is not booked"
    assert QApplication.focusWidget() is counter.parts.telling.told
    press(Qt.Key.Key_Space)
    clerk.settle()


def work_through(clerk: Clerk, sound: TapeCode, snapped: TapeCode) -> None:
    """Both tapes along all stations to ready; the snapped one is spliced on its way."""
    clerk.go(Qt.Key.Key_F3)
    assert isinstance(clerk.window.screen_on_show(), BenchScreen)
    clerk.scan(sound)
    clerk.move_on()
    press(Qt.Key.Key_C, ALT)
    clerk.settle()
    assert clerk.station(sound) is Station.CLEARED_TO_PLAY
    clerk.scan(snapped)
    clerk.move_on()
    assert clerk.station(snapped) is Station.LOOKED_OVER
    clerk.move_on()
    assert clerk.station(snapped) is Station.AT_THE_BENCH
    splice(clerk)
    clerk.move_on()
    assert clerk.station(snapped) is Station.AT_THE_BENCH, "nobody has looked at the joint yet"
    press(Qt.Key.Key_G, ALT)
    clerk.settle()
    clerk.move_on()
    assert clerk.station(snapped) is Station.CLEARED_TO_PLAY
    for code, minutes in ((sound, "96"), (snapped, "58.5")):
        clerk.scan(code)
        clerk.move_on()
        assert clerk.station(code) is Station.PLAYING
        clerk.scan(code)
        press_text(minutes)
        clerk.move_on()
        assert clerk.station(code) is Station.BEING_CHECKED
        clerk.move_on()
        assert clerk.station(code) is Station.READY


def splice(clerk: Clerk) -> None:
    press(Qt.Key.Key_F7)
    press_text("12.5")
    press(Qt.Key.Key_Return)
    press_text("3")
    press(Qt.Key.Key_Return)
    clerk.settle()


def find_at_pickup(clerk: Clerk) -> PickupScreen:
    clerk.go(Qt.Key.Key_F4)
    screen = clerk.window.screen_on_show()
    assert isinstance(screen, PickupScreen)
    press_text("fenwick")
    press(Qt.Key.Key_Return)
    clerk.settle()
    assert screen.checklist is not None
    write_copies(clerk)
    return screen


def write_copies(clerk: Clerk) -> None:
    """The form of the copies, opened and closed by key; Return makes each copy, then checks it."""
    press(Qt.Key.Key_J, CTRL)
    clerk.qtbot.waitUntil(lambda: isinstance(QApplication.activeWindow(), QDialog))
    for _ in clerk.job().copies:
        for _ in ("made", "checked"):
            press(Qt.Key.Key_Return)
            clerk.settle()
    assert all(copy.checked for copy in clerk.job().copies)
    press(Qt.Key.Key_Escape)
    clerk.window.activateWindow()
    clerk.settle()


def check_off_copies(clerk: Clerk, screen: PickupScreen) -> None:
    """Down into the tray and on to the copies, then Space for each."""
    press(Qt.Key.Key_Down)
    for _ in screen.parts.tray.pieces:
        if not screen.parts.tray.current.startswith("copy"):
            press(Qt.Key.Key_Down)
    for _ in clerk.job().copies:
        press(Qt.Key.Key_Space)


def hand_back(clerk: Clerk) -> None:
    press(Qt.Key.Key_Return, CTRL)
    clerk.settle()


def test_from_an_empty_shop_to_the_signed_receipt_by_keys_alone(clerk: Clerk) -> None:
    sound, snapped = take_in(clerk)
    job = clerk.job()
    assert job.customer.name == "Ada Fenwick"
    assert [tape.findings for tape in job.tapes] == [(), (Finding.SNAPPED,)]
    work_through(clerk, sound, snapped)
    screen = find_at_pickup(clerk)
    clerk.scan(sound)
    clerk.scan(snapped)
    assert "never play or record" in " ".join(screen.parts.slip.sentences)

    press(Qt.Key.Key_S, ALT)
    hand_back(clerk)
    assert clerk.told.startswith("Not possible")
    assert snapped in clerk.told
    assert "label" in clerk.told
    assert clerk.station(snapped) is Station.READY

    press(Qt.Key.Key_F8)
    clerk.settle()
    check_off_copies(clerk, screen)
    hand_back(clerk)
    assert all(tape.station is Station.HANDED_BACK for tape in clerk.job().tapes)
    assert all(copy.handed_back_at is not None for copy in clerk.job().copies)
    check_receipt(clerk, snapped, with_strokes=False)

    clerk.scan(snapped)
    assert clerk.told.startswith("Not possible")
    assert len(clerk.books.ask(pickups.of_job, clerk.job().number)) == 1


def test_a_customer_signs_with_the_pen_for_a_tape_marked_at_the_bench(clerk: Clerk) -> None:
    sound, snapped = take_in(clerk)
    work_through(clerk, sound, snapped)
    clerk.scan(snapped)
    press(Qt.Key.Key_F8)
    clerk.settle()
    assert clerk.books.ask(tapes.get, snapped).marked_at is not None
    screen = find_at_pickup(clerk)
    clerk.scan(sound)
    clerk.scan(snapped)
    sign(screen)
    hand_back(clerk)
    check_receipt(clerk, snapped, with_strokes=True)


def sign(screen: PickupScreen) -> None:
    pad, button = screen.parts.slip.signing.pad, Qt.MouseButton.LeftButton
    for start, end in ((QPoint(30, 70), QPoint(120, 30)), (QPoint(60, 30), QPoint(150, 80))):
        QTest.mousePress(pad, button, NONE, start)
        QTest.mouseMove(pad, (start + end) / 2)
        QTest.mouseMove(pad, end)
        QTest.mouseRelease(pad, button, NONE, end)


def check_receipt(clerk: Clerk, snapped: TapeCode, *, with_strokes: bool) -> None:
    """The paper says which tape was spliced, what is lost, that it is not for reuse, and who signed."""
    handed = clerk.books.ask(pickups.latest, clerk.job().number)
    assert handed is not None
    assert len(handed.signature.strokes) == (2 if with_strokes else 0)
    receipt = next(path for path in clerk.opened if path.name.startswith("receipt"))
    assert str(receipt) in clerk.told
    paper = words_of_paper(receipt.read_bytes())
    (spliced,) = [tape for tape in handed.handed_back if tape.code == snapped]
    (joint,) = spliced.splices
    assert joint.joined_with is Join.TAPE
    assert re.sub(r"\D", "", snapped) in re.sub(r"\s", "", paper)
    assert "NOT FOR REUSE" in paper.upper()
    assert f"{joint.seconds_removed:.1f} s gone" in paper
    assert f"{joint.seconds_disturbed:.1f} s disturbed" in paper
    assert "Ada Fenwick" in paper


def test_the_prefix_of_the_shop_reaches_the_window(clerk: Clerk) -> None:
    clerk.books.run(shop_document.set_texts, [("work.scanner_prefix", "~")])
    clerk.shop.desk.work.changed.emit(frozenset({"shop"}))
    clerk.settle()
    clerk.settle()
    assert clerk.window.scans.watch.prefix == "~"
