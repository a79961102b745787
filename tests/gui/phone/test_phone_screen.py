"""Phone: the answer comes while the caller speaks, is the newest one, and goes to the right person."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QLabel

from core.model.agreement_records import Consent
from core.model.errors import Unavailable
from core.model.job_records import CallerMatch
from core.model.names import JobNumber
from core.model.stations import Station
from core.services import calls, jobs, promise_entries, tapes
from core.services.agreement import agreements
from core.wording.messages import say
from gui.phone.answer_slip import identity_check
from gui.phone.phone_screen import PhoneScreen
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.screens import Place, press, press_text, type_in, written


def _begin(records: Desk) -> None:
    records.book(line(count=2), name="Ada Fenwick")
    records.book(line("hi8", marking="P6-120"), name="Adam Fenn")


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def phone(place: Place) -> PhoneScreen:
    return place.turn_to(PhoneScreen)


def ask(place: Place, phone: PhoneScreen, text: str) -> None:
    phone.box.clear()
    type_in(phone.box, text)
    place.qtbot.waitUntil(lambda: not phone.search.is_waiting)
    place.settle()


def test_the_box_has_the_keyboard_on_entering(phone: PhoneScreen) -> None:
    assert QApplication.focusWidget() is phone.box


def test_a_job_number_is_answered_without_return_and_without_a_pause(
    place: Place, phone: PhoneScreen
) -> None:
    type_in(phone.box, "000018")
    assert not phone.search.is_waiting
    place.settle()
    assert phone.answer.spoken.startswith("Ada's two tapes")


def test_four_digits_of_the_phone_are_enough(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "0142")
    assert phone.answer.spoken
    assert {piece.key for piece in phone.panel.matches.pieces} == {"000018", "000026"}


def test_the_tapes_of_the_job_lie_in_the_tray_with_their_stations(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "000018")
    assert [piece.place for piece in phone.panel.tapes.pieces] == ["booked in", "booked in"]
    assert all("VHS T-120" in piece.spoken for piece in phone.panel.tapes.pieces)


def test_arrows_choose_among_the_matches_without_leaving_the_box(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "fen")
    first = phone.answer.spoken
    press(Qt.Key.Key_Down)
    assert QApplication.focusWidget() is phone.box
    assert phone.answer.spoken != first
    press(Qt.Key.Key_Up)
    assert phone.answer.spoken == first


def test_a_promised_day_is_told_with_its_chance(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "000018")
    promised = phone.findChild(object, "promise")
    assert promised.text().startswith("Promised for ")  # type: ignore[union-attr]  # it is a label
    assert "chances in 20" in phone.answer.spoken
    assert phone.answer._chance.isHidden(), "nothing is said twice on one slip"


def test_nothing_found_says_what_to_ask_instead(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "zzzzzz")
    assert "zzzzzz" in phone.answer.spoken
    assert "four digits" in phone.answer.spoken
    assert phone.panel.tapes.pieces == ()


def test_an_old_answer_never_covers_a_newer_question(
    place: Place, phone: PhoneScreen, monkeypatch: pytest.MonkeyPatch
) -> None:
    waiting: list[Callable[[tuple[CallerMatch, ...]], None]] = []

    def hold(query: Any, *args: Any, then: Callable[[Any], None], **_: Any) -> None:
        waiting.append(then)

    by_number = place.records.shop.ask(calls.status, "000018")
    other = place.records.shop.ask(calls.status, "000026")
    monkeypatch.setattr(place.work, "ask", hold)
    type_in(phone.box, "000018")
    phone.box.clear()
    type_in(phone.box, "000026")
    newest, oldest = waiting[-1], waiting[0]
    newest(other)
    told = phone.answer.spoken
    oldest(by_number)
    assert phone.answer.spoken == told
    assert told.startswith("Adam's")


def test_the_last_callers_answer_is_gone_with_the_first_key_of_a_new_query(
    place: Place, phone: PhoneScreen, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Slow records: the question is under way, and nothing of the last caller is on show meanwhile."""
    ask(place, phone, "fenwick")
    assert phone.answer.spoken.startswith("Ada's two tapes")
    waiting: list[Callable[[tuple[CallerMatch, ...]], None]] = []

    def hold(query: Any, *args: Any, then: Callable[[Any], None], **_: Any) -> None:
        waiting.append(then)

    monkeypatch.setattr(place.work, "ask", hold)
    phone.box.selectAll()
    for sign in "303555":
        type_in(phone.box, sign)
        assert "Ada" not in written(phone)
        assert phone.answer.spoken == say("phone", "looking", text=phone.box.text())
        assert not phone.panel.isVisible()
        assert not phone.forms.isVisible()
    assert waiting, "six digits are asked for at once"
    waiting[-1](())
    assert phone.answer.spoken == say("phone", "none", text="303555")


