"""What would make the promised day of the box earlier: asked by a key, dropped when the box changes."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, Signal, Slot

from core.model.errors import TapewrightError
from core.model.promise_records import PushedPromise
from core.promise import rush_effects
from core.promise.what_ifs import WhatIf
from core.services import what_would_help
from core.services.what_would_help import AboutBox, AboutRush
from gui.counter.booking_check import NotComplete
from gui.counter.box_quote import BoxQuote
from gui.counter.counter_layout import CounterLayout
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say, short_day


class EarlierDay(QObject):
    """Asks what would help, and shows the answer unless the box has changed since."""

    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, desk: Desk, parts: CounterLayout, box: BoxQuote, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._parts = parts
        self._lines = parts.help
        self._box = box
        self._asked = 0

    @Slot()
    def ask(self) -> None:
        """Work out what would help the box, and show it below the slip."""
        self._parts.table.commit()
        if self._box.quote is None:
            self._parts.go_to(0, "count")
            self.failed.emit(NotComplete(say("counter", "need_tape")))
            return
        self._asked += 1
        self._lines.wait()
        self._desk.work.ask(
            what_would_help.about_box,
            self._box.reading.inventory,
            then=partial(self._think, self._asked),
            otherwise=partial(self._failed, self._asked),
        )

    def ask_whom_rush_pushes(self) -> None:
        """Work out whose promises this rush box would push, and show it below the slip."""
        self._asked += 1
        self._desk.work.ask(
            what_would_help.about_rush,
            self._box.reading.inventory,
            then=partial(self._think_of_others, self._asked),
            otherwise=partial(self._failed, self._asked),
        )

    def _think_of_others(self, asked: int, question: AboutRush) -> None:
        if asked == self._asked:
            self._desk.work.compute_long(
                question.answer,
                then=partial(self._told_of_others, asked),
                otherwise=partial(self._failed, asked),
            )

    def _told_of_others(self, asked: int, found: tuple[PushedPromise, ...]) -> None:
        if asked == self._asked:
            self._lines.tell([rush_effects.sentence(found)])

    def forget(self) -> None:
        """Drop the answer: the box has changed."""
        self._asked += 1
        self._lines.hide()

    def _think(self, asked: int, question: AboutBox) -> None:
        if asked == self._asked:
            self._desk.work.compute_long(
                question.answer,
                then=partial(self._answered, asked),
                otherwise=partial(self._failed, asked),
            )

    def _answered(self, asked: int, found: tuple[WhatIf, ...]) -> None:
        if asked == self._asked:
            self._lines.tell([_line(each) for each in found])

    def _failed(self, asked: int, failure: TapewrightError) -> None:
        if asked == self._asked:
            self._lines.hide()
            self.failed.emit(failure)


def _line(found: WhatIf) -> str:
    """The change, the day it would make, and how many days that is sooner."""
    assert found.day is not None
    day = short_day(found.day)
    if found.days_gained is None:
        return say("shop", "help_a_day", change=found.change, day=day)
    key = "help_sooner_one" if found.days_gained == 1 else "help_sooner"
    return say("shop", key, change=found.change, day=day, days=found.days_gained)
