"""The rows model and the table that is filled like a form."""

from __future__ import annotations

from dataclasses import dataclass, replace

import pytest
from PySide6.QtCore import QAbstractItemModel, Qt
from PySide6.QtTest import QAbstractItemModelTester, QTest
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from gui.tables.choices import CellChoice
from gui.tables.column_specs import Column
from gui.tables.keyboard_navigation import KeyboardTable
from gui.tables.rows_model import RowsModel
from gui.tables.type_ahead import TypeAhead
from gui.toolkit import theme
from tests.support.screens import press, press_text


@dataclass(frozen=True)
class Pear:
    count: str = ""
    kind: str = ""
    weight: str = "—"


KINDS = (CellChoice("Conference"), CellChoice("Concorde"), CellChoice("Williams", note="for preserving"))
COLUMNS = (
    Column("count", "Count", lambda pear: pear.count, 60, right=True, edited=True),
    Column(
        "kind",
        "Kind",
        lambda pear: pear.kind,
        120,
        stretch=True,
        edited=True,
        choices=lambda pear: KINDS,
        wrong=lambda pear: "Conference, Concorde or Williams" if pear.kind == "apple" else "",
    ),
    Column("weight", "Weight", lambda pear: pear.weight, 80, right=True),
)
THREE = (Pear("1", "Conference"), Pear("2", "Concorde"), Pear("3", "Williams"))


class Basket:
    """An owner of rows, as a screen is one."""

    def __init__(self) -> None:
        self.rows = RowsModel(COLUMNS)
        self.table = KeyboardTable(self.rows)
        self.pears: list[Pear] = list(THREE)
        self.rows.written.connect(self.write)
        self.table.row_wanted.connect(self.add)
        self.rows.show(self.pears)

    def write(self, row: int, column: str, text: str) -> None:
        self.pears[row] = replace(self.pears[row], **{column: text})
        self.rows.show(self.pears)

    def add(self) -> None:
        self.pears.append(Pear())
        self.rows.show(self.pears)
        self.table.put_cursor(len(self.pears) - 1, 0)


@pytest.fixture
def basket(qtbot: QtBot, qapp: QApplication) -> Basket:
    theme.apply(qapp)
    made = Basket()
    qtbot.addWidget(made.table)
    made.table.resize(500, 300)
    made.table.show()
    made.table.activateWindow()
    qtbot.waitExposed(made.table)
    made.table.setFocus()
    return made


def cell(basket: Basket) -> tuple[int, int]:
    here = basket.table.currentIndex()
    return here.row(), here.column()


# --- the model ---------------------------------------------------------------------------


class Watched:
    """Every sign of change a model gives."""

    def __init__(self, model: QAbstractItemModel) -> None:
        self.signs: list[str] = []
        model.dataChanged.connect(self.changed)
        model.rowsInserted.connect(self.came)
        model.rowsRemoved.connect(self.went)
        model.modelReset.connect(self.reset)

    def changed(self, first: object, last: object) -> None:
        self.signs.append(f"changed {first.row()}-{last.row()}")  # type: ignore[attr-defined]

    def came(self, parent: object, first: int, last: int) -> None:
        self.signs.append(f"came {first}-{last}")

    def went(self, parent: object, first: int, last: int) -> None:
        self.signs.append(f"went {first}-{last}")

    def reset(self) -> None:
        self.signs.append("reset")


@pytest.mark.parametrize(
    ("shown", "signs"),
    [
        (THREE, []),
        ((THREE[0], Pear("9"), THREE[2]), ["changed 1-1"]),
        ((*THREE, Pear()), ["came 3-3"]),
        ((Pear(), *THREE), ["came 0-0"]),
        (THREE[:1], ["went 1-2"]),
        ((THREE[0], THREE[2]), ["went 1-1"]),
        ((), ["went 0-2"]),
    ],
)
def test_the_model_tells_the_least_and_never_resets(shown: tuple[Pear, ...], signs: list[str]) -> None:
    rows = RowsModel(COLUMNS)
    rows.show(THREE)
    watched = Watched(rows)
    rows.show(shown)
    assert watched.signs == signs
    assert rows.rows == shown


