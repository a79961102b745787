"""A better order of the boxes: looked for in the background, told box by box, set and taken back by keys."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from threading import Event

import pytest
from PySide6.QtCore import Qt

from core.model.names import JobNumber
from core.services import box_order, deck_queue, promises
from core.services.box_order import CompletionChange, Proposal, SequencingProblem
from core.wording.messages import say
from gui.shop.queue_order_chapter import QueueOrderChapter, QueueOrderPage, change_words
from gui.shop.shop_screen import ShopScreen
from tests.support.booked import line
from tests.support.screens import Place, press, written


@pytest.fixture
def screen(place: Place) -> ShopScreen:
    """A long box that is in no hurry stands before a short one; both want the only MiniDV deck."""
    records = place.records
    long = records.book(line("minidv", count=14, marking="DVM60"), name="Longfellow")
    records.book(line("minidv", marking="DVM60"), name="Short")
    later = records.clock().date() + timedelta(days=30)
    records.shop.run(promises.renew, long.number, "they are abroad until then", day=later)
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("order")
    return shop


def chapter(screen: ShopScreen) -> QueueOrderPage:
    return next(iter(screen.page.findChildren(QueueOrderPage)))


def boxes(place: Place) -> list[str]:
    return list(dict.fromkeys(tape.job for tape in place.records.shop.ask(deck_queue.waiting)))


def test_a_better_order_is_found_told_set_and_taken_back(place: Place, screen: ShopScreen) -> None:
    long, short = boxes(place)
    press(Qt.Key.Key_F6)
    place.settle()
    told = written(screen.page)
    assert "no promise gets less safe" in told
    assert f"Short · {short}" in told
    assert "days sooner; promised for" in told
    press(Qt.Key.Key_F7)
    place.settle()
    assert boxes(place) == [short, long]
    assert say("plans", "order_set") in written(screen.page)
    assert not chapter(screen).put.isVisible()
    press(Qt.Key.Key_F8)
    place.settle()
    assert boxes(place) == [long, short]


def test_an_order_that_is_good_is_said_to_be(place: Place) -> None:
    place.records.book(line())
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("order")
    press(Qt.Key.Key_F6)
    place.settle()
    assert say("plans", "order_none") in written(shop.page)
    assert not chapter(shop).put.isVisible()


def test_what_was_found_is_still_there_after_another_chapter(place: Place, screen: ShopScreen) -> None:
    press(Qt.Key.Key_F6)
    place.settle()
    screen.chapters.stand_on("prices")
    screen.chapters.stand_on("order")
    assert chapter(screen).put.isVisible()


def test_an_answer_about_a_queue_that_has_changed_is_dropped(place: Place, screen: ShopScreen) -> None:
    press(Qt.Key.Key_F6)
    place.settle()
    place.records.book(line("minidv", marking="DVM60"))
    press(Qt.Key.Key_F7)
    place.settle()
    assert "has changed since this order was worked out" in place.told
    assert place.records.shop.ask(deck_queue.box_order) == ()
    screen.refresh()
    place.settle()
    assert not chapter(screen).put.isVisible()


class Slow:
    """Searches that go on until they are stopped or let go."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.begun, self.go, self.stopped = Event(), Event(), 0
        answer = SequencingProblem.answer

        def slowly(question: SequencingProblem, stop: Callable[[], bool]) -> Proposal | None:
            self.begun.set()
            while not self.go.wait(0.005):
                if stop():
                    self.stopped += 1
                    return None
            return answer(question, stop)

        monkeypatch.setattr(box_order.SequencingProblem, "answer", slowly)


def begun(place: Place, monkeypatch: pytest.MonkeyPatch) -> Slow:
    """A search that was just begun with its key."""
    slow = Slow(monkeypatch)
    press(Qt.Key.Key_F6)
    place.qtbot.waitUntil(slow.begun.is_set)
    return slow


def test_a_search_is_stopped_by_the_same_key(
    place: Place, screen: ShopScreen, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow = begun(place, monkeypatch)
    assert chapter(screen).look.text() == "Stop looking   F6"
    press(Qt.Key.Key_F6)
    place.settle()
    assert slow.stopped == 1
    assert chapter(screen).look.text() == "Look for a better order   F6"
    assert "planned twice" not in written(screen.page)


def test_only_the_newest_search_is_told(
    place: Place, screen: ShopScreen, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow = begun(place, monkeypatch)
    order = screen.chapter("order")
    assert isinstance(order, QueueOrderChapter)
    order._search.begin()
    slow.go.set()
    place.settle()
    assert chapter(screen).put.isVisible()


def test_closing_the_window_ends_a_search(
    place: Place, screen: ShopScreen, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow = begun(place, monkeypatch)
    place.work.close()
    assert slow.stopped == 1


def test_a_change_says_which_way_and_what_becomes_of_the_promise() -> None:
    day = date(2026, 3, 12)
    number = JobNumber("000018")
    assert change_words(CompletionChange(number, "Ada", 2.31, day, 0.7, 0.96)) == (
        "2.3 days sooner; promised for Thursday, March 12, 19 chances in 20; now 14 chances in 20"
    )
    assert change_words(CompletionChange(number, "Ada", -1.0, day, 0.96, 0.96)) == (
        "1 day later; promised for Thursday, March 12, 19 chances in 20 as now"
    )
    assert change_words(CompletionChange(number, "Ada", 0.5, None, None, None)) == "0.5 days sooner"
