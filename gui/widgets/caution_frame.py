"""Cautions in the frame that every screen has for them."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QFrame, QPushButton, QVBoxLayout

from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import words


def caution_frame(sentences: Sequence[str], heading: str = "", leads_on: QPushButton | None = None) -> QFrame:
    """What to be careful of stands in a frame of its own, before everything that is done.

    ``leads_on``: a button below them to what is not told here.
    """
    frame = QFrame()
    frame.setObjectName("cautions")
    frame.setProperty("role", "caution")
    column = QVBoxLayout(frame)
    column.setContentsMargins(theme.UNIT, theme.UNIT // 2, theme.UNIT, theme.UNIT // 2)
    column.setSpacing(2)
    column.addWidget(words(heading or say("inspection", "careful"), "attention"))
    for sentence in sentences:
        column.addWidget(words(sentence))
    if leads_on is not None:
        leads_on.setParent(frame)
        column.addWidget(leads_on)
    return frame
