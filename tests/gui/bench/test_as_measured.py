"""Far more than a tape can hold is asked at the bench before it is stored."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QPushButton

from core.model.names import Speed, TapeCode
from core.model.stations import Station
from core.services import tapes
from gui.bench.bench_screen import BenchScreen
from gui.bench.splice_form import SpliceForm
from gui.toolkit.text import say
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.screens import Place, type_in


def _begin(records: Desk) -> None:
    job = records.book(line(marking="T-30", speed=Speed.SP))
    records.allow(job, 10_000_000)  # so that the price stops nothing
    records.bring_to(job.tapes[0], Station.PLAYING)


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def code(place: Place) -> TapeCode:
    (tape,) = place.records.shop.ask(tapes.at_work)
    return tape.code


@pytest.fixture
def screen(place: Place, code: TapeCode) -> BenchScreen:
    screen = place.turn_to(BenchScreen)
    screen.take(code)
    place.settle()
    type_in(screen.side.moves.minutes, "800")
    screen.steps.move(Station.BEING_CHECKED)
    place.settle()
    return screen


def answer(screen: BenchScreen, place: Place, key: str) -> None:
    box = screen.steps.measured.box
    assert box is not None
    (button,) = (each for each in box.findChildren(QPushButton) if each.text() == say("lengths", key))
    button.click()
    place.settle()


def played(place: Place, code: TapeCode) -> float | None:
    return place.records.shop.ask(tapes.get, code).played_minutes


def test_800_minutes_of_a_t_30_are_asked_and_changed(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    box = screen.steps.measured.box
    assert box is not None
    assert "33.5 minutes at most" in box.text()
    assert box.defaultButton().text() == say("lengths", "change")
    assert played(place, code) is None
    answer(screen, place, "change")
    assert played(place, code) is None
    assert screen.steps.measured.box is None


def test_what_was_really_measured_is_kept_and_told_on_the_card(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    answer(screen, place, "keep")
    assert played(place, code) == 800
    assert screen.tape is not None
    assert screen.tape.station is Station.BEING_CHECKED


def test_the_splice_form_tells_of_a_place_beyond_the_tape_while_it_is_typed(
    place: Place, screen: BenchScreen, code: TapeCode
) -> None:
    answer(screen, place, "change")
    form = SpliceForm()
    place.qtbot.addWidget(form)
    form.begin(place.records.shop.ask(tapes.get, code))
    form.at.setText("20")
    assert form.doubt.isHidden()
    form.at.setText("40")
    assert "33.5 minutes at most" in form.doubt.text()
    assert not form.doubt.isHidden()
