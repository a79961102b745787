"""An order changes after it was booked, and a price that would go over is asked about: by key presses
alone."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog

from core.model.agreement_records import AgreedHow, AgreementKind, CeilingChoice
from core.model.job_records import Job
from core.model.names import TapeCode
from core.model.stations import Station
from core.services import jobs, tapes
from core.services.agreement import agreement_versions
from core.wording.locale_figures import money, tape_code
from core.wording.messages import say
from gui.agreement.call_card import CallCard
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from tests.flows.test_counter_to_receipt import ALT, CTRL, Clerk, clerk, log_folder, type_box
from tests.support import pdf
from tests.support.booked import Clock, Desk, line
from tests.support.screens import press, press_text

__all__ = ["clerk", "log_folder"]


def _desk(clerk: Clerk) -> Desk:
    clock = clerk.books.clock
    assert isinstance(clock, Clock)
    return Desk(clerk.books, clock, "", "sqlite")


@pytest.fixture
def job(clerk: Clerk) -> Job:
    """Two tapes of Ada Fenwick, booked before the window looks."""
    booked = _desk(clerk).book(line(count=2))
    clerk.settle()
    return booked


def _find(clerk: Clerk, number: str) -> PhoneScreen:
    clerk.go(Qt.Key.Key_F2)
    press_text(number)
    clerk.settle()
    screen = clerk.window.screen_on_show()
    assert isinstance(screen, PhoneScreen)
    return screen


def _wait(clerk: Clerk, until: object) -> None:
    clerk.qtbot.waitUntil(until)  # type: ignore[arg-type]  # a question
    clerk.settle()


def test_an_order_is_changed_after_it_was_booked(clerk: Clerk, job: Job) -> None:
    _find(clerk, job.number)
    press(Qt.Key.Key_E, CTRL)
    clerk.settle()
    counter = clerk.window.screen_on_show()
    assert isinstance(counter, CounterScreen)
    _wait(clerk, lambda: counter.amending.is_open)
    clerk.to_counter()
    press(Qt.Key.Key_Home)
    press_text("3")
    press(Qt.Key.Key_Return)
    panel = counter.parts.amending
    _wait(clerk, lambda: "added" in panel.told)
    assert "Ask before going over" in panel.told
    press(Qt.Key.Key_W, ALT)
    press_text("one more from the attic")
    press(Qt.Key.Key_Return, CTRL)
    _wait(clerk, lambda: len(clerk.job().tapes) == 3)
    assert [each.code for each in clerk.job().tapes][:2] == [each.code for each in job.tapes]
    version = clerk.books.ask(agreement_versions.versions, job.number)[-1]
    assert (version.kind, version.reason) == (AgreementKind.REVISED, "one more from the attic")
    assert version.agreed_by == "Ada Fenwick"
    assert not counter.amending.is_open
    assert "version 2" in clerk.told
    said = _print_what_holds(clerk, job.number)
    for words in ("one more from the attic", "Ada Fenwick", say("paper", "changed-title"), "added"):
        assert words in said


def test_an_order_is_signed_on_the_customer_side_of_the_real_window(clerk: Clerk) -> None:
    type_box(clerk, ("1", "vhs", "T-120"))
    side = clerk.shop.customer_side
    side.show()
    clerk.window.activateWindow()
    press(Qt.Key.Key_S, CTRL)
    _wait(clerk, side.signing.isVisible)
    pad, left, none = side.signing.pad, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    QTest.mousePress(pad, left, none, QPoint(40, 60))
    QTest.mouseMove(pad, QPoint(200, 90))
    QTest.mouseRelease(pad, left, none, QPoint(200, 90))
    press(Qt.Key.Key_Return, CTRL)
    _wait(clerk, lambda: bool(list(clerk.shop.desk.papers.glob("agreement-*.pdf"))))
    assert not side.signing.isVisible()
    consent = clerk.job().consent
    assert consent is not None
    assert (consent.how, consent.strokes) == (AgreedHow.SIGNATURE, pad.strokes())
    (paper,) = clerk.shop.desk.papers.glob("agreement-*.pdf")
    assert "Ada Fenwick signed on" in pdf.words(paper.read_bytes())
    side.hide()


def _print_what_holds(clerk: Clerk, number: str) -> str:
    """F10 on the Phone, then Alt+P: the words of the page."""
    _find(clerk, number)
    press(Qt.Key.Key_F10)
    clerk.settle()
    clerk.qtbot.waitUntil(lambda: isinstance(QApplication.activeWindow(), QDialog))
    already = len(clerk.opened)
    press(Qt.Key.Key_P, ALT)
    _wait(clerk, lambda: len(clerk.opened) > already)
    press(Qt.Key.Key_Escape)
    clerk.window.activateWindow()
    clerk.settle()
    return pdf.words(clerk.opened[-1].read_bytes())


def test_leaving_a_change_leaves_the_order_as_it_was(clerk: Clerk, job: Job) -> None:
    _find(clerk, job.number)
    press(Qt.Key.Key_E, CTRL)
    clerk.settle()
    counter = clerk.window.screen_on_show()
    assert isinstance(counter, CounterScreen)
    _wait(clerk, lambda: counter.amending.is_open)
    press(Qt.Key.Key_N, CTRL)
    clerk.settle()
    assert not counter.amending.is_open
    assert clerk.job() == job


def _play_long(clerk: Clerk, job: Job) -> TapeCode:
    """The first tape runs six hours; read off the deck by keys."""
    desk, code = _desk(clerk), job.tapes[0].code
    desk.bring_to(job.tapes[0], Station.PLAYING)
    clerk.go(Qt.Key.Key_F3)
    clerk.scan(code)
    press_text("366")
    clerk.move_on()
    assert clerk.station(code) is Station.ASKING_THE_CUSTOMER
    bench = clerk.window.screen_on_show()
    assert isinstance(bench, BenchScreen)
    assert "Ask the customer" in bench.price.words
    return code


def _card(clerk: Clerk) -> CallCard:
    clerk.qtbot.waitUntil(lambda: isinstance(QApplication.activeWindow(), QDialog))
    card = QApplication.activeWindow()
    assert isinstance(card, CallCard)
    return card


def _answer(clerk: Clerk, key: Qt.Key) -> None:
    """Press the choice; the window below gets the keyboard back, as a window manager would give it."""
    press(key, ALT)
    clerk.settle()
    clerk.window.activateWindow()
    clerk.settle()


def test_a_ceiling_crossed_at_the_bench_is_asked_on_the_phone_and_the_answer_is_yes(
    clerk: Clerk, job: Job
) -> None:
    code = _play_long(clerk, job)
    phone = _find(clerk, "")
    assert [piece.key for piece in phone.panel.matches.pieces] == [job.number]
    press_text(job.number)
    clerk.settle()
    press(Qt.Key.Key_P, CTRL)
    clerk.settle()
    card = _card(clerk)
    assert len(card.buttons) == 4
    _answer(clerk, Qt.Key.Key_1)
    assert clerk.station(code) is Station.BEING_CHECKED
    version = clerk.books.ask(agreement_versions.versions, job.number)[-1]
    assert version.choice is CeilingChoice.GO_ON
    assert clerk.job().ceiling_minor > job.ceiling_minor
    said = _print_what_holds(clerk, job.number)
    assert money(clerk.job().ceiling_minor, "USD") in said
    assert money(job.ceiling_minor, "USD") in said, "what it was before"
    assert "Ada Fenwick" in said


def test_a_ceiling_crossed_at_the_bench_is_asked_there_and_the_answer_is_no(clerk: Clerk, job: Job) -> None:
    code = _play_long(clerk, job)
    clerk.scan(code)
    press(Qt.Key.Key_P, CTRL)
    clerk.settle()
    _card(clerk)
    _answer(clerk, Qt.Key.Key_2)
    assert clerk.station(code) is Station.BEING_CHECKED
    assert clerk.books.ask(tapes.get, job.tapes[1].code).left_out_in == 2
    assert clerk.job().ceiling_minor == job.ceiling_minor
    said = _print_what_holds(clerk, job.number)
    assert tape_code(job.tapes[1].code) in said
    assert say("agreement", "said_stop") in said
    clerk.go(Qt.Key.Key_F3)
    clerk.scan(code)
    clerk.move_on()
    said = _hand_back(clerk, job)
    assert money(job.ceiling_minor, "USD") in said, "stopped at the agreed amount"
    assert clerk.books.ask(jobs.open_jobs) == ()


def _hand_back(clerk: Clerk, job: Job) -> str:
    """Everything checked off by its code, the balance paid and the receipt signed on paper; its words."""
    clerk.go(Qt.Key.Key_F4)
    press_text(job.number)
    press(Qt.Key.Key_Return)
    clerk.settle()
    for tape in job.tapes:
        clerk.scan(tape.code)
    already = len(clerk.opened)
    press(Qt.Key.Key_S, ALT)
    press(Qt.Key.Key_Return, CTRL)
    _wait(clerk, lambda: len(clerk.opened) > already)
    return pdf.words(clerk.opened[-1].read_bytes())


def test_an_order_is_called_off_on_the_phone(clerk: Clerk, job: Job) -> None:
    _find(clerk, job.number)
    press(Qt.Key.Key_T, CTRL)
    press_text("moving away")
    for _ in range(3):
        press(Qt.Key.Key_Return)
    clerk.settle()
    assert {each.station for each in clerk.job().tapes} == {Station.READY}
    press(Qt.Key.Key_F10)
    clerk.settle()
    clerk.qtbot.waitUntil(lambda: isinstance(QApplication.activeWindow(), QDialog))
    phone = clerk.window.screen_on_show()
    assert isinstance(phone, PhoneScreen)
    assert "moving away" in phone.forms.versions.text.toPlainText()
    press(Qt.Key.Key_Escape)


def test_a_customer_who_was_here_before_is_recalled_by_a_key_and_never_without(
    clerk: Clerk, job: Job
) -> None:
    counter = clerk.window.screen_on_show()
    assert isinstance(counter, CounterScreen)
    clerk.to_counter()
    clerk.tab_back_to("customer-name")
    press_text("Bo Fenwick")
    press(Qt.Key.Key_Return)
    press_text("303 555 0142")
    _wait(clerk, lambda: counter.parts.known.isVisible())
    assert counter.draft.box.name == "Bo Fenwick"
    press(Qt.Key.Key_7, ALT)
    clerk.settle()
    assert counter.draft.box.name == "Ada Fenwick"
    assert job.customer.name == "Ada Fenwick"


def _book_one(clerk: Clerk) -> Job:
    """One VHS tape for whoever stands in the form; the order that was made."""
    clerk.to_counter()
    press(Qt.Key.Key_Home)
    for cell in ("1", "vhs", "T-120"):
        press_text(cell)
        press(Qt.Key.Key_Return)
    clerk.settle()
    press(Qt.Key.Key_Return, CTRL)
    clerk.settle()
    return max(clerk.books.ask(jobs.open_jobs), key=lambda each: each.number)


def _offered(clerk: Clerk) -> list[str]:
    counter = clerk.window.screen_named("counter")
    assert isinstance(counter, CounterScreen)
    return [each.text() for each in counter.parts.known.buttons if each.isVisible()]


def test_a_name_typed_in_full_brings_the_number_and_the_order_is_theirs(clerk: Clerk, job: Job) -> None:
    clerk.tab_back_to("customer-name")
    press_text("Ada Fenwick")
    _wait(clerk, lambda: bool(_offered(clerk)))
    assert "(303) 555-0142 · 1 order" in _offered(clerk)[0]
    press(Qt.Key.Key_7, ALT)
    clerk.settle()
    booked = _book_one(clerk)
    assert booked.customer == job.customer
    clerk.tab_back_to("customer-name")
    press_text("Ada")
    _wait(clerk, lambda: bool(_offered(clerk)))
    (offered,) = _offered(clerk)
    assert "2 orders" in offered, "one person, two orders"


def test_two_people_with_one_number_stay_two(clerk: Clerk, job: Job) -> None:
    """Nobody takes the offer: the number is shared, the person is another; each is offered apart."""
    clerk.tab_back_to("customer-name")
    press_text("Bo Fenwick")
    press(Qt.Key.Key_Return)
    press_text("303 555 0142")
    _wait(clerk, lambda: any("Ada" in each for each in _offered(clerk)))
    booked = _book_one(clerk)
    assert (booked.customer.name, booked.customer.phone) == ("Bo Fenwick", job.customer.phone)
    assert clerk.job().customer.name == "Ada Fenwick"
    clerk.tab_back_to("customer-phone")
    press_text("303 555 0142")
    _wait(clerk, lambda: len(_offered(clerk)) == 2)
    assert {each.split(",")[0] for each in _offered(clerk)} == {"Ada Fenwick", "Bo Fenwick"}
