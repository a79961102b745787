"""A screen in a language that is only begun: its sentences, English for the rest, days by its locale."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from core.wording.messages import say
from gui.phone.phone_screen import PhoneScreen
from tests.core.wording.test_partial_language import begun
from tests.support.booked import line
from tests.support.screens import Place, press, press_text

__all__ = ["begun"]


def test_the_phone_speaks_what_german_it_has(place: Place, begun: None) -> None:
    """The promised day as CLDR writes it for ``de``: the weekday, the day, the month."""
    job = place.records.book(line(count=2))
    phone = place.turn_to(PhoneScreen)
    press_text(job.number)
    press(Qt.Key.Key_Return)
    place.settle()
    place.settle()
    promised = phone.findChild(QLabel, "promise")
    assert promised is not None
    assert job.promise.day is not None
    weekdays = ("Montag", "Dienstag", "Mittwoch", "Donnerstag", "Freitag", "Samstag", "Sonntag")
    weekday, number = weekdays[job.promise.day.weekday()], job.promise.day.day
    assert promised.text().startswith(f"Versprochen für {weekday}, {number}. ")
    assert phone.panel.tapes.accessibleName() == say("phone", "tapes_list", language="en")
