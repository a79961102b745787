"""The owner's record of promises, drawn and said; decks in and out by keys; what would help."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from threading import Event

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from core.model.own_shop.settings_records import Permission, Person
from core.model.promise_records import Recalibration
from core.model.typed_draft import TypedBox, TypedRow
from core.promise.reliability import Group, sampling_band
from core.services import deck_queue, event_counts, promises
from core.services.own_shop import settings_versions
from core.store import current_settings
from core.wording.locale_figures import percent
from core.wording.messages import say
from gui.app.signing_in import SigningIn
from gui.counter.counter_screen import CounterScreen
from gui.shop import kept_chapter
from gui.shop.calibration_drawing import CalibrationPicture, points
from gui.shop.deck_care import DeckCare
from gui.shop.reliability_drawing import DecileBars, KeptStrip, in_words
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import theme
from gui.widgets.improvement_lines import ImprovementLines
from tests.core.promise.test_reliability import CURVE, drawn
from tests.support.booked import line
from tests.support.patience import PATIENCE_S
from tests.support.screens import Place, press, type_in

CTRL = Qt.KeyboardModifier.ControlModifier


def group(count: int, kept: int, stated: float = 0.93) -> Group:
    least, most = sampling_band([stated] * count)
    return Group(0.9, 0.95, count, kept, stated, least, most)


def words_of(widget: QWidget) -> str:
    return " ".join(label.text() for label in widget.findChildren(QLabel))


@pytest.fixture
def dressed(qapp: QApplication) -> None:
    theme.apply(qapp)


# --- who may see it -----------------------------------------------------------------------


def test_the_record_is_for_those_who_may_see_reports_and_comes_with_them(place: Place) -> None:
    place.records.book(line())
    place.records.clock.go_on(days=30)
    owner = Person("Ada", may=frozenset(each.value for each in Permission))
    settings = replace(place.records.shop.ask(current_settings.read), staff=(owner, Person("Kim")))
    place.records.shop.run(settings_versions.change, settings, needs=None)
    shop = place.turn_to(ShopScreen)
    signing = SigningIn(place.window, place.desk, settings)
    shop.chapters.stand_on("kept")
    place.settle()
    assert "Kim may not see reports. Ada can; sign in as Ada." in words_of(shop.page)
    assert not shop.page.findChildren(KeptStrip)
    press(Qt.Key.Key_I, CTRL)
    signing.page.chosen.emit("Ada", "")
    place.settle()
    assert shop.page.findChildren(KeptStrip)
    assert "may not" not in words_of(shop.page)


# --- the record --------------------------------------------------------------------------


def test_a_strip_says_in_words_what_it_draws() -> None:
    said = in_words(group(120, 112))
    assert said.startswith("112 of 120 promises made at 90–95% were kept. As expected: chance alone gives ")
    assert "Fewer than expected" in in_words(group(120, 95))
    assert "earlier dates could have been promised" in in_words(group(120, 120))
    assert in_words(group(1, 1)).startswith("1 of 1 promise")


@pytest.mark.usefixtures("dressed")
@pytest.mark.parametrize(("count", "kept"), [(1, 0), (1, 1), (3, 3), (120, 112), (120, 0), (400, 400)])
def test_everything_on_a_strip_lies_within_it(qtbot: QtBot, count: int, kept: int) -> None:
    strip = KeptStrip(group(count, kept))
    qtbot.addWidget(strip)
    strip.resize(300, strip.sizeHint().height())
    assert strip.accessibleName() == in_words(group(count, kept))
    found = group(count, kept)
    places = [strip.place_of(n) for n in (found.least, found.stated * count, found.most, kept)]
    assert all(0 <= place <= 300 for place in places)
    assert strip.place_of(found.least) <= strip.place_of(found.stated * count) <= strip.place_of(found.most)
    assert not strip.grab().isNull()


@pytest.mark.usefixtures("dressed")
def test_the_tenths_are_said_too(qtbot: QtBot) -> None:
    bars = DecileBars((0.05,) * 9 + (0.55,))
    qtbot.addWidget(bars)
    assert bars.accessibleDescription().endswith("10: 55%")
    assert not bars.grab().isNull()


def test_a_new_shop_says_when_there_will_be_something(place: Place) -> None:
    screen = place.turn_to(ShopScreen)
    assert screen.chapters.stand_on("kept")
    assert say("shop", "kept_none") in words_of(screen.page)


def test_a_box_that_was_late_stands_there_with_its_reason(place: Place) -> None:
    job = place.records.book(line(count=2), name="Ada Fenwick")
    place.records.clock.go_on(days=20)
    place.records.shop.run(promises.renew, job.number, "the deck was out")
    screen = place.turn_to(ShopScreen)
    screen.chapters.stand_on("kept")
    told = words_of(screen.page)
    assert say("shop", "kept_whole_one", kept=0) in told
    assert f"Ada Fenwick · {job.number}" in told
    assert "not ready yet" in told
    assert "Why: the deck was out" in told


def test_what_was_learned_is_told_with_a_picture(place: Place) -> None:
    place.records.book(line())
    screen = place.turn_to(ShopScreen)
    assert screen.view is not None
    late = promises.reliability(drawn(120, *CURVE, day=6, slower=3))
    map_now = Recalibration(middle=0.27, promises=120)
    learned = replace(screen.view.learned, recalibration=map_now)
    planned = (0.0,) * 9 + (1.0,)
    chapter = kept_chapter._page(replace(screen.view, record=late, learned=learned, planned=planned))
    place.qtbot.addWidget(chapter)
    assert say("shop", "kept_alarm") in words_of(chapter)
    assert say("dates", "moved", n=120, percent=131) in words_of(chapter)
    (picture,) = chapter.findChildren(CalibrationPicture)
    assert [point.said for point in picture.points] == pytest.approx([n / 10 for n in range(1, 10)])
    assert picture.points[-1].ready == pytest.approx(sum(late.deciles[:9]))
    assert picture.points[-1].ready < picture.points[-1].least
    assert picture.accessibleName() == say("shop", "calibration")
    told = say("shop", "calibration_point", said="90%", ready=percent(picture.points[-1].ready), planned="0%")
    assert picture.accessibleDescription().splitlines()[-1] == told
    assert len(chapter.findChildren(DecileBars)) == 1


def test_dots_on_the_slanted_line_are_right(place: Place) -> None:
    picture = CalibrationPicture(points((0.1,) * 10, (0.0,) * 9 + (1.0,), 100))
    place.qtbot.addWidget(picture)
    picture.resize(picture.sizeHint())
    begin, end = picture.place_of(0, 0), picture.place_of(1, 1)
    assert (begin.x() < end.x(), begin.y() > end.y()) == (True, True)
    for point in picture.points:
        assert point.least < point.ready < point.most
        assert point.planned == pytest.approx(0)
    assert not picture.grab().isNull()


# --- decks in and out --------------------------------------------------------------------


def care_of(screen: ShopScreen) -> DeckCare:
    return next(iter(screen.page.findChildren(DeckCare)))


def test_a_deck_goes_out_and_comes_back_by_keys(place: Place) -> None:
    place.records.book(line(count=3))
    screen = place.turn_to(ShopScreen)
    screen.chapters.stand_on("care")
    care = care_of(screen)
    assert care.decks.stand_on("VHS 2")
    care.why.setFocus()
    type_in(care.why, "eats tapes")
    assert care.switch.text() == "VHS 2 broke down   F6"
    press(Qt.Key.Key_F6)
    place.settle()
    (gone,) = place.records.shop.ask(event_counts.outages)
    assert (gone.deck, gone.words) == ("VHS 2", "eats tapes")
    care = care_of(screen)
    assert care.decks.current == "VHS 2"
    assert care.switch.text() == "VHS 2 is back   F6"
    assert "out of service" in next(each.place for each in care.decks.pieces if each.key == "VHS 2")
    care.switch.click()
    place.settle()
    assert all(deck.in_service for deck in place.records.shop.ask(current_settings.read).decks)
    assert "1 breakdown" in words_of(screen.page)


def test_a_day_shut_needs_its_reason(place: Place) -> None:
    place.records.book(line())
    screen = place.turn_to(ShopScreen)
    screen.chapters.stand_on("care")
    care_of(screen).shut.click()
    place.settle()
    assert "say why the shop is closed" in place.told
    type_in(care_of(screen).why, "a burst pipe")
    care_of(screen).shut.click()
    place.settle()
    assert [each.words for each in place.records.shop.ask(event_counts.shut_days)] == ["a burst pipe"]
    assert "a burst pipe" in words_of(screen.page)


# --- what would help ---------------------------------------------------------------------


def test_the_queue_is_told_what_would_help_on_a_key(place: Place) -> None:
    for _ in range(4):
        place.records.book(line(count=6))
    screen = place.turn_to(ShopScreen)
    screen.chapters.stand_on("promises")
    press(Qt.Key.Key_F6)
    place.settle()
    lines = next(iter(screen.page.findChildren(ImprovementLines)))
    assert lines.isVisible()
    assert "sooner on average" in lines.accessibleDescription()
    assert len([one for one in lines.lines if one.isVisible()]) <= 3


def test_the_counter_is_told_what_would_help_and_forgets_it_with_the_next_change(place: Place) -> None:
    for _ in range(4):
        place.records.book(line(count=8))
    screen = place.turn_to(CounterScreen)
    screen.draft.begin(_box(6))
    place.settle()
    press(Qt.Key.Key_H, CTRL)
    place.settle()
    lines = screen.parts.help
    assert lines.isVisible()
    assert "As a rush order: " in lines.lines[0].text()
    assert "sooner" in lines.accessibleDescription()
    screen.draft.write(0, "count", "7")
    assert not lines.isVisible()


def test_an_answer_about_another_box_is_dropped(place: Place) -> None:
    place.records.book(line(count=8))
    screen = place.turn_to(CounterScreen)
    screen.draft.begin(_box(6))
    place.settle()
    screen.earlier_day.ask()
    screen.draft.write(0, "count", "7")
    place.settle()
    assert not screen.parts.help.isVisible()


def test_an_empty_tray_has_no_day_to_help(place: Place) -> None:
    screen = place.turn_to(CounterScreen)
    screen.earlier_day.ask()
    assert say("counter", "need_tape") in place.told


def _box(count: int) -> TypedBox:
    return TypedBox(rows=(TypedRow(str(count), "VHS", "T-120"),), tv="NTSC")


def test_a_caller_is_answered_while_the_shop_thinks(place: Place) -> None:
    """A question that takes long is worked out beside the records, not in front of them."""
    place.records.book(line(count=2))
    going, answered = Event(), []
    place.work.compute_long(partial(going.wait, PATIENCE_S), then=answered.append)
    place.work.ask(deck_queue.waiting, then=answered.append)
    place.qtbot.waitUntil(lambda: len(answered) == 1)
    assert len(answered[0]) == 2
    going.set()
    place.settle()
    assert answered[1] is True
