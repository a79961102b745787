"""The record of a hand at the window, and the M's of the keystroke-level model put where its rules say."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from tests.klm import spreadsheet_layout
from tests.klm.desk_tasks import LINE
from tests.klm.operators import Deed, Did, keys_of, operators
from tests.klm.recorded_deeds import Recorder, click, recorded
from tests.support.counting import CONTROL, clerk_at
from tests.support.screens import Place, press, press_text

WRITE, POINT, PLACE = Deed(Did.WRITE), Deed(Did.POINT, "b"), Deed(Did.PLACE, "f")
DOWN = Deed(Did.COMMAND, "down")
RETURN, TAB, SAVE = Deed(Did.COMMAND, "return"), Deed(Did.COMMAND, "tab"), Deed(Did.COMMAND, "save", 2)


@pytest.mark.parametrize(
    ("deeds", "told"),
    [
        ((WRITE, WRITE), "2K 0PBB 0H 0M"),  # rule 0: an argument has none
        ((WRITE, RETURN), "2K 0PBB 0H 1M"),  # rule 4: a variable string ends with one
        ((TAB, TAB, TAB), "3K 0PBB 0H 1M"),  # rule 2: one unit
        ((SAVE,), "2K 0PBB 0H 1M"),
        ((WRITE, TAB, WRITE, TAB), "4K 0PBB 0H 2M"),
        ((POINT, WRITE), "1K 1PBB 2H 1M"),  # rule 1: the click is anticipated by its pointing
        ((PLACE, WRITE, PLACE, WRITE), "2K 2PBB 4H 0M"),
        ((WRITE, RETURN, DOWN), "3K 0PBB 0H 1M"),  # rule 3: the terminator of the row behind that of the cell
        ((WRITE, RETURN, SAVE), "4K 0PBB 0H 2M"),  # a command is no terminator
    ],
)
def test_thoughts_stand_where_the_rules_put_them(deeds: tuple[Deed, ...], told: str) -> None:
    assert operators(deeds).words == told


def test_a_capital_takes_shift_too() -> None:
    assert [keys_of(sign) for sign in 'aA1;:"'] == [1, 2, 1, 1, 2, 2]


def test_twelve_mixed_tapes_take_less_than_twenty_seconds_by_the_line(place: Place) -> None:
    clerk = clerk_at(place)

    def by_line(_: Recorder) -> None:
        press_text(LINE)
        press(Qt.Key.Key_Return)

    took = operators(recorded(by_line))
    assert sum(int(row.count) for row in clerk.counter.draft.box.rows) == 12
    assert took.words == f"{len(LINE) + 1}K 0PBB 0H 1M"
    assert took.seconds <= 20.0
    assert took.seconds < operators(spreadsheet_layout.rows([("5", "vhs", "t120")] * 5)).seconds


def test_what_a_hand_does_is_recorded_as_it_is(place: Place) -> None:
    clerk = clerk_at(place)

    def hand(recorder: Recorder) -> None:
        click(clerk.counter.parts.line)
        press_text("hi8")
        click(clerk.counter.line.panel.add)
        press(Qt.Key.Key_Z, CONTROL)
        recorder.scan("0000180014")

    did = recorded(hand)
    kinds = [each.did for each in did]
    assert kinds == [Did.PLACE, *[Did.WRITE] * 3, Did.POINT, Did.COMMAND, Did.SCAN]
    assert did[-2].keys == 2
