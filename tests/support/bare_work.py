"""The threads beside the window, with no records behind them."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from pytestqt.qtbot import QtBot

from core.services.records_door import Shop
from gui.toolkit.workers import Work


def no_shop() -> Shop:
    raise AssertionError("nobody asked for the records")


@pytest.fixture
def work(qtbot: QtBot) -> Iterator[Work]:
    made = Work(no_shop)
    yield made
    made.close()
