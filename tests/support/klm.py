"""Seconds a practised clerk needs, from real key events: the keystroke-level model.

Source of the model and of its times: Card, Moran and Newell, "The keystroke-level model for user performance
time with interactive systems", Communications of the ACM 23 (1980) 396–410. It predicts error-free routine
work to within about a fifth; it says nothing about learning or slips. The paths with a mouse are worked out
from the same times and not played.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication

from tests.support.screens import press, press_text

KEY_S = 0.28
"""K: one key of somebody who types 40 words a minute (Card et al.: "average non-secretary typist")."""
POINT_S = 1.10
"""P: pointing at a target with a mouse (Card et al.)."""
CLICK_S = 0.20
"""B twice: pressing and letting go (Card et al.)."""
HOME_S = 0.40
"""H: a hand from the keyboard to the mouse, or back (Card et al.)."""
THINK_S = 1.35
"""M: making up one's mind before a step (Card et al.)."""
ANSWER_S = 0.10
"""R: the longest that an answer may take and still feel direct (Miller 1968, a judgement)."""

CONTROL = Qt.KeyboardModifier.ControlModifier
LABEL = "summer by the s"
"""Fifteen letters."""


class Keystrokes(QObject):
    """Counts the keys of a task as they go down; one that is held while another is pressed is a key too."""

    def __init__(self) -> None:
        super().__init__()
        self.keys = 0
        self._down: set[int] = set()

    def eventFilter(self, receiver: QObject, event: QEvent) -> bool:
        # Every key is announced so, once to whoever has the keyboard and then to those around it. A table
        # that opens an editor hands the same key on to it: a key that is still down is not counted again.
        if event.type() == QEvent.Type.ShortcutOverride and receiver is QApplication.focusWidget():
            assert isinstance(event, QKeyEvent)
            self.keys += event.key() not in self._down
            self._down.add(event.key())
        elif event.type() == QEvent.Type.KeyRelease:
            assert isinstance(event, QKeyEvent)
            self._down.discard(event.key())
        return False


@dataclass(frozen=True, slots=True)
class Effort:
    """What one task took."""

    keys: int
    thoughts: int
    answers: int = 0
    by_mouse_s: float = field(default=0.0)
    """The same task by mouse, worked out."""

    @property
    def seconds(self) -> float:
        return self.keys * KEY_S + self.thoughts * THINK_S + self.answers * ANSWER_S


def counted(task: Callable[[], object]) -> int:
    """Keys that the task really sent to the window."""
    application = QApplication.instance()
    assert application is not None
    strokes = Keystrokes()
    application.installEventFilter(strokes)
    try:
        task()
    finally:
        application.removeEventFilter(strokes)
    return strokes.keys


def answer_a_caller(said: str) -> Effort:
    """F2 and what the caller says; the answer is read out as it appears.

    By mouse: to the moment and to the box, a hand there and back each time.
    """

    def ask() -> None:
        press(Qt.Key.Key_F2)
        press_text(said)

    trip = HOME_S + POINT_S + CLICK_S + HOME_S
    by_mouse = 2 * trip + len(said) * KEY_S + 2 * THINK_S + ANSWER_S
    return Effort(counted(ask), 2, 1, by_mouse)


def add_a_row() -> Effort:
    """Ctrl+D brings format and length of the row above; the label is typed where the keyboard stands.

    By mouse: format and length are opened and chosen from in two lists.
    """

    def row() -> None:
        press(Qt.Key.Key_D, CONTROL)
        press_text(LABEL)

    choice = HOME_S + 2 * (POINT_S + CLICK_S) + HOME_S
    return Effort(counted(row), 1, 0, 2 * choice + THINK_S + (len(LABEL) + 1) * KEY_S)
