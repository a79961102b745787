"""The guided look-over by keys alone: at the bench the whole, at the counter a few questions."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QCheckBox, QLabel, QWidget

from core.catalogue import inspection
from core.catalogue.formats import catalogue
from core.catalogue.shell_anatomy import ABOVE, BELOW, Anatomy
from core.model.errors import WrongInput
from core.model.names import Container, Finding, FormatName, TapeCode
from core.model.stations import Station
from core.model.typed_draft import TypedRow
from core.services import tapes
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.inspection.guided_look import LookOver
from gui.inspection.look_layout import caption
from gui.inspection.look_progress import LookResult, LookSubject
from gui.inspection.look_step import LETTERS, celsius
from gui.inspection.raking_light import LAMPS
from gui.inspection.shell_drawing import ShellArt
from gui.toolkit.text import say
from tests.support.booked import line
from tests.support.screens import Place, press, press_text

CTRL = Qt.KeyboardModifier.ControlModifier
VHS = FormatName("vhs")


@pytest.fixture
def look(place: Place) -> Iterator[LookOver]:
    """A whole look-over of a VHS cassette, open over a window."""
    place.window.show()
    opened = LookOver(place.window, short=False)
    opened.begin(LookSubject("0000180014", "VHS T-120", VHS))
    yield in_front(place, opened)
    opened.hide()


def words_on(widget: QWidget) -> str:
    QApplication.processEvents()
    return " ".join(label.text() for label in widget.findChildren(QLabel) if label.isVisibleTo(widget))


def in_front(place: Place, look: LookOver) -> LookOver:
    """The look-over once it has the keyboard."""
    place.qtbot.waitUntil(look.isActiveWindow)
    return look


def to_step(look: LookOver, key: str) -> None:
    for _ in range(9):
        if look.step is None or look.step.key == key:
            break
        press(Qt.Key.Key_Space)
    assert look.step is not None
    assert look.step.key == key


def to_the_end(look: LookOver) -> None:
    for _ in range(9):
        if look.step is not None:
            press(Qt.Key.Key_Space)


def kept(look: LookOver, place: Place) -> LookResult:
    with place.qtbot.waitSignal(look.kept) as told:
        press(Qt.Key.Key_Return, CTRL)
    seen = told.args[0]
    assert isinstance(seen, LookResult)
    return seen


def test_space_and_return_lead_through_every_step_to_the_end(look: LookOver, place: Place) -> None:
    keys = [step.key for step in inspection.steps(VHS)]
    for n, key in enumerate(keys):
        assert look.step is not None
        assert look.step.key == key
        press(Qt.Key.Key_Space if n % 2 else Qt.Key.Key_Return)

    assert look.step is None
    assert "Nothing found in 9 of 9 steps" in words_on(look)
    assert kept(look, place) == LookResult((), 9, 9, "")


def test_a_letter_marks_a_finding_and_says_what_it_changes_and_what_to_tell(
    look: LookOver, place: Place
) -> None:
    to_step(look, "lid")
    press_text("s")

    shown = words_on(look)
    assert say("inspection", "change_reuse") in shown
    assert "Price: splice" in shown
    assert inspection.change(Finding.SNAPPED, VHS).means in shown
    assert look.found == (Finding.SNAPPED,)
    press_text("S")
    assert look.found == ()


def test_a_letter_of_another_step_marks_nothing(look: LookOver) -> None:
    to_step(look, "protect")
    press_text("smkou")

    assert look.found == ()


def test_backspace_goes_back_and_what_was_marked_is_still_there(look: LookOver) -> None:
    to_step(look, "lid")
    press_text("c")
    press(Qt.Key.Key_Space)
    press(Qt.Key.Key_Backspace)

    assert look.step is not None
    assert look.step.key == "lid"
    assert look.findChild(QCheckBox, "seen-chewed").isChecked()


def test_mould_stops_the_look_over_before_anything_is_opened(look: LookOver, place: Place) -> None:
    to_step(look, "mould")
    assert "breathing protection" in words_on(look)
    press_text("m")
    press(Qt.Key.Key_Space)

    assert look.step is None
    assert "Stop here" in words_on(look)
    assert kept(look, place) == LookResult((Finding.MOULD,), 2, 9, "")


def test_the_end_names_what_changes_most_first(look: LookOver) -> None:
    to_step(look, "shell")
    press_text("b")
    to_step(look, "tape")
    press_text("h")
    to_the_end(look)

    shown = words_on(look)
    assert shown.index("Scratched") < shown.index("Shell broken")
    assert QApplication.focusWidget() is look.keep_button


def test_the_end_says_what_to_be_careful_of_where_something_has_to_be_opened(look: LookOver) -> None:
    to_step(look, "lid")
    press_text("s")
    to_the_end(look)

    shown = words_on(look)
    assert "Careful" in shown
    assert "Blades: eye and hand protection" in shown
    assert "local rules on electrical work go first" in shown


def test_a_cold_tape_gets_its_hours_as_a_sentence(look: LookOver, place: Place) -> None:
    look.page.temperature.setFocus()
    press_text("-5")
    assert "at least 2.5 hours" in words_on(look)
    press(Qt.Key.Key_Return)

    assert "at least 2.5 hours" in kept(look, place).note


def test_a_temperature_nobody_can_mean_is_named_and_holds_the_step(look: LookOver) -> None:
    look.page.temperature.setFocus()
    press_text("minus five")
    press(Qt.Key.Key_Return)

    assert look.step is not None
    assert look.step.key == "cold"
    assert "minus five" in words_on(look)
    assert QApplication.focusWidget() is look.page.temperature


@pytest.mark.parametrize(
    ("text", "degrees"), [("", None), ("20", 20), ("−5 °C", -5), ("14 F", -10), ("32f", 0), ("2.5", 2.5)]
)
def test_temperatures_are_read_as_they_are_written(text: str, degrees: float | None) -> None:
    assert celsius(text) == (degrees if degrees is None else pytest.approx(degrees))


@pytest.mark.parametrize("text", ["2,5", "warm", "−", "--5", "5 - 6"])
def test_no_temperature_is_guessed(text: str) -> None:
    with pytest.raises(WrongInput, match="a temperature from"):
        celsius(text)


def test_something_else_is_found_by_a_few_letters(look: LookOver) -> None:
    press(Qt.Key.Key_F6)
    press_text("sound")
    press(Qt.Key.Key_Return)

    assert look.found == (Finding.SOUND_MISSING,)
    assert look.step is not None


def test_escape_in_the_list_turns_back_to_the_step(look: LookOver) -> None:
    press(Qt.Key.Key_F6)
    press(Qt.Key.Key_Escape)

    assert look.isVisible()
    assert QApplication.focusWidget() is not look.chooser.field


def test_a_look_over_broken_off_goes_on_where_it_was(look: LookOver, place: Place) -> None:
    to_step(look, "tape")
    press_text("r")
    press(Qt.Key.Key_Escape)
    assert not look.isVisible()

    look.begin(LookSubject("0000180028", "VHS T-60", VHS))
    in_front(place, look)
    assert look.found == ()
    press(Qt.Key.Key_Escape)
    look.begin(LookSubject("0000180014", "VHS T-120", VHS))

    assert look.step is not None
    assert look.step.key == "tape"
    assert look.found == (Finding.CREASED,)


def test_a_scanned_code_is_no_look(look: LookOver) -> None:
    press_text("0000180014")
    press(Qt.Key.Key_Return)

    assert look.step is not None
    assert look.step.key == "cold"


def test_every_button_can_be_hit_and_every_field_is_named(look: LookOver) -> None:
    to_step(look, "tape")
    for button in look.findChildren(QAbstractButton):
        if button.isVisibleTo(look):
            assert button.height() >= 24, button.text()
            assert button.accessibleName() or button.text()
    assert "R: creased" in QApplication.focusWidget().accessibleName()  # type: ignore[union-attr]


def test_at_double_size_the_look_over_fits_the_window_and_scrolls(place: Place) -> None:
    place.window.resize(640, 400)
    place.window.show()
    small = LookOver(place.window, short=False)
    small.begin(LookSubject("0000180014", "VHS T-120", VHS))
    place.qtbot.waitExposed(small)
    QTest.qWait(1)

    assert small.width() <= 640
    assert small.height() <= 400
    for button in (small.on, small.back, small.other, small.keep_button):
        assert button.width() >= button.sizeHint().width(), button.text()
    small.hide()


# --- drawings -----------------------------------------------------------------------------


def anatomy(name: FormatName) -> Anatomy:
    return catalogue().format(name).anatomy


@pytest.mark.parametrize("name", catalogue().names)
def test_every_part_a_step_points_at_is_drawn_or_the_nearest_known_one_is(name: FormatName) -> None:
    parts = anatomy(name)
    for step in inspection.steps(name):
        named = parts.named(step.part)
        if step.part != "protect":
            assert named, step.part
        if named:
            assert parts.spots(named, ABOVE) or parts.spots(named, BELOW)


@pytest.mark.parametrize("name", catalogue().names)
def test_every_spot_lies_on_the_shell(name: FormatName) -> None:
    for part, spots in anatomy(name).parts.items():
        for spot in spots:
            assert spot.x - spot.wide / 2 + 1e-9 >= 0, part
            assert spot.x + spot.wide / 2 <= 1 + 1e-9, part
            assert spot.y - spot.deep / 2 >= -0.01, part
            assert spot.y + spot.deep / 2 <= 1.01, part


def test_every_shell_of_the_catalogue_is_drawn_for_itself() -> None:
    """Formats share a drawing only where they share a shell, but for the two of one size in the catalogue."""
    for one, other in itertools.combinations(catalogue().names, 2):
        alike = anatomy(one).shape == anatomy(other).shape != "cassette"  # a reel is a reel
        if not alike and catalogue().format(one).shell.value != catalogue().format(other).shell.value:
            assert anatomy(one) != anatomy(other), (one, other)


@pytest.mark.parametrize(
    "name", [form.name for form in catalogue().formats if form.counted_in is Container.TAPE]
)
def test_a_latch_is_drawn_with_the_way_it_moves_and_only_where_somebody_says_where_it_is(
    name: FormatName,
) -> None:
    parts = anatomy(name)
    (lid,) = [step for step in inspection.steps(name) if step.key == "lid"]

    assert ("latch" in parts.parts) is bool(parts.latch_moves) is (lid.part == "latch")


@pytest.mark.parametrize("lamp", LAMPS)
def test_each_light_is_drawn_otherwise_and_said(place: Place, lamp: str) -> None:
    art = ShellArt(place.window)
    art.resize(360, 420)
    art.point_at(VHS, "tape")
    without = art.grab().toImage()
    art.point_at(VHS, "tape", lamp)

    assert art.grab().toImage() != without
    assert art.accessibleName().endswith(say("inspection", f"lamp_{lamp}"))


def test_the_lid_slides_of_8mm_and_minidv_are_on_opposite_sides() -> None:
    eight, dv = (anatomy(FormatName(name)).parts["latch"][0] for name in ("hi8", "minidv"))

    assert eight.x < 0.5 < dv.x


def test_a_vhs_shell_shows_its_five_screws_and_the_pin_in_the_middle() -> None:
    parts = anatomy(VHS).parts

    assert len(parts["screws"]) == 5
    assert parts["release"][0].x == 0.5
    assert parts["release"][0].side == BELOW


def test_shells_are_drawn_at_one_scale_and_small_ones_at_twice_that(place: Place) -> None:
    art = ShellArt(place.window)
    art.resize(400, 448)
    scales = {}
    for name in ("vhs", "u-matic", "minidv", "hi8"):
        art.point_at(FormatName(name), "lid")
        scales[name] = art.scale()

    assert scales["vhs"] == scales["u-matic"]
    assert scales["minidv"] == scales["hi8"] == 2 * scales["vhs"]


def test_a_drawing_says_what_it_points_at_and_how_far_it_is_to_be_trusted(place: Place) -> None:
    art = ShellArt(place.window)
    art.point_at(VHS, "release")

    assert art.accessibleName() == "VHS: the reel release, seen from below."
    assert "from memory" in caption(VHS)


def test_no_letter_stands_for_two_findings() -> None:
    assert set(LETTERS) == set(Finding)
    assert len(set(LETTERS.values())) == len(LETTERS)


# --- on the screens -----------------------------------------------------------------------


@pytest.fixture
def tape(place: Place) -> TapeCode:
    return place.records.allow(place.records.book(line("vhs"))).tapes[0].code


def test_at_the_bench_all_findings_and_the_station_are_kept_in_one_go(place: Place, tape: TapeCode) -> None:
    screen = place.turn_to(BenchScreen)
    screen.take(tape)
    place.settle()
    press(Qt.Key.Key_L, CTRL)
    look = in_front(place, screen.looks.look_over)
    to_step(look, "lid")
    press_text("s")
    to_step(look, "tape")
    press_text("r")
    press(Qt.Key.Key_Return, CTRL)
    place.settle()

    after = place.records.shop.ask(tapes.get, tape)
    assert after.station is Station.LOOKED_OVER
    assert set(after.findings) == {Finding.SNAPPED, Finding.CREASED}
    assert "looked over" in place.told
    assert place.window.focusWidget() is screen.box


def test_at_the_counter_the_short_form_writes_the_row_in_one_step_that_can_be_undone(place: Place) -> None:
    screen = place.turn_to(CounterScreen)
    screen.draft.write_row(0, _typed("3", "VHS"), "typed")
    screen.parts.table.put_cursor(0, 0)
    before = screen.draft.box
    press(Qt.Key.Key_L, CTRL)
    look = in_front(place, screen.inspections.look_over)
    assert len(inspection.short_steps(VHS)) == 5
    to_step(look, "tape")
    press_text("r")
    press(Qt.Key.Key_Return, CTRL)
    place.settle()

    assert screen.draft.box.rows[0].findings == "creased"
    screen.tray.undo()
    assert screen.draft.box == before


def test_at_the_counter_a_finding_known_already_can_be_taken_off(place: Place) -> None:
    screen = place.turn_to(CounterScreen)
    screen.draft.write_row(0, _typed("1", "VHS", "creased, snapped"), "typed")
    screen.parts.table.put_cursor(0, 0)
    press(Qt.Key.Key_L, CTRL)
    look = in_front(place, screen.inspections.look_over)
    assert set(look.found) == {Finding.CREASED, Finding.SNAPPED}
    to_step(look, "tape")
    press_text("r")
    press(Qt.Key.Key_Return, CTRL)
    place.settle()

    assert screen.draft.box.rows[0].findings == "snapped"


def test_a_row_without_a_format_is_named_and_nothing_opens(place: Place) -> None:
    screen = place.turn_to(CounterScreen)
    press(Qt.Key.Key_L, CTRL)

    assert say("inspection", "need_format", row=1) in place.told
    assert screen.parts.rows.columns[screen.parts.table.currentIndex().column()].name == "format"


def _typed(count: str, shell: str, findings: str = "") -> TypedRow:
    return TypedRow(count=count, format=shell, findings=findings)
