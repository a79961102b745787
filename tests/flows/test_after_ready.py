"""From ready to the receipt, by keys alone: told, reminded, and a part collected by a sister with a note."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from core.model.handover_records import ToldResult
from core.model.job_records import Job
from core.model.stations import Station
from core.services import pickups
from core.services.after_ready import telling
from core.wording.messages import say
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from tests.support.booked import line
from tests.support.pdf import words
from tests.support.screens import Place, press, press_text, type_in

CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


@pytest.fixture
def ready(place: Place) -> Job:
    """Two tapes of Ada Fenwick, both ready."""
    job = place.records.book(line(count=2), name="Ada Fenwick")
    for tape in job.tapes:
        place.records.bring_to(tape, Station.READY)
    return job


def tab_to(widget: QWidget) -> None:
    """Tab until the widget has the keyboard."""
    for _ in range(40):
        if widget.hasFocus():
            return
        press(Qt.Key.Key_Tab)
    pytest.fail(f"{widget.objectName()} cannot be reached by Tab")


def tell(place: Place, phone: PhoneScreen, digit: Qt.Key) -> None:
    """Take the first on the list, and say what came of the call."""
    tab_to(phone.panel.to_tell)
    press(Qt.Key.Key_Return)
    place.settle()
    press(Qt.Key.Key_R, CTRL)
    place.settle()
    press(digit)
    place.settle()
    assert phone.box.hasFocus()
    press(Qt.Key.Key_Escape)
    place.settle()


def test_told_reminded_and_a_part_collected_by_the_sister(place: Place, ready: Job) -> None:
    phone = place.turn_to(PhoneScreen)
    tell(place, phone, Qt.Key.Key_3)
    assert [piece.place for piece in phone.panel.to_tell.pieces] == ["tell them"], "no answer: still listed"
    tell(place, phone, Qt.Key.Key_2)
    assert phone.panel.to_tell.pieces == ()
    place.records.clock.go_on(days=8)
    phone.refresh()
    place.settle()
    assert [piece.place for piece in phone.panel.to_tell.pieces] == ["reminder 1"]
    tell(place, phone, Qt.Key.Key_1)
    told = place.records.shop.ask(telling.of_job, ready.number)
    assert [(each.round, each.result) for each in told] == [
        (0, ToldResult.NO_ANSWER),
        (0, ToldResult.LEFT_WORD),
        (1, ToldResult.REACHED),
    ]
    _sister_collects(place, ready)


def _sister_collects(place: Place, ready: Job) -> None:
    pickup = place.turn_to(PickupScreen)
    type_in(pickup.parts.box, ready.number, enter=True)
    place.settle()
    type_in(pickup.parts.box, ready.tapes[0].code, enter=True)
    place.settle()
    slip = pickup.parts.slip
    assert not slip.shown.isVisible()
    tab_to(slip.signer)
    press_text("Bea Fenwick")
    assert slip.shown.isVisible()
    press(Qt.Key.Key_S, ALT)
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    assert say("handing_back", "shown") in place.told, "nobody was named and nothing was shown"
    assert place.records.shop.ask(pickups.latest, ready.number) is None
    tab_to(slip.shown)
    press_text("a note signed by Ada")
    press(Qt.Key.Key_Return, CTRL)
    place.settle()
    kept = place.records.shop.ask(pickups.latest, ready.number)
    assert kept is not None
    assert (kept.signature.name, kept.shown) == ("Bea Fenwick", "a note signed by Ada")
    assert [tape.code for tape in kept.handed_back] == [ready.tapes[0].code]
    assert [tape.code for tape in kept.still_here] == [ready.tapes[1].code]
    (receipt,) = place.shown_files
    read = words(receipt.read_bytes())
    assert "Bea Fenwick collected for Ada Fenwick and showed: a note signed by Ada." in read
    assert place.records.shop.verify() == ()
