"""What others do in the same shop shows at once, and takes away nothing that is just being typed."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from core.model.job_records import Job
from core.model.names import ELSEWHERE
from core.model.stations import Station
from gui.bench.bench_screen import BenchScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.toolkit import screen as screens
from tests.support.booked import line
from tests.support.screens import Place, press, press_text, type_in

CHANGED = frozenset({"jobs", "tapes", ELSEWHERE})


@pytest.fixture
def job(place: Place) -> Job:
    return place.records.book(line(count=2))


def somebody_books(place: Place) -> Job:
    """Another counter stores an order, and the watch has found it."""
    job = place.records.book(line("hi8", marking="P6-120"))
    place.work.changed.emit(CHANGED)
    place.settle()
    return job


def find(place: Place, text: str) -> None:
    press_text(text)
    press(Qt.Key.Key_Return)
    place.settle()
    place.settle()


def test_the_bench_lists_the_new_box_and_keeps_the_minutes_typed(place: Place, job: Job) -> None:
    tape = place.records.bring_to(job.tapes[0], Station.PLAYING)
    bench = place.turn_to(BenchScreen)
    find(place, tape.code)
    type_in(bench.side.moves.minutes, "93")
    new = somebody_books(place)
    assert new.tapes[0].code in {piece.key for piece in bench.list.pieces}
    assert bench.side.moves.minutes.text() == "93"


def test_the_bench_shows_where_somebody_else_took_the_tape_in_hand(place: Place, job: Job) -> None:
    tape = place.records.bring_to(job.tapes[0], Station.PLAYING)
    bench = place.turn_to(BenchScreen)
    find(place, tape.code)
    place.records.bring_to(tape, Station.READY)
    place.work.changed.emit(CHANGED)
    place.settle()
    assert bench.tape is not None
    assert bench.tape.station is Station.READY


def test_a_form_on_the_phone_stays_open_and_the_answer_is_new_after_it(
    place: Place, job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    phone = place.turn_to(PhoneScreen)
    find(place, job.number)
    press(Qt.Key.Key_F8)
    assert phone.forms.correction.isVisible()
    place.records.bring_to(job.tapes[0], Station.READY)
    place.work.changed.emit(CHANGED)
    place.settle()
    assert phone.forms.correction.isVisible()
    before = phone._found
    phone.forms.close_forms()
    place.qtbot.waitUntil(lambda: phone._found != before)


def test_a_payment_typed_at_pickup_stays(place: Place, job: Job) -> None:
    for tape in job.tapes:
        place.records.bring_to(tape, Station.READY)
    pickup = place.turn_to(PickupScreen)
    find(place, job.number)
    paid = pickup.parts.slip.paid
    paid.selectAll()
    type_in(paid, "12.34")
    somebody_books(place)
    assert paid.text() == "12.34"


def test_a_screen_that_waits_looks_again_soon() -> None:
    assert screens.LATER_MS < 1000
