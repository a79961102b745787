"""What tapes turn out to be: each belief beside what the decks have shown, and where it began."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QLabel

from core import captures
from core.names import Speed
from core.shown import Shown
from core.stations import Station
from gui.screens.shop import ShopScreen
from tests.support.booked import line
from tests.support.screens import Place


def told(screen: ShopScreen) -> str:
    assert screen.chapters.stand_on("habits")
    return " ".join(label.text() for label in screen.page.findChildren(QLabel))


def test_a_new_shop_shows_what_it_begins_with_and_that_it_is_invented(place: Place) -> None:
    words = told(place.turn_to(ShopScreen))

    assert "No tape has finished playing yet" in words
    assert "(invented)" in words
    assert "Recording speed: SP 75 in 100, EP 25 in 100" in words


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
    now = dict(next(e for e in place.records.shop.ask(captures.evidence) if "speed" in e.about).now)["EP"]
    assert now == pytest.approx((6 * 0.25 + 3) / 10)
    assert "45 in 100" in words


def test_the_chapter_fits_a_small_window(place: Place) -> None:
    screen = place.turn_to(ShopScreen)
    place.window.resize(640, 400)
    told(screen)
    place.settle()
    assert not screen.page.horizontalScrollBar().isVisible()
