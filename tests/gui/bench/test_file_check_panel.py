"""The copy of a tape checked and signed off at the bench, by keys alone."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from core.model.names import TapeCode
from core.model.stations import Station
from core.services import tapes
from core.services.checking import file_checking
from gui.bench.bench_screen import BenchScreen
from gui.toolkit.text import say
from tests.core.capture.copied_file import FILE, PAL_FILE, attach, played
from tests.support.screens import Place, press, press_text, scan, written

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
BAD = replace(PAL_FILE, sound_seconds=6000.4)
"""PAL of a tape that the deck showed to be NTSC, the sound a little longer than the picture."""


@pytest.fixture
def code(place: Place) -> TapeCode:
    return played(place.records)


@pytest.fixture
def screen(place: Place, code: TapeCode) -> BenchScreen:
    attach(place.records, code, BAD)
    made = place.turn_to(BenchScreen)
    scan(place, code)
    return made


def open_check(place: Place) -> None:
    press(Qt.Key.Key_B, CTRL)
    place.settle()


def accept_all(place: Place) -> None:
    open_check(place)
    press_text("her TV at home is PAL")
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Return)
    place.settle()


def test_each_finding_is_accepted_and_the_copy_signed_off_by_keys(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    open_check(place)
    panel = screen.side.check
    assert QApplication.focusWidget() is panel.why
    assert [each.key for each in panel.list.pieces][:2] == ["tv-system", "sound-length"]
    assert "The tape is NTSC, but the file is PAL." in written(panel)
    press_text("her TV at home is PAL")
    press(Qt.Key.Key_Return)
    assert panel.list.current == "sound-length"
    assert "Watch the lips" in written(panel)
    press(Qt.Key.Key_Return)
    assert QApplication.focusWidget() is panel.name
    assert panel.name.text() == "Kim"
    press(Qt.Key.Key_Return)
    place.settle()
    found = place.records.shop.ask(file_checking.check, code)
    assert found.is_signed_off
    assert found.signed is not None
    assert {each.code: each.note for each in found.signed.accepted} == {
        "tv-system": "her TV at home is PAL",
        "sound-length": "",
    }
    assert say("checking", "signed_by", name="Kim") in written(screen.card)
    assert QApplication.focusWidget() is screen.box
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    assert place.records.shop.ask(tapes.get, code).station is Station.READY


def test_a_stop_is_not_accepted_without_a_reason(place: Place, screen: BenchScreen, code: TapeCode) -> None:
    open_check(place)
    press(Qt.Key.Key_Return)
    assert QApplication.focusWidget() is screen.side.check.why
    assert say("file_check", "why") in place.told
    assert screen.side.check.list.pieces[0].checked is False


def test_nothing_is_signed_off_while_a_finding_is_open(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    open_check(place)
    press(Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is screen.side.check.name
    press(Qt.Key.Key_Return)
    place.settle()
    assert QApplication.focusWidget() is screen.side.check.why
    assert place.records.shop.ask(tapes.get, code).signed_off_by is None
    press(Qt.Key.Key_Escape)
    assert not place.told, "the refusal goes first, what was begun stays"
    press(Qt.Key.Key_Escape)
    assert screen.side.check_button.isVisible()


def test_ready_without_a_sign_off_says_which_key_to_press(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    press(Qt.Key.Key_R, ALT)
    place.settle()
    assert "Ctrl+B" in place.told
    assert place.records.shop.ask(tapes.get, code).station is Station.BEING_CHECKED
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    assert screen.side.check.isVisible(), "what leads is the check"


def test_a_sign_off_is_taken_back_with_its_reason(place: Place, screen: BenchScreen, code: TapeCode) -> None:
    accept_all(place)
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    scan(place, code)
    press(Qt.Key.Key_F10)
    assert screen.side.take_back.list.pieces[0].title == say("checking", "not_signed_off", name="Kim")
    press_text("hums near the end")
    press(Qt.Key.Key_Return)
    place.settle()
    tape = place.records.shop.ask(tapes.get, code)
    assert (tape.station, tape.signed_off_by) == (Station.BEING_CHECKED, None)
    assert "hums near the end" in written(screen.card)


def test_a_copy_that_is_fine_needs_only_the_name(place: Place, code: TapeCode) -> None:
    attach(place.records, code, FILE)
    screen = place.turn_to(BenchScreen)
    scan(place, code)
    open_check(place)
    assert QApplication.focusWidget() is screen.side.check.name
    assert screen.side.check.head.text() == say("checking", "head", n=0, files=1)
    press_text("Lou")
    press(Qt.Key.Key_Return)
    place.settle()
    assert place.records.shop.ask(tapes.get, code).signed_off_by == "Lou"


def test_without_a_file_there_is_nothing_to_check(place: Place, code: TapeCode) -> None:
    screen = place.turn_to(BenchScreen)
    scan(place, code)
    assert not screen.side.check_button.isVisible()
