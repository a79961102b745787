"""Contrast as it is painted: the pixels of what is shown, never the tokens it should be painted with.

Of a text the ground is the commonest color inside its widget, the ink the color furthest from that: the
strokes of letters are smoothed, so that fewer pixels have the ink itself than a blend. Formula and bounds:
WCAG 2.2, 1.4.3 (text 4.5:1, large text 3:1; what is disabled is exempt), 1.4.11 with 2.4.13 (a ring of 3:1
against the same pixels without the keyboard, as large as a line of 2 px around the control).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from PySide6.QtCore import QRect
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit, QWidget

from gui.toolkit import colors

TEXT, LARGE, RING = 4.5, 3.0, 3.0
_LARGE_PT, _LARGE_BOLD_PT = 18.0, 14.0
_INSIDE = 3
"""Pixels of a border that belong to no text."""
_TEXTS = (QLabel, QAbstractButton, QLineEdit, QComboBox)


def faint(root: QWidget) -> Iterator[str]:
    """Every text on ``root`` that is painted with too little contrast, with what was measured."""
    image = root.grab().toImage()
    for widget in root.findChildren(QWidget):
        if isinstance(widget, _TEXTS) and widget.isVisibleTo(root) and widget.isEnabled():
            words = _words(widget)
            place = QRect(widget.mapTo(root, widget.rect().topLeft()), widget.size())
            place = place.intersected(_seen_of(widget, root)).adjusted(_INSIDE, _INSIDE, -_INSIDE, -_INSIDE)
            if words.strip() and place.width() > 8 and place.height() > 8:
                found = _contrast(image, place)
                if found < _bound(widget):
                    yield f"{type(widget).__name__} {widget.objectName()} “{words}” {found:.2f}:1"


def ring(widget: QWidget, elsewhere: QWidget) -> float:
    """Area of the pixels that change by at least `RING` when ``widget`` gets the keyboard.

    As a share of a line of 2 px around it; ``elsewhere`` has the keyboard before.
    """
    elsewhere.setFocus()
    QApplication.processEvents()
    before = _grabbed(widget)
    widget.setFocus()
    QApplication.processEvents()
    after = _grabbed(widget)
    changed = Counter(
        (before.pixel(x, y), after.pixel(x, y))
        for x, y in _edge(before)
        if before.pixel(x, y) != after.pixel(x, y)
    )
    seen = sum(count for (one, other), count in changed.items() if _of_pixels(one, other) >= RING)
    return seen / max(4 * (before.width() + before.height()), 1)


def _grabbed(widget: QWidget) -> QImage:
    """The widget with what it stands on."""
    window = widget.window()
    return window.grab(QRect(widget.mapTo(window, widget.rect().topLeft()), widget.size())).toImage()


def _edge(image: QImage) -> Iterator[tuple[int, int]]:
    """The pixels within some 20 of an edge: what a ring is painted on."""
    wide = 20
    for y in range(image.height()):
        for x in range(image.width()):
            if min(x, y, image.width() - 1 - x, image.height() - 1 - y) < wide:
                yield x, y


def _seen_of(widget: QWidget, root: QWidget) -> QRect:
    """What of a widget is not cut off by those around it, in the coordinates of ``root``."""
    region = widget.visibleRegion().boundingRect()
    return QRect(widget.mapTo(root, region.topLeft()), region.size())


def _words(widget: QWidget) -> str:
    if isinstance(widget, QLineEdit):
        return widget.displayText() or widget.placeholderText()
    if isinstance(widget, QComboBox):
        return widget.currentText()
    return str(widget.text())  # type: ignore[attr-defined]  # a label or a button


def _bound(widget: QWidget) -> float:
    size = widget.font().pointSizeF()
    return LARGE if size >= _LARGE_PT or (size >= _LARGE_BOLD_PT and widget.font().bold()) else TEXT


def _contrast(image: QImage, place: QRect) -> float:
    ratio = image.devicePixelRatio()
    sides = (place.left(), place.top(), place.width(), place.height())
    cut = image.copy(*(round(side * ratio) for side in sides)).convertToFormat(QImage.Format.Format_RGB32)
    painted = Counter(memoryview(cut.constBits()).cast("I"))
    if not painted:
        return 21.0
    ((ground, _),) = painted.most_common(1)
    return max(_of_pixels(ground, each) for each in painted)


def _of_pixels(one: int, other: int) -> float:
    return colors.contrast(f"#{one & 0xFFFFFF:06X}", f"#{other & 0xFFFFFF:06X}")
