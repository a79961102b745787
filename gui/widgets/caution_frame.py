"""Cautions in the frame that every screen has for them."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QFrame, QVBoxLayout

from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import words


def caution_frame(sentences: Sequence[str]) -> QFrame:
    """What to be careful of stands in a frame of its own, before everything that is done."""
    frame = QFrame()
    frame.setObjectName("cautions")
    frame.setProperty("role", "caution")
    column = QVBoxLayout(frame)
    column.setContentsMargins(theme.UNIT, theme.UNIT // 2, theme.UNIT, theme.UNIT // 2)
    column.setSpacing(2)
    column.addWidget(words(say("inspection", "careful"), "attention"))
    for sentence in sentences:
        column.addWidget(words(sentence))
    return frame