def test_a_question_that_fails_leaves_no_old_answer(
    place: Place, phone: PhoneScreen, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(place, phone, "000018")
    monkeypatch.setattr(calls, "status", _fail)
    phone.box.selectAll()
    type_in(phone.box, "000026")
    place.settle()
    assert "locked" in place.told
    assert "Ada" not in written(phone)


def _fail(*_: object) -> None:
    raise Unavailable("The records are locked.")


def test_escape_empties_the_box_for_the_next_caller(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "000018")
    press(Qt.Key.Key_Escape)
    assert phone.box.text() == ""
    assert "000018" not in phone.answer.spoken
    assert phone.panel.tapes.isHidden()


def test_coming_back_selects_what_was_typed_so_that_the_next_key_replaces_it(
    place: Place, phone: PhoneScreen
) -> None:
    ask(place, phone, "000018")
    place.window.go("phone")
    assert phone.box.selectedText() == "000018"


def test_an_answer_on_show_is_renewed_when_tapes_move(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "000018")
    code = phone.panel.tapes.pieces[0].key
    place.work.run(tapes.move, code, Station.LOOKED_OVER)
    place.settle()
    place.settle()
    assert phone.panel.tapes.pieces[0].place == "looked over"


def test_the_answer_is_what_the_command_line_says(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "000018")
    assert phone.answer.spoken == place.records.shop.ask(calls.status, "000018")[0].spoken


@pytest.mark.parametrize(
    ("text", "asked", "not_asked"),
    [
        ("000018", "the last digits of their phone number (0142)", ""),
        ("0142", "the name on the order", "last digits"),
        ("Fenwick", "the last digits of their phone number (0142)", "on the order"),
    ],
)
def test_what_to_ask_is_never_what_the_caller_just_said(
    place: Place, phone: PhoneScreen, text: str, asked: str, not_asked: str
) -> None:
    ask(place, phone, text)
    found = place.records.shop.ask(calls.status, text)[0]
    sentence = identity_check(found)
    assert asked in sentence
    assert not not_asked or not_asked not in sentence


def test_what_they_agree_to_is_kept_with_who_said_so(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "000018")
    press(Qt.Key.Key_F6)
    press_text("by phone: splice it")
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Return)
    press_text("250.00")
    press(Qt.Key.Key_Return)
    place.settle()
    place.settle()
    job = place.records.shop.ask(jobs.get, JobNumber("000018"))
    (agreed,) = job.agreements
    assert (agreed.who_agreed, agreed.words) == ("Ada Fenwick", "by phone: splice it")
    assert job.ceiling_minor == 25_000
    assert "Ada Fenwick agreed" in place.told
    assert QApplication.focusWidget() is phone.box


def test_two_phones_that_agree_on_one_order_do_not_write_over_each_other(
    place: Place, phone: PhoneScreen
) -> None:
    """Somebody else agreed on 300.00 after this one looked: that is told, and stands."""
    ask(place, phone, "000018")
    press(Qt.Key.Key_F6)
    place.records.allow(place.records.shop.ask(jobs.get, JobNumber("000018")), 30_000)
    press_text("by phone: splice it")
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Return)
    press_text("250.00")
    press(Qt.Key.Key_Return)
    place.settle()
    place.settle()
    assert place.records.shop.ask(jobs.get, JobNumber("000018")).ceiling_minor == 30_000
    assert "Kim changed the agreement" in place.told


def test_a_certificate_that_comes_later_is_typed_below_and_takes_the_tax_off(
    place: Place, phone: PhoneScreen
) -> None:
    ask(place, phone, "000018")
    press(Qt.Key.Key_F6)
    press_text("certificate sent by mail")
    for _ in range(3):
        press(Qt.Key.Key_Tab)
    press_text("certificate 12-345")
    press(Qt.Key.Key_Return)
    place.settle()
    job = place.records.shop.ask(jobs.get, JobNumber("000018"))
    assert job.tax_exempt == "certificate 12-345"
    assert place.records.shop.ask(jobs.reprice, job.number).tax.high == 0
    assert job.agreements[-1].ceiling_minor is None


def test_an_agreement_without_words_is_not_kept(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "000018")
    press(Qt.Key.Key_F6)
    phone.forms.agreement.ceiling.setFocus()
    press(Qt.Key.Key_Return)
    place.settle()
    assert say("phone", "agreed_what") in place.told
    assert place.records.shop.ask(jobs.get, JobNumber("000018")).agreements == ()


