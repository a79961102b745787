"""A screen with something on it, for tests that look at each of them."""

from __future__ import annotations

from PySide6.QtCore import Qt

from core.model.names import Finding
from gui.bench.bench_screen import BenchScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.toolkit.screen import Screen
from tests.support.booked import line
from tests.support.screens import Place, press, press_text


def with_something_on_it(place: Place, kind: type[Screen]) -> Screen:
    """The screen with an order of three tapes in the shop; where one is looked for, a snapped tape of it."""
    job = place.records.book(line(count=2), line("hi8", marking="P6-120", findings=(Finding.SNAPPED,)))
    shown: Screen = place.turn_to(kind)
    if isinstance(shown, PhoneScreen | PickupScreen | BenchScreen):
        press_text(job.tapes[2].code)
        press(Qt.Key.Key_Return)
        place.settle()
        place.settle()
    return shown
