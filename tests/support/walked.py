"""The walkthrough gone once in a language, with what was to be read and what was cut at every stop."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from unittest.mock import patch

from PySide6.QtWidgets import QApplication, QMainWindow

from core.wording import messages
from gui.app.walkthrough_route import Route, Stop
from gui.toolkit import theme
from gui.toolkit.unexpected_errors import ErrorBoundary
from tests.support import clipping, shown_texts

SIZES = ((1280, 800), (1366, 768))
"""The two small screens in use at counters, in device-independent pixels."""


@dataclass(frozen=True, slots=True)
class StopSeen:
    """What one stop showed."""

    name: str
    texts: tuple[tuple[str, str], ...]
    """Where a text is, and the text."""
    cut: tuple[str, ...]
    """Texts that did not fit, each with the size of the window."""


def walk(language: str, shop: Path, now: datetime) -> list[StopSeen]:
    """Every stop of the way through ``shop``, in the language that the shop speaks."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    theme.apply(app)
    messages.use(language)
    with _unexpected_errors():
        return [_seen(stop) for stop in Route(shop, now, SIZES[0]).stops()]


def _seen(stop: Stop) -> StopSeen:
    texts: list[tuple[str, str]] = []
    cut: list[str] = []
    for size in SIZES if isinstance(stop.widget, QMainWindow) else SIZES[:1]:
        if isinstance(stop.widget, QMainWindow):
            stop.widget.resize(*size)
        for _ in range(3):  # what was laid out may ask to be laid out again
            QApplication.processEvents()
        with shown_texts.watched_painting() as painting:
            stop.widget.grab()
        painted = ((shown_texts.called(each.widget), each.words) for each in painting.texts)
        whole = tuple(shown_texts.texts(stop.widget))
        told = "\n".join(text for _, text in whole)
        texts += (
            *whole,
            *(each for each in painted if each[1].rstrip("…") not in told),
        )  # else a part of one
        cut += (f"{size[0]}×{size[1]}: {each}" for each in clipping.cut(stop.widget, painting))
    return StopSeen(stop.name, tuple(dict.fromkeys(texts)), tuple(cut))


@contextmanager
def _unexpected_errors() -> Iterator[None]:
    """Raises in the end what the program would have told in a dialog."""
    errors: list[BaseException] = []
    hook = sys.excepthook
    try:
        with patch.object(ErrorBoundary, "report", lambda _, error: errors.append(error)):
            yield
    finally:
        sys.excepthook = hook
        if errors:
            raise errors[0]