def test_while_nobody_calls_the_slipping_promises_are_offered_for_a_call(
    place: Place, phone: PhoneScreen
) -> None:
    assert not phone.panel.matches.isVisible()
    place.records.clock.go_on(days=40)
    phone.refresh()
    place.settle()
    assert {piece.title for piece in phone.panel.matches.pieces} == {"Ada Fenwick", "Adam Fenn"}
    assert {piece.small for piece in phone.panel.matches.pieces} == {"(303) 555-0142"}
    phone.panel.matches.setFocus()
    chosen = phone.panel.matches.current
    press(Qt.Key.Key_Return)
    place.settle()
    assert phone.box.text() == chosen
    assert phone.panel.tapes.pieces[0].key.startswith(chosen)
    assert say("phone", "chance_gone") in phone.answer._chance.text()


# --- a new day ---------------------------------------------------------------------------


def test_a_new_day_is_promised_by_keys_with_its_reason(place: Place, phone: PhoneScreen) -> None:
    before = place.records.shop.ask(jobs.get, JobNumber("000018")).promise
    place.records.clock.go_on(days=20)
    ask(place, phone, "000018")
    press(Qt.Key.Key_F7)
    press_text("the deck was out")
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Return)
    place.settle()
    place.settle()
    first, again = place.records.shop.ask(promise_entries.said, JobNumber("000018"))
    assert first.promise == before
    assert (again.reason, again.agreed_with) == ("the deck was out", "Ada Fenwick")
    assert "Now promised for " in place.told
    assert not phone.forms.new_day.isVisible()
    assert QApplication.focusWidget() is phone.box
    assert "late" not in phone.answer.spoken


def test_a_new_day_without_a_reason_is_not_promised(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "000018")
    press(Qt.Key.Key_F7)
    phone.forms.new_day.who.setFocus()
    press(Qt.Key.Key_Return)
    place.settle()
    assert "Why the day changes" in place.told
    assert QApplication.focusWidget() is phone.forms.new_day.reason
    assert len(place.records.shop.ask(promise_entries.said, JobNumber("000018"))) == 1
    press(Qt.Key.Key_Escape)
    assert not place.told
    assert phone.forms.new_day.isVisible(), "the refusal goes first"
    press(Qt.Key.Key_Escape)
    assert not phone.forms.new_day.isVisible()


def test_one_form_is_open_at_a_time(place: Place, phone: PhoneScreen) -> None:
    ask(place, phone, "000018")
    press(Qt.Key.Key_F7)
    press(Qt.Key.Key_F6)
    assert (phone.forms.agreement.isVisible(), phone.forms.new_day.isVisible()) == (True, False)


def test_a_box_that_is_ready_needs_no_new_day(place: Place, phone: PhoneScreen) -> None:
    for tape in place.records.shop.ask(jobs.get, JobNumber("000018")).tapes:
        place.records.bring_to(tape, Station.READY)
    assert not phone.forms.new_day_button.isVisible()
    ask(place, phone, "000018")
    assert not phone.forms.new_day_button.isVisible()
    ask(place, phone, "000026")
    assert phone.forms.new_day_button.isVisible()


@pytest.mark.parametrize("size", [(1280, 800), (1366, 768)])
@pytest.mark.parametrize(
    "key", [Qt.Key.Key_F6, Qt.Key.Key_F7, Qt.Key.Key_F8], ids=["agreed", "new day", "correct"]
)
def test_the_first_line_of_the_answer_stays_in_sight_while_a_form_is_open(
    place: Place, phone: PhoneScreen, key: Qt.Key, size: tuple[int, int]
) -> None:
    """The caller goes on asking while the clerk writes: what to say never scrolls away."""
    place.window.resize(*size)
    job = place.records.book(
        *(line(form, 2, marking=None, speed=None) for form in ("vhs", "hi8", "minidv", "betamax", "video8")),
        name="Bo Example",
    )
    for words in ("one more copy for her sister", "up to more", "not before Monday", "the blue box first"):
        place.records.shop.run(agreements.agree, job.number, words, Consent("Bo Example"))
    ask(place, phone, job.number)
    press(key)
    place.settle()
    spoken = phone.findChild(QLabel, "spoken")
    assert isinstance(spoken, QLabel)
    for _ in range(8):
        QApplication.processEvents()
        line_high = spoken.fontMetrics().height()
        top = spoken.mapTo(place.window, QPoint(0, 0)).y()
        seen = spoken.visibleRegion().boundingRect()
        assert seen.top() == 0, "the first line is cut"
        assert seen.height() >= line_high
        assert top > 0
        field = QApplication.focusWidget()
        assert field is not None
        assert not field.visibleRegion().isEmpty(), f"{field.objectName()} has the keyboard out of sight"
        press(Qt.Key.Key_Tab)
