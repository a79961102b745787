"""Signing at drop-off: the Customer side shows what is signed, the pen signs, the keyboard stays."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from core.model.agreement_records import AgreedHow
from core.model.job_records import Job
from core.services import jobs
from core.services.agreement import agreement_versions
from gui.customer_side.customer_window import CustomerSide
from gui.toolkit.text import say
from gui.widgets.signature_pad import SignaturePad
from tests.support import pdf
from tests.support.counting import ALT, CONTROL, Clerk, clerk_at
from tests.support.screens import Place, press, press_text


@pytest.fixture
def clerk(place: Place) -> Clerk:
    return clerk_at(place)


@pytest.fixture
def side(clerk: Clerk, place: Place, monkeypatch: pytest.MonkeyPatch) -> CustomerSide:
    """On a screen of its own, as far as the keyboard is concerned."""
    shown, signing = CustomerSide(place.window), clerk.counter.booking.signing
    monkeypatch.setattr(shown._screens, "now", QApplication.primaryScreen)
    clerk.counter.quote_changed.connect(shown.show_quote)
    clerk.counter.job_booked.connect(shown.show_job)
    signing.wanted.connect(shown.ask_to_sign)
    signing.ended.connect(shown.stop_asking)
    shown.signed.connect(signing.take_ink)
    shown.show()
    place.window.activateWindow()
    place.settle()
    return shown


def count_a_box(clerk: Clerk) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    clerk.count(format="hi8", findings="sn")
    clerk.name_the_customer("Ada Fenwick", "303 555 0142")
    clerk.say_and_tick()
    clerk.wait_for_the_day()


def ask(clerk: Clerk, place: Place) -> None:
    press(Qt.Key.Key_S, CONTROL)
    place.settle()


def draw(pad: SignaturePad) -> None:
    """A stroke of the pen from left to right."""
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    QTest.mousePress(pad, left, none, QPoint(40, 60))
    for x in range(60, 300, 20):
        QTest.mouseMove(pad, QPoint(x, 40 + x % 40))
    QTest.mouseRelease(pad, left, none, QPoint(300, 60))


def words_on(side: CustomerSide) -> str:
    return side.words


def booked(place: Place) -> Job:
    (job,) = place.records.shop.ask(jobs.open_jobs)
    return job


def agreement(place: Place, job: Job) -> bytes:
    return Path(place.desk.papers / f"agreement-{job.number}.pdf").read_bytes()


def test_the_customer_signs_on_the_customer_side_and_the_ink_is_on_the_agreement(
    clerk: Clerk, side: CustomerSide, place: Place
) -> None:
    count_a_box(clerk)
    day = clerk.day
    ask(clerk, place)
    shown = words_on(side)
    quote = clerk.counter.quote
    assert quote is not None
    told = clerk.counter.draft.box.told
    assert told
    for words in ("Ada Fenwick", "2 × VHS T-120", "1 × Hi8", "Snapped", day, say("paper", "agreement-yes")):
        assert words in shown
    for sentence in (*told, say("paper", "law"), say("paper", "slip-keep")):
        assert sentence in shown
    assert clerk.counter.parts.booking_bar.signing.isVisible()
    draw(side.signing.pad)
    assert say("counter", "sign_done") in clerk.counter.parts.booking_bar.signing.state.text()
    clerk.book()
    job = booked(place)
    (version,) = place.records.shop.ask(agreement_versions.versions, job.number)
    assert version.consent is not None
    assert (version.consent.who, version.consent.how) == ("Ada Fenwick", AgreedHow.SIGNATURE)
    assert version.consent.strokes == side.signing.pad.strokes()
    assert version.told == told
    paper = agreement(place, job)
    assert "Ada Fenwick signed on" in pdf.words(paper)
    last = len(pdf.pages(paper)) - 1
    widest = max(right - left for left, _, right, _ in pdf.path_boxes(paper, last) if right - left < 290)
    assert widest > 60, "the ink lies on the paper"
    assert job.number in words_on(side)
    assert not side.signing.isVisible()


def test_the_quote_that_was_signed_is_the_one_that_is_booked(
    clerk: Clerk, side: CustomerSide, place: Place
) -> None:
    """The queue moves on while somebody reads: the day on the sheet stands."""
    count_a_box(clerk)
    ask(clerk, place)
    signed = clerk.counter.booking.signing._quote
    assert signed is not None
    place.records.book(name="Zelda Quince")
    place.work.changed.emit(frozenset({"jobs"}))
    place.settle()
    assert clerk.counter.parts.booking_bar.signing.isVisible()
    draw(side.signing.pad)
    clerk.book()
    job = max(place.records.shop.ask(jobs.open_jobs), key=lambda each: each.number)
    assert job.quote == signed


def test_the_keyboard_stays_with_the_clerk(clerk: Clerk, side: CustomerSide, place: Place) -> None:
    count_a_box(clerk)
    ask(clerk, place)
    held = QApplication.focusWidget()
    assert held is not None
    assert held.window() is place.window
    draw(side.signing.pad)
    QTest.mouseClick(side.signing.clear_button, Qt.MouseButton.LeftButton)
    assert QApplication.focusWidget() is held
    assert QApplication.activeWindow() is place.window
    assert QGuiApplication.focusWindow() is place.window.windowHandle()
    assert side.windowFlags() & Qt.WindowType.WindowDoesNotAcceptFocus
    assert side.testAttribute(Qt.WidgetAttribute.WA_ShowWithoutActivating)
    assert side.signing.pad.is_empty


@pytest.mark.parametrize(
    ("key", "how"),
    [(Qt.Key.Key_S, AgreedHow.SPOKEN), (Qt.Key.Key_R, AgreedHow.PAPER)],
    ids=["spoken", "paper"],
)
def test_whoever_would_not_sign_there_says_so_or_signs_on_paper(
    clerk: Clerk, side: CustomerSide, place: Place, key: Qt.Key, how: AgreedHow
) -> None:
    count_a_box(clerk)
    ask(clerk, place)
    clerk.book()
    assert say("counter", "sign_missing", name="Ada Fenwick") in place.told
    assert place.records.shop.ask(jobs.open_jobs) == ()
    draw(side.signing.pad)
    press(key, ALT)
    place.settle()
    place.settle()
    job = booked(place)
    assert job.consent is not None
    assert (job.consent.how, job.consent.strokes) == (how, ()), "ink that nobody stands by is not kept"


def test_what_changes_afterwards_has_to_be_signed_again(
    clerk: Clerk, side: CustomerSide, place: Place
) -> None:
    count_a_box(clerk)
    ask(clerk, place)
    draw(side.signing.pad)
    press(Qt.Key.Key_N, ALT)
    press_text(" and Bo")
    place.settle()
    assert not side.signing.isVisible()
    assert not clerk.counter.booking.signing.is_open
    assert say("counter", "sign_again") in place.told
    field = QApplication.focusWidget()
    assert isinstance(field, QLineEdit), "whoever types goes on typing"
    ask(clerk, place)
    assert side.signing.pad.is_empty
    clerk.book()
    assert place.records.shop.ask(jobs.open_jobs) == ()


def test_escape_goes_back_to_the_order(clerk: Clerk, side: CustomerSide, place: Place) -> None:
    count_a_box(clerk)
    ask(clerk, place)
    press(Qt.Key.Key_Escape)
    place.settle()
    assert not side.signing.isVisible()
    assert clerk.button("book").hasFocus()
    clerk.book()
    job = booked(place)
    assert job.consent is not None
    assert job.consent.how is AgreedHow.SPOKEN


def test_what_is_missing_is_said_before_anybody_is_asked_to_sign(
    clerk: Clerk, side: CustomerSide, place: Place
) -> None:
    clerk.count(format="vh")
    ask(clerk, place)
    assert say("counter", "need_name") in place.told
    assert not side.signing.isVisible()
