"""Where the window was left on this computer, and that it opens there again: never larger than the screen,
never beyond its edge."""

from __future__ import annotations

import re
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QRect, QStandardPaths, Qt
from PySide6.QtWidgets import QApplication

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gui.app.main_window import Window

USUAL = (1280, 800)
"""Of a window that was never left before, in device-independent pixels; larger where the screen is."""
_SHARE = 0.9
"""Of a large screen, for the first time."""
_TITLE_HIGH = 32
"""What the frame may need above the window, before the system has told (an assumption)."""
_LINE = re.compile(r"(-?\d{1,6}) (-?\d{1,6}) (\d{1,6}) (\d{1,6}) ([01])")
_LONGEST = 64


class WindowPlace(NamedTuple):
    """A window on the desktop, in device-independent pixels."""

    rect: QRect
    fills_screen: bool


def kept_in() -> Path:
    """The file of this computer's account."""
    kind = QStandardPaths.StandardLocation.GenericDataLocation
    return Path(QStandardPaths.writableLocation(kind)) / "Tapewright" / "window-place"


def read(file: Path) -> WindowPlace | None:
    """What `keep` wrote; None where there is nothing that it can have written."""
    text = ""
    with suppress(OSError):
        if file.is_file():
            with file.open("rb") as opened:
                text = opened.read(_LONGEST + 1).decode(errors="replace").strip()
    found = _LINE.fullmatch(text)
    if found is None:
        return None
    left, top, wide, high, fills = map(int, found.groups())
    return WindowPlace(QRect(left, top, wide, high), bool(fills))


def keep(file: Path, window: Window) -> None:
    """Write down where the window is; where that cannot be written it opens as usual the next time."""
    from core.model import private_files  # not before the first paint

    fills = window.isMaximized() or window.isFullScreen()
    rect = window.normalGeometry() if fills else window.geometry()
    if not rect.isValid():
        return
    line = f"{rect.x()} {rect.y()} {rect.width()} {rect.height()} {int(fills)}\n"
    with suppress(OSError):
        private_files.make_folder(file.parent)
        private_files.write(file, line.encode())


def fitted(kept: WindowPlace | None, screens: Sequence[QRect]) -> WindowPlace:
    """Where to open: where it was left, as far as one of the ``screens`` holds it; else on the first one."""
    if kept is None:
        first = screens[0]
        wide, high = (
            max(least, round(_SHARE * room)) for least, room in zip(USUAL, _size(first), strict=True)
        )
        rect = QRect(0, 0, wide, high)
        rect.moveCenter(first.center())
        return WindowPlace(_inside(rect, first), not first.adjusted(0, _TITLE_HIGH, 0, 0).contains(rect))
    screen = max(screens, key=lambda each: _area(each.intersected(kept.rect)))
    return WindowPlace(_inside(kept.rect, screen), kept.fills_screen)


def open_there(window: Window, place: WindowPlace) -> None:
    """Put the window there, before it is shown."""
    window.setGeometry(place.rect)
    if place.fills_screen:
        window.setWindowState(Qt.WindowState.WindowMaximized)


def screens() -> list[QRect]:
    """What of each screen is free, the main screen first."""
    main = QApplication.primaryScreen()
    return [each.availableGeometry() for each in sorted(QApplication.screens(), key=lambda s: s is not main)]


def _inside(rect: QRect, screen: QRect) -> QRect:
    """As large as it is, or as the screen; wholly on it, with its frame."""
    room = screen.adjusted(0, _TITLE_HIGH, 0, 0)
    shown = QRect(rect.topLeft(), rect.size().boundedTo(room.size()))
    shown.moveLeft(min(max(shown.left(), room.left()), room.right() + 1 - shown.width()))
    shown.moveTop(min(max(shown.top(), room.top()), room.bottom() + 1 - shown.height()))
    return shown


def _size(rect: QRect) -> tuple[int, int]:
    return rect.width(), rect.height()


def _area(rect: QRect) -> int:
    return max(rect.width(), 0) * max(rect.height(), 0)
