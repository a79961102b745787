"""A box from the cold: one key at the Counter, kept through power cut and booking, told at the Bench."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from core.catalogue import acclimatisation
from core.model.names import JobNumber
from core.model.own_shop.settings_records import Expected
from core.model.stations import Station
from core.model.typed_draft import TypedBox, TypedRow
from core.services import drafts, expectations, jobs, tapes
from core.wording.messages import say
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.counter.typed_box import box_of, read_box
from tests.support.counting import ALT, Clerk, clerk_at
from tests.support.screens import Place, press, press_text, written

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def clerk(place: Place) -> Clerk:
    place.records.shop.run(expectations.expect, Expected())
    return clerk_at(place)


def test_one_key_says_that_a_box_came_in_cold_and_the_day_counts_its_rest(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh", marking="t120")
    place.settle()
    warm = clerk.counter.quote
    assert warm is not None
    press(Qt.Key.Key_O, ALT)
    place.settle()
    cold = clerk.counter.quote
    assert cold is not None
    assert clerk.counter.parts.form.cold.isChecked()
    assert cold.inventory.cold
    assert warm.promise.day == place.records.clock().date()
    assert cold.promise.day == place.records.clock().date() + timedelta(days=1)
    assert say("quotes", "came_in_cold", hours=24.0) in written(clerk.counter.parts.telling)
    clerk.counter.tray.undo()
    assert not clerk.counter.parts.form.cold.isChecked()


def test_the_tick_is_reached_from_the_tray_and_leads_back_to_it(clerk: Clerk) -> None:
    form = clerk.counter.parts.form
    form.rush.setFocus()
    press(Qt.Key.Key_Tab)
    assert form.cold.hasFocus()
    press(Qt.Key.Key_Tab)
    assert form.exempt.hasFocus()
    press(Qt.Key.Key_Return)
    assert clerk.counter.parts.table.hasFocus()


def test_a_power_cut_does_not_warm_the_box(clerk: Clerk, place: Place) -> None:
    clerk.count(format="vh")
    press(Qt.Key.Key_O, ALT)
    clerk.counter.autosave.save_now()
    place.settle()
    kept = place.records.shop.ask(drafts.kept, "counter 1")
    assert isinstance(kept, TypedBox)
    assert kept.cold


def test_a_cold_inventory_out_of_older_books_is_a_cold_box(clerk: Clerk) -> None:
    box = TypedBox(rows=(TypedRow("1", "VHS", "T-120"),), name="Ada", cold=True)
    assert box_of(read_box(box, clerk.counter.desk.clock().date()).inventory) == box


def test_a_cold_tape_is_told_at_the_bench_and_plays_early_only_with_a_reason(
    clerk: Clerk, place: Place
) -> None:
    clerk.count(format="vh", marking="t120")
    press(Qt.Key.Key_O, ALT)
    place.settle()
    clerk.counter.parts.form.fields["name"].setFocus()
    press_text("Ada Fenwick")
    clerk.counter.booking.book()
    place.settle()
    job = place.records.shop.ask(jobs.get, JobNumber("000018"))
    tape = place.records.bring_to(job.tapes[0], Station.CLEARED_TO_PLAY)
    assert tape.rests_until is not None

    screen = place.turn_to(BenchScreen)
    screen.take(tape.code)
    place.settle()
    told = written(screen.card)
    assert "Came in cold: it rests until Wed, Mar 4, 9:00\u00a0AM" in told
    assert acclimatisation.caution() in told
    press(Qt.Key.Key_P, Qt.KeyboardModifier.AltModifier)
    place.settle()
    assert "rests until Wednesday, March 4, 9:00\N{NO-BREAK SPACE}AM" in place.told
    assert place.records.shop.ask(tapes.get, tape.code).station is Station.CLEARED_TO_PLAY

    screen.side.moves.note.setFocus()
    press_text("it was in the room since yesterday")
    press(Qt.Key.Key_P, Qt.KeyboardModifier.AltModifier)
    place.settle()
    assert place.records.shop.ask(tapes.get, tape.code).station is Station.PLAYING
    assert "Came in cold" not in written(screen.card)
    assert QApplication.focusWidget() is not None


def test_the_ticks_are_whole_at_any_width(place: Place) -> None:
    counter = place.turn_to(CounterScreen)
    for wide in (1280, 900, 640):
        place.window.resize(wide, 500)
        place.settle()
        place.settle()  # a scroll bar came, and with it a second line of fields
        form = counter.parts.form
        for tick in (form.rush, form.cold, form.exempt):
            assert tick.width() >= tick.sizeHint().width()
            assert tick.height() >= 24
            held = tick.parentWidget()
            assert held is not None
            assert held.rect().contains(tick.geometry())
