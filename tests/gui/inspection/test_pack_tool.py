"""Packs through the window: typed, dragged or moved by keys; told in minutes; taken over or kept."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QWidget

from core.model.inventory import TapeLine
from core.model.names import FillKnown, FormatName, Speed, TvSystem
from core.model.typed_draft import TypedRow
from core.playtime.pack_reading import Recorded
from core.services import tapes
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.inspection.pack_drawing import RUN, TO_COME
from gui.inspection.pack_tool import PackTool
from tests.support.booked import line
from tests.support.screens import Place, press, press_text

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
T_120 = TapeLine(1, FormatName("vhs"), "T-120", speed=Speed.SP, tv=TvSystem.NTSC)


def in_front(place: Place, tool: PackTool) -> PackTool:
    """The tool once it has the keyboard."""
    place.qtbot.waitUntil(tool.isActiveWindow)
    return tool


@pytest.fixture
def tool(place: Place) -> Iterator[PackTool]:
    """The tool over a window, for a T-120 recorded at SP."""
    place.window.show()
    opened = PackTool(place.window, takes_fill=True)
    opened.begin("row", "VHS T-120", T_120, None)
    yield in_front(place, opened)
    opened.hide()


def words_on(widget: QWidget) -> str:
    QApplication.processEvents()
    return " ".join(label.text() for label in widget.findChildren(QLabel) if label.isVisibleTo(widget))


def type_both(tool: PackTool, to_come: str, run: str) -> None:
    tool.fields[TO_COME].setFocus()
    press_text(to_come)
    press(Qt.Key.Key_Return)
    press_text(run)


def test_the_first_field_has_the_keyboard_and_nothing_is_claimed_yet(tool: PackTool) -> None:
    assert QApplication.focusWidget() is tool.fields[TO_COME]
    assert tool.reading is None
    assert not tool.main.isVisibleTo(tool)


def test_two_radii_give_minutes_run_and_minutes_to_go(tool: PackTool) -> None:
    type_both(tool, "30.2", "30.2")

    shown = words_on(tool)
    assert "47–53% of the tape has played" in shown
    assert shown.count("58–66 min") == 2
    assert "add up to a full T-120" in shown
    assert "17 to 20 µm" in shown
    assert "JVC VTG82063" in shown


def test_one_radius_is_enough_and_the_other_pack_is_drawn_as_worked_out(tool: PackTool) -> None:
    tool.fields[RUN].setText("35")

    assert tool.reading is not None
    assert "Left pack about 25 mm, calculated" in tool.drawing.accessibleName()
    assert "Right pack 35.0 mm" in tool.drawing.accessibleName()
    assert "Measure both packs" in words_on(tool)


def test_packs_that_cannot_be_of_this_marking_ask_for_a_second_look(tool: PackTool) -> None:
    type_both(tool, "30.2", "30.2")
    tool.marking.setCurrentIndex(tool.marking.findText("T-90"))

    shown = words_on(tool)
    assert "a T-90 has 185 m" in shown
    assert "T-120" in shown


def test_a_radius_that_cannot_be_is_named_and_nothing_is_offered(tool: PackTool) -> None:
    tool.fields[RUN].setText("9")

    assert "found 9.0" in words_on(tool)
    assert "from the hub, 13 mm" in words_on(tool)
    assert not tool.main.isVisibleTo(tool)


def test_a_rewound_tape_offers_nothing_to_take_over(tool: PackTool, place: Place) -> None:
    type_both(tool, "40.7", "13.2")

    assert "cannot show how much is recorded" in words_on(tool)
    assert not tool.main.isVisibleTo(tool)
    assert not tool.here.isVisibleTo(tool)
    with place.qtbot.assertNotEmitted(tool.fill_taken):
        press(Qt.Key.Key_Return, CTRL)
    assert tool.isVisible()


def test_arrows_in_a_field_move_the_edge_by_a_tenth(tool: PackTool) -> None:
    tool.fields[RUN].setText("35")
    tool.fields[RUN].setFocus()
    press(Qt.Key.Key_Up)
    press(Qt.Key.Key_Up)
    press(Qt.Key.Key_Down)

    assert tool.fields[RUN].text() == "35.1"


def test_the_edges_are_moved_by_keys_in_the_drawing(tool: PackTool) -> None:
    tool.drawing.setFocus()
    press(Qt.Key.Key_Up)
    assert tool.fields[TO_COME].text() == "13.1"
    press(Qt.Key.Key_Right)
    worked_out = tool.drawing.edge(RUN)
    press(Qt.Key.Key_PageDown)
    assert float(tool.fields[RUN].text()) == pytest.approx(worked_out - 1, abs=0.051)
    press(Qt.Key.Key_Delete)

    assert tool.fields[RUN].text() == ""


def test_an_edge_stops_at_the_hub_and_at_the_flange(tool: PackTool) -> None:
    tool.drawing.setFocus()
    press(Qt.Key.Key_Down)
    assert tool.fields[TO_COME].text() == "13.0"
    for _ in range(40):
        press(Qt.Key.Key_PageUp)

    assert tool.fields[TO_COME].text() == "44.5"


def test_an_edge_is_dragged_to_where_the_hand_lets_go(tool: PackTool) -> None:
    drawing = tool.drawing
    QApplication.processEvents()
    there = drawing.centre(RUN) + QPointF(30 * drawing.scale(), 0)
    QTest.mousePress(drawing, Qt.MouseButton.LeftButton, pos=drawing.centre(RUN).toPoint())
    QTest.mouseMove(drawing, there.toPoint())
    QTest.mouseRelease(drawing, Qt.MouseButton.LeftButton, pos=there.toPoint())

    assert float(tool.fields[RUN].text()) == pytest.approx(30, abs=0.5)
    assert tool.fields[TO_COME].text() == ""


def test_the_drawing_is_to_scale(tool: PackTool) -> None:
    QApplication.processEvents()
    apart = tool.drawing.centre(RUN) - tool.drawing.centre(TO_COME)

    assert apart.x() / tool.drawing.scale() == pytest.approx(92)


def test_at_least_so_far_takes_over_what_was_seen_as_the_least(tool: PackTool, place: Place) -> None:
    type_both(tool, "30.21", "30.21")
    assert "At least this far: 50%" in tool.main.text()
    with place.qtbot.waitSignal(tool.fill_taken) as told:
        press(Qt.Key.Key_Return, CTRL)

    assert told.args == [Recorded(0.5, FillKnown.AT_LEAST)]
    assert not tool.isVisible()


def test_stopped_recording_here_takes_over_what_was_seen(tool: PackTool, place: Place) -> None:
    type_both(tool, "30.21", "30.21")
    with place.qtbot.waitSignal(tool.fill_taken) as told:
        press(Qt.Key.Key_S, ALT)

    assert told.args is not None
    (found,) = told.args
    assert (found.fill, found.fill_known) == (0.5, FillKnown.READ)
    assert found.fill_off == pytest.approx(0.029, abs=0.001)


def test_run_to_its_end_a_tape_can_only_be_said_to_have_stopped_there(tool: PackTool, place: Place) -> None:
    type_both(tool, "13", "40.7")
    assert not tool.main.isVisibleTo(tool)
    with place.qtbot.waitSignal(tool.fill_taken) as told:
        press(Qt.Key.Key_S, ALT)

    assert told.args == [Recorded(1.0, FillKnown.READ)]


def test_what_was_read_is_still_there_after_escape(tool: PackTool, place: Place) -> None:
    type_both(tool, "30", "31")
    press(Qt.Key.Key_Escape)
    assert not tool.isVisible()
    tool.begin("row", "VHS T-120", T_120, None)
    in_front(place, tool)

    assert [field.text() for field in tool.fields] == ["30", "31"]
    tool.begin("another row", "VHS T-120", T_120, None)
    assert [field.text() for field in tool.fields] == ["", ""]


def test_where_the_hub_is_not_known_the_tool_says_why_and_asks_nothing(tool: PackTool, place: Place) -> None:
    tool.begin("8", "Hi8", TapeLine(1, FormatName("hi8"), "P6-120"), None)

    shown = words_on(tool)
    assert "Hi8: the hub radius is not known" in shown
    assert "We do not guess" in shown
    assert not any(field.isVisibleTo(tool) for field in tool.fields)
    assert not tool.main.isVisibleTo(tool)
    assert QApplication.focusWidget() is tool.close_button


def test_an_audio_cassette_is_read_by_the_side(tool: PackTool) -> None:
    tool.begin("9", "C90", TapeLine(1, FormatName("audio-cassette"), "C90"), None)
    tool.fields[RUN].setText("19")

    assert "Minutes are for one side" in words_on(tool)
    assert "thick edge toward you" in words_on(tool)


def test_buttons_can_be_hit_and_fields_are_named(tool: PackTool) -> None:
    type_both(tool, "30", "30")
    QApplication.processEvents()
    for button in tool.findChildren(QAbstractButton):
        if button.isVisibleTo(tool):
            assert button.height() >= 24
    for field in (*tool.fields, tool.marking, tool.drawing):
        assert field.accessibleName()


def test_at_double_size_the_tool_fits_the_window(place: Place) -> None:
    place.window.resize(640, 400)
    place.window.show()
    small = PackTool(place.window, takes_fill=True)
    small.begin("row", "VHS T-120", T_120, None)
    type_both(in_front(place, small), "28.4", "31.9")
    QApplication.processEvents()

    assert small.width() <= 640
    assert small.height() <= 400
    for button in (small.main, small.here, small.close_button):
        assert button.width() >= button.sizeHint().width(), button.text()
    small.hide()


# --- on the screens -----------------------------------------------------------------------


def test_at_the_bench_the_packs_go_into_the_history(place: Place) -> None:
    code = place.records.book(line("vhs")).tapes[0].code
    screen = place.turn_to(BenchScreen)
    screen.take(code)
    place.settle()
    press(Qt.Key.Key_M, CTRL)
    type_both(in_front(place, screen.looks.packs), "30.2", "30.2")
    press(Qt.Key.Key_Return, CTRL)
    place.settle()

    assert "packs read" in place.records.shop.ask(tapes.history, code)[-1].words
    assert "in the history of VHS T-120" in place.told
    assert place.window.focusWidget() is screen.box


def test_at_the_counter_the_packs_fill_the_row_in_one_step_that_can_be_undone(place: Place) -> None:
    screen = place.turn_to(CounterScreen)
    screen.draft.write_row(0, TypedRow(count="1", format="VHS", marking="T-120", tv="NTSC"), "typed")
    screen.parts.table.put_cursor(0, 0)
    before, minutes = screen.draft.box, screen.quote.tapes[0].minutes  # type: ignore[union-attr]
    press(Qt.Key.Key_M, CTRL)
    type_both(in_front(place, screen.inspections.packs), "30.21", "30.21")
    press(Qt.Key.Key_S, ALT)
    place.settle()

    row = screen.draft.box.rows[0]
    assert (row.fill, row.fill_known) == (pytest.approx(0.5), FillKnown.READ)
    assert screen.quote is not None
    assert screen.quote.tapes[0].minutes.high < minutes.high
    assert "50% (give or take 3%) recorded" in place.told
    screen.tray.undo()
    assert screen.draft.box == before


def test_at_the_counter_a_tape_wound_into_its_recording_is_taken_as_the_least(place: Place) -> None:
    screen = place.turn_to(CounterScreen)
    screen.draft.write_row(
        0, TypedRow(count="1", format="VHS", marking="T-120", speed="SP", tv="NTSC"), "typed"
    )
    screen.parts.table.put_cursor(0, 0)
    press(Qt.Key.Key_M, CTRL)
    type_both(in_front(place, screen.inspections.packs), "30.21", "30.21")
    press(Qt.Key.Key_Return, CTRL)
    place.settle()

    row = screen.draft.box.rows[0]
    assert (row.fill, row.fill_known) == (pytest.approx(0.5), FillKnown.AT_LEAST)
    assert "at least 50% recorded" in place.told
    assert screen.quote is not None
    assert screen.quote.tapes[0].minutes.low >= 122.9 / 2
