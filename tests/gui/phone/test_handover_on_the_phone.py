"""Phone: who is to be told, what came of it, who called before, and what a caller is asked first."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices, QGuiApplication
from PySide6.QtWidgets import QApplication

from core.model.job_records import Job
from core.model.stations import Station
from core.services import jobs
from core.services.after_ready import handover_wishes, telling
from core.services.own_shop import shop_document
from core.wording.messages import say
from gui.phone.phone_screen import PhoneScreen
from tests.support import beginnings
from tests.support.booked import Desk, events, line
from tests.support.screens import Place, press, press_text, type_in, written


def _begin(records: Desk) -> None:
    job = records.book(line(), name="Ada Fenwick")
    records.bring_to(job.tapes[0], Station.READY)


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def ready(place: Place) -> Job:
    (only,) = place.records.shop.ask(jobs.open_jobs)
    return only


def ask(place: Place, phone: PhoneScreen, text: str) -> None:
    phone.box.selectAll()
    type_in(phone.box, text)
    place.qtbot.waitUntil(lambda: not phone.search.is_waiting)
    place.settle()


def test_while_nobody_calls_those_whose_order_is_ready_are_listed(place: Place, ready: Job) -> None:
    phone = place.turn_to(PhoneScreen)
    assert [piece.key for piece in phone.panel.to_tell.pieces] == [ready.number]
    assert phone.panel.to_tell.isVisible()
    phone.panel.to_tell.setFocus()
    press(Qt.Key.Key_Return)
    place.settle()
    assert phone.box.text() == ready.number
    assert not phone.panel.to_tell.isVisible()


def test_a_digit_says_what_came_of_telling_them(place: Place, ready: Job) -> None:
    phone = place.turn_to(PhoneScreen)
    ask(place, phone, ready.number)
    press(Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
    place.settle()
    assert "can be picked up" in phone.handover.told.text.toPlainText()
    press(Qt.Key.Key_3)
    place.settle()
    assert say("phone", "told_again", name="Ada Fenwick") in place.told
    assert "No answer by phone" in written(phone)
    assert QApplication.focusWidget() is phone.box
    press(Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
    place.settle()
    press(Qt.Key.Key_1)
    place.settle()
    results = [each.result.value for each in place.records.shop.ask(telling.of_job, ready.number)]
    assert results == ["no-answer", "reached"]
    press(Qt.Key.Key_Escape)
    place.settle()
    assert phone.panel.to_tell.pieces == ()


def test_the_text_goes_to_a_program_of_the_system_or_to_the_clipboard(
    place: Place, ready: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[str] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda url: bool(opened.append(QUrl.toString(url))))
    phone = place.turn_to(PhoneScreen)
    ask(place, phone, ready.number)
    press(Qt.Key.Key_R, Qt.KeyboardModifier.ControlModifier)
    place.settle()
    press(Qt.Key.Key_D)
    assert opened == ["tel:+13035550142"]
    assert say("phone", "told_no_program") in place.told
    assert "can be picked up" in QGuiApplication.clipboard().text()


def test_the_next_clerk_sees_who_called_yesterday(place: Place, ready: Job) -> None:
    phone = place.turn_to(PhoneScreen)
    ask(place, phone, ready.number)
    press(Qt.Key.Key_F12)
    place.settle()
    (noted,) = events(place.records.shop, "called")
    assert "Ada's tape is ready" in noted.words
    place.records.clock.go_on(days=1)
    ask(place, phone, "fenwick")
    assert "Ada Fenwick called yesterday at 9:00\xa0AM; Kim answered." in written(phone)


def test_who_may_collect_and_a_pass_phrase_are_typed_on_the_phone(place: Place, ready: Job) -> None:
    phone = place.turn_to(PhoneScreen)
    ask(place, phone, ready.number)
    press(Qt.Key.Key_W, Qt.KeyboardModifier.ControlModifier)
    press_text("her sister Bea Fenwick")
    press(Qt.Key.Key_Return)
    press_text("mess")
    press(Qt.Key.Key_Return)
    press_text("blue heron")
    press(Qt.Key.Key_Return)
    place.settle()
    wishes = place.records.shop.ask(handover_wishes.of_job, ready.number)
    assert wishes.collector is not None
    assert (wishes.collector.words, wishes.how and wishes.how.value) == ("her sister Bea Fenwick", "message")
    assert handover_wishes.fits(wishes.pass_phrase, "blue heron")
    assert "May collect it besides them: her sister Bea Fenwick" in written(phone)


@pytest.mark.parametrize("rule", ["digits", "pass-phrase"])
def test_nothing_is_shown_before_the_caller_is_sure(place: Place, ready: Job, rule: str) -> None:
    place.records.shop.run(shop_document.set_texts, [("calls.check", rule)])
    place.records.shop.run(handover_wishes.wish, ready.number, pass_phrase="blue heron")
    phone = place.turn_to(PhoneScreen)
    ask(place, phone, "fenwick")
    shown = written(phone)
    assert "Ada Fenwick" in shown
    assert "ready" not in shown.replace(say("phone", "to_tell_head"), "")
    assert "0142" not in shown
    assert not phone.panel.tapes.isVisible()
    assert not phone.handover.isVisible()
    press(Qt.Key.Key_Return)
    assert QApplication.focusWidget() is phone.check.answer
    press_text("red heron")
    press(Qt.Key.Key_Return)
    place.settle()
    assert say("phone", "check_wrong") in written(phone)
    assert phone.answer.spoken == say("phone", "unsure")
    phone.check.answer.clear()
    press_text("0142" if rule == "digits" else "blue heron")
    press(Qt.Key.Key_Return)
    place.settle()
    assert phone.answer.spoken.startswith("Ada's tape is ready")
    assert phone.panel.tapes.isVisible()
    ask(place, phone, "fenwic")
    assert phone.answer.spoken == say("phone", "unsure")


def test_the_clerk_may_know_the_caller(place: Place, ready: Job) -> None:
    place.records.shop.run(shop_document.set_texts, [("calls.check", "digits")])
    phone = place.turn_to(PhoneScreen)
    ask(place, phone, ready.number)
    assert phone.answer.spoken == say("phone", "unsure")
    press(Qt.Key.Key_J, Qt.KeyboardModifier.ControlModifier)
    place.settle()
    assert phone.answer.spoken.startswith("Ada's tape is ready")
    assert len(events(place.records.shop, "caller-known")) == 1


def test_who_was_found_by_their_last_digits_has_said_them(place: Place, ready: Job) -> None:
    place.records.shop.run(shop_document.set_texts, [("calls.check", "digits")])
    phone = place.turn_to(PhoneScreen)
    ask(place, phone, "555")
    assert phone.answer.spoken == say("phone", "unsure")
    ask(place, phone, "0142")
    assert phone.answer.spoken.startswith("Ada's tape is ready")


def test_a_box_that_waits_for_its_owner_shows_no_promise(place: Place, ready: Job) -> None:
    phone = place.turn_to(PhoneScreen)
    place.records.clock.go_on(days=119)
    ask(place, phone, ready.number)
    assert "Promised for" not in written(phone)
    assert "chances in 20" not in written(phone)
