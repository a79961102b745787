"""The program's icon: one drawing (``resources/icon/tapewright.svg``) and pictures of it in the usual sizes.

``python -m gui.toolkit.program_icon`` draws the pictures anew after the drawing was changed. The window takes
the pictures: reading the drawing itself would bring an SVG library before the first paint.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon, QImage, QPainter

from core.model import resource_files

SIZES = (16, 32, 48, 64, 128, 256)
"""Width and height in pixels; the freedesktop icon theme names folders after them."""


def icon() -> QIcon:
    """The icon for the window and its entry in the task list; pictures are read when they are shown."""
    shown = QIcon()
    for size in SIZES:
        shown.addFile(str(picture(size)), QSize(size, size))
    return shown


def picture(size: int) -> Path:
    """The file of one size."""
    return resource_files.path("icon", f"tapewright-{size}.png")


def drawn(size: int) -> QImage:
    """The drawing as a picture of ``size`` × ``size`` pixels on a transparent ground."""
    from PySide6.QtSvg import QSvgRenderer

    image = QImage(size, size, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    QSvgRenderer(str(resource_files.path("icon", "tapewright.svg"))).render(painter)
    painter.end()
    return image


def main() -> None:
    """Draw every picture anew."""
    for size in SIZES:
        drawn(size).save(str(picture(size)))


if __name__ == "__main__":
    main()
