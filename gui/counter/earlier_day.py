"""What would bring the day of the box forward: asked on the Counter by a key, forgotten when it changes."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, Signal

from core.model.errors import TapewrightError
from core.model.inventory import Inventory
from core.promise.what_ifs import WhatIf
from core.services import what_would_help
from core.services.what_would_help import AboutBox
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say, short_day
from gui.widgets.improvement_lines import HelpLines


class DayHelp(QObject):
    """An answer about a box that has changed since is dropped."""

    failed = Signal(object)

    def __init__(self, desk: Desk, lines: HelpLines, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._lines = lines
        self._asked = 0

    def ask(self, box: Inventory) -> None:
        """Work out what would help this box."""
        self._asked += 1
        self._lines.wait()
        self._desk.work.ask(
            what_would_help.about_box,
            box,
            then=partial(self._think, self._asked),
            otherwise=partial(self._failed, self._asked),
        )

    def forget(self) -> None:
        """The box is another one now."""
        self._asked += 1
        self._lines.hide()

    def _think(self, asked: int, question: AboutBox) -> None:
        if asked == self._asked:
            self._desk.work.think(
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
