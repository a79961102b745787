"""Shop, Lost or damaged: what is open, what is next, and the way to the tape, by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton

from core.model.dispositions import Disposition
from core.model.incident_records import IncidentKind
from core.services import incidents, tape_dispositions
from core.wording.messages import say
from gui.shop.shop_screen import ShopScreen
from tests.support.booked import line
from tests.support.screens import Place, press


@pytest.fixture
def lost(place: Place) -> str:
    tape = place.records.book(line(count=2)).tapes[0]
    note = "not on its shelf"
    place.records.shop.run(tape_dispositions.settle, tape.code, Disposition.LOST, note=note)
    return tape.code


def words_on(screen: ShopScreen) -> str:
    return " ".join(label.text() for label in screen.page.findChildren(QLabel))


def noted(screen: ShopScreen) -> str:
    return next(piece.place for piece in screen.chapters.pieces if piece.key == "incidents")


def test_what_is_open_says_what_is_next_and_leads_to_the_tape(place: Place, lost: str) -> None:
    screen = place.turn_to(ShopScreen)
    taken: list[object] = []
    screen.wants_tape.connect(taken.append)
    assert screen.chapters.stand_on("incidents")
    place.settle()
    assert noted(screen) == "1 open"
    for words in ("not on its shelf", "lost", "Next: tell Ada Fenwick", "(303) 555-0142"):
        assert words in words_on(screen)
    button = screen.page.findChild(QPushButton, f"incident-{lost}")
    assert isinstance(button, QPushButton)
    while not button.hasFocus():
        press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Space)
    assert taken == [lost]


def test_the_list_follows_what_is_written_down(place: Place, lost: str) -> None:
    screen = place.turn_to(ShopScreen)
    assert screen.chapters.stand_on("incidents")
    for kind, words in ((IncidentKind.TOLD, "Next: settle it"), (IncidentKind.SETTLED, "is settled with")):
        place.records.shop.run(incidents.add, lost, kind, "by phone")
        place.work.changed.emit(frozenset({"tapes"}))
        place.settle()
        assert words in words_on(screen)
    assert noted(screen) == ""
    assert say("incidents", "none-open") in words_on(screen)
