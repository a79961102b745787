"""Pickup: counted back one by one, told, paid, signed; never without the mark, never twice."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from core.capture.file_report import Report, Sound
from core.model.job_records import Job
from core.model.names import Finding, Join
from core.model.stations import Station
from core.services import jobs, pickups, recordings, repair_record, tapes
from core.wording.messages import say
from gui.pickup.pickup_screen import PickupScreen
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.pdf import words as words_of_paper
from tests.support.screens import Place, press, press_text, scan, type_in

REPORT = Report(
    name="garden party.mp4",
    size_bytes=4_690_980_000,
    sha256="ab" * 32,
    seconds=600.0,
    has_picture=True,
    sound=Sound.PRESENT,
    stretches=(),
    keep_from=0.0,
    keep_to=600.0,
    billable_minutes=10.0,
)
CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


def _begin(records: Desk) -> None:
    """Two tapes ready, the second of them spliced and not marked, and one tape still playing."""
    booked = records.book(
        line("vhs"), line("hi8", marking="P6-120", findings=(Finding.SNAPPED,)), line("vhs")
    )
    first, spliced, playing = booked.tapes
    records.bring_to(first, Station.READY)
    records.bring_to(playing, Station.PLAYING)
    records.shop.run(tapes.move, spliced.code, Station.LOOKED_OVER)
    records.shop.run(tapes.move, spliced.code, Station.AT_THE_BENCH)
    records.shop.run(repair_record.splice, spliced.code, at_minutes=12.5, cut_cm=3.0, joined_with=Join.TAPE)
    for station in (Station.CLEARED_TO_PLAY, Station.PLAYING, Station.BEING_CHECKED):
        records.shop.run(tapes.move, spliced.code, station)
    records.shop.run(tapes.move, spliced.code, Station.READY, minutes=spliced.minutes.likely)


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def job(place: Place) -> Job:
    (only,) = place.records.shop.ask(jobs.open_jobs)
    return only


@pytest.fixture
def screen(place: Place, job: Job) -> PickupScreen:
    return place.turn_to(PickupScreen)


def find(place: Place, screen: PickupScreen, text: str) -> None:
    type_in(screen.parts.box, text, enter=True)
    place.settle()
    place.settle()


def hand_back(place: Place) -> None:
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    place.settle()


def kept(place: Place, job: Job) -> Job:
    return place.records.shop.ask(jobs.get, job.number)


def checked(screen: PickupScreen) -> list[str]:
    return [piece.key for piece in screen.parts.tray.pieces if piece.checked]


def label_question(screen: PickupScreen) -> str:
    question = screen.findChild(QLabel, "label-question")
    assert question is not None
    return question.text() if question.isVisible() else ""


def test_a_job_is_found_by_number_and_lies_in_the_tray(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    tape_rows = [piece for piece in screen.parts.tray.pieces if piece.format]
    assert [piece.key for piece in tape_rows] == [tape.code for tape in job.tapes]
    assert [piece.checked for piece in tape_rows] == [False, False, None]
    assert [piece.key for piece in screen.parts.tray.pieces if piece.key.startswith("copy")]


def test_any_tape_of_the_box_leads_to_its_job_and_is_checked_off(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    scan(place, job.tapes[0].code)
    place.settle()
    assert screen.checklist is not None
    assert screen.checklist.job.number == job.number
    assert checked(screen) == [job.tapes[0].code]


def test_a_tape_of_another_job_is_refused_by_name(place: Place, screen: PickupScreen, job: Job) -> None:
    stranger = place.records.book(line("vhs"), name="Somebody Else").tapes[0].code
    find(place, screen, job.number)
    scan(place, stranger)
    assert "belongs to order" in place.told
    assert checked(screen) == []


def test_a_tape_that_is_not_ready_is_not_checked_off(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[2].code)
    assert "playing" in place.told
    assert checked(screen) == []


def test_space_checks_off_and_goes_on_to_the_next(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    press(Qt.Key.Key_Down)
    assert QApplication.focusWidget() is screen.parts.tray
    press(Qt.Key.Key_Space)
    press(Qt.Key.Key_Space)
    assert checked(screen) == [job.tapes[0].code, job.tapes[1].code]
    press(Qt.Key.Key_Up)
    press(Qt.Key.Key_Space)
    assert checked(screen) == [job.tapes[0].code]


def test_a_spliced_tape_carries_the_band_and_is_told_about(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    find(place, screen, job.number)
    row = next(piece for piece in screen.parts.tray.pieces if piece.key == job.tapes[1].code)
    assert row.band.startswith("Not for reuse")
    said = " ".join(screen.parts.slip.sentences)
    assert "12.5 minutes" in said
    assert f"{job.tapes[1].splices[0].seconds_removed:.1f} s" in said
    assert "never play or record" in said


def test_without_its_label_a_spliced_tape_does_not_go_and_the_reason_is_on_screen(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[1].code)
    press(Qt.Key.Key_S, ALT)
    hand_back(place)
    assert "Not possible" in place.told
    assert "label" in place.told
    assert job.tapes[1].code in place.told
    assert kept(place, job).tapes[1].station is Station.READY
    assert place.shown_files == []


def test_the_label_is_confirmed_apart_from_checking_off(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    assert "Hi8 P6-120" in label_question(screen)
    scan(place, job.tapes[1].code)
    assert kept(place, job).tapes[1].marked_at is None
    press(Qt.Key.Key_F8)
    place.settle()
    place.settle()
    assert kept(place, job).tapes[1].marked_at is not None
    assert label_question(screen) == ""
    assert checked(screen) == [job.tapes[1].code]


def test_the_amount_due_is_the_price_less_what_was_paid(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    price = place.records.shop.ask(jobs.reprice, job.number)
    assert screen.parts.slip.paid.minor() == price.gross.likely - job.paid_minor


def test_nobody_signed_is_no_signature(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[0].code)
    hand_back(place)
    assert "Nobody has signed" in place.told
    assert kept(place, job).tapes[0].station is Station.READY


def test_an_empty_counter_is_not_handed_back(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    press(Qt.Key.Key_S, ALT)
    hand_back(place)
    assert "Nothing is checked off" in place.told


def test_an_amount_that_is_none_is_named(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[0].code)
    press(Qt.Key.Key_S, ALT)
    screen.parts.slip.paid.setText("12.345")
    hand_back(place)
    assert "12.345" in place.told
    assert kept(place, job).tapes[0].station is Station.READY


def test_signing_on_paper_is_kept_as_a_name_without_strokes(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[0].code)
    press(Qt.Key.Key_S, ALT)
    hand_back(place)
    handed = place.records.shop.ask(pickups.latest, job.number)
    assert handed is not None
    assert handed.signature.name == "Ada Fenwick"
    assert handed.signature.strokes == ()
    assert [tape.code for tape in handed.handed_back] == [job.tapes[0].code]


def test_a_drawn_signature_is_kept_as_strokes(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[0].code)
    pad, button = screen.parts.slip.signing.pad, Qt.MouseButton.LeftButton
    QTest.mousePress(pad, button, Qt.KeyboardModifier.NoModifier, QPoint(40, 60))
    QTest.mouseMove(pad, QPoint(120, 30))
    QTest.mouseRelease(pad, button, Qt.KeyboardModifier.NoModifier, QPoint(120, 30))
    hand_back(place)
    handed = place.records.shop.ask(pickups.latest, job.number)
    assert handed is not None
    assert len(handed.signature.strokes) == 1


def test_the_receipt_is_written_opened_and_its_path_told(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[0].code)
    press(Qt.Key.Key_S, ALT)
    hand_back(place)
    place.settle()
    (path,) = place.shown_files
    assert path.parent == place.desk.papers
    assert str(path) in place.told
    assert "Ada Fenwick" in words_of_paper(path.read_bytes())


def test_a_receipt_that_cannot_be_written_does_not_undo_the_pickup(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    place.desk.papers.write_text("a file where the folder should be")
    find(place, screen, job.number)
    scan(place, job.tapes[0].code)
    press(Qt.Key.Key_S, ALT)
    hand_back(place)
    place.settle()
    assert "could not be written" in place.told
    assert kept(place, job).tapes[0].station is Station.HANDED_BACK
    place.desk.papers.unlink()
    press(Qt.Key.Key_F7)
    place.settle()
    place.settle()
    assert len(place.shown_files) == 1


def test_what_went_home_cannot_be_handed_back_again(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[0].code)
    press(Qt.Key.Key_S, ALT)
    hand_back(place)
    scan(place, job.tapes[0].code)
    assert "Not possible" in place.told
    assert "handed back" in place.told
    assert checked(screen) == []


def test_a_second_window_cannot_hand_the_same_tape_back(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[0].code)
    place.records.hand_back(job, [job.tapes[0].code])
    press(Qt.Key.Key_S, ALT)
    hand_back(place)
    assert "handed back already" in place.told
    assert place.shown_files == []


def test_one_hand_over_is_carried_out_once_however_often_the_key_is_pressed(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    find(place, screen, job.number)
    scan(place, job.tapes[0].code)
    press(Qt.Key.Key_S, ALT)
    press(Qt.Key.Key_Return, CTRL)
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    place.settle()
    assert len(place.records.shop.ask(pickups.of_job, job.number)) == 1
    assert len(place.shown_files) == 1
    assert place.told.startswith("Done")


def test_the_list_of_files_is_written_when_there_are_any(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    find(place, screen, job.number)
    assert screen.parts.papers.files_button.isHidden()
    place.records.shop.run(recordings.attach, job.tapes[0].code, REPORT)
    screen.refresh()
    place.settle()
    place.settle()
    press(Qt.Key.Key_F12)
    place.settle()
    place.settle()
    (path,) = place.shown_files
    assert path.name == f"files-{job.number}.pdf"
    assert REPORT.name in words_of_paper(path.read_bytes())
    assert str(path) in place.told


def test_what_is_said_is_true_of_the_tapes_of_this_job(place: Place, screen: PickupScreen, job: Job) -> None:
    waiting = place.records.book(line(findings=(Finding.SNAPPED,)), name="Bo Elm")
    find(place, screen, waiting.number)
    assert screen.parts.slip.sentences == (say("pickup", "tell_none"),)
    press(Qt.Key.Key_Escape)
    find(place, screen, job.number)
    spliced = job.tapes[1].code
    place.records.shop.run(repair_record.mark, spliced)
    scan(place, spliced)
    press(Qt.Key.Key_S, ALT)
    hand_back(place)
    for tape in (job.tapes[0],):
        scan(place, tape.code)
        press(Qt.Key.Key_S, ALT)
        hand_back(place)
    assert any("spliced" in sentence for sentence in screen.parts.slip.sentences), (
        "it stays true once it has gone"
    )


def test_several_matches_are_chosen_by_key(place: Place, screen: PickupScreen, job: Job) -> None:
    place.records.book(line("vhs"), name="Ada Fenwick-Ross")
    find(place, screen, "fenwick")
    assert QApplication.focusWidget() is screen.parts.tray
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Return)
    place.settle()
    assert screen.checklist is not None
    assert QApplication.focusWidget() is screen.parts.box


def test_escape_puts_the_box_back(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    press(Qt.Key.Key_Escape)
    assert screen.checklist is None
    assert screen.parts.slip_area.isHidden()
    assert QApplication.focusWidget() is screen.parts.box


def test_a_tape_is_scanned_while_the_name_is_typed(place: Place, screen: PickupScreen, job: Job) -> None:
    find(place, screen, job.number)
    screen.parts.slip.signer.setFocus()
    press_text(job.tapes[0].code)
    press(Qt.Key.Key_Return)
    place.settle()
    assert checked(screen) == [job.tapes[0].code]
    assert screen.parts.slip.signer.text() == "Ada Fenwick"
