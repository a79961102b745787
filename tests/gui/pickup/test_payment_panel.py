"""Money by itself on the Pickup screen: taken, given back with a reason, never altered."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from core.model.job_records import Job
from core.model.own_shop.settings_records import Person
from core.services import jobs, payments
from core.services.own_shop import people, settings_versions
from core.store import current_settings
from gui.app.signing_in import SigningIn
from gui.pickup.pickup_screen import PickupScreen
from tests.support.booked import line
from tests.support.screens import Place, press, press_text, type_in

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def job(place: Place) -> Job:
    booked = place.records.book(line(count=2), name="Ada Fenwick")
    return place.records.shop.run(payments.take, booked.number, 2000, kind="deposit")


@pytest.fixture
def screen(place: Place, job: Job) -> PickupScreen:
    pickup = place.turn_to(PickupScreen)
    type_in(pickup.parts.box, job.number, enter=True)
    place.settle()
    place.settle()
    return pickup


def lines(place: Place, job: Job) -> list[tuple[str, int]]:
    return [(each.kind, each.minor) for each in place.records.shop.ask(jobs.get, job.number).payments]


def fill(amount: str, why: str = "") -> None:
    press(Qt.Key.Key_F6)
    press_text(amount)
    press(Qt.Key.Key_Return)
    press_text(why)


def test_money_is_given_back_by_keys_with_its_reason(place: Place, screen: PickupScreen, job: Job) -> None:
    fill("5", "paid twice")
    press(Qt.Key.Key_G, ALT)
    place.settle()
    place.settle()
    assert lines(place, job) == [("deposit", 2000), ("refund", -500)]
    told = place.records.shop.ask(jobs.history, job.number)[-1].words
    assert told == "refund of $5.00: paid twice"
    assert not screen.parts.payments.form.isVisible()
    assert QApplication.focusWidget() is screen.parts.box
    assert "$15.00" in screen.parts.slip.amounts.accessibleName()


def test_who_may_give_money_back_signs_in_before_the_form_and_finds_it_as_typed(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    owner = Person("Ada", may=frozenset({"settings", "refund"}), pin=people.hashed("271828"))
    shop = place.records.shop
    settings = replace(shop.ask(current_settings.read), staff=(owner, Person("Kim")))
    shop.run(settings_versions.change, settings, needs=None)
    signing = SigningIn(place.window, place.desk, settings)
    fill("5", "paid twice")
    press(Qt.Key.Key_G, ALT)
    place.settle()
    assert "Kim may not give money back. Ada can; sign in as Ada." in place.told
    assert lines(place, job) == [("deposit", 2000)]
    press(Qt.Key.Key_G, Qt.KeyboardModifier.ControlModifier)
    signing.page.names.taken.emit("Ada")
    press_text("271828")
    press(Qt.Key.Key_Return)
    place.settle()
    form = screen.parts.payments.form
    assert (form.isVisible(), form.amount.text(), form.reason.text()) == (True, "5", "paid twice")
    form.reason.setFocus()
    press(Qt.Key.Key_G, ALT)
    place.settle()
    assert lines(place, job) == [("deposit", 2000), ("refund", -500)]
    assert shop.ask(jobs.history, job.number)[-1].by == "Ada"


def test_money_is_taken_without_a_hand_back(place: Place, screen: PickupScreen, job: Job) -> None:
    fill("12.50")
    press(Qt.Key.Key_P, ALT)
    place.settle()
    assert lines(place, job) == [("deposit", 2000), ("balance", 1250)]


@pytest.mark.parametrize(
    ("amount", "why", "told"),
    [
        ("20.01", "so", "Only $20.00 was paid"),
        ("5", "", "say why the money is given back"),
        ("", "so", "an amount like 93.15"),
        ("five", "so", "an amount like 93.15"),
        ("93,15", "so", "an amount like 93.15"),  # was once read as 9,315.00
    ],
)
def test_what_cannot_be_given_back_is_said_and_stays_as_typed(
    place: Place, screen: PickupScreen, job: Job, amount: str, why: str, told: str
) -> None:
    fill(amount, why)
    press(Qt.Key.Key_G, ALT)
    place.settle()
    assert told in place.told
    assert lines(place, job) == [("deposit", 2000)]
    assert screen.parts.payments.form.isVisible()
    assert (screen.parts.payments.form.amount.text(), screen.parts.payments.form.reason.text()) == (
        amount,
        why,
    )


def test_escape_closes_the_form_and_then_puts_the_box_back(place: Place, screen: PickupScreen) -> None:
    press(Qt.Key.Key_F6)
    press(Qt.Key.Key_Escape)
    assert not screen.parts.payments.form.isVisible()
    assert screen.checklist is not None
    press(Qt.Key.Key_Escape)
    assert screen.checklist is None
    assert not screen.parts.payments.button.isVisible()


def test_the_form_does_not_go_over_to_another_box(place: Place, screen: PickupScreen) -> None:
    other = place.records.book(line(), name="Bo Quill")
    press(Qt.Key.Key_F6)
    press_text("5")
    screen.parts.box.setFocus()
    type_in(screen.parts.box, other.number, enter=True)
    place.settle()
    place.settle()
    assert screen.checklist is not None
    assert screen.checklist.job.number == other.number
    assert not screen.parts.payments.form.isVisible()
