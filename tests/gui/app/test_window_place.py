"""The window opens as it was left on this computer: never larger than the screen, never beyond its edge."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QRect
from pytestqt.qtbot import QtBot

from gui.app import window_place
from gui.app.main_window import Window
from gui.app.window_place import WindowPlace, fitted
from gui.toolkit import sizes, theme

SMALL, LARGE = QRect(0, 0, 1366, 728), QRect(0, 0, 1920, 1040)
BESIDE = QRect(1920, 0, 1280, 800)


@pytest.mark.parametrize(
    ("left", "screens", "opens"),
    [
        (QRect(100, 80, 1280, 640), [SMALL], QRect(86, 80, 1280, 640)),
        (QRect(100, 80, 1280, 640), [LARGE], QRect(100, 80, 1280, 640)),
        (QRect(0, 0, 3840, 2160), [SMALL], QRect(0, 32, 1366, 696)),
        (QRect(5000, 4000, 1000, 600), [LARGE], QRect(920, 440, 1000, 600)),
        (QRect(-700, -50, 1000, 600), [LARGE], QRect(0, 32, 1000, 600)),
        (QRect(2000, 100, 1000, 600), [LARGE, BESIDE], QRect(2000, 100, 1000, 600)),
        (QRect(2000, 100, 1000, 600), [LARGE], QRect(920, 100, 1000, 600)),
    ],
    ids=["wider", "as left", "too large", "far off", "above", "second screen", "unplugged"],
)
def test_a_window_opens_where_it_was_left_as_far_as_a_screen_holds_it(
    left: QRect, screens: list[QRect], opens: QRect
) -> None:
    """Seen red for all but *as left* and *second screen* with the place taken as it was kept."""
    assert fitted(WindowPlace(left, False), screens) == WindowPlace(opens, False)


@pytest.mark.parametrize("screen", [SMALL, LARGE, BESIDE, QRect(0, 0, 3840, 2120), QRect(0, 0, 800, 600)])
def test_the_first_time_it_lies_wholly_on_the_screen(screen: QRect) -> None:
    place = fitted(None, [screen])
    assert screen.contains(place.rect)
    assert place.fills_screen is not (screen.width() > 1440 and screen.height() > 850)


def test_what_was_kept_is_read_again(qtbot: QtBot, tmp_path: Path) -> None:
    window = Window()
    qtbot.addWidget(window)
    window_place.open_there(window, WindowPlace(QRect(40, 60, 900, 500), False))
    file = tmp_path / "Tapewright" / "window-place"
    window_place.keep(file, window)
    assert window_place.read(file) == WindowPlace(QRect(40, 60, 900, 500), False)
    assert file.stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("text", ["", "1 2 3", "a b c d 0", "1 2 3 4 2", "9" * 500, "0 0 0000000 1 0", "\0"])
def test_what_nobody_can_have_written_counts_as_nothing(tmp_path: Path, text: str) -> None:
    file = tmp_path / "window-place"
    file.write_text(text)
    assert window_place.read(file) is None


def test_where_nothing_can_be_written_the_window_closes_all_the_same(qtbot: QtBot, tmp_path: Path) -> None:
    window = Window()
    qtbot.addWidget(window)
    (tmp_path / "file").write_text("")
    window_place.keep(tmp_path / "file" / "window-place", window)


def test_a_large_window_wears_large_type_and_a_small_one_small(qtbot: QtBot) -> None:
    """At the size it opens with at once; later when its edge is at rest."""
    window = Window()
    qtbot.addWidget(window)
    window.resize(1920, 1080)
    window.show()
    qtbot.waitUntil(lambda: theme.UNIT == 10)
    window.resize(1366, 768)
    qtbot.waitUntil(lambda: theme.UNIT == sizes.UNIT)
