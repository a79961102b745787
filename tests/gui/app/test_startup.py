"""The start: the window is painted before anything else is looked at."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from pytestqt.qtbot import QtBot

from gui.app import composition, startup
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

    def compose(*_: object) -> None:
        done.append("composed")

    monkeypatch.setattr(composition, "compose", compose)
    monkeypatch.setattr(startup.gc, "freeze", lambda: done.append("frozen"))
    window = Window()
    qtbot.addWidget(window)
    startup.DeferredStartup(window, None, "Kim", lambda: datetime(2026, 3, 3, tzinfo=UTC)).begin()
    assert done == ["frozen", "composed"]
    assert not gc.isenabled()  # until the work begins, which looks on the window's thread
