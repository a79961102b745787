"""The stub below the perforation: the promised day, its chance, the dots, and what holds the day."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.model.promise_records import Promise
from gui.toolkit import text, theme
from gui.toolkit.plain_text import tip
from gui.toolkit.text import say
from gui.widgets.slip_label import slip_label
from gui.widgets.twenty_dots import PromiseDots

_REASONS = 2
"""Reasons for the day that stand on the slip."""


class SlipStub(QWidget):
    """Each label is written once: two texts in a row would lay the whole stub out twice."""

    def __init__(self, scale: float, side: int) -> None:
        """``side``: margin at the left and the right, in pixels."""
        super().__init__()
        self._ready_by = slip_label(theme.SMALL * scale, "muted")
        self.day = slip_label(theme.GREAT * scale, "time", bold=True)
        self.day.setObjectName("promised-day")
        self._chance = slip_label(theme.BODY * scale, "time")
        self._chance.setObjectName("promised-times")
        self._dots = PromiseDots(scale)
        self.held = slip_label(theme.SMALL * scale, "muted")
        column = QVBoxLayout(self)
        column.setContentsMargins(side, round(1.5 * theme.UNIT * scale), side, 2 * theme.UNIT)
        column.setSpacing(0)
        for widget in (self._ready_by, self.day, self._chance, self._dots):
            column.addWidget(widget)
        column.addSpacing(round(theme.UNIT * scale))
        column.addWidget(self.held)

    def show_promise(self, promise: Promise, is_late: bool) -> None:
        """Write the day; ``is_late``: another is being worked out, and this one is marked."""
        if _is_to_come(promise):
            ready, day, chance = say("slip", "opening"), "", ""
        elif promise.day is None:
            ready, day, chance = say("slip", "no_day"), "", ""
        else:
            ready, day = say("slip", "ready_by"), text.day(promise.day)
            chance = _sooner(promise)
        odds = say("slip", "kept", times=text.times_in_twenty(promise.stated)) if day else ""
        self._chance.setToolTip(tip(odds))
        self._ready_by.setText(ready)
        self.day.setText(day)
        self._chance.setText(say("slip", "working") if is_late else chance)
        theme.set_style_property(self.day, "ink", "muted" if is_late else "time")
        self.day.setVisible(promise.day is not None)
        self._dots.show_promise(promise, is_late)

    def show_nothing(self) -> None:
        """No box yet."""
        self._ready_by.setText(say("slip", "opening"))
        self.day.setText("")
        self.day.hide()
        self._chance.setText("")
        self._dots.show_promise(None)
        self.held.setText("")

    def show_reasons(self, reasons: tuple[str, ...]) -> None:
        """The weightiest reasons; all of them for whoever points at it."""
        shown, every = ("; ".join(reasons[:most]) for most in (_REASONS, len(reasons)))
        self.held.setText(say("slip", "held", reasons=shown) if shown else "")
        self.held.setToolTip(tip(say("slip", "held", reasons=every)) if every else "")


def _sooner(promise: Promise) -> str:
    """What one would say with the day: when it may well be ready already. The odds lie in the dots."""
    even = promise.p50
    if even is None or promise.day is None or even >= promise.day:
        return say("slip", "that_day")
    return say("slip", "sooner", day=text.day(even))


def _is_to_come(promise: Promise) -> bool:
    """Whether the first day of this box is still being worked out: there is no reason yet why it has none."""
    return promise.day is None and not promise.held_by
