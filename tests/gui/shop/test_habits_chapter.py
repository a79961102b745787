"""What tapes turn out to be: each belief beside what the decks have shown, and where it began."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtWidgets import QLabel

from core.model.deck_showing import Shown
from core.model.names import Speed
from core.model.stations import Station
from core.playtime import habit_words
from core.playtime.habits import NoticedChange
from core.playtime.interval_calibration import IntervalLevels
from core.services import deck_queue, shop_overview
from core.wording.messages import say
from gui.shop import habits_chapter
from gui.shop.shop_screen import ShopScreen
from tests.support.booked import line
from tests.support.screens import Place


def told(screen: ShopScreen) -> str:
    assert screen.chapters.stand_on("habits")
    return " ".join(label.text() for label in screen.page.findChildren(QLabel))


def test_a_new_shop_shows_what_it_begins_with_and_that_it_is_invented(place: Place) -> None:
    words = told(place.turn_to(ShopScreen))

    assert say("shop", "habits_none") in words
    assert "(invented)" in words
    assert "Recording speed: SP 75%, EP 25%" in words


def test_what_was_seen_stands_beside_what_was_believed(place: Place) -> None:
    screen = place.turn_to(ShopScreen)
    for n in range(4):
        job = place.records.book(line("vhs-c", marking="TC-30", speed=None), name=f"Customer {'ABCD'[n]}")
        shown = Shown(speed=Speed.EP if n else Speed.SP)
        place.records.bring_to(job.tapes[0], Station.BEING_CHECKED, minutes=81.0 if n else 27.0, shown=shown)
    screen.refresh()
    place.settle()
    words = told(screen)

    assert "3 of your last 4 VHS-C (NTSC) were EP." in words
    assert "3 of 4" in words
    now = dict(next(e for e in place.records.shop.ask(deck_queue.evidence) if "speed" in e.about).now)["EP"]
    worth = place.records.shop.ask(deck_queue.habits).worth("speed")
    assert now == pytest.approx((worth * 0.25 + 3) / (worth + 4), abs=0.01)
    assert f"{100 * now:.0f}%" in words


def test_how_often_ranges_held_is_told_with_what_came_of_it(place: Place) -> None:
    view = place.records.shop.ask(shop_overview.read)

    def words(levels: IntervalLevels) -> str:
        paper = habits_chapter._page(replace(view, levels=levels))
        return " ".join(label.text() for label in paper.findChildren(QLabel))

    assert say("shop", "ranges_none", tapes=40, boxes=10) in words(view.levels)
    wider = words(IntervalLevels(0.08, 0.93, 200, 47))
    assert "47 of your last 200 tapes fell outside the range" in wider
    assert "40 would be right" in wider
    assert "wider: from 8% to 93%" in wider
    assert "narrower: from 12% to 88%" in words(IntervalLevels(0.12, 0.88, 200, 30))
    assert "stay as they were: from 9% to 89%" in words(IntervalLevels(0.09, 0.89, 200, 40))


def test_the_owner_is_told_that_customers_changed(place: Place) -> None:
    view = place.records.shop.ask(shop_overview.read)
    paper = habits_chapter._page(replace(view, change=NoticedChange(63)))
    told = [label.text() for label in paper.findChildren(QLabel) if "63 tapes ago" in label.text()]
    assert told == [habit_words.changed(NoticedChange(63))]
    assert view.change is None


def test_the_chapter_fits_a_small_window(place: Place) -> None:
    screen = place.turn_to(ShopScreen)
    place.window.resize(640, 400)
    told(screen)
    place.settle()
    assert not screen.page.horizontalScrollBar().isVisible()
