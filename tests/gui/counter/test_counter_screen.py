"""The Counter: the slip grows with the tray, the customer is asked and told, and one key books."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QLabel,
    QLineEdit,
    QScrollArea,
    QSpinBox,
    QWidget,
)

from core.model.names import Finding
from core.model.quote_records import Quote
from core.model.spoken_names import spoken
from core.model.typed_draft import TypedBox, TypedRow
from core.services import drafts, jobs, shop_snapshot
from gui.counter.counter_screen import CounterScreen
from gui.toolkit.text import say
from gui.widgets.layouts import Columns
from tests.support.booked import line
from tests.support.counting import ALT, CONTROL, Clerk, clerk_at
from tests.support.screens import Place, press, press_text


@pytest.fixture
def clerk(place: Place) -> Clerk:
    return clerk_at(place)


def message(clerk: Clerk) -> str:
    found = clerk.counter.findChild(QLabel, "row-message")
    assert isinstance(found, QLabel)
    return found.text()


# --- the slip grows ----------------------------------------------------------------------


def test_an_empty_tray_has_no_price_and_nothing_to_book(clerk: Clerk) -> None:
    assert clerk.price == ""
    assert clerk.day == ""
    assert not clerk.button("book").isEnabled()


def test_one_tape_writes_a_price_and_a_day(clerk: Clerk) -> None:
    clerk.count(format="vh")
    assert clerk.price
    assert clerk.day
    assert clerk.button("book").isEnabled()


def test_price_and_day_move_while_a_count_is_still_being_typed(clerk: Clerk) -> None:
    clerk.count(format="vh", marking="t120")
    clerk.counter.parts.table.put_cursor(0, 0)
    before = clerk.price
    press_text("6")
    six = clerk.price
    near = clerk.day
    press_text("0")
    assert len({before, six, clerk.price}) == 3
    far = clerk.day
    assert far != near
    press(Qt.Key.Key_Escape)
    assert clerk.price == before
    assert clerk.day != far


def test_the_price_comes_with_the_key_and_the_day_of_the_same_tapes_follows(clerk: Clerk) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    near = clerk.day
    clerk.counter.parts.table.put_cursor(0, 0)
    small = clerk.price
    press_text("99")
    assert clerk.price != small
    assert not clerk.counter.has_its_day
    assert clerk.day != near
    assert clerk.counter.quote is not None
    assert clerk.counter.quote == whole_quote(clerk)


def whole_quote(clerk: Clerk) -> Quote:
    """Worked out at one go by the one door."""
    shown = clerk.counter.quote
    assert shown is not None
    return clerk.place.records.shop.ask(shop_snapshot.read).quote(shown.inventory, shown.made_at)


def test_the_format_offered_counts_before_it_is_taken(clerk: Clerk) -> None:
    press(Qt.Key.Key_Return)
    press_text("vh")
    assert clerk.price
    assert clerk.counter.draft.box.rows[0].is_empty


def test_the_play_time_stands_in_the_row(clerk: Clerk) -> None:
    clerk.count(format="minidv", marking="dvm60", speed="sp")
    rows = clerk.counter.parts.rows
    assert rows.index(0, rows.column_named("minutes")).data().endswith("min")


def test_a_name_or_a_label_does_not_make_a_new_quote(clerk: Clerk) -> None:
    clerk.count(format="vh")
    clerk.wait_for_the_day()
    before = clerk.counter.quote
    clerk.name_the_customer("Ada Fenwick")
    assert clerk.counter.quote is before


def test_the_quote_is_made_against_the_queue_of_now(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh", marking="t120")
    before = clerk.day
    place.records.book(line(count=60))
    place.work.changed.emit(frozenset({"jobs"}))
    place.settle()
    assert clerk.day != before


# --- wrong text --------------------------------------------------------------------------


def test_wrong_text_stays_and_is_told_what_is_accepted(clerk: Clerk) -> None:
    clerk.count(format="vh", marking="T-999")
    assert clerk.cell_texts[0][2] == "T-999"
    assert "T-120" in message(clerk)
    assert clerk.price


def test_a_wrong_cell_is_not_booked_and_the_keyboard_goes_there(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh", marking="T-999")
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    assert "Row 1" in place.told
    here = clerk.counter.parts.table.currentIndex()
    assert (here.row(), here.column()) == (0, clerk.counter.parts.rows.column_named("marking"))
    assert place.records.shop.ask(jobs.open_jobs) == ()


# --- rows and steps ----------------------------------------------------------------------


def test_control_d_repeats_the_row_above_without_its_label(clerk: Clerk) -> None:
    clerk.count(count="6", format="vh", marking="t120", label="Birthdays")
    press(Qt.Key.Key_D, CONTROL)
    assert clerk.cell_texts[1] == ["6", "VHS", "T-120", "", "", "", "", ""]


def test_control_delete_takes_a_row_out_and_control_z_brings_it_back(clerk: Clerk) -> None:
    clerk.count(format="vh")
    clerk.count(format="hi8")
    clerk.counter.parts.table.put_cursor(0, 0)
    both = clerk.cell_texts
    press(Qt.Key.Key_Delete, CONTROL)
    assert clerk.cell_texts == both[1:]
    press(Qt.Key.Key_Z, CONTROL)
    assert clerk.cell_texts == both
    press(Qt.Key.Key_Y, CONTROL)
    assert clerk.cell_texts == both[1:]


def test_delete_clears_a_cell(clerk: Clerk) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    clerk.counter.parts.table.put_cursor(0, 2)
    press(Qt.Key.Key_Delete)
    assert clerk.cell_texts[0][:3] == ["2", "VHS", ""]


def test_a_new_box_can_be_undone(clerk: Clerk) -> None:
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    clerk.counter.take_focus()
    before = clerk.counter.draft.box
    press(Qt.Key.Key_N, CONTROL)
    assert clerk.counter.draft.box.is_empty
    press(Qt.Key.Key_Z, CONTROL)
    assert clerk.counter.draft.box == before
    assert clerk.field("customer-name").text() == "Ada Fenwick"


def test_an_empty_last_row_lets_the_keyboard_out(clerk: Clerk) -> None:
    clerk.count(format="vh")
    for _ in range(8):
        press(Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is clerk.field("deposit")


# --- asking and telling ------------------------------------------------------------------


def test_the_question_about_the_shell_is_answered_with_one_key(clerk: Clerk) -> None:
    clerk.count(count="2", format="hi8", marking="p6120")
    clerk.wait_for_the_day()
    asking = clerk.counter.parts.asking
    assert asking.isVisible()
    while asking.question is not None and "Digital8" not in asking.question.text:
        press(Qt.Key.Key_0, ALT)
    assert "Digital8" in clerk.button("answer-1").accessibleName()
    before = clerk.price
    press(Qt.Key.Key_1, ALT)
    assert clerk.cell_texts[0][3] == "Digital8"
    assert clerk.price != before
    clerk.wait_for_the_day()
    assert asking.question is None or "Digital8" not in asking.question.text


def test_a_marking_against_the_box_is_asked_first_and_answered_with_one_key(clerk: Clerk) -> None:
    clerk.count(count="3", format="vhs", marking="e180")
    press(Qt.Key.Key_V, ALT)
    press_text("NTSC")
    press(Qt.Key.Key_Return)
    clerk.wait_for_the_day()
    asking = clerk.counter.parts.asking
    assert asking.question is not None
    assert "PAL marking, NTSC order" in asking.question.text
    assert "PAL" in clerk.button("answer-1").accessibleName()
    before = clerk.price
    press(Qt.Key.Key_1, ALT)
    assert clerk.cell_texts[0][5] == "PAL"
    assert clerk.price != before
    clerk.wait_for_the_day()
    assert asking.question is None or "marking" not in asking.question.text


def test_a_question_can_be_put_off(clerk: Clerk) -> None:
    clerk.count(format="hi8")
    clerk.count(format="video8")
    clerk.wait_for_the_day()
    asking = clerk.counter.parts.asking
    first = asking.question
    press(Qt.Key.Key_0, ALT)
    assert asking.question != first
    for _ in range(1, len(clerk.counter.quote.questions) if clerk.counter.quote else 1):
        press(Qt.Key.Key_0, ALT)
    assert asking.question == first


def test_an_answer_may_hold_for_some_tapes_of_a_row(clerk: Clerk) -> None:
    clerk.count(count="5", format="vh", marking="t120", label="Lake")
    clerk.wait_for_the_day()
    asking = clerk.counter.parts.asking
    while asking.question is not None and "what speed" not in asking.question.text:
        press(Qt.Key.Key_0, ALT)
    press(Qt.Key.Key_M, ALT)
    assert QApplication.focusWidget() is clerk.counter.findChild(QSpinBox, "how-many")
    press_text("2")
    press(Qt.Key.Key_3, ALT)
    told, rest = clerk.counter.draft.box.rows[:2]
    assert (told.count, told.speed, told.label) == ("2", "EP", "Lake")
    assert (rest.count, rest.speed, rest.label) == ("3", "", "Lake")
    assert rest.marking == told.marking == "T-120"
    clerk.wait_for_the_day()
    assert clerk.counter.quote is not None
    assert {asked.line for asked in clerk.counter.quote.questions if "what speed" in asked.text} == {2}

    clerk.counter.tray.undo()
    (back,) = (row for row in clerk.counter.draft.box.rows if not row.is_empty)
    assert (back.count, back.speed) == ("5", "")


def test_one_tape_is_not_asked_how_many_an_answer_holds_for(clerk: Clerk) -> None:
    clerk.count(count="1", format="vh", marking="t120")
    clerk.wait_for_the_day()
    many = clerk.counter.findChild(QSpinBox, "how-many")
    assert isinstance(many, QSpinBox)
    assert not many.isVisible()
    clerk.counter.draft.write(0, "count", "4")
    clerk.wait_for_the_day()
    assert many.isVisible()
    assert (many.value(), many.maximum(), many.text()) == (4, 4, "4 of 4")
    press(Qt.Key.Key_1, ALT)
    assert [row.count for row in clerk.counter.draft.box.rows if not row.is_empty] == ["4"]


def test_an_answer_about_fill_or_origin_is_kept_with_its_row(clerk: Clerk) -> None:
    clerk.count(count="20", format="vh", marking="t120")
    clerk.wait_for_the_day()
    asking = clerk.counter.parts.asking
    answered = 0
    while asking.question is not None and answered < 6:
        wide = clerk.counter.quote
        press(Qt.Key.Key_1, ALT)
        assert clerk.counter.quote != wide
        clerk.wait_for_the_day()
        answered += 1
    row = clerk.counter.draft.box.rows[0]
    assert row.fill is not None or row.origin is not None
    clerk.counter.draft.write(0, "label", "Lake")
    changed = clerk.counter.draft.box.rows[0]
    assert (changed.fill, changed.origin) == (row.fill, row.origin)


def test_what_cannot_be_restored_must_be_said_before_booking(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh", marking="t120", findings="scratched")
    clerk.name_the_customer("Ada Fenwick")
    said = clerk.counter.findChild(QLabel, "to-tell")
    assert isinstance(said, QLabel)
    assert "1 × VHS" in said.text()
    clerk.book()
    assert say("counter", "need_told") in place.told
    assert place.records.shop.ask(jobs.open_jobs) == ()
    clerk.say_and_tick()
    clerk.book()
    assert len(place.records.shop.ask(jobs.open_jobs)) == 1


def test_a_new_sentence_takes_the_tick_away(clerk: Clerk) -> None:
    clerk.count(format="vh", findings="scratched")
    clerk.say_and_tick()
    assert clerk.counter.parts.telling.is_settled
    clerk.count(format="vh", findings="mould")
    assert not clerk.counter.parts.telling.is_settled
    assert not clerk.counter.parts.telling.told.isChecked()


def test_a_snapped_tape_wears_the_band_in_its_row(clerk: Clerk) -> None:
    clerk.count(format="vh", findings="sn")
    assert clerk.counter.parts.rows.rows[0].not_for_reuse
    clerk.count(format="vh", findings="mould")
    assert not clerk.counter.parts.rows.rows[1].not_for_reuse


# --- the fields beside the tray ----------------------------------------------------------


def test_copies_tv_and_a_day_are_offered_while_they_are_typed(clerk: Clerk) -> None:
    clerk.count(format="vh")
    press(Qt.Key.Key_C, ALT)
    press_text("dvd")
    press(Qt.Key.Key_Return)
    press_text("13 mar")
    press(Qt.Key.Key_Return)
    assert clerk.counter.quote is not None
    inventory = clerk.counter.quote.inventory
    assert [delivery.kind for delivery in inventory.deliver] == ["dvd"]
    assert inventory.needed_by == date(2026, 3, 13)


def test_the_slip_is_written_after_the_echo_of_the_key(clerk: Clerk) -> None:
    clerk.count(format="vh")
    clerk.look()
    before = clerk.counter.parts.slip.price_words
    clerk.counter.draft.write(0, "count", "7")
    assert not clerk.counter.slip_is_written
    assert clerk.counter.parts.slip.price_words == before
    clerk.look()
    assert clerk.counter.parts.slip.price_words != before


def test_rush_costs_more(clerk: Clerk) -> None:
    clerk.count(count="10", format="vh", marking="t120")
    before = clerk.price
    press(Qt.Key.Key_H, ALT)
    assert clerk.counter.draft.box.rush
    assert clerk.price != before


def test_the_tv_system_of_the_box_holds_for_its_rows(clerk: Clerk) -> None:
    clerk.count(format="vh", marking="e180")
    press(Qt.Key.Key_V, ALT)
    press_text("p")
    press(Qt.Key.Key_Return)
    assert clerk.counter.quote is not None
    assert clerk.counter.quote.tapes[0].draft.tv is not None


# --- booking -----------------------------------------------------------------------------


def test_no_name_no_booking(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh")
    clerk.book()
    assert say("counter", "need_name") in place.told
    assert QApplication.focusWidget() is clerk.field("customer-name")


def test_an_empty_tray_says_what_a_box_needs(clerk: Clerk, place: Place) -> None:
    clerk.book()
    assert say("counter", "need_tape") in place.told


def test_booking_shows_the_number_and_writes_the_papers(clerk: Clerk, place: Place) -> None:
    clerk.count(count="2", format="vh", marking="t120", label="Lake")
    clerk.name_the_customer("Ada Fenwick", "607 555 0199")
    clerk.book()
    job = place.records.shop.ask(jobs.open_jobs)[0]
    assert job.customer.name == "Ada Fenwick"
    assert [tape.label for tape in job.tapes] == ["Lake", "Lake"]
    assert job.number in place.told
    number = clerk.counter.findChild(QLabel, "job-number")
    assert isinstance(number, QLabel)
    assert job.number in number.text()
    assert sorted(file.name for file in place.desk.papers.iterdir()) == [
        f"agreement-{job.number}.pdf",
        f"claim-slip-{job.number}.pdf",
        f"labels-{job.number}.pdf",
        f"quote-{job.number}.pdf",
    ]
    clerk.button("show-labels").click()
    assert place.shown_files == [place.desk.papers / f"labels-{job.number}.pdf"]


def test_the_deposit_of_the_quote_is_taken_unless_another_is_typed(clerk: Clerk, place: Place) -> None:
    clerk.count(count="4", format="vh", marking="t120")
    assert clerk.counter.quote is not None
    asked = clerk.counter.quote.price.deposit_minor
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    clerk.button("next-box").click()
    clerk.count(count="4", format="vh", marking="t120")
    clerk.name_the_customer("Ben Example")
    press(Qt.Key.Key_D, ALT)
    clerk.field("deposit").selectAll()
    press_text("12.50")
    clerk.book()
    first, second = place.records.shop.ask(jobs.open_jobs)
    assert (first.paid_minor, second.paid_minor) == (asked, 1250)


@pytest.mark.parametrize("typed", ["much", "1.234", "-5", "99999"])
def test_a_deposit_that_is_no_amount_is_not_booked(clerk: Clerk, place: Place, typed: str) -> None:
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    press(Qt.Key.Key_D, ALT)
    clerk.field("deposit").selectAll()
    press_text(typed)
    clerk.book()
    assert "Deposit" in place.told
    assert place.records.shop.ask(jobs.open_jobs) == ()


def test_pressing_twice_books_once(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    press(Qt.Key.Key_Return, CONTROL)
    press(Qt.Key.Key_Return, CONTROL)
    place.settle()
    place.settle()
    assert len(place.records.shop.ask(jobs.open_jobs)) == 1


def test_a_cell_still_being_typed_is_booked_as_it_stands(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    clerk.counter.take_focus()
    clerk.counter.parts.table.put_cursor(0, 0)
    press_text("3")
    clerk.book()
    assert len(place.records.shop.ask(jobs.open_jobs)[0].tapes) == 3


def test_a_name_nobody_could_print_is_refused_and_nothing_is_lost(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh")
    clerk.name_the_customer("x" * 300)
    before = clerk.counter.draft.box
    clerk.book()
    assert "Please check" in place.told
    assert clerk.counter.draft.box == before


def test_papers_that_cannot_be_written_leave_the_job_booked(clerk: Clerk, place: Place) -> None:
    place.desk.papers.write_text("a file where the folder should be")
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    assert "papers could not be written" in place.told
    assert len(place.records.shop.ask(jobs.open_jobs)) == 1


def test_after_booking_the_next_key_begins_the_next_slip(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    press(Qt.Key.Key_Return)
    clerk.count(format="hi8")
    assert clerk.counter.job is None
    assert clerk.field("customer-name").text() == ""
    assert clerk.button("book").isVisible()


# --- keeping -----------------------------------------------------------------------------


def test_the_draft_is_kept_and_thrown_away_when_it_is_booked(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh", label="Lake")
    clerk.counter.leave()
    place.settle()
    kept = place.records.shop.ask(drafts.kept, "counter 1")
    assert kept is not None
    assert isinstance(kept, TypedBox)
    assert kept.rows[0].format == "VHS"
    clerk.counter.enter()
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    place.qtbot.waitUntil(lambda: place.work.is_idle)
    assert place.records.shop.ask(drafts.kept, "counter 1") is None


def test_the_window_says_that_a_slip_is_not_booked(clerk: Clerk, place: Place) -> None:
    assert "not booked" not in place.window.windowTitle()
    clerk.count(format="vh")
    assert "not booked" in place.window.windowTitle()


def test_both_looks_at_a_cassette_can_be_found_while_a_question_is_asked(clerk: Clerk, place: Place) -> None:
    clerk.count(count="6", format="vh")
    place.settle()
    assert not clerk.counter.parts.asking.isHidden()
    said = {
        button.text() for button in (clerk.button("look-over-row-word"), clerk.button("measure-packs-word"))
    }
    assert said == {"Look over   Ctrl+L", "Measure packs   Ctrl+M"}
    clerk.counter.parts.table.put_cursor(0, 0)
    clerk.button("look-over-row-word").click()
    assert clerk.counter.inspections.look_over.isVisible()
    clerk.counter.inspections.look_over.close()


# --- room, names, reach ------------------------------------------------------------------


def fill(clerk: Clerk) -> None:
    for format_name in ("vh", "hi8", "minidv", "vhs-c", "beta", "video8") * 3:
        clerk.count(count="1", format=format_name, label="Summer")


def test_fourteen_rows_the_slip_the_dots_and_the_question_stand_without_scrolling(
    clerk: Clerk, place: Place
) -> None:
    place.window.resize(1280, 800)
    fill(clerk)
    place.window.banner.clear()
    place.settle()
    parts = clerk.counter.parts
    columns = clerk.counter.findChild(Columns)
    assert isinstance(columns, Columns)
    assert not columns.is_folded
    assert columns.verticalScrollBar().maximum() == 0
    assert columns.horizontalScrollBar().maximum() == 0
    assert parts.table.viewport().height() >= 14 * parts.table.rowHeight(0)
    assert parts.table.horizontalScrollBar().maximum() == 0
    room = clerk.counter.rect()
    for part in (parts.slip, parts.asking, parts.booking_bar, *parts.asking.findChildren(QAbstractButton)):
        if part.isVisible():
            corner = part.mapTo(clerk.counter, part.rect().bottomRight())
            assert room.contains(corner), f"{part.objectName()} reaches to {corner}"


def test_at_twice_the_size_everything_is_reached_by_scrolling_down(clerk: Clerk, place: Place) -> None:
    place.window.resize(640, 400)
    fill(clerk)
    place.settle()
    columns = clerk.counter.findChild(Columns)
    assert isinstance(columns, Columns)
    assert columns.is_folded
    assert columns.horizontalScrollBar().maximum() == 0
    clerk.book()
    name = clerk.field("customer-name")
    assert columns.viewport().rect().contains(name.mapTo(columns.viewport(), name.rect().center()))


def test_everything_within_reach_has_a_name_and_can_be_hit(clerk: Clerk) -> None:
    clerk.count(format="hi8", findings="snapped")
    for widget in clerk.counter.findChildren(QWidget):
        if not widget.isVisible() or widget.focusPolicy() == Qt.FocusPolicy.NoFocus:
            continue
        if widget.objectName() == "qt_scrollarea_viewport" or isinstance(widget.parent(), QScrollArea):
            continue
        assert widget.accessibleName(), f"{type(widget).__name__} {widget.objectName()} has no name"
        assert widget.height() >= 24, f"{widget.accessibleName()} is {widget.height()} px high"


def test_every_field_stands_under_a_visible_label_with_a_key_of_its_own(clerk: Clerk) -> None:
    clerk.count(format="vh", findings="scratched")
    labels = [label for label in clerk.counter.findChildren(QLabel) if label.buddy() is not None]
    assert {label.buddy() for label in labels} >= set(clerk.counter.parts.form.findChildren(QLineEdit))
    buttons = [
        button.text()
        for button in clerk.counter.findChildren(QAbstractButton)
        if button.isVisible() and "&" in button.text()
    ]
    texts = [label.text() for label in labels if label.isVisible()] + buttons
    keys = [text[text.index("&") + 1].lower() for text in texts]
    assert len(keys) == len(set(keys)), keys


def test_the_row_as_it_is_typed_is_the_row_in_the_box(clerk: Clerk) -> None:
    clerk.count(count="6", format="vh", marking="t120", speed="e", tv="n", findings="sn, mo", label="A")
    assert clerk.counter.draft.box.rows[0] == TypedRow(
        "6", "VHS", "T-120", "", "EP", "NTSC", f"snapped, {spoken(Finding.MOULD)}", "A"
    )


def test_a_counter_alone_needs_no_shop_to_be_shown(place: Place) -> None:
    counter = CounterScreen(place.desk)
    place.qtbot.addWidget(counter)
    assert counter.quote is None
