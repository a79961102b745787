"""The one line of the Counter: one key away, read while it is typed, taken by Return, undone as a whole."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.model.typed_draft import TypedBox, TypedRow
from core.services import drafts
from core.services.own_shop import shop_document
from gui.counter import known_customers
from gui.counter.counter_screen import CounterScreen
from tests.support.booked import line as tape_line
from tests.support.counting import ALT, CONTROL, Clerk, clerk_at
from tests.support.screens import Place, press, press_text

BOX = "5 vhs t120, 3 vhs-c, hi8 snapped, 2 betamax mould"
ROWS = [
    ("5", "VHS", "T-120", ""),
    ("3", "VHS-C", "", ""),
    ("1", "Hi8", "", "snapped"),
    ("2", "Betamax", "", "mold"),
]


@pytest.fixture
def clerk(place: Place) -> Clerk:
    return clerk_at(place)


def rows(clerk: Clerk) -> list[tuple[str, str, str, str]]:
    return [(row.count, row.format, row.marking, row.findings) for row in clerk.counter.draft.box.rows]


def type_line(text: str) -> None:
    press(Qt.Key.Key_F6)
    press_text(text)


# --- by keys -----------------------------------------------------------------------------


@pytest.mark.parametrize("start", ["tray", "customer-name", "box-copies", "deposit"])
def test_one_key_leads_to_the_line_from_anywhere_in_the_order(clerk: Clerk, start: str) -> None:
    parts = clerk.counter.parts
    field = {"tray": parts.table, "deposit": parts.booking_bar.deposit}.get(start) or clerk.field(start)
    field.setFocus()
    press(Qt.Key.Key_F6)
    assert QApplication.focusWidget() is parts.line


def test_a_half_typed_cell_is_kept_when_the_line_is_opened(clerk: Clerk) -> None:
    press_text("4")
    press(Qt.Key.Key_F6)
    assert clerk.counter.draft.box.rows[0].count == "4"


def test_return_takes_the_rows_and_leaves_the_line_empty_for_more(clerk: Clerk) -> None:
    type_line(BOX)
    press(Qt.Key.Key_Return)
    assert rows(clerk) == ROWS
    line = clerk.counter.parts.line
    assert line.text() == ""
    assert QApplication.focusWidget() is line
    press_text("minidv")
    press(Qt.Key.Key_Return)
    assert rows(clerk)[4:] == [("1", "MiniDV", "", "")]
    assert clerk.price


def test_undo_takes_back_the_whole_line_and_gives_its_text_back(clerk: Clerk) -> None:
    clerk.count(count="6", format="vh")
    before = clerk.counter.draft.box.rows
    type_line(BOX)
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Z, CONTROL)
    assert clerk.counter.draft.box.rows == before
    assert clerk.counter.parts.line.text() == BOX
    press(Qt.Key.Key_Y, CONTROL)
    assert rows(clerk)[1:] == ROWS
    assert clerk.counter.parts.line.text() == ""


def test_escape_goes_back_to_the_tapes_and_keeps_the_text(clerk: Clerk) -> None:
    type_line("5 vhs")
    press(Qt.Key.Key_Escape)
    if QApplication.focusWidget() is clerk.counter.parts.line:
        press(Qt.Key.Key_Escape)
    assert QApplication.focusWidget() is clerk.counter.parts.table
    assert clerk.counter.parts.line.text() == "5 vhs"


def test_a_name_half_typed_is_completed_by_tab(clerk: Clerk) -> None:
    type_line("2 betam")
    line = clerk.counter.parts.line
    assert [choice.words for choice in line.offered] == ["Betamax"]
    press(Qt.Key.Key_Tab)
    assert line.text() == "2 Betamax"
    press(Qt.Key.Key_Return)
    assert rows(clerk) == [("2", "Betamax", "", "")]


def test_return_never_takes_what_nobody_lit(clerk: Clerk) -> None:
    type_line("5 vhs t1")
    assert clerk.counter.parts.line.offered
    press(Qt.Key.Key_Return)
    assert rows(clerk)[0][:2] == ("5", "VHS")
    assert "T-1" not in {row[2] for row in rows(clerk)} - {"t1"}


def test_down_offers_what_may_have_been_meant_and_nothing_is_corrected_by_itself(clerk: Clerk) -> None:
    type_line("5 vsh t120 ")
    line = clerk.counter.parts.line
    assert line.text() == "5 vsh t120 "
    press(Qt.Key.Key_Down)
    assert line.offered[0].words == "VHS"
    press(Qt.Key.Key_Return)
    assert line.text() == "5 VHS t120 "
    press(Qt.Key.Key_Return)
    assert rows(clerk) == [("5", "VHS", "T-120", "")]


# --- what was not understood -------------------------------------------------------------


def test_the_reading_stands_beneath_the_line_while_it_is_typed(clerk: Clerk) -> None:
    type_line("5 vhs t120, hi8 wedding ")
    panel = clerk.counter.line.panel
    assert panel.isVisible()
    assert panel.y() > clerk.counter.parts.line.mapTo(clerk.place.window, QPoint(0, 0)).y()
    told = [part.text() for part in (panel._rows, *panel._faults) if part.isVisible()]
    assert told[0] == "6 tapes: 5 × VHS T-120 · Hi8"
    assert told[1].startswith("“wedding” was not understood")
    assert clerk.counter.parts.line.read.unread == ((16, 23),)
    description = clerk.counter.parts.line.accessibleDescription()
    assert all(sentence in description for sentence in told)
    press(Qt.Key.Key_Escape)
    assert not panel.isVisible()


def test_words_that_nobody_took_stay_with_their_row_until_somebody_sees_to_them(clerk: Clerk) -> None:
    type_line("5 vhs wedding, 3 bettamax ")
    press(Qt.Key.Key_Return)
    assert rows(clerk) == [("5", "VHS", "", "wedding"), ("3", "bettamax", "", "")]
    table = clerk.counter.parts.table
    assert QApplication.focusWidget() is table
    assert clerk.counter.parts.rows.complaint(table.currentIndex())
    assert "wedding" in clerk.counter.parts.message.text()
    clerk.name_the_customer("Ada")
    clerk.book()
    assert clerk.counter.job is None


def test_a_box_is_not_booked_over_words_left_in_the_line(clerk: Clerk) -> None:
    clerk.count(format="vh")
    clerk.name_the_customer("Ada")
    type_line("2 hi8, dented")
    clerk.book()
    assert clerk.counter.job is None
    assert "words in the line below the tapes" in clerk.place.told
    assert QApplication.focusWidget() is clerk.counter.parts.line
    for _ in ", dented":
        press(Qt.Key.Key_Backspace)
    clerk.book()
    assert clerk.counter.job is not None
    assert len(clerk.counter.job.tapes) == 3


def test_what_is_typed_in_the_line_survives_a_power_cut(clerk: Clerk, place: Place) -> None:
    type_line("5 vhs, 3 hi8 sn")
    clerk.counter.autosave.save_now()
    place.settle()
    kept = place.records.shop.ask(drafts.kept, "counter 1")
    assert isinstance(kept, TypedBox)
    assert kept.line == "5 vhs, 3 hi8 sn"
    again = CounterScreen(place.desk)
    again._restore(kept)
    assert again.parts.line.text() == "5 vhs, 3 hi8 sn"


def test_what_is_typed_in_the_line_is_quoted_before_it_is_taken(clerk: Clerk) -> None:
    clerk.count(format="vh")
    alone = clerk.price
    type_line("2 hi8 snapped")
    both = clerk.price
    assert both != alone
    assert rows(clerk)[0][1] == "VHS"
    assert [row[1] for row in clerk.cell_texts] == ["VHS", ""]
    assert clerk.counter.parts.telling.told.isVisible()
    press(Qt.Key.Key_Return)
    assert clerk.price == both
    assert [row[1] for row in clerk.cell_texts] == ["VHS", "Hi8"]


def test_a_word_that_is_not_understood_yet_takes_no_price_away(clerk: Clerk) -> None:
    type_line("2 hi8")
    before = clerk.price
    press_text(" sn")
    assert clerk.price == before


# --- who brings them ---------------------------------------------------------------------


def test_the_line_says_who_brings_the_tapes(clerk: Clerk) -> None:
    type_line("2 hi8; ada fenwick 607 555 0101")
    assert "for Ada Fenwick, 607 555 0101" in clerk.counter.line.panel._rows.text()
    press(Qt.Key.Key_Return)
    assert (clerk.field("customer-name").text(), clerk.field("customer-phone").text()) == (
        "Ada Fenwick",
        "607 555 0101",
    )
    press(Qt.Key.Key_Z, CONTROL)
    assert clerk.counter.draft.box.name == ""
    assert clerk.counter.parts.line.text() == "2 hi8; ada fenwick 607 555 0101"


def test_a_number_without_its_area_code_gets_that_of_the_shop(clerk: Clerk, place: Place) -> None:
    place.records.shop.run(shop_document.set_texts, [("front.phone", "(303) 555-0100")])
    clerk.counter._read_shop()
    place.settle()
    type_line("hi8; ada 5550142")
    clerk.book()
    assert clerk.counter.job is not None
    assert clerk.counter.job.customer.phone == "+13035550142"


def test_somebody_known_is_recalled_from_the_line(clerk: Clerk, place: Place) -> None:
    place.records.book(tape_line(count=2))
    type_line("hi8; fenw")
    known = clerk.counter.parts.known
    place.qtbot.waitUntil(known.isVisible)
    press(Qt.Key.Key_7, ALT)
    assert (clerk.counter.draft.box.name, clerk.counter.parts.line.text()) == ("Ada Fenwick", "hi8")
    assert QApplication.focusWidget() is clerk.counter.parts.line


def test_the_keys_of_somebody_known_answer_no_question(clerk: Clerk, place: Place) -> None:
    place.records.book(tape_line(count=2))
    type_line("5 vhs; fenw")
    place.qtbot.waitUntil(clerk.counter.parts.known.isVisible)
    clerk.wait_for_the_day()
    assert clerk.counter.parts.asking.isVisible()
    answers = clerk.counter.parts.asking._buttons
    digits = {str(place + 1) for place in range(len(answers))}
    assert not digits & {keys[-1] for keys in known_customers.KEYS}


def test_a_question_about_a_tape_in_the_line_is_answered_in_its_row(clerk: Clerk) -> None:
    type_line("5 vhs")
    clerk.wait_for_the_day()
    asked = clerk.counter.quote
    assert asked is not None
    assert asked.questions
    press(Qt.Key.Key_1, ALT)
    clerk.wait_for_the_day()
    assert clerk.counter.parts.line.text() == ""
    assert rows(clerk)[0][:2] == ("5", "VHS")
    assert clerk.counter.quote is not None
    assert clerk.counter.quote.questions != asked.questions


# --- from the first cell -----------------------------------------------------------------


def test_words_in_the_first_cell_begin_the_line(clerk: Clerk) -> None:
    press_text("5vhs t120, hi8")
    assert QApplication.focusWidget() is clerk.counter.parts.line
    assert clerk.counter.parts.line.text() == "5vhs t120, hi8"
    assert clerk.counter.draft.box.rows == (TypedRow(),)
    press(Qt.Key.Key_Return)
    assert [row[:3] for row in rows(clerk)] == [("5", "VHS", "T-120"), ("1", "Hi8", "")]


def test_a_count_stays_in_its_cell(clerk: Clerk) -> None:
    press_text("12")
    press(Qt.Key.Key_Return)
    assert clerk.counter.draft.box.rows[0].count == "12"


def test_letters_in_the_count_of_a_row_that_is_not_empty_stay_there(clerk: Clerk) -> None:
    clerk.count(count="2", format="vh")
    clerk.counter.parts.table.put_cursor(0, 0)
    press_text("x")
    press(Qt.Key.Key_Return)
    assert clerk.counter.draft.box.rows[0].count == "x"
    assert clerk.counter.parts.line.text() == ""


def test_told_has_a_key_of_its_own(clerk: Clerk) -> None:
    press(Qt.Key.Key_F8)
    assert clerk.counter.draft.box.told == ()
    type_line("hi8 snapped")
    press(Qt.Key.Key_F8)
    assert clerk.counter.parts.telling.is_settled
    assert clerk.counter.draft.box.told
    press(Qt.Key.Key_F8)
    assert clerk.counter.draft.box.told == ()


# --- by mouse ----------------------------------------------------------------------------


def test_by_mouse_the_line_is_clicked_and_an_unread_word_offers_what_was_meant(clerk: Clerk) -> None:
    line = clerk.counter.parts.line
    QTest.mouseClick(line, Qt.MouseButton.LeftButton, pos=line.rect().center())
    assert QApplication.focusWidget() is line
    press_text("5 vsh t120 ")
    panel = clerk.counter.line.panel
    QTest.mouseClick(panel._faults[0], Qt.MouseButton.LeftButton)
    assert line.offered[0].words == "VHS"
    list_of = line._list
    QTest.mouseClick(list_of, Qt.MouseButton.LeftButton, pos=QPoint(20, 5 + list_of._line() // 2))
    assert line.text() == "5 VHS t120 "


def test_by_mouse_the_rows_are_added(clerk: Clerk) -> None:
    QTest.mouseClick(clerk.counter.parts.line, Qt.MouseButton.LeftButton)
    press_text("2 hi8")
    QTest.mouseClick(clerk.counter.line.panel.add, Qt.MouseButton.LeftButton)
    assert rows(clerk) == [("2", "Hi8", "", "")]
    assert QApplication.focusWidget() is clerk.counter.parts.line


# --- tables and files --------------------------------------------------------------------

SHEET = (
    "Title\tQty\tTape type\tShelf\tCondition\n"
    "Wedding\t2\tMini DV\tB3\tok\n"
    "Lake\tfive\tVHS\t\tmouldy\n"
    "\tx\tvsh\t\t\n"
)


def pasted(text: str) -> QMimeData:
    data = QMimeData()
    data.setText(text)
    return data


def test_a_table_is_pasted_with_its_heads_in_any_order_and_nothing_is_thrown_away(clerk: Clerk) -> None:
    press(Qt.Key.Key_F6)
    QGuiApplication.clipboard().setText(SHEET)
    press(Qt.Key.Key_V, CONTROL)
    box = clerk.counter.draft.box
    assert box.rows == (
        TypedRow("2", "MiniDV", findings="Shelf: B3", label="Wedding"),
        TypedRow("5", "VHS", findings="mold", label="Lake"),
        TypedRow("x", "vsh"),
    )
    complaints = [
        clerk.counter.parts.rows.complaint(clerk.counter.parts.rows.index(r, c))
        for r, c in ((0, 6), (2, 0), (2, 1))
    ]
    assert all(complaints)
    press(Qt.Key.Key_Z, CONTROL)
    assert clerk.counter.draft.box.is_empty


def test_the_clipboard_is_taken_from_the_tapes_as_well(clerk: Clerk) -> None:
    QGuiApplication.clipboard().setText("3\tVHS\n")
    press(Qt.Key.Key_V, CONTROL)
    assert rows(clerk) == [("3", "VHS", "", "")]
    clerk.counter.parts.table.setFocus()
    QGuiApplication.clipboard().setText("2 hi8 snapped")
    press(Qt.Key.Key_V, CONTROL)
    assert QApplication.focusWidget() is clerk.counter.parts.line
    assert clerk.counter.parts.line.text() == "2 hi8 snapped"


def drop(clerk: Clerk, data: QMimeData) -> None:
    action, button, keys = Qt.DropAction.CopyAction, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    entering = QDragEnterEvent(QPoint(5, 5), action, data, button, keys)
    QApplication.sendEvent(clerk.counter, entering)
    assert entering.isAccepted()
    QApplication.sendEvent(clerk.counter, QDropEvent(QPointF(5, 5), action, data, button, keys))
    clerk.place.settle()


def dropped(clerk: Clerk, file: Path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(file))])
    drop(clerk, data)


def test_a_csv_file_dropped_on_the_window_becomes_rows(clerk: Clerk, tmp_path: Path) -> None:
    file = tmp_path / "box.csv"
    file.write_text("format;count\nVHS;3\nBettamax;2\n", encoding="utf-8")
    dropped(clerk, file)
    assert [row[:2] for row in rows(clerk)] == [("3", "VHS"), ("2", "Bettamax")]


def test_an_inventory_dropped_is_taken_whole_and_its_faults_stand_in_the_cells(
    clerk: Clerk, tmp_path: Path
) -> None:
    file = tmp_path / "box.json"
    tapes = [
        {"count": 3, "format": "vhs", "marking": "T-120", "findings": ["mould"]},
        {"count": "many", "format": "vsh", "shelf": "B3"},
    ]
    file.write_text(
        json.dumps({"customer": {"name": "Ada", "phone": None}, "tapes": tapes}), encoding="utf-8"
    )
    dropped(clerk, file)
    assert rows(clerk) == [("3", "VHS", "T-120", "mold"), ("many", "vsh", "", "shelf: B3")]
    assert clerk.counter.draft.box.name == "Ada"


def test_a_file_that_is_none_is_refused_and_changes_nothing(clerk: Clerk, tmp_path: Path) -> None:
    file = tmp_path / "box.json"
    file.write_text("{not json", encoding="utf-8")
    before = clerk.counter.draft.box
    dropped(clerk, file)
    assert clerk.counter.draft.box == before
    assert "box.json: line 1" in clerk.place.told


def test_text_dropped_is_read_as_a_table(clerk: Clerk) -> None:
    drop(clerk, pasted("3\tVHS\n1\tHi8\tsnapped\n"))
    assert rows(clerk) == [("3", "VHS", "", ""), ("1", "Hi8", "", "snapped")]


# --- room --------------------------------------------------------------------------------


@pytest.mark.parametrize("size", [(1280, 800), (1366, 768), (640, 400)])
def test_the_line_and_its_reading_are_whole_inside_the_window(
    clerk: Clerk, place: Place, size: tuple[int, int]
) -> None:
    place.window.resize(*size)
    place.settle()
    type_line(f"{BOX}, vsh ")
    place.settle()
    panel, window = clerk.counter.line.panel, place.window.rect()
    assert panel.isVisible()
    assert window.contains(panel.geometry()), panel.geometry()
    for part in (panel._rows, *panel._faults, panel._keys):
        if part.isVisible():
            assert panel.rect().contains(part.geometry()), part.text()
    corner = clerk.counter.parts.line.mapTo(place.window, clerk.counter.parts.line.rect().bottomRight())
    assert window.contains(corner)


def test_one_key_leads_to_what_is_wrong_with_the_tapes_of_the_row(clerk: Clerk) -> None:
    press_text("2")
    press(Qt.Key.Key_F7)
    editor = clerk.counter.parts.table.cells.editor
    assert editor is not None
    assert editor.objectName() == "editing-findings"
    assert clerk.counter.draft.box.rows[0].count == "2"
    press_text("snap")
    press(Qt.Key.Key_Return)
    assert clerk.counter.draft.box.rows[0].findings == "snapped"
