"""Every moment at the narrow and the scaled end: a small screen enlarged to 200 %, a large one as it is.

All of them, in every look, are drawn by ``python -m gui.app.walkthrough --matrix``.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QWidget

from gui.app.main_window import Window
from gui.app.walkthrough_route import Route
from gui.toolkit import sizes, theme
from gui.widgets.layouts import Columns, stacked
from tests.gui.app import fitting
from tests.support.demonstration import AFTERNOON, copied

NARROW = ((640, 400), (683, 384))
"""1280 × 800 and 1366 × 768 at 200 %."""
WIDE = ((1280, 720),)
"""1920 × 1080 at 150 %: the lowest room that nothing folds in."""
GROWN = ((1920, 1080),)
"""A screen of that size as it is, and one of 3840 × 2160 at 200 %."""
_MOMENTS = {
    "1-counter-empty": (*NARROW, *WIDE),
    "1-counter": (*NARROW, *WIDE, *GROWN),
    "2-phone": (*NARROW, *WIDE),
    "3-bench-at-the-bench": (*NARROW, *WIDE, *GROWN),
    "4-pickup": (*NARROW, *WIDE, *GROWN, (3840, 2160)),
    "5-shop-00-own_shop": (*NARROW, *WIDE),
}
USUAL = (1366, 768)


@pytest.fixture(scope="module")
def seen(
    qapp: QApplication, demonstration: Path, tmp_path_factory: pytest.TempPathFactory
) -> dict[str, list[str]]:
    """By stop what does not fit there."""
    theme.apply(qapp)
    shop = copied(demonstration, tmp_path_factory.mktemp("fits") / "demo").shop
    found: dict[str, list[str]] = {}
    way = Route(shop, AFTERNOON, USUAL).stops()
    for stop in way:
        if stop.name in _MOMENTS:
            found[stop.name] = [
                each for size in _MOMENTS[stop.name] for each in _faults_with_booking(stop.widget, size)
            ]
            stop.widget.resize(*USUAL)
            assert isinstance(stop.widget, Window)
            stop.widget.grow()
        if len(found) == len(_MOMENTS):
            break
    with suppress(GeneratorExit):
        way.close()
    return found


def _faults_with_booking(window: QWidget, size: tuple[int, int]) -> Iterator[str]:
    yield from fitting.faults(window, size)
    counter = window.findChild(QWidget, "counter")
    if counter is not None and counter.isVisible():
        for name in ("book", "price-at-a-glance" if size in NARROW else "promised-day"):
            part = counter.findChild(QWidget, name)
            if part is None or not _is_in_sight(part, window):
                yield f"{size[0]}×{size[1]}: {name} is out of sight"


def _is_in_sight(part: QWidget, window: QWidget) -> bool:
    if not part.isVisible() or part.visibleRegion().boundingRect().size() != part.size():
        # an empty slip has no day yet
        return isinstance(part, QLabel) and not part.text()
    return window.rect().contains(QRect(part.mapTo(window, QPoint(0, 0)), part.size()))


@pytest.mark.parametrize("stop", _MOMENTS)
def test_a_moment_fits_at_every_end(seen: dict[str, list[str]], stop: str) -> None:
    assert seen[stop] == []


# --- the check itself --------------------------------------------------------------------


def _plant(kind: str, window: QWidget) -> None:
    if kind == "overlap":
        for left in (10, 60):
            QLabel("some words", window).setGeometry(left, 10, 100, 20)
    elif kind == "outside":
        QPushButton("Go", window).setGeometry(390, 10, 60, 36)
    elif kind == "type":
        label = QLabel("small", window)
        label.setFont(theme.font(sizes.SMALL - 2))
        label.setGeometry(10, 10, 200, 30)
    elif kind == "scrolled":
        columns = Columns(100, window)
        tall = QLabel("tall")
        tall.setMinimumHeight(600)
        columns.add(tall, 1)
        stacked(window).addWidget(columns)


@pytest.mark.parametrize(
    ("kind", "said"),
    [("overlap", "lies over"), ("outside", "out of"), ("type", "pt"), ("scrolled", "scrolled by")],
)
def test_what_does_not_fit_is_found(qapp: QApplication, kind: str, said: str) -> None:
    window = QWidget()
    window.resize(400, 200)
    _plant(kind, window)
    window.show()
    found = fitting.faults(window, (400, 200))
    window.close()
    assert any(said in each for each in found), found
