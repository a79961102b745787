"""On every screen, with every box: nothing of the Customer side is cut, scrolled, left out or over another.

``python -m tests.facing --dir DIR`` draws all of them and tells the same faults.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import QRectF, QSize
from PySide6.QtWidgets import QApplication

from gui.customer_side import page_turner
from gui.customer_side.customer_window import CustomerSide
from gui.customer_side.page_scale import full_scale
from gui.customer_side.text_blocks import Paragraph, block
from gui.toolkit import theme
from tests.facing import facing_samples
from tests.facing.facing_faults import faults

SCENES = facing_samples.scenes()
NARROWEST = ((1280, 720), (1080, 1920))
"""Where least fits beside or below each other: with the smallest and the largest box."""
PRACTICE = facing_samples.scenes(replace(facing_samples.FRONT, practice=True))


@pytest.fixture(scope="module")
def side(qapp: QApplication) -> Iterator[CustomerSide]:
    theme.apply(qapp)
    shown = CustomerSide()
    shown.show()
    yield shown
    shown.close()
    shown.deleteLater()


def lay(side: CustomerSide, name: str, size: tuple[int, int], tapes: int, *, practice: bool = False) -> None:
    side.stop_asking()
    side.show_ways(False)
    side.show_pickup(None)
    side.show_moment("counter")
    side.resize(*size)
    (PRACTICE if practice else SCENES)[name](side, tapes)
    QApplication.processEvents()


@pytest.mark.parametrize("size", facing_samples.SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", SCENES)
def test_nothing_is_cut_scrolled_or_left_out(side: CustomerSide, name: str, size: tuple[int, int]) -> None:
    counts = (1, 120) if size in NARROWEST else (40,)
    for tapes in (8,) if name == "greeting" else counts:
        lay(side, name, size, tapes)
        assert faults(side) == [], f"{name}, {tapes} tapes"


@pytest.mark.parametrize("name", SCENES)
def test_nor_below_the_strip_of_a_practice_shop(side: CustomerSide, name: str) -> None:
    lay(side, name, (1280, 720), 8, practice=True)
    assert side.practice.isVisible()
    assert faults(side) == []


def test_type_grows_with_the_screen(side: CustomerSide) -> None:
    scales = []
    for size in ((1280, 720), (1920, 1080), (3840, 2160)):
        lay(side, "greeting", size, 8)
        scales.append(side.greeting.scale)
    assert scales[1] == pytest.approx(1.5 * scales[0])
    assert scales[2] == pytest.approx(3.0 * scales[0])
    assert scales[0] == full_scale(QSize(1280, 720)) > 1


def test_what_is_too_long_turns_pages_by_touch_and_by_itself(side: CustomerSide) -> None:
    lay(side, "signing", (1280, 720), 120)
    turner = side.signing.turner
    assert turner.count == side.signing.sheet.page_count > 1
    assert not turner._timer.isActive(), "nobody is hurried through what they sign"
    turner.next.click()
    assert side.signing.sheet.page == 1
    side.turn_page(1)
    side.turn_page(-1)
    assert side.signing.sheet.page == 1


def test_the_box_turns_by_itself_until_somebody_turns_it(
    side: CustomerSide, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay(side, "pickup", (1280, 720), 120)
    turner = side.pickup.turner
    assert turner.count > 1
    monkeypatch.setattr(turner, "_is_calm", lambda: False)
    turner.begin(turner.count)
    assert turner._timer.isActive()
    assert turner._timer.interval() == page_turner.TURN_MS
    turner._timer.timeout.emit()
    assert side.pickup.tapes.page == 1
    turner.back.click()
    assert side.pickup.tapes.page == 0
    assert not turner._timer.isActive(), "whoever turned a page reads it as long as they like"


def test_pages_stand_still_where_the_system_asks_for_no_motion(
    side: CustomerSide, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay(side, "pickup", (1280, 720), 120)
    monkeypatch.setattr(side.pickup.turner, "_is_calm", lambda: True)
    side.pickup.turner.begin(side.pickup.turner.count)
    assert not side.pickup.turner._timer.isActive()


def test_the_faults_are_found(side: CustomerSide) -> None:
    """The measure itself: words in too little room, parts over each other, pages nobody can turn to."""
    lay(side, "quote", (1280, 720), 8)
    page = side.quoting
    page.heading.lay(QRectF(0, 0, 60, 20), page.scale)
    assert any("customer-heading" in fault for fault in faults(side))
    lay(side, "quote", (1366, 768), 8)
    page.told.write([block(Paragraph("again and again " * 200))])
    page.told.lay(QRectF(page.told.geometry()), page.scale)
    assert any("pages" in fault for fault in faults(side))
