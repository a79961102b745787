"""By keys alone: a file read at the bench, checked, signed off, handed back; and a splice that is redone."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from core.model.names import Finding, Look, TapeCode
from core.model.stations import Station
from core.services import calls, jobs, repair_attempts, tapes
from core.services.checking import file_checking
from gui.bench.bench_screen import BenchScreen
from gui.pickup.pickup_screen import PickupScreen
from tests.support import pdf
from tests.support.booked import line
from tests.support.clips import Scene, made
from tests.support.screens import Place, press, press_text, scan

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


@pytest.fixture(scope="module")
def clip(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small picture at 25 frames a second: nothing that a tape of this order should become."""
    return made(tmp_path_factory.mktemp("clips") / "tape.mkv", [Scene("bars", 5)]).path


def hand_back(place: Place, code: TapeCode) -> str:
    """The words of the receipt, after the tape was checked off and signed for on paper."""
    place.turn_to(PickupScreen)
    scan(place, code)
    press(Qt.Key.Key_S, ALT)
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    (receipt,) = [path for path in place.shown_files if Path(path).name.startswith("receipt-")]
    return pdf.words(Path(receipt).read_bytes())


def test_a_copy_is_read_checked_signed_off_and_handed_back(place: Place, clip: Path) -> None:
    shop = place.records.shop
    tape = place.records.bring_to(place.records.book(line()).tapes[0], Station.BEING_CHECKED)
    screen = place.turn_to(BenchScreen)
    scan(place, tape.code)
    press(Qt.Key.Key_O, CTRL)
    press_text(str(clip))
    press(Qt.Key.Key_Return)
    place.settle()
    press(Qt.Key.Key_Space)
    place.settle()
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    assert "Ctrl+B" in place.told
    (caller,) = shop.ask(calls.status, tape.code)
    assert "is being checked" in caller.spoken
    press(Qt.Key.Key_B, CTRL)
    place.settle()
    assert [each.key for each in screen.side.check.list.pieces][:2] == ["tv-system", "size"]
    press_text("a preview")
    for _ in range(3):
        press(Qt.Key.Key_Return)
    place.settle()
    found = shop.ask(file_checking.check, tape.code)
    assert found.signed is not None
    assert [(each.code, each.note) for each in found.signed.accepted] == [
        ("tv-system", "a preview"),
        ("size", ""),
    ]
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    (caller,) = shop.ask(calls.status, tape.code)
    assert "the copies are being written" in caller.spoken
    place.records.write_copies(caller.job.number)
    (caller,) = shop.ask(calls.status, tape.code)
    assert "ready" in caller.spoken
    assert "Copy checked by Kim." in hand_back(place, tape.code)
    assert shop.verify() == ()


def test_a_splice_redone_is_on_the_receipt_and_paid_once(place: Place) -> None:
    shop = place.records.shop
    job = place.records.book(line(findings=(Finding.SNAPPED,)))
    code = job.tapes[0].code
    quoted = shop.ask(jobs.reprice, job.number).gross.likely
    for station in (Station.LOOKED_OVER, Station.AT_THE_BENCH):
        shop.run(tapes.move, code, station)
    place.turn_to(BenchScreen)
    scan(place, code)
    for verdict in (Look.AGAIN, Look.OK):
        press(Qt.Key.Key_F7)
        for figure in ("30", "2"):
            press_text(figure)
            press(Qt.Key.Key_Return)
        place.settle()
        shop.run(repair_attempts.look, code, verdict)
        scan(place, code)
    assert shop.ask(jobs.reprice, job.number).gross.likely == quoted
    press(Qt.Key.Key_F8)
    place.settle()
    shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    place.records.bring_to(job.tapes[0], Station.READY)
    said = hand_back(place, code)
    assert said.count("This splice was redone; no charge.") == 1
    assert "redone, no charge (VHS T-120)" in said
