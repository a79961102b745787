"""The line breaks after COMMIT, or a key is pressed twice: in the window everything is stored once."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.model import serialization
from core.model.job_records import Job
from core.model.typed_draft import TypedBox
from core.services import jobs, payments
from core.wording import locale_figures
from core.wording.messages import say
from gui.pickup.pickup_screen import PickupScreen
from gui.toolkit.intents import Intents
from tests.sent_again.lost_replies import failing_after_commit
from tests.support.booked import line
from tests.support.counting import ALT, Clerk, clerk_at
from tests.support.screens import Place, press, press_text, type_in


@contextmanager
def unanswered(place: Place) -> Iterator[None]:
    """Within this, whatever the window stores is not acknowledged."""
    assert place.work._shop is not None
    with failing_after_commit(place.work._shop.database.writing):
        yield


def booked_unheard(place: Place) -> Clerk:
    """A clerk whose first box, Ada Fenwick's, was stored without anybody hearing of it."""
    clerk = clerk_at(place)
    clerk.count(format="vhs")
    clerk.name_the_customer("Ada Fenwick")
    with unanswered(place):
        clerk.book()
        place.settle()
    return clerk


def names(place: Place) -> list[str]:
    return [job.customer.name for job in place.records.shop.ask(jobs.open_jobs)]


def test_the_next_customer_is_not_swallowed_after_a_lost_answer(place: Place) -> None:
    """The first box was stored; the second, typed over it, stays, is told, and gets an order of its own."""
    clerk = booked_unheard(place)
    assert names(place) == ["Ada Fenwick"]
    assert clerk.counter.job is None
    clerk.name_the_customer("Bo Marsh")
    clerk.book()
    place.settle()
    assert names(place) == ["Ada Fenwick"]
    assert "stored after all" in place.window.banner.sentence
    assert clerk.counter.draft.box.name == "Bo Marsh"
    clerk.book()
    place.settle()
    assert names(place) == ["Ada Fenwick", "Bo Marsh"]
    assert clerk.counter.draft.box.is_empty


def test_a_box_changed_after_a_lost_answer_is_not_booked_twice_unheard(place: Place) -> None:
    """One tape more, or another deposit because the price has moved: it was another wish with an id of its
    own, so that the box was there twice. Seen red with ids by content."""
    clerk = booked_unheard(place)
    clerk.counter.draft.write_deposit("1")
    clerk.book()
    place.settle()
    assert names(place) == ["Ada Fenwick"]
    assert clerk.counter.job is not None
    assert clerk.counter.draft.box.is_empty


def test_a_box_restored_after_a_lost_answer_is_still_the_same_box(place: Place) -> None:
    """The window ends before anybody was told; what was typed is back at the next start."""
    clerk = booked_unheard(place)
    kept = serialization.loads(TypedBox, serialization.dumps(clerk.counter.draft.box))
    place.work.sent._intents = Intents()
    clerk.counter.draft.begin(TypedBox())
    clerk.counter.draft.begin(kept)
    place.settle()
    clerk.book()
    place.settle()
    assert names(place) == ["Ada Fenwick"]
    assert clerk.counter.draft.box.is_empty


def test_the_same_box_again_after_a_lost_answer_is_one_order(place: Place) -> None:
    clerk = booked_unheard(place)
    place.records.clock.go_on(minutes=3)
    clerk.book()
    place.settle()
    assert names(place) == ["Ada Fenwick"]
    assert clerk.counter.job is not None
    clerk.counter.take_focus()
    clerk.count(count="1", format="vhs")
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    place.settle()
    assert len(names(place)) == 2, "her next box is another one, alike as it is"


# --- money -------------------------------------------------------------------------------


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


def refunds(place: Place, job: Job) -> list[int]:
    paid = place.records.shop.ask(jobs.get, job.number).payments
    return [each.minor for each in paid if each.kind == "refund"]


def fill(amount: str, why: str) -> None:
    press(Qt.Key.Key_F6)
    press_text(amount)
    press(Qt.Key.Key_Return)
    press_text(why)


def test_give_back_pressed_twice_while_another_till_writes_is_one_refund(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    fill("5", "paid twice")
    other = sqlite3.connect(place.records.where, isolation_level=None)
    try:
        other.execute("BEGIN IMMEDIATE")
        press(Qt.Key.Key_G, ALT)
        QTest.qWait(200)
        press(Qt.Key.Key_G, ALT)
        QApplication.processEvents()
        other.execute("ROLLBACK")
    finally:
        other.close()
    place.settle()
    assert refunds(place, job) == [-500]


def test_money_back_after_a_lost_answer_is_given_once_and_said_so(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    fill("5", "paid twice")
    with unanswered(place):
        press(Qt.Key.Key_G, ALT)
        place.settle()
    assert refunds(place, job) == [-500]
    assert screen.parts.payments.form.isVisible()
    press(Qt.Key.Key_G, ALT)
    place.settle()
    place.settle()
    assert refunds(place, job) == [-500]
    assert not screen.parts.payments.form.isVisible()
    assert place.window.banner.sentence == say("window", "saved_before", time=_clock(place))


def test_what_was_stored_unheard_is_told_when_the_records_are_reached_again(
    place: Place, screen: PickupScreen, job: Job
) -> None:
    fill("5", "paid twice")
    with unanswered(place):
        press(Qt.Key.Key_G, ALT)
        place.settle()
    place.work.ask(jobs.get, job.number, then=lambda _: None)
    place.settle()
    assert place.window.banner.sentence == say("window", "saved_after_all", count=1, time=_clock(place))
    fill("3", "another reason")
    press(Qt.Key.Key_G, ALT)
    place.settle()
    assert refunds(place, job) == [-500, -300]


def _clock(place: Place) -> str:
    return locale_figures.time_of_day(place.records.clock().astimezone())
