"""The owner is told that the line keeps growing, over the promises and in the list of chapters."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtWidgets import QLabel

from core.promise.backlogs import Backlog
from core.wording.messages import say
from gui.shop.promise_chapter import PromiseChapter, Promises
from gui.shop.shop_screen import ShopScreen
from tests.support.booked import line
from tests.support.screens import Place

GROWING = Backlog("decks", 120, 90, 0.99, 8, 2)


def test_the_owner_reads_it_above_what_would_help(place: Place) -> None:
    place.records.book(line(count=3), name="Ada Fenwick")
    screen = place.turn_to(ShopScreen)
    chapter = screen.chapter("promises")
    assert isinstance(chapter, PromiseChapter)
    assert screen.view is not None
    calm, growing = screen.view, replace(screen.view, backlog=GROWING)
    for view in (calm, growing):
        page = Promises(view)
        told = page.findChild(QLabel, "shop-backlog")
        assert (told is not None) is (view is growing)
        if told is not None:
            assert GROWING.sentence[1:] in told.text()
        page.deleteLater()
    assert chapter.note(calm) == ""
    assert chapter.note(growing) == say("shop", "line_grows")
