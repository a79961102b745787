"""A name wrongly spelt is put right on the phone, by keys, for every box of that person."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from core.model.job_records import Customer
from core.model.names import JobNumber
from core.services import calls, customers, jobs
from core.wording.messages import say
from gui.phone.phone_screen import PhoneScreen
from tests.support.booked import line
from tests.support.screens import Place, press, press_text, type_in

FIRST, SECOND = JobNumber("000018"), JobNumber("000026")


@pytest.fixture
def phone(place: Place) -> PhoneScreen:
    for _ in range(2):
        place.records.book(line(count=2), name="Aad Fenwick")
    screen = place.turn_to(PhoneScreen)
    type_in(screen.box, "aad fenw", enter=True)
    place.settle()
    assert screen.panel.matches.stand_on(FIRST)
    return screen


def customer(place: Place, number: JobNumber) -> Customer:
    return place.records.shop.ask(jobs.get, number).customer


def test_a_name_is_put_right_by_keys_and_the_caller_is_still_answered(
    place: Place, phone: PhoneScreen
) -> None:
    press(Qt.Key.Key_F8)
    assert QApplication.focusWidget() is phone.forms.correction.name
    press_text("Ada Fenwick")
    for _ in range(2):
        press(Qt.Key.Key_Return)
    assert QApplication.focusWidget() is phone.forms.correction.email
    press_text("ada@example.org")
    press(Qt.Key.Key_Return)
    place.settle()
    place.settle()
    right = Customer("Ada Fenwick", "+13035550142", "ada@example.org")
    assert [customer(place, number) for number in (FIRST, SECOND)] == [right, right]
    assert not phone.forms.correction.isVisible()
    assert QApplication.focusWidget() is phone.box
    assert phone.box.text() == FIRST
    assert phone.answer.spoken.startswith("Ada's two tapes")
    assert place.records.shop.ask(calls.status, "Aad Fenwick")[0].matched == "similar-name"
    told = place.records.shop.ask(jobs.history, FIRST)[-1].words
    assert told == "name corrected: Aad Fenwick → Ada Fenwick; e-mail corrected: none → ada@example.org"


def test_a_box_keeps_a_name(place: Place, phone: PhoneScreen) -> None:
    press(Qt.Key.Key_F8)
    phone.forms.correction.name.clear()
    for _ in range(3):
        press(Qt.Key.Key_Return)
    place.settle()
    assert say("phone", "correct_needed") in place.told
    assert QApplication.focusWidget() is phone.forms.correction.name
    assert customer(place, FIRST).name == "Aad Fenwick"


def test_escape_changes_nothing_and_the_other_forms_go_away(place: Place, phone: PhoneScreen) -> None:
    press(Qt.Key.Key_F6)
    press(Qt.Key.Key_F8)
    assert not phone.forms.agreement.isVisible()
    press_text("Somebody Else")
    press(Qt.Key.Key_Escape)
    place.settle()
    assert not phone.forms.correction.isVisible()
    assert QApplication.focusWidget() is phone.box
    assert customer(place, FIRST).name == "Aad Fenwick"


def test_nobody_is_put_right_before_somebody_is_found(place: Place, phone: PhoneScreen) -> None:
    phone.box.clear()
    place.settle()
    assert not phone.forms.correct_button.isVisible()


def test_a_number_is_shown_as_it_is_dialed_here_and_kept_as_it_was(place: Place, phone: PhoneScreen) -> None:
    press(Qt.Key.Key_F8)
    assert phone.forms.correction.phone.text() == "(303) 555-0142"
    for _ in range(3):
        press(Qt.Key.Key_Return)
    place.settle()
    assert customer(place, FIRST).phone == "+13035550142"


@pytest.mark.parametrize(
    ("stored", "country", "shown"),
    [
        ("+13035550142", "US", "(303) 555-0142"),
        ("+13035550142", "DE", "+1 303-555-0142"),
        ("+4930123456", "DE", "030 123456"),
        ("555 01", "US", "555 01"),
        ("+442079460018", "US", "+44 20 7946 0018"),
    ],
)
def test_what_is_shown_is_read_as_the_same_number(stored: str, country: str, shown: str) -> None:
    """Forms as libphonenumber writes them (E.123 of the ITU); the numbers are reserved for fiction."""
    assert customers.as_dialled(stored, country) == shown
    assert customers.dialled(shown, country) == stored
