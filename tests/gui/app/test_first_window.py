"""The start: the window is painted before anything else is looked at."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from pytestqt.qtbot import QtBot

from gui.app import composition, first_window
from gui.app.main_window import Window


@pytest.fixture(autouse=True)
def no_looking_for_garbage() -> Iterator[None]:
    gc.disable()
    yield
    gc.enable()


def test_what_importing_made_is_left_out_of_every_look_for_garbage(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    done: list[str] = []

    def furnish(*_: object) -> None:
        done.append("furnished")

    monkeypatch.setattr(composition, "furnish", furnish)
    monkeypatch.setattr(first_window.gc, "freeze", lambda: done.append("frozen"))
    window = Window()
    qtbot.addWidget(window)
    first_window.Opening(window, None, "Kim", lambda: datetime(2026, 3, 3, tzinfo=UTC)).begin()
    assert done == ["frozen", "furnished"]
    assert not gc.isenabled()  # until the work begins, which looks on the window's thread
