"""What is wrong with a page of the Customer side as laid out: text cut, missing, scrolled, overlapping."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QAbstractButton, QAbstractScrollArea, QLabel, QWidget

from gui.customer_side.customer_window import CustomerSide
from gui.customer_side.facing_page import PaperBack
from gui.customer_side.facing_slip import FacingSlip, FacingStub
from gui.customer_side.page_scale import plain
from gui.customer_side.page_turner import TOUCH, PageTurner
from gui.customer_side.tapes_drawing import TapesDrawing
from gui.customer_side.text_columns import SetPage
from gui.customer_side.text_rows import SetBand, SetText
from gui.customer_side.text_sheet import TextSheet
from gui.customer_side.tray_pages import lines
from gui.toolkit import sizes
from gui.widgets.not_for_reuse_strip import band_size

_SLACK = 1.5
"""Pixels: places are rounded to whole ones."""


def faults(side: CustomerSide) -> list[str]:
    """Every fault of the page on show, on all of the pages it turns; empty when there is none."""
    page = side.page
    found = [*_scrolled(side), *_placed(page), *_buttons(page), *_labels(side)]
    sheets = [each for each in page.findChildren(TextSheet) if each.isVisible()]
    trays = [each for each in page.findChildren(TapesDrawing) if each.isVisible()]
    for sheet in sheets:
        found += [f"{sheet.objectName()}: {fault}" for fault in _sheet(sheet)]
    for tray in trays:
        found += [f"{tray.objectName()}: {fault}" for fault in _tray(tray)]
    turners = [each for each in page.findChildren(PageTurner) if each.isVisible()]
    counts = [*(sheet.page_count for sheet in sheets), *(tray.page_count for tray in trays)]
    turned = max(counts, default=1)
    if turned != (turners[0].count if turners else 1):
        found.append(f"{turned} pages, and the turner knows {[each.count for each in turners]}")
    return found


def _scrolled(side: CustomerSide) -> Iterator[str]:
    for area in side.findChildren(QAbstractScrollArea):
        yield f"{area.objectName()} can scroll"


def _placed(page: QWidget) -> Iterator[str]:
    """Parts outside the page, and parts over each other; what lies on paper lies inside it."""
    parts = [each for each in _children(page) if each.isVisible() and not each.size().isEmpty()]
    for part in parts:
        if not page.rect().contains(part.geometry()):
            yield f"{part.objectName()} at {part.geometry()} is outside {page.rect()}"
    for one, other in combinations([each for each in parts if not isinstance(each, PaperBack)], 2):
        if one.geometry().adjusted(0, 0, -1, -1).intersects(other.geometry().adjusted(1, 1, -1, -1)):
            yield f"{one.objectName()} lies over {other.objectName()}"
    for part in parts:
        if isinstance(part, (FacingSlip, FacingStub)) or part.objectName().startswith("customer-way-"):
            yield from _placed(part)


def _children(page: QWidget) -> list[QWidget]:
    return [each for each in page.children() if isinstance(each, QWidget)]


def _buttons(page: QWidget) -> Iterator[str]:
    for button in page.findChildren(QAbstractButton):
        if button.isVisible():
            if min(button.width(), button.height()) < TOUCH:
                yield f"{button.objectName()} is no target for a finger: {button.size()}"
            if button.text() and button.sizeHint().width() > button.width():
                yield f"{button.text()} is cut"
            if not (button.text() or button.accessibleName()):
                yield f"{button.objectName()} has no name"


def _labels(side: CustomerSide) -> Iterator[str]:
    for label in side.findChildren(QLabel):
        if label.isVisible() and label.text():
            needed = label.heightForWidth(label.width()) if label.wordWrap() else label.sizeHint().height()
            if needed > label.height() or (not label.wordWrap() and label.sizeHint().width() > label.width()):
                yield f"{label.text()[:30]} is cut"


def _sheet(sheet: TextSheet) -> Iterator[str]:
    room = QRectF(sheet.rect()).adjusted(-_SLACK, -_SLACK, _SLACK, _SLACK)
    for page in sheet.pages:
        for piece in page.pieces:
            if not room.contains(piece.rect):
                yield f"{piece} is outside {sheet.rect()}"
            yield from _cut(piece)
        for one, other in combinations(page.pieces, 2):
            meet = one.rect.adjusted(_SLACK, _SLACK, -_SLACK, -_SLACK).intersects(other.rect)
            if meet and not _share_a_line(one, other):
                yield f"{one} lies over {other}"
    yield from _missing(sheet)


def _share_a_line(one: object, other: object) -> bool:
    """Words and an amount in one line, whose letters do not meet."""
    if not (isinstance(one, SetText) and isinstance(other, SetText)):
        return False
    left, right = sorted((one, other), key=lambda each: each.rect.left())
    return left.rect.left() + _advance(left) <= right.rect.left() + _SLACK


def _cut(piece: object) -> Iterator[str]:
    if isinstance(piece, SetText):
        if _advance(piece) > piece.rect.width() + _SLACK:
            yield f"{piece.words} is wider than its room"
        if QFontMetricsF(piece.face).height() > piece.rect.height() + _SLACK:
            yield f"{piece.words} is higher than its room"
        if piece.face.pointSizeF() < sizes.SMALL:
            yield f"{piece.words} is in {piece.face.pointSizeF()} points"
    elif isinstance(piece, SetBand):
        needed = band_size(piece.words, plain(piece.size))
        if needed.width() > piece.rect.width() + _SLACK or needed.height() > piece.rect.height() + _SLACK:
            yield f"the band {piece.words} is cut"


def _advance(piece: SetText) -> float:
    return QFontMetricsF(piece.face).horizontalAdvance(piece.words)


def _missing(sheet: TextSheet) -> Iterator[str]:
    """Paragraphs that are on no page as a whole."""
    set_words = "".join(_flowing(page) for page in sheet.pages)
    for block in sheet.blocks:
        for one in block.paragraphs:
            if not one.is_reason and "".join(one.words.split()) not in set_words:
                yield f"“{one.words}” is not there as a whole"


def _flowing(page: SetPage) -> str:
    from PySide6.QtCore import Qt

    right = Qt.AlignmentFlag.AlignRight
    texts = [each for each in page.pieces if isinstance(each, SetText) and each.side is not right]
    return "".join("".join(each.words.split()) for each in texts)


def _tray(tray: TapesDrawing) -> Iterator[str]:
    if not tray.is_whole:
        yield "not every tape is on some page"
    for page in tray.pages:
        if page.lies.width > tray.width() or page.lies.height > tray.height():
            yield f"{page.lies.width:.0f}×{page.lies.height:.0f} in {tray.size()}"
        for drawn, placed in zip(page.drawn, page.lies.placed, strict=True):
            left, _ = placed.words
            for words, face, _ in lines(drawn, page.lettering):
                if left + QFontMetricsF(face).horizontalAdvance(words) > page.lies.width + _SLACK:
                    yield f"{words} is cut"