def test_the_model_keeps_qts_own_rules() -> None:
    rows = RowsModel(COLUMNS)
    tester = QAbstractItemModelTester(rows, QAbstractItemModelTester.FailureReportingMode.Warning)
    for shown in (THREE, THREE[:1], (*THREE, Pear()), (Pear("7"), *THREE[1:]), ()):
        rows.show(shown)
    assert tester.model() is rows


def test_a_cell_says_its_column_its_text_and_its_complaint() -> None:
    rows = RowsModel(COLUMNS)
    rows.show((Pear("1", "apple"),))
    spoken = rows.index(0, 1).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "Kind, apple, Conference, Concorde or Williams"
    assert rows.index(0, 0).data(Qt.ItemDataRole.AccessibleTextRole) == "Count, 1"


# --- travelling --------------------------------------------------------------------------


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Tab])
def test_the_key_goes_on_over_what_cannot_be_typed_to_the_next_row(basket: Basket, key: Qt.Key) -> None:
    been = []
    for _ in range(4):
        been.append(cell(basket))
        press(key)
    assert been == [(0, 0), (0, 1), (1, 0), (1, 1)]


def test_the_last_cell_opens_a_new_row(basket: Basket) -> None:
    basket.table.put_cursor(2, 1)
    press(Qt.Key.Key_Return)
    assert len(basket.pears) == 4
    assert cell(basket) == (3, 0)


def test_down_in_the_last_row_opens_a_new_row(basket: Basket) -> None:
    basket.table.put_cursor(2, 1)
    press(Qt.Key.Key_Down)
    assert cell(basket) == (3, 0)


def test_backtab_goes_back_and_leaves_at_the_first_cell(basket: Basket, qtbot: QtBot) -> None:
    basket.table.put_cursor(1, 0)
    press(Qt.Key.Key_Backtab)
    assert cell(basket) == (0, 1)
    press(Qt.Key.Key_Backtab)
    with qtbot.waitSignal(basket.table.went_back):
        press(Qt.Key.Key_Backtab)


def test_control_tab_leaves_from_anywhere(basket: Basket, qtbot: QtBot) -> None:
    with qtbot.waitSignal(basket.table.went_on):
        press(Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier)


# --- typing ------------------------------------------------------------------------------


def test_the_first_key_starts_editing_and_replaces_what_was_there(basket: Basket) -> None:
    press_text("7")
    press(Qt.Key.Key_Return)
    assert basket.pears[0].count == "7"
    assert cell(basket) == (0, 1)


def test_escape_leaves_the_cell_as_it_was(basket: Basket) -> None:
    press_text("7")
    press(Qt.Key.Key_Escape)
    assert basket.pears[0] == THREE[0]
    assert not basket.table.is_editing


def test_what_is_being_typed_survives_every_change_of_its_row(basket: Basket) -> None:
    press_text("12")
    basket.rows.show([replace(pear, weight="5 kg", count="0") for pear in basket.pears])
    basket.rows.show([Pear("new"), *basket.pears])
    editor = basket.table.cells.editor
    assert isinstance(editor, QLineEdit)
    assert editor.text() == "12"


def test_every_key_is_told_with_the_offer_that_would_be_taken(basket: Basket) -> None:
    told: list[tuple[int, str, str]] = []
    basket.table.cells.typed.connect(lambda row, column, text: told.append((row, column, text)))
    basket.table.put_cursor(1, 1)
    press_text("wi")
    assert told == [(1, "kind", "Williams"), (1, "kind", "Williams")]


def test_letters_offer_words_and_return_takes_the_first(basket: Basket) -> None:
    basket.table.put_cursor(0, 1)
    press_text("con")
    editor = basket.table.cells.editor
    assert isinstance(editor, TypeAhead)
    assert [choice.words for choice in editor.offered] == ["Conference", "Concorde"]
    press(Qt.Key.Key_Return)
    assert basket.pears[0].kind == "Conference"


