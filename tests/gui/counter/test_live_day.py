"""The day on the Counter: worked out beside the window, shown calmly, stored with the box it belongs to."""

from __future__ import annotations

from threading import Thread, current_thread, main_thread
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from core.model.job_records import Job
from core.model.quote_records import Quote
from core.promise import turnaround
from core.services import drafts, jobs, shop_snapshot
from gui.counter import live_day
from gui.counter.live_day import LATE_MS
from gui.toolkit import text
from gui.widgets.twenty_dots import PromiseDots
from tests.support.counting import ALT, CONTROL, Clerk, clerk_at, held_up
from tests.support.patience import PATIENCE_MS
from tests.support.screens import Place, press, press_text


@pytest.fixture
def clerk(place: Place) -> Clerk:
    return clerk_at(place)


def put_count(clerk: Clerk, digits: str) -> None:
    clerk.counter.parts.table.commit()
    clerk.counter.take_focus()
    clerk.counter.parts.table.put_cursor(0, 0)
    press_text(digits)


def only_job(place: Place) -> Job:
    found: Job = place.records.shop.ask(jobs.open_jobs)[0]
    return found


def afresh(place: Place, quote: Quote) -> Quote:
    """The same box worked out once more, by itself."""
    return place.records.shop.ask(shop_snapshot.read).quote(quote.inventory, quote.made_at)


def chance(clerk: Clerk) -> QLabel:
    found = clerk.counter.findChild(QLabel, "promised-times")
    assert isinstance(found, QLabel)
    return found


# --- off the window's thread -------------------------------------------------------------


