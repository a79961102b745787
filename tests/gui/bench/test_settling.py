"""What became of a tape, settled at the bench by keys: declined, lost; opened again; whom a note is for."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from core.model.dispositions import Disposition
from core.model.incident_records import IncidentKind
from core.model.names import Finding, TapeCode
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import incidents, tapes
from gui.bench.bench_screen import BenchScreen
from gui.toolkit.text import say
from tests.support import pdf
from tests.support.booked import line
from tests.support.screens import Place, press, press_text, scan, written

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


@pytest.fixture
def code(place: Place) -> TapeCode:
    return place.records.book(line(findings=(Finding.SNAPPED,)), line()).tapes[0].code


@pytest.fixture
def screen(place: Place, code: TapeCode) -> BenchScreen:
    made = place.turn_to(BenchScreen)
    scan(place, code)
    return made


def kept(place: Place, code: TapeCode) -> TapeRecord:
    return place.records.shop.ask(tapes.get, code)


def settle(place: Place, letters: str, note: str = "", *, tell: bool = False) -> None:
    press(Qt.Key.Key_T, CTRL)
    press_text(letters)
    press(Qt.Key.Key_Tab)
    press_text(note)
    if tell:
        press(Qt.Key.Key_Tab)
        press(Qt.Key.Key_Space)
        press(Qt.Key.Key_Tab, Qt.KeyboardModifier.ShiftModifier)
    press(Qt.Key.Key_Return)
    place.settle()


def test_a_declined_repair_is_settled_by_a_few_letters(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    settle(place, "declin", "keep the case", tell=True)
    tape = kept(place, code)
    assert (tape.disposition, tape.station) == (Disposition.REPAIR_DECLINED, Station.READY)
    assert tape.told_note == "keep the case"
    card = written(screen.card)
    assert say("dispositions", "next-repair-declined") in card
    assert say("bench", "note_for_them", note="keep the case") in card
    assert not screen.side.became_button.isVisible()


def test_a_note_is_for_us_unless_it_is_ticked(place: Place, screen: BenchScreen, code: TapeCode) -> None:
    settle(place, "not wanted", "he was rude")
    assert (kept(place, code).note, kept(place, code).told_note) == ("he was rude", "")
    assert say("bench", "note_for_us", note="he was rude") in written(screen.card)


def test_a_move_may_carry_a_note_for_the_customer(place: Place, screen: BenchScreen, code: TapeCode) -> None:
    screen.side.moves.note.setFocus()
    press_text("which wedding is it?")
    press(Qt.Key.Key_E, ALT)
    press(Qt.Key.Key_A, ALT)
    place.settle()
    tape = kept(place, code)
    assert (tape.station, tape.told_note) == (Station.ASKING_THE_CUSTOMER, "which wedding is it?")
    assert not screen.side.moves.tell.isChecked()


def test_a_lost_tape_needs_what_happened(place: Place, screen: BenchScreen, code: TapeCode) -> None:
    settle(place, "lost")
    assert kept(place, code).disposition is None
    assert QApplication.focusWidget() is screen.side.became.note
    press_text("not on its shelf")
    press(Qt.Key.Key_Return)
    place.settle()
    assert kept(place, code).disposition is Disposition.LOST
    found = place.records.shop.ask(incidents.of_tape, code)
    assert found is not None
    assert (found.opening.kind, found.opening.words) == (IncidentKind.LOST, "not on its shelf")


def test_what_was_settled_is_opened_again_with_the_reason(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    settle(place, "nothing")
    press(Qt.Key.Key_F10)
    press_text("the other side plays")
    press(Qt.Key.Key_Return)
    place.settle()
    assert (kept(place, code).disposition, kept(place, code).station) == (None, Station.LOOKED_OVER)
    assert "the other side plays" in written(screen.card)


def test_copied_is_offered_only_with_minutes_on_record(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    press(Qt.Key.Key_T, CTRL)
    offered = [piece.key for piece in screen.side.became.list.pieces]
    assert offered == [each.value for each in Disposition if not each.is_copied]
    press(Qt.Key.Key_Escape)
    other = place.records.bring_to(kept(place, TapeCode("0000180022")), Station.BEING_CHECKED, minutes=20)
    scan(place, other.code)
    press(Qt.Key.Key_T, CTRL)
    assert Disposition.COPIED_IN_PART.value in [piece.key for piece in screen.side.became.list.pieces]


@pytest.mark.parametrize("disposition", Disposition)
def test_each_has_its_sentence_and_its_next_step(disposition: Disposition) -> None:
    assert say("dispositions", f"counter-{disposition.value}")
    assert say("dispositions", f"next-{disposition.value}")


# --- lost and damaged ----------------------------------------------------------------------


def choose(steps: int) -> None:
    for _ in range(steps):
        press(Qt.Key.Key_Down)


def test_what_is_written_of_a_lost_tape_is_kept_and_printed(
    place: Place, screen: BenchScreen, code: TapeCode, tmp_path: Path
) -> None:
    settle(place, "lost", "not on its shelf")
    photo = tmp_path / "shelf.png"
    Image.new("RGB", (20, 20), "teal").save(photo)
    for steps, said in ((0, "by phone, to Ada"), (3, str(photo)), (1, "sixty dollars")):
        press(Qt.Key.Key_T, CTRL)
        choose(steps)
        press_text(said)
        press(Qt.Key.Key_Return)
        place.settle()
    found = place.records.shop.ask(incidents.of_tape, code)
    assert found is not None
    assert [line.kind for line in found.lines] == [
        *(IncidentKind.LOST, IncidentKind.TOLD, IncidentKind.PHOTO, IncidentKind.SETTLED)
    ]
    kept_as = Path(place.records.where).parent / "photos" / (found.lines[2].photo or "")
    assert kept_as.read_bytes() == photo.read_bytes()
    assert kept(place, code).station is Station.CANNOT_BE_PLAYED
    press(Qt.Key.Key_T, CTRL)
    press(Qt.Key.Key_W, ALT)
    place.settle()
    said = pdf.words(place.shown_files[-1].read_bytes())
    assert "not on its shelf" in said
    assert "sixty dollars" in said


def test_nothing_written_and_no_photo_are_refused(place: Place, screen: BenchScreen, code: TapeCode) -> None:
    settle(place, "damaged", "chewed by deck 2")
    press(Qt.Key.Key_T, CTRL)
    press(Qt.Key.Key_Return)
    choose(3)
    press_text("no/such/file.png")
    press(Qt.Key.Key_Return)
    place.settle()
    found = place.records.shop.ask(incidents.of_tape, code)
    assert found is not None
    assert len(found.lines) == 1
    assert QApplication.focusWidget() is screen.side.incident.field