def test_down_chooses_among_the_offers(basket: Basket) -> None:
    basket.table.put_cursor(0, 1)
    press_text("con")
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Tab)
    assert basket.pears[0].kind == "Concorde"
    assert cell(basket) == (1, 0)


def test_escape_closes_the_offers_first_and_keeps_the_letters(basket: Basket) -> None:
    basket.table.put_cursor(0, 1)
    press_text("wi")
    press(Qt.Key.Key_Escape)
    assert basket.table.is_editing
    press(Qt.Key.Key_Return)
    assert basket.pears[0].kind == "wi"


def test_letters_of_no_word_stay_in_the_cell(basket: Basket) -> None:
    basket.table.put_cursor(0, 1)
    press_text("apple")
    press(Qt.Key.Key_Return)
    assert basket.pears[0].kind == "apple"
    assert "Williams" in basket.rows.complaint(basket.rows.index(0, 1))


def test_commit_takes_over_what_is_half_typed(basket: Basket) -> None:
    press_text("8")
    basket.table.commit()
    assert basket.pears[0].count == "8"
    assert not basket.table.is_editing


def test_delete_asks_the_owner_to_clear_the_cell(basket: Basket, qtbot: QtBot) -> None:
    with qtbot.waitSignal(basket.table.row_cleared) as cleared:
        press(Qt.Key.Key_Delete)
    assert cleared.args == [0, "count"]


def test_rows_are_high_enough_to_hit(basket: Basket) -> None:
    assert basket.table.rowHeight(0) >= 24


# --- lists -------------------------------------------------------------------------------


def editor(basket: Basket, column: int, typed: str) -> TypeAhead:
    basket.table.put_cursor(0, column)
    press_text(typed)
    found = basket.table.cells.editor
    assert isinstance(found, TypeAhead)
    return found


def test_escape_puts_back_what_was_there_before_the_list_was_walked(basket: Basket) -> None:
    field = editor(basket, 1, "con")
    press(Qt.Key.Key_Down)
    assert field.text() == "Concorde"
    press(Qt.Key.Key_Escape)
    assert (field.text(), field.offered) == ("con", ())


def test_escape_empties_a_field_whose_list_was_opened_empty(basket: Basket) -> None:
    field = editor(basket, 1, "c")
    press(Qt.Key.Key_Backspace)
    press(Qt.Key.Key_Down)
    assert field.text() == "Conference"
    press(Qt.Key.Key_Escape)
    assert field.text() == ""


def test_down_leads_to_the_next_row_once_a_word_is_written_out(basket: Basket) -> None:
    """Nothing is left to choose, so the list is closed; what is typed next belongs to the next row."""
    field = editor(basket, 1, "williams")
    assert field.offered == ()
    press(Qt.Key.Key_Down)
    assert cell(basket) == (1, 1)
    press_text("1")
    assert basket.pears[0].kind == "Williams"


def test_a_letter_after_an_entry_that_was_walked_to_begins_another_word(basket: Basket) -> None:
    field = editor(basket, 1, "con")
    press(Qt.Key.Key_Down)
    press_text("1")
    assert field.text() == "1"


def test_a_click_opens_the_list_with_everything_and_takes_nothing(basket: Basket) -> None:
    field = editor(basket, 1, "wi")
    press(Qt.Key.Key_Escape)
    QTest.mouseClick(field, Qt.MouseButton.LeftButton)
    assert len(field.offered) == 3
    press(Qt.Key.Key_Return)
    assert basket.pears[0].kind == "wi"


def test_alt_and_down_open_the_list_of_a_closed_one(basket: Basket) -> None:
    field = editor(basket, 1, "wi")
    press(Qt.Key.Key_Escape)
    press(Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    assert basket.table.is_editing
    assert len(field.offered) == 3