def test_no_key_works_out_a_day_on_the_thread_of_the_window(
    clerk: Clerk, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    worked: set[Thread] = set()
    real = turnaround.promise

    def watched(*args: Any, **named: Any) -> Any:
        worked.add(current_thread())
        return real(*args, **named)

    monkeypatch.setattr(turnaround, "promise", watched)
    clerk.count(count="2", format="hi8", marking="p6120")
    clerk.wait_for_the_day()
    press(Qt.Key.Key_1, ALT)
    put_count(clerk, "40")
    press(Qt.Key.Key_1, ALT)
    press(Qt.Key.Key_H, ALT)
    press(Qt.Key.Key_H, CONTROL)
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    assert only_job(place).promise.day is not None
    assert worked
    assert main_thread() not in worked


# --- shown calmly ------------------------------------------------------------------------


def test_the_last_day_stays_and_says_that_another_is_worked_out(clerk: Clerk, place: Place) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    near = clerk.day
    dots = clerk.counter.parts.slip.findChild(PromiseDots)
    assert isinstance(dots, PromiseDots)
    drawn = dots.shown
    with held_up(clerk, place):
        put_count(clerk, "90")
        place.qtbot.waitUntil(lambda: "Working out" in chance(clerk).text())
        assert clerk.counter.parts.slip.day_words == near
        assert dots.shown == drawn
    assert clerk.day != near
    assert "Working out" not in chance(clerk).text()
    assert "chances in 20" in chance(clerk).toolTip()


def test_a_day_that_comes_soon_replaces_the_one_before_without_a_word(
    place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(live_day, "LATE_MS", PATIENCE_MS)  # soon, however busy the machine
    clerk = clerk_at(place)
    clerk.count(count="2", format="vh", marking="t120")
    kept = clerk.day and chance(clerk).text()
    with held_up(clerk, place):
        put_count(clerk, "9")
        assert chance(clerk).text() == kept
    assert LATE_MS > 100, "sooner, and a mark would flicker"


def test_only_the_day_of_the_tapes_on_show_is_ever_shown(
    clerk: Clerk, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    clerk.wait_for_the_day()
    begun: list[object] = []
    real = place.work.compute_latest

    def noted(*args: Any, **named: Any) -> None:
        begun.append(args)
        real(*args, **named)

    monkeypatch.setattr(place.work, "compute_latest", noted)
    with held_up(clerk, place):
        for place_in_row, digits in enumerate(("90", "80", "3"), start=1):
            put_count(clerk, digits)
            place.qtbot.waitUntil(lambda count=place_in_row: len(begun) >= count)
    assert clerk.counter.quote is not None
    assert len(clerk.counter.quote.tapes) == 3
    assert clerk.counter.quote == afresh(place, clerk.counter.quote)


def test_an_answer_given_meanwhile_is_taken_as_soon_as_its_question_is_that_of_the_tapes(
    clerk: Clerk, place: Place
) -> None:
    clerk.count(count="2", format="hi8", marking="p6120")
    clerk.wait_for_the_day()
    asking = clerk.counter.parts.asking
    while asking.question is not None and "Digital8" not in asking.question.text:
        press(Qt.Key.Key_0, ALT)
    with held_up(clerk, place):
        clerk.counter.draft.write(0, "label", "Lake")
        clerk.counter.draft.write(0, "tv", "NTSC")
        press(Qt.Key.Key_1, ALT)
    place.settle()
    row = clerk.counter.draft.box.rows[0]
    assert (row.recorded_as, row.label) in (("Digital8", "Lake"), ("", "Lake"))
    assert asking.question is None or asking.question in (clerk.counter.quote or afresh).questions  # type: ignore[union-attr]


def test_an_answer_leaves_the_label_that_was_typed_after_the_question(clerk: Clerk) -> None:
    clerk.count(count="2", format="hi8", marking="p6120")
    clerk.wait_for_the_day()
    clerk.counter.draft.write(0, "label", "Lake")
    press(Qt.Key.Key_1, ALT)
    assert clerk.counter.draft.box.rows[0].label == "Lake"


# --- booked with its own day -------------------------------------------------------------


def test_a_box_booked_right_after_a_key_keeps_the_day_of_that_key(clerk: Clerk, place: Place) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    clerk.name_the_customer("Ada Fenwick")
    near, now = clerk.day, place.records.shop.ask(shop_snapshot.read)
    with held_up(clerk, place):
        put_count(clerk, "90")
        press(Qt.Key.Key_Return, CONTROL)
        assert clerk.counter.parts.slip.day_words == near
    place.settle()
    job = only_job(place)
    assert len(job.tapes) == 90
    assert job.quote == now.quote(job.quote.inventory, job.quote.made_at)
    assert job.promise.day is not None
    assert text.day(job.promise.day) != near


def test_what_is_typed_while_a_box_is_booked_is_not_lost(clerk: Clerk, place: Place) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    clerk.name_the_customer("Ada Fenwick")
    with held_up(clerk, place):
        press(Qt.Key.Key_Return, CONTROL)
        clerk.counter.draft.write(0, "label", "Lake")
    place.settle()
    assert len(only_job(place).tapes) == 2
    assert only_job(place).tapes[0].label == ""
    assert clerk.counter.draft.box.rows[0].label == "Lake"


def test_what_was_typed_last_is_kept_before_the_box_is_booked_and_never_after(
    clerk: Clerk, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    steps: list[str] = []
    real = place.work.run

    def noted(step: Any, *args: Any, **named: Any) -> None:
        steps.append(step.__name__)
        real(step, *args, **named)

    clerk.count(count="2", format="vh", marking="t120")
    monkeypatch.setattr(place.work, "run", noted)
    clerk.name_the_customer("Ada Fenwick")
    press(Qt.Key.Key_Return, CONTROL)
    place.settle()
    assert steps == ["keep", "book"]
    assert only_job(place).customer.name == "Ada Fenwick"
    assert place.records.shop.ask(drafts.kept, "counter 1") is None


def test_a_bug_on_the_way_to_the_job_leaves_the_box_to_be_booked_again(
    clerk: Clerk, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    clerk.name_the_customer("Ada Fenwick")
    clerk.wait_for_the_day()

    def fail(*_: Any, **__: Any) -> None:
        raise ZeroDivisionError("a bug")

    with monkeypatch.context() as broken:
        broken.setattr(turnaround, "promise", fail)
        press(Qt.Key.Key_Return, CONTROL)
        place.qtbot.waitUntil(lambda: bool(place.bugs))
    assert [type(bug) for bug in place.bugs] == [ZeroDivisionError]
    place.bugs.clear()
    clerk.book()
    assert len(only_job(place).tapes) == 2
