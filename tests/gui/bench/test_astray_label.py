"""A not-for-reuse label that no longer belongs on its cassette: spoken of at the pickup, in nobody's way."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from core.model.job_records import Job
from core.model.names import Join
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import repair_record, tapes
from gui.pickup.pickup_screen import PickupScreen
from tests.support.booked import line
from tests.support.screens import Place, press, type_in


@pytest.fixture
def screen(place: Place) -> PickupScreen:
    return place.turn_to(PickupScreen)


def ready(place: Place) -> Job:
    """A tape with a label of a splice that was none, and one that has never seen a blade."""
    job = place.records.book(line("vhs", 2))
    place.records.allow(job)
    for tape in job.tapes:
        place.records.bring_to(tape, Station.READY)
    code = job.tapes[0].code
    place.records.shop.run(repair_record.splice, code, at_minutes=1.0, cut_cm=2.0, joined_with=Join.TAPE)
    place.records.shop.run(repair_record.mark, code)
    place.records.shop.run(repair_record.undo_splice, code, because="it was the other tape")
    return job


def kept(place: Place, job: Job) -> TapeRecord:
    return place.records.shop.ask(tapes.get, job.tapes[0].code)


def question(screen: PickupScreen) -> str:
    label = screen.findChild(QLabel, "label-question")
    assert label is not None
    return label.text() if label.isVisible() else ""


def find(place: Place, screen: PickupScreen, job: Job) -> None:
    type_in(screen.parts.box, job.number, enter=True)
    place.settle()
    place.settle()


def test_the_pickup_says_that_a_label_has_to_come_off_and_takes_the_answer(
    place: Place, screen: PickupScreen
) -> None:
    job = ready(place)
    find(place, screen, job)
    assert "no splice any more" in question(screen)
    assert "off" in screen.parts.label.button.text()
    press(Qt.Key.Key_F8)
    place.settle()
    place.settle()
    assert not kept(place, job).label_astray
    assert "The label has been taken off" in place.told
    assert question(screen) == ""


def test_a_label_astray_holds_nothing_up(place: Place, screen: PickupScreen) -> None:
    job = ready(place)
    find(place, screen, job)
    for tape in job.tapes:
        type_in(screen.parts.box, tape.code, enter=True)
    screen.parts.slip.signing.on_paper.click()
    screen.parts.slip.signer.setText("Ada Fenwick")
    press(Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    place.settle()
    place.settle()
    assert kept(place, job).station is Station.HANDED_BACK


def test_a_missing_label_is_asked_for_first(place: Place, screen: PickupScreen) -> None:
    job = ready(place)
    place.records.shop.run(
        repair_record.splice, job.tapes[1].code, at_minutes=1.0, cut_cm=2.0, joined_with=Join.TAPE
    )
    find(place, screen, job)
    assert "is the not-for-reuse label on" in question(screen)
    press(Qt.Key.Key_F8)
    place.settle()
    place.settle()
    assert "no splice any more" in question(screen)
