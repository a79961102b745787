"""Booking after booking leaves nothing behind: no widget, no record, no task.

The megabytes of 2,000 bookings: ``python -m tests.bench bookings``.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from gui.app import composition
from gui.toolkit import memory_given_back
from tests.bench.window_bookings import (
    ROWS,
    MemoryReading,
    WindowBookings,
    objects_by_type,
    slope,
)

WARM, FURTHER = 2 * len(ROWS), 2 * len(ROWS)
"""Each kind of box is known by then; as many again, and each kind of object there as often as before."""
LOOSE = 2
"""Objects of one type that may be about to go, or to come, when they are counted."""
KEPT = ("core.playtime.", "core.scheduling.", "core.pricing.", "core.model.", "core.catalogue.")
"""Where what was worked out is remembered, bounded by number (`lru_cache`); everything else is counted."""


@pytest.fixture
def bookings(
    qtbot: QtBot, qapp: QApplication, empty_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[WindowBookings]:
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(composition, "_log_to_file", lambda: tmp_path / "log" / "tapewright.log")
    monkeypatch.setattr(composition, "_data_folder", lambda: tmp_path / "data")
    monkeypatch.setattr(memory_given_back, "keep_few_heaps", lambda: None)  # for a process of its own
    (tmp_path / "shop.sqlite").write_bytes(empty_file.read_bytes())
    made = WindowBookings(tmp_path, stay=2)
    qtbot.addWidget(made.window)
    yield made
    made.close()


def grown(bookings: WindowBookings, booked: int = 0) -> dict[str, int]:
    """What there is more of after further bookings, by type; ``booked`` there were already."""
    for number in range(booked + 1, WARM + 1):
        bookings.book(number)
    first = max(booked, WARM)
    before = objects_by_type()
    for number in range(first + 1, first + FURTHER + 1):
        bookings.book(number)
    more = Counter(objects_by_type())
    more.subtract(before)
    return {name: count for name, count in more.items() if count > LOOSE and _is_counted(name)}


def _is_counted(name: str) -> bool:
    return name.startswith(("Qt ", "gui.", "core.")) and not name.startswith(KEPT)


def test_bookings_leave_nothing_behind_and_what_is_left_is_found(bookings: WindowBookings) -> None:
    """In one window, for it takes seconds: then a label more with each booking, as if somebody forgot it."""
    assert grown(bookings) == {}
    bookings.counter.job_booked.connect(lambda _: QLabel(bookings.window))
    assert grown(bookings, WARM + FURTHER)["Qt QLabel"] == FURTHER


def test_growth_is_the_slope_of_what_was_read() -> None:
    flat = [MemoryReading(number, 250.0 + number % 20) for number in range(0, 2001, 10)]
    growing = [MemoryReading(each.bookings, each.megabytes + each.bookings / 10) for each in flat]
    assert abs(slope(flat)) < 0.5
    assert slope(growing) == pytest.approx(102.4 + slope(flat))
