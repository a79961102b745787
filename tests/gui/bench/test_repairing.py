"""The repair record at the bench, by keys: places in metres, the leader, what was tried, the look, donors."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QPushButton

from core.model.names import DonorPart, Finding, FormatName, Join, Look, Measure, TapeCode
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import donors, repair_attempts, repair_record, tapes
from core.services.own_shop import shop_document
from gui.bench.bench_screen import BenchScreen
from gui.pickup import pickup_sentences
from gui.toolkit.text import say
from gui.widgets.tray_rows import tape_piece
from tests.support.booked import line
from tests.support.screens import Place, press, press_text, scan, written

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
VHS = FormatName("vhs")


@pytest.fixture
def code(place: Place) -> TapeCode:
    """A VHS tape at SP in a broken shell, at the bench."""
    found = place.records.allow(place.records.book(line(findings=(Finding.SHELL_BROKEN,)))).tapes[0].code
    for station in (Station.LOOKED_OVER, Station.AT_THE_BENCH):
        place.records.shop.run(tapes.move, found, station)
    return found


@pytest.fixture
def screen(place: Place, code: TapeCode) -> BenchScreen:
    made = place.turn_to(BenchScreen)
    scan(place, code)
    return made


def kept(place: Place, code: TapeCode) -> TapeRecord:
    return place.records.shop.ask(tapes.get, code)


def splice(place: Place, where: str, cut: str) -> None:
    press(Qt.Key.Key_F7)
    press_text(where)
    press(Qt.Key.Key_Return)
    press_text(cut)
    press(Qt.Key.Key_Return)
    place.settle()


# --- joints --------------------------------------------------------------------------------


def test_a_splice_after_a_bad_look_is_marked_as_redone_and_the_tick_may_be_taken_out(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    form = screen.side.splice
    splice(place, "30", "2")
    assert form.redone.isHidden()
    for tick, redone in ((True, [False, True]), (False, [False, True, False])):
        place.records.shop.run(repair_attempts.look, code, Look.AGAIN)
        scan(place, code)
        press(Qt.Key.Key_F7)
        assert (form.redone.isVisible(), form.redone.isChecked()) == (True, True)
        form.redone.setChecked(tick)
        press_text("30")
        press(Qt.Key.Key_Return)
        press_text("2")
        press(Qt.Key.Key_Return)
        place.settle()
        assert [each.redone for each in kept(place, code).splices] == redone
    assert written(screen.card).count("Redone, no charge.") == 1


def test_a_key_turns_the_place_to_metres_and_what_was_typed_stays_the_same_place(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    press(Qt.Key.Key_F7)
    press_text("30")
    press(Qt.Key.Key_M, ALT)
    form = screen.side.splice
    # 33.35 mm/s (IEC 60774): 30 minutes are 60.03 m.
    assert form.at.text() == "60.03"
    assert form.at.accessibleName() == say("repair", "at_metres")
    assert QApplication.focusWidget() is form.at
    press_text("60")
    press(Qt.Key.Key_Return)
    press_text("2")
    press(Qt.Key.Key_Return)
    place.settle()
    (joint,) = kept(place, code).splices
    assert (joint.at_metres, joint.measured) == (60.0, Measure.METRES)
    assert "At 60 m (30 min): " in written(screen.card)


def test_the_loss_is_told_live_and_the_leader_is_told_from_the_programme(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    press(Qt.Key.Key_F7)
    press_text("0")
    press(Qt.Key.Key_Return)
    press_text("3")
    form = screen.side.splice
    assert form.preview.text().startswith("In the program, 0 m in: 0.90 s")
    form.joined.setCurrentIndex(form.joined.findData(Join.LEADER))
    assert form.preview.text().startswith(say("repair", "preview_leader"))
    form.cut.setFocus()
    press(Qt.Key.Key_Return)
    place.settle()
    tape = kept(place, code)
    assert tape.splices[0].in_leader
    assert tape.not_for_reuse
    assert "nothing is lost" in place.told
    assert "in the clear leader" in written(screen.card)
    assert "spliced in the clear leader" in pickup_sentences.sentences((tape,))[0]


def test_a_leader_in_the_middle_of_the_programme_is_told_before_it_is_kept(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    press(Qt.Key.Key_F7)
    press_text("40")
    press(Qt.Key.Key_Return)
    press_text("3")
    form = screen.side.splice
    form.section.setCurrentIndex(1)
    assert "the leader lies at the two ends" in form.preview.text()
    press(Qt.Key.Key_Return)
    place.settle()
    assert "the leader lies at the two ends" in place.told
    assert kept(place, code).splices == ()


def test_joints_stand_on_the_card_from_the_head_with_their_sum(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    for where in ("40", "5"):
        splice(place, where, "10")
    card = written(screen.card)
    assert card.index("At 5 min:") < card.index("At 40 min:") < card.index("All 2 splices together")


def test_one_of_two_joints_is_struck_out_and_stays_readable(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    for where in ("40", "5"):
        splice(place, where, "1")
    press(Qt.Key.Key_F10)
    offered = [piece.title for piece in screen.side.take_back.list.pieces]
    assert offered[-2:] == [say("repair", "strike", at="5 min"), say("repair", "strike", at="40 min")]
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Down)
    press_text("typed twice")
    press(Qt.Key.Key_Return)
    place.settle()
    assert [each.at_minutes for each in kept(place, code).splices] == [5]
    lines = {each.text(): each for each in screen.card.findChildren(QLabel) if each.isVisibleTo(screen.card)}
    struck = [text for text, label in lines.items() if label.fontInfo().strikeOut()]
    assert [text[:10] for text in struck] == ["At 40 min:"]
    assert any(text.startswith("Removed by Kim") and "typed twice" in text for text in lines)


def test_what_somebody_else_entered_is_struck_out_by_those_who_may_override(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    splice(place, "40", "1")
    owner = '{may = ["settings", "override"]}'
    place.records.shop.run(
        shop_document.set_texts, [("person.Ada", owner), ("person.Kim", "{}"), ("person.Pat", "{}")]
    )
    place.desk.act_as("Pat")
    press(Qt.Key.Key_F10)
    press(Qt.Key.Key_Down)
    press_text("typed twice")
    press(Qt.Key.Key_Return)
    place.settle()
    assert "Pat may not override what the program decides. Ada can; sign in as Ada." in place.told
    assert len(kept(place, code).splices) == 1
    assert screen.side.take_back.reason.text() == "typed twice"


def test_a_label_that_no_longer_belongs_there_is_asked_off_and_confirmed_by_its_key(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    splice(place, "5", "1")
    press(Qt.Key.Key_F8)
    place.settle()
    press(Qt.Key.Key_F10)
    press(Qt.Key.Key_Down)
    press_text("it was the other tape")
    press(Qt.Key.Key_Return)
    place.settle()
    assert "take the not-for-reuse label off" in place.told
    assert say("repair", "astray") in written(screen.card)
    assert "off" in screen.side.label_button.text()
    press(Qt.Key.Key_F8)
    place.settle()
    assert not kept(place, code).label_astray
    assert not screen.side.label_button.isVisible()


# --- what else was tried -----------------------------------------------------------------------


def test_what_failed_is_kept_by_key(place: Place, screen: BenchScreen, code: TapeCode) -> None:
    press(Qt.Key.Key_R, CTRL)
    press_text("re-anch")
    assert [piece.key for piece in screen.side.repair.list.pieces] == ["re-anchor"]
    screen.side.repair.note.setFocus()
    press_text("the clip is cracked")
    press(Qt.Key.Key_F, ALT)
    place.settle()
    (tried,) = kept(place, code).tried
    assert (tried.code, tried.succeeded, tried.note) == ("re-anchor", False, "the clip is cracked")
    assert "Re-anchor the leader (the clip is cracked): did not work. Kim" in written(screen.card)
    assert "did not work" in place.told


def test_the_repairs_a_tape_needs_stand_first(place: Place, screen: BenchScreen) -> None:
    press(Qt.Key.Key_R, CTRL)
    assert screen.side.repair.list.current == "shell-swap"


def test_a_part_is_taken_from_the_shelf_by_its_count(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    place.records.shop.run(donors.add, VHS, DonorPart.SHELL, 2, came_from="a thrift store")
    scan(place, code)
    press(Qt.Key.Key_R, CTRL)
    form = screen.side.repair
    offered = [form.part.itemText(row) for row in range(form.part.count())]
    assert offered == ["none", "Shell: 2 in stock", "Shell from somewhere else", "Screws from somewhere else"]
    form.part.setCurrentIndex(1)
    form.field.setFocus()
    press(Qt.Key.Key_Return)
    place.settle()
    assert kept(place, code).tried[0].came_from == "a thrift store"
    assert place.records.shop.ask(donors.fitting, VHS)[DonorPart.SHELL] == 1
    assert "Check the tape before you clear it" in place.told


def test_a_part_from_elsewhere_says_from_where(place: Place, screen: BenchScreen, code: TapeCode) -> None:
    press(Qt.Key.Key_R, CTRL)
    form = screen.side.repair
    assert not form.where.isVisible()
    form.part.setCurrentIndex(1)
    assert form.where.isVisible()
    form.where.setFocus()
    press_text("the customer")
    press(Qt.Key.Key_Return)
    place.settle()
    assert kept(place, code).tried[0].came_from == "the customer"


def test_a_splice_that_held_is_sent_to_its_own_form(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    press(Qt.Key.Key_R, CTRL)
    press_text("splice")
    press(Qt.Key.Key_Return)
    place.settle()
    assert not screen.side.repair.held.isEnabled()
    assert "F7" in written(screen.side.repair)
    assert kept(place, code).tried == ()


def test_no_repair_of_that_name_is_complained_about(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    press(Qt.Key.Key_R, CTRL)
    press_text("polish")
    press(Qt.Key.Key_Return)
    assert "polish" in place.told
    assert kept(place, code).tried == ()


def test_a_repair_is_taken_back_and_its_part_lies_on_the_shelf_again(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    place.records.shop.run(donors.add, VHS, DonorPart.SHELL, 1)
    place.records.shop.run(repair_attempts.record, code, "shell-swap", succeeded=True, part=DonorPart.SHELL)
    scan(place, code)
    press(Qt.Key.Key_F10)
    press(Qt.Key.Key_Down)
    press_text("not this one")
    press(Qt.Key.Key_Return)
    place.settle()
    assert kept(place, code).tried == ()
    assert place.records.shop.ask(donors.fitting, VHS)[DonorPart.SHELL] == 1


def test_donors_are_put_on_the_shelf_in_a_window_of_their_own(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    press(Qt.Key.Key_R, CTRL)
    screen.side.repair.shelf.click()
    place.settle()
    shelf = screen.repairing.shelf
    assert shelf.isVisible()
    assert "No parts for VHS in stock yet" in written(shelf)
    shelf.count.setText("half")
    shelf.save.click()
    assert "half" in shelf.trouble.text()
    shelf.count.setText("1.5")
    shelf.save.click()
    assert "whole number" in shelf.trouble.text()
    shelf.count.setText("3")
    shelf.came_from.setText("a box of old films")
    shelf.save.click()
    place.settle()
    place.settle()
    assert "3 × shell from a box of old films" in written(shelf)
    assert "Shell: 3 in stock" in [
        screen.side.repair.part.itemText(row) for row in range(screen.side.repair.part.count())
    ]
    shelf.close()


# --- the look afterwards --------------------------------------------------------------------


def test_a_repaired_tape_is_not_cleared_before_it_was_looked_over(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    splice(place, "5", "1")
    assert screen.side.after.isVisible()
    press(Qt.Key.Key_C, ALT)
    place.settle()
    assert "nobody has looked it over since" in place.told
    assert kept(place, code).station is Station.AT_THE_BENCH
    screen.side.moves.note.setFocus()
    press_text("flush and square")
    press(Qt.Key.Key_G, ALT)
    place.settle()
    assert not screen.side.after.isVisible()
    assert "flush and square" in place.records.shop.ask(tapes.history, code)[-1].words
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    assert kept(place, code).station is Station.CLEARED_TO_PLAY


def test_the_key_that_leads_says_good_after_its_repair_and_then_sends_on(
    place: Place, screen: BenchScreen
) -> None:
    code = place.records.allow(place.records.book(line(findings=(Finding.SNAPPED,)))).tapes[0].code
    for station in (Station.LOOKED_OVER, Station.AT_THE_BENCH):
        place.records.shop.run(tapes.move, code, station)
    scan(place, code)
    assert leading(screen).startswith(say("bench", "lead-splice"))
    assert say("bench", "repairs") in written(screen.card)
    press(Qt.Key.Key_Return, CTRL)
    assert screen.side.splice.isVisible()
    press_text("5")
    press(Qt.Key.Key_Return, CTRL)
    assert screen.side.splice.at.text() == "5", "the form that is open keeps what is typed in it"
    press(Qt.Key.Key_Escape)
    splice(place, "5", "1")
    assert say("bench", "repairs") not in written(screen.card), "done is no longer to do"
    assert leading(screen).startswith(say("bench", "lead-good-after-repair"))
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    after = kept(place, code).after_repair
    assert after is not None
    assert after.look is Look.OK
    assert leading(screen).startswith("Cleared to play")


def leading(screen: BenchScreen) -> str:
    """What the leading button says; empty where nothing leads."""
    button = screen.side.findChild(QPushButton, "move-on")
    assert button is not None
    return button.text() if button.isVisible() else ""


def test_a_ready_tape_is_not_sent_back_by_the_key_that_leads(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    (tape,) = place.records.book(line("vhs")).tapes
    place.records.bring_to(tape, Station.READY)
    scan(place, tape.code)
    assert leading(screen) == ""
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    assert kept(place, tape.code).station is Station.READY
    press(Qt.Key.Key_H, ALT)
    place.settle()
    assert kept(place, tape.code).station is Station.BEING_CHECKED, "its own key still does"


def test_what_is_not_good_yet_stays_at_the_bench(place: Place, screen: BenchScreen, code: TapeCode) -> None:
    place.records.shop.run(repair_record.splice, code, at_minutes=5.0, cut_cm=1.0, joined_with=Join.TAPE)
    scan(place, code)
    press(Qt.Key.Key_X, ALT)
    place.settle()
    after = kept(place, code).after_repair
    assert after is not None
    assert after.look is Look.AGAIN
    assert "needs more work" in written(screen.card)
    assert screen.side.after.isVisible()


# --- room for the forms ---------------------------------------------------------------------


def test_a_form_has_the_room_of_the_buttons_and_their_keys_go_on_working(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    assert screen.side.splice_button.isVisible()
    press(Qt.Key.Key_R, CTRL)
    assert not screen.side.splice_button.isVisible()
    press(Qt.Key.Key_F7)
    assert screen.side.splice.isVisible()
    press(Qt.Key.Key_Escape)
    assert screen.side.splice_button.isVisible()


def test_the_key_of_what_is_not_offered_does_nothing(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    told = place.told
    press(Qt.Key.Key_F8)
    place.settle()
    assert place.told == told
    assert kept(place, code).marked_at is None


def test_a_row_of_a_tray_tells_no_more_of_what_was_mended(place: Place) -> None:
    """What a caller is told about at Phone, and what lies at the bench, is read off these rows."""
    (tape,) = place.records.allow(place.records.book(line(findings=(Finding.SNAPPED,)))).tapes
    assert "snapped" in tape_piece(tape, place.desk.clock()).small
    run = place.records.shop.run
    spliced = run(repair_record.splice, tape.code, at_minutes=5.0, cut_cm=1.0, joined_with=Join.TAPE)
    row = tape_piece(spliced, place.desk.clock())
    assert "snapped" not in row.small
    assert "Not for reuse" in row.band
