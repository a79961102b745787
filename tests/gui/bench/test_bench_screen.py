"""Bench: scan, look, say what was done, send on; the next scan is always expected."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QComboBox, QPushButton

from core.catalogue import condition
from core.model.deck_showing import Shown
from core.model.names import Finding, FormatName, Join, Speed, TapeCode, TvSystem
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.playtime import cuts
from core.playtime.explanations import Played
from core.services import deck_queue, decks, decks_to_load, repair_record, tapes
from core.wording.locale_figures import tape_code, time_of_day
from gui.bench.bench_screen import BenchScreen
from gui.bench.repair_sentences import seconds
from gui.widgets.layouts import Columns
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.pdf import words as words_of_paper
from tests.support.screens import Place, press, press_text, scan, type_in, written

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


def _begin(records: Desk) -> None:
    records.book(
        line("vhs"),
        line("hi8", marking="P6-120", findings=(Finding.SNAPPED,)),
        line("vhs-c", marking="TC-30"),
    )


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def codes(place: Place) -> list[TapeCode]:
    return [tape.code for tape in place.records.shop.ask(tapes.at_work)]


@pytest.fixture
def screen(place: Place, codes: list[TapeCode]) -> BenchScreen:
    return place.turn_to(BenchScreen)


def kept(place: Place, code: TapeCode) -> TapeRecord:
    return place.records.shop.ask(tapes.get, code)


@pytest.mark.parametrize("place_of_tape", ["at the bench", "playing"])
def test_everything_that_can_be_done_stands_without_scrolling_at_the_usual_size(
    place: Place, screen: BenchScreen, codes: list[TapeCode], place_of_tape: str
) -> None:
    """The two fullest moments: a joint to be looked at and labelled, and a tape that plays."""
    if place_of_tape == "at the bench":
        code = codes[1]
        for station in (Station.LOOKED_OVER, Station.AT_THE_BENCH):
            place.records.shop.run(tapes.move, code, station)
        place.records.shop.run(repair_record.splice, code, at_minutes=5.0, cut_cm=1.0, joined_with=Join.TAPE)
    else:
        code = place.records.bring_to(kept(place, codes[0]), Station.PLAYING).code
    place.window.resize(1280, 800)
    screen.take(code)
    place.settle()
    place.settle()
    columns = screen.findChild(Columns)
    assert isinstance(columns, Columns)
    assert screen.side.after.isVisible() is (place_of_tape == "at the bench")
    assert (columns.verticalScrollBar().maximum(), columns.horizontalScrollBar().maximum()) == (0, 0)


def test_the_box_has_the_keyboard_on_entering(screen: BenchScreen) -> None:
    assert QApplication.focusWidget() is screen.box


def test_the_tray_groups_the_tapes_at_work_by_station(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    place.records.bring_to(kept(place, codes[0]), Station.PLAYING)
    screen.refresh()
    place.settle()
    heads = [piece.title for piece in screen.list.pieces if not piece.key]
    assert heads == ["Playing", "Booked in"]


def test_what_to_load_on_the_free_decks_is_told_and_the_first_is_taken_by_key(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    place.records.bring_to(kept(place, codes[0]), Station.CLEARED_TO_PLAY)
    screen.refresh()
    place.settle()
    told = screen.load_now.told
    ends = place.records.shop.ask(decks_to_load.read)[0].ends
    assert told[0] == f"VHS 1: {tape_code(codes[0])} · VHS T-120, ends about {time_of_day(ends)}"
    assert told[1:] == ("VHS 2, S-VHS, 8 mm: The next tapes are not cleared to play yet.",)
    assert told[0] in screen.load_now.lines.accessibleName()
    assert f"ends about {time_of_day(ends)}" in screen.load_now.lines.text()
    press(Qt.Key.Key_U, ALT)
    place.settle()
    assert screen.tape is not None
    assert screen.tape.code == codes[0]


def test_nothing_is_said_of_loading_while_no_tape_waits_for_a_free_deck(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    assert screen.load_now.isVisible()
    assert not screen.load_now.button.isVisible()
    for code in (codes[0], codes[2]):
        place.records.bring_to(kept(place, code), Station.READY, minutes=60.0)
    place.records.shop.run(decks.broke_down, "8 mm")
    screen.refresh()
    place.settle()
    assert not screen.load_now.isVisible()


def test_a_scan_brings_the_tape_up_with_everything_known(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[1])
    card = written(screen.card)
    assert "Hi8 P6-120" in card
    assert "Snapped" in card
    assert "Careful" in card
    assert "booked in" in card
    assert screen.box.text() == ""


def test_a_scan_is_heard_while_another_field_has_the_keyboard(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[0])
    screen.side.moves.note.setFocus()
    press_text("smells of smoke")
    scan(place, codes[2])
    assert screen.tape is not None
    assert screen.tape.code == codes[2]
    assert codes[2] not in screen.side.moves.note.text()


def test_ten_digits_typed_by_hand_into_a_field_are_no_scan(
    place: Place, screen: BenchScreen, codes: list[TapeCode], monkeypatch: pytest.MonkeyPatch
) -> None:
    scan(place, codes[0])
    times = iter(float(tick) for tick in range(1000))
    monkeypatch.setattr(place.window.scans.watch, "_clock", lambda: next(times))
    screen.side.moves.note.setFocus()
    press_text(codes[2])
    press(Qt.Key.Key_Return)
    place.settle()
    assert screen.tape is not None
    assert screen.tape.code == codes[0]
    assert screen.side.moves.note.text() == codes[2]


def test_a_mistyped_code_is_named_and_stays_in_the_box(place: Place, screen: BenchScreen) -> None:
    scan(place, "0000180015")
    assert "0000180015" in place.told
    assert screen.box.text() == "0000180015"
    assert screen.tape is None


def test_control_return_takes_the_usual_way_and_the_box_waits_for_the_next(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[0])
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    assert kept(place, codes[0]).station is Station.LOOKED_OVER
    assert "looked over" in place.told
    assert QApplication.focusWidget() is screen.box


def test_another_way_has_its_own_key_and_takes_the_note_along(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[0])
    screen.side.moves.note.setFocus()
    press_text("asked whether to go on")
    press(Qt.Key.Key_A, ALT)
    place.settle()
    assert kept(place, codes[0]).station is Station.ASKING_THE_CUSTOMER
    history = place.records.shop.ask(tapes.history, codes[0])
    assert "asked whether to go on" in history[-1].words


def test_a_refused_move_says_why_and_nothing_changes(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[1])
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    press(Qt.Key.Key_C, ALT)
    place.settle()
    assert "Not possible" in place.told
    assert "splice" in place.told
    assert kept(place, codes[1]).station is Station.LOOKED_OVER


def test_a_finding_is_added_with_a_few_letters(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[0])
    press(Qt.Key.Key_F6)
    press_text("moul")
    assert [piece.key for piece in screen.side.findings.list.pieces] == ["mould"]
    press(Qt.Key.Key_Return)
    place.settle()
    assert kept(place, codes[0]).findings == (Finding.MOULD,)
    assert "asthma" in written(screen.card)


def test_every_finding_of_the_list_says_how_it_is_seen(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[0])
    press(Qt.Key.Key_F6)
    offered = screen.side.findings.list.pieces
    possible = condition.possible(FormatName("vhs"))
    assert {piece.key for piece in offered} == {finding.value for finding in possible}
    assert Finding.NITRATE not in possible
    assert all(piece.small for piece in offered)


def test_escape_goes_back_to_the_box_without_keeping_anything(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[0])
    press(Qt.Key.Key_F6)
    press_text("moul")
    press(Qt.Key.Key_Escape)
    place.settle()
    assert QApplication.focusWidget() is screen.box
    assert kept(place, codes[0]).findings == ()


def test_one_button_leads_at_a_time(place: Place, screen: BenchScreen, codes: list[TapeCode]) -> None:
    scan(place, codes[1])
    for key in (None, Qt.Key.Key_F6, Qt.Key.Key_F7, Qt.Key.Key_Escape):
        if key is not None:
            press(key)
        shown = [each for each in screen.side.findChildren(QPushButton) if each.isVisible()]
        leading = [each.text() for each in shown if each.property("role") == "main"]
        assert len(leading) <= 1, leading


def test_the_loss_is_told_before_a_splice_is_kept(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[1])
    press(Qt.Key.Key_F7)
    press_text("12.5")
    press(Qt.Key.Key_Return)
    press_text("3")
    lost = cuts.cut(FormatName("hi8"), Speed.SP, TvSystem.NTSC, 3.0)
    assert seconds(lost.seconds_removed) in screen.side.splice.preview.text()
    assert seconds(lost.seconds_disturbed) in screen.side.splice.preview.text()
    assert kept(place, codes[1]).splices == ()


def test_a_splice_by_keys_makes_the_tape_not_for_reuse(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[1])
    press(Qt.Key.Key_F7)
    press_text("12.5")
    press(Qt.Key.Key_Return)
    press_text("3")
    press(Qt.Key.Key_Return)
    place.settle()
    tape = kept(place, codes[1])
    assert tape.not_for_reuse
    (splice,) = tape.splices
    assert (splice.at_minutes, splice.cut_cm, splice.joined_with) == (12.5, 3.0, Join.TAPE)
    assert "label" in place.told
    assert screen.side.label_button.isVisible()


def test_what_is_no_figure_is_named_at_its_field(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[1])
    press(Qt.Key.Key_F7)
    press_text("twelve")
    press(Qt.Key.Key_Return)
    press_text("3")
    press(Qt.Key.Key_Return)
    place.settle()
    assert "twelve" in place.told
    assert QApplication.focusWidget() is screen.side.splice.at
    assert kept(place, codes[1]).splices == ()


def test_household_adhesive_is_kept_but_advised_against(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[1])
    press(Qt.Key.Key_F7)
    screen.side.splice.joined.setFocus()
    press(Qt.Key.Key_Down)
    assert screen.side.splice.joined.currentData() is Join.ADHESIVE
    assert "creeps" in written(screen.side.splice)


def test_the_label_is_confirmed_by_key(place: Place, screen: BenchScreen, codes: list[TapeCode]) -> None:
    place.records.shop.run(repair_record.splice, codes[1], at_minutes=1.0, cut_cm=0.0, joined_with=Join.TAPE)
    scan(place, codes[1])
    press(Qt.Key.Key_F8)
    place.settle()
    assert kept(place, codes[1]).marked_at is not None
    assert not screen.side.label_button.isVisible()


def test_the_mark_of_one_tape_is_printed(place: Place, screen: BenchScreen, codes: list[TapeCode]) -> None:
    place.records.shop.run(repair_record.splice, codes[1], at_minutes=1.0, cut_cm=0.0, joined_with=Join.TAPE)
    scan(place, codes[1])
    press(Qt.Key.Key_F12)
    place.settle()
    place.settle()
    (path,) = place.shown_files
    assert path.parent == place.desk.papers
    assert "REUSE" in words_of_paper(Path(path).read_bytes()).upper()
    assert str(path) in place.told


def test_what_was_wrong_is_taken_back_and_why(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    place.records.shop.run(repair_record.find, codes[0], (Finding.MOULD,))
    scan(place, codes[0])
    press(Qt.Key.Key_F10)
    press(Qt.Key.Key_Return)
    place.settle()
    assert kept(place, codes[0]).findings == (Finding.MOULD,)
    press_text("dust, wiped off")
    press(Qt.Key.Key_Return)
    place.settle()
    assert kept(place, codes[0]).findings == ()
    assert "dust, wiped off" in place.records.shop.ask(tapes.history, codes[0])[-1].words


def test_a_playing_tape_asks_how_long_it_ran(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    place.records.bring_to(kept(place, codes[0]), Station.PLAYING)
    scan(place, codes[0])
    assert QApplication.focusWidget() is screen.side.moves.minutes
    press_text("87.5")
    press(Qt.Key.Key_Return)
    place.settle()
    tape = kept(place, codes[0])
    assert tape.station is Station.BEING_CHECKED
    assert tape.played_minutes == 87.5


def capture(place: Place) -> Played:
    (played,) = place.records.shop.ask(deck_queue.played)
    return played


def shown_lists(screen: BenchScreen) -> list[str]:
    """What is asked of the deck, as far as it stands on the screen."""
    readout = screen.side.moves.readout
    return [box.objectName() for box in readout.findChildren(QComboBox) if box.isVisible()]


def test_what_the_deck_showed_is_told_by_letters(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    place.records.bring_to(kept(place, codes[0]), Station.PLAYING)
    scan(place, codes[0])
    press_text("200")
    press(Qt.Key.Key_Tab)
    press_text("l")
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    assert (capture(place).speed, capture(place).minutes) == (Speed.LP, 200.0)
    assert (capture(place).recorded_as, capture(place).tv) == (None, None)
    assert "the deck showed LP" in place.records.shop.ask(tapes.history, codes[0])[-1].words


def test_what_nobody_looked_at_is_no_evidence_however_likely(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    place.records.bring_to(kept(place, codes[0]), Station.PLAYING)
    scan(place, codes[0])
    readout = screen.side.moves.readout
    assert readout.speed.currentText() == "Not looked at (SP booked)"
    assert readout.tv.currentText() == "Not looked at (NTSC booked)"
    press_text("118")
    press(Qt.Key.Key_Return)
    place.settle()
    played = capture(place)
    assert (played.speed, played.recorded_as, played.tv) == (None, None, None)


def test_the_likely_answer_is_that_of_the_box(place: Place, screen: BenchScreen) -> None:
    compact = line("vhs-c", 6, marking="TC-30", speed=None)
    job = place.records.book(compact)
    for tape in job.tapes[:5]:
        place.records.bring_to(tape, Station.BEING_CHECKED, minutes=80.0, shown=Shown(speed=Speed.EP))
    place.records.bring_to(job.tapes[5], Station.PLAYING)
    scan(place, job.tapes[5].code)
    assert screen.side.moves.readout.speed.currentText() == "Not looked at (EP likely)"


def test_the_recording_in_an_8_mm_shell_narrows_what_else_may_be(place: Place, screen: BenchScreen) -> None:
    job = place.records.book(line("hi8", marking="P6-120", speed=None))
    place.records.bring_to(job.tapes[0], Station.PLAYING)
    scan(place, job.tapes[0].code)
    assert shown_lists(screen) == ["shown-speed", "shown-system", "shown-tv"]
    readout = screen.side.moves.readout
    readout.system.setFocus()
    press_text("d")
    assert readout.system.currentData() == "digital8"
    assert shown_lists(screen) == ["shown-speed", "shown-system"]  # its speed is the same in both TV systems
    screen.side.moves.minutes.setFocus()
    press_text("60")
    press(Qt.Key.Key_Return)
    place.settle()
    assert capture(place).recorded_as == "digital8"


@pytest.mark.parametrize(
    ("format", "marking", "asked"),
    [
        ("vhs", "T-120", ["shown-speed", "shown-tv"]),
        ("minidv", "DVM60", ["shown-speed", "shown-system"]),
        ("audio-cassette", None, []),
    ],
)
def test_only_what_leaves_a_choice_is_asked(
    place: Place, screen: BenchScreen, format: str, marking: str | None, asked: list[str]
) -> None:
    job = place.records.book(line(format, marking=marking, speed=None))
    place.records.bring_to(job.tapes[0], Station.PLAYING)
    scan(place, job.tapes[0].code)
    assert shown_lists(screen) == asked


def test_the_deck_is_asked_nothing_of_a_tape_that_does_not_play(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    scan(place, codes[0])
    assert shown_lists(screen) == []


def test_in_a_narrow_window_the_minutes_are_in_view_under_a_long_card(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    place.window.resize(640, 400)
    place.records.bring_to(kept(place, codes[0]), Station.PLAYING)
    scan(place, codes[0])
    place.qtbot.waitUntil(lambda: not screen.side.moves.minutes.visibleRegion().isEmpty())


def test_a_deck_can_be_named_and_is_not_offered_twice(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    for code in (codes[0], codes[2]):
        place.records.bring_to(kept(place, code), Station.CLEARED_TO_PLAY)
    screen.refresh()
    place.settle()
    scan(place, codes[0])
    decks = screen.side.moves.deck
    offered = [decks.itemData(row) for row in range(1, decks.count())]
    assert offered
    decks.setFocus()
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    place.settle()
    assert kept(place, codes[0]).deck == offered[0]
    scan(place, codes[2])
    assert offered[0] not in [decks.itemData(row) for row in range(decks.count())]


def test_the_next_tape_can_be_taken_from_the_tray_by_key(
    place: Place, screen: BenchScreen, codes: list[TapeCode]
) -> None:
    screen.list.setFocus()
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Return)
    place.settle()
    assert screen.tape is not None
    assert screen.tape.code == codes[1]


def test_nothing_is_left_to_press_before_a_tape_is_in_hand(screen: BenchScreen) -> None:
    assert not screen.side.isVisible()
    type_in(screen.box, "", enter=True)
    assert screen.tape is None
