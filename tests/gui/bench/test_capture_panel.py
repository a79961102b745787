"""The file of a tape at the bench, by keys alone: named, read, seen, attached, stopped."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from core.capture import examining
from core.capture.file_report import Report, Sound
from core.model.names import TapeCode
from core.model.stations import Station
from core.services import recordings, tapes
from gui.app.walkthrough_records import FILE
from gui.bench import file_timeline
from gui.bench.bench_screen import BenchScreen
from gui.bench.capture_panel import told
from gui.toolkit.text import say
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.clips import Scene, made
from tests.support.screens import Place, press, press_text, type_in

CTRL = Qt.KeyboardModifier.ControlModifier

REPORT = replace(
    FILE,
    name="tape 1.mp4",
    sha256="ab" * 32,
    remarks=("The sound drops out: 50:00 to 57:00. Check the tape itself before you blame the deck.",),
)


@pytest.fixture(scope="module")
def film(tmp_path_factory: pytest.TempPathFactory) -> Path:
    scenes = [Scene("blue", 4, False, False), Scene("bars", 6)]
    return made(tmp_path_factory.mktemp("films") / "tape.mkv", scenes).path


def _begin(records: Desk) -> None:
    records.bring_to(records.book(line()).tapes[0], Station.BEING_CHECKED)


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def code(place: Place) -> TapeCode:
    (only,) = place.records.shop.ask(tapes.at_work)
    return only.code


@pytest.fixture
def screen(place: Place, code: TapeCode) -> BenchScreen:
    screen = place.turn_to(BenchScreen)
    screen.take(code)
    place.settle()
    return screen


def written(screen: BenchScreen) -> str:
    file = screen.side.file
    return " ".join(label.text() for label in file.findChildren(QLabel) if label.isVisibleTo(file))


def name_file(place: Place, screen: BenchScreen, path: Path) -> None:
    press(Qt.Key.Key_O, CTRL)
    assert QApplication.focusWidget() is screen.side.file.path
    type_in(screen.side.file.path, str(path), enter=True)


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Callable[[], None]:
    """A reading that goes on until it is stopped."""
    began = threading.Event()

    def examine(path: Path, *, told: Callable[[float], None], stop: Callable[[], bool]) -> Report:
        told(0.25)
        began.set()
        for _ in range(2000):
            if stop():
                break
            time.sleep(0.005)
        else:
            raise AssertionError("nobody stopped the reading")
        raise examining.Stopped("Reading the file was stopped; nothing was saved.")

    monkeypatch.setattr(examining, "examine", examine)
    return began.wait


def test_a_file_is_read_seen_and_attached_without_a_mouse(
    place: Place, screen: BenchScreen, code: TapeCode, film: Path
) -> None:
    name_file(place, screen, film)
    place.settle()
    assert "0:00 to 0:04: blue screen, no signal" in written(screen)
    assert "Keep 0:03 to 0:10" in written(screen)

    assert QApplication.focusWidget() is screen.side.file.attach
    press(Qt.Key.Key_Space)
    place.settle()
    (kept,) = place.records.shop.ask(recordings.of_tape, code)
    assert kept.report.name == film.name
    assert place.records.shop.ask(tapes.get, code).played_minutes == pytest.approx(7 / 60, abs=0.01)
    assert QApplication.focusWidget() is screen.box


def test_the_slip_of_a_tape_names_its_file_with_checksum_and_what_is_wrong_with_it(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    place.records.shop.run(recordings.attach, code, REPORT)
    screen.refresh()
    place.settle()
    place.settle()

    card = " ".join(label.text() for label in screen.card.findChildren(QLabel))
    assert "Copied to tape 1.mp4: 1:41:45 long, 4.69 GB; 91.5 minutes to charge" in card
    assert f"SHA-256 {'ab' * 16} {'ab' * 16}" in card
    assert REPORT.remarks[0] in card


def test_the_last_file_is_struck_out_by_keys_and_stays_in_the_history(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    assert screen.side.back_button.isHidden()
    place.records.shop.run(recordings.attach, code, REPORT)
    place.records.shop.run(recordings.attach, code, replace(REPORT, name="of another.mp4", sha256="cd" * 32))
    screen.refresh()
    place.settle()
    place.settle()
    press(Qt.Key.Key_F10)
    assert [piece.title for piece in screen.side.take_back.list.pieces] == ["of another.mp4 is not its file"]
    press(Qt.Key.Key_Return)
    assert "please say why in a few words" in place.told
    press_text("the neighbour's tape")
    press(Qt.Key.Key_Return)
    place.settle()
    place.settle()
    assert [each.report for each in place.records.shop.ask(recordings.of_tape, code)] == [REPORT]
    assert "of another.mp4 is no longer its file" in place.told
    told_of = " ".join(each.words for each in place.records.shop.ask(tapes.history, code))
    assert "the neighbour's tape" in told_of
    assert QApplication.focusWidget() is screen.box


def test_what_is_no_recording_is_told_in_the_banner_and_the_field_is_there_again(
    place: Place, screen: BenchScreen, tmp_path: Path
) -> None:
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear all")
    name_file(place, screen, letter)
    place.settle()

    assert "a recorded file is accepted" in place.told
    assert QApplication.focusWidget() is screen.side.file.path
    assert screen.side.file.path.isEnabled()


def test_no_name_is_asked_for_and_nothing_is_read(place: Place, screen: BenchScreen) -> None:
    press(Qt.Key.Key_O, CTRL)
    press(Qt.Key.Key_Return)
    place.settle()

    assert "the name of a recorded file is accepted" in place.told


def test_escape_stops_the_reading_and_stays_at_the_file(
    place: Place, screen: BenchScreen, film: Path, held: Callable[[], None]
) -> None:
    name_file(place, screen, film)
    held()
    place.qtbot.waitUntil(lambda: screen.side.file.bar.value() == 250)
    assert "Reading tape.mkv: 25%" in written(screen)

    press(Qt.Key.Key_Escape)
    place.settle()
    assert "nothing was saved" in place.told
    assert not screen.side.file.is_reading
    assert screen.side.file.report is None
    assert screen.side.file.isVisible()


def test_another_tape_in_hand_stops_the_reading_and_empties_the_panel(
    place: Place, screen: BenchScreen, film: Path, held: Callable[[], None]
) -> None:
    other = place.records.book(line()).tapes[0].code
    name_file(place, screen, film)
    held()
    screen.take(other)
    place.settle()

    assert not screen.side.file.is_reading
    assert screen.side.file.path.text() == ""
    assert not place.told


def test_the_shop_goes_on_while_a_file_is_read(
    place: Place, screen: BenchScreen, code: TapeCode, film: Path, held: Callable[[], None]
) -> None:
    name_file(place, screen, film)
    held()
    answers: list[object] = []
    place.work.ask(tapes.get, code, then=answers.append)

    place.qtbot.waitUntil(lambda: len(answers) == 1)
    screen.reading.stop()
    place.settle()


def test_closing_the_window_stops_the_reading(
    place: Place, screen: BenchScreen, film: Path, held: Callable[[], None]
) -> None:
    name_file(place, screen, film)
    held()
    place.work.close()

    place.settle()


def test_a_tape_that_has_not_played_is_asked_for_no_file(place: Place, screen: BenchScreen) -> None:
    screen.take(place.records.book(line()).tapes[0].code)
    place.settle()

    assert not screen.side.file_button.isVisible()


def test_remarks_come_first_and_nothing_odd_is_said_too() -> None:
    assert told(REPORT)[0] == (REPORT.remarks[0], "attention")
    clean = replace(REPORT, stretches=(), remarks=(), sound=Sound.PRESENT, keep_from=0.0, keep_to=6105.2)
    lines = [words for words, _ in told(clean)]
    assert say("capture", "nothing_odd") in lines
    assert say("capture", "keep_all") in lines
    assert "1:41:45 long, 4.69 GB" in lines


def test_the_strip_says_in_words_what_it_draws(place: Place, screen: BenchScreen) -> None:
    screen.side.begin_file()
    screen.side.file.show_report(REPORT)

    said = screen.side.file.strip.accessibleDescription()
    assert said.startswith("1:41:45 long. 0:00 to 5:12: blue screen, no signal.")
    assert "50:00 to 57:00: no sound" in said


@pytest.mark.parametrize(("seconds", "room", "last"), [(20, 4, 20), (6105, 4, 5400), (30000, 4, 28800)])
def test_the_scale_has_round_figures_and_not_too_many(seconds: float, room: float, last: int) -> None:
    marks = list(file_timeline.ticks(seconds, room))

    assert marks[0] == 0
    assert marks[-1] == last
    assert len(marks) <= 6
