"""Paragraphs become rows: each line of text with its type and place, and how high it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QTextLayout, QTextOption

from core.model.names import FormatName
from gui.customer_side.page_scale import plain, unit
from gui.customer_side.text_blocks import Paragraph, TextBlock
from gui.toolkit import sizes, theme
from gui.widgets.cassette_drawing import largest_shell
from gui.widgets.not_for_reuse_strip import band_size

_SHELL_WIDE = 7.0
"""Grid steps for the largest cassette drawn beside words; the others keep their true proportion to it."""
_LEADING = 1.14
"""Height of a line of a paragraph, as a share of what its letters need."""
_LEAST_SHARE = 0.5
"""Of its size: smaller a whole line does not become; it then takes more lines after all."""


@dataclass(frozen=True, slots=True)
class SetText:
    """One line of text, set in the rectangle."""

    rect: QRectF
    words: str
    face: QFont
    ink: str
    side: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft


@dataclass(frozen=True, slots=True)
class SetBand:
    """The not-for-reuse strip."""

    rect: QRectF
    words: str
    size: float


@dataclass(frozen=True, slots=True)
class SetShell:
    """A cassette, drawn in the middle of the rectangle."""

    rect: QRectF
    format: FormatName


Piece = SetText | SetBand | SetShell


@dataclass(frozen=True, slots=True)
class Row:
    """What stands side by side; y counts from the top of the row."""

    height: float
    before: float
    """Left empty above, unless the row is the first of its column."""
    pieces: tuple[Piece, ...]
    keeps: bool
    """Whether the next row stands in the same column."""
    is_ruled: bool = False


def rows(blocks: Iterable[TextBlock], width: float, scale: float, *, reasons: bool = True) -> tuple[Row, ...]:
    """All blocks in a column of this width; without ``reasons`` those paragraphs are left out."""
    return tuple(row for each in blocks for row in _rows_of(each, width, scale, reasons))


def height(laid: Iterable[Row]) -> float:
    """Of the rows one below the other."""
    return sum(row.height + (row.before if n else 0.0) for n, row in enumerate(laid))


def least_height(blocks: Iterable[TextBlock], scale: float) -> float:
    """The blocks cannot be lower than this, reasons left out: each paragraph takes one line at least."""
    return sum(
        _metrics(points(one.size, scale), one.bold).height() * _LEADING
        for each in blocks
        for one in each.paragraphs
        if not one.is_reason and not one.is_whole
    )


def points(size: float, scale: float) -> float:
    """A type size on the page, never below the smallest of the program."""
    return round(max(sizes.SMALL, size * scale), 2)


@lru_cache(maxsize=8192)
def _rows_of(each: TextBlock, width: float, scale: float, reasons: bool) -> tuple[Row, ...]:
    """One block; a cassette stands beside its first row and makes that as high as itself."""
    aside = unit(scale) * (_SHELL_WIDE + 1.5) if each.shell is not None else 0.0
    laid = [
        row
        for one in each.paragraphs
        if reasons or not one.is_reason
        for row in _lines(one, width - aside, aside, scale)
    ]
    if each.band:
        laid.append(_band(each.band, width - aside, aside, scale))
    if each.shell is not None and laid:
        laid = _beside_shell(laid, each.shell, scale)
    last = len(laid) - 1
    return tuple(
        Row(
            row.height,
            unit(scale) * each.before if n == 0 else row.before,
            row.pieces,
            each.with_next if n == last else True,
            each.is_ruled and n == 0,
        )
        for n, row in enumerate(laid)
    )


def _beside_shell(laid: list[Row], format_name: FormatName, scale: float) -> list[Row]:
    """The rows with the cassette at their left: one row of them all, as high as the higher of both."""
    wide, deep = largest_shell()
    room = QRectF(0, 0, unit(scale) * _SHELL_WIDE, unit(scale) * _SHELL_WIDE * deep / wide)
    text_high = height(laid)
    high = max(text_high, room.height())
    room.moveTop((high - room.height()) / 2)
    pieces: list[Piece] = [SetShell(room, format_name)]
    y = (high - text_high) / 2
    for n, row in enumerate(laid):
        y += row.before if n else 0.0
        pieces += [moved(piece, 0.0, y) for piece in row.pieces]
        y += row.height
    return [Row(high, 0.0, tuple(pieces), False)]


def _lines(one: Paragraph, width: float, left: float, scale: float) -> Iterator[Row]:
    size = points(one.size, scale)
    if one.is_whole:
        size = _whole_size(one, width, size)
    face, metrics = _face(size, one.bold), _metrics(size, one.bold)
    high = metrics.height() * (1.0 if one.is_whole else _LEADING)
    taken = metrics.horizontalAdvance(one.amount) + 2 * unit(scale) if one.amount else 0.0
    is_beside = taken <= width * 0.6
    side = Qt.AlignmentFlag.AlignHCenter if one.is_centered else Qt.AlignmentFlag.AlignLeft
    broken = _broken(one.words, size, one.bold, max(1.0, width - taken if is_beside else width))
    for n, text in enumerate(broken):
        text_wide = width - taken if is_beside else width
        pieces = [SetText(QRectF(left, 0, text_wide, high), text, face, one.ink, side)]
        if n == 0 and one.amount and is_beside:
            pieces.append(_at_right(one, QRectF(left, 0, width, high), face, metrics))
        yield Row(high, 0.0, tuple(pieces), True)
    if one.amount and not (is_beside and broken):
        yield Row(high, 0.0, (_at_right(one, QRectF(left, 0, width, high), face, metrics),), True)


def _at_right(one: Paragraph, rect: QRectF, face: QFont, metrics: QFontMetricsF) -> SetText:
    rect.setLeft(rect.right() - metrics.horizontalAdvance(one.amount) - 1)
    return SetText(rect, one.amount, face, one.ink, Qt.AlignmentFlag.AlignRight)


def _band(words: str, width: float, left: float, scale: float) -> Row:
    size = points(sizes.SMALL, scale)
    wanted = band_size(words, plain(size))
    while wanted.width() > width and size > sizes.SMALL:
        size = max(sizes.SMALL, size - 0.5)
        wanted = band_size(words, plain(size))
    rect = QRectF(left, 0, min(float(wanted.width()), width), wanted.height())
    return Row(rect.height(), 0.5 * unit(scale), (SetBand(rect, words, size),), True)


def moved(piece: Piece, x: float, y: float) -> Piece:
    """The piece further right and down."""
    rect = piece.rect.translated(x, y)
    if isinstance(piece, SetText):
        return SetText(rect, piece.words, piece.face, piece.ink, piece.side)
    if isinstance(piece, SetBand):
        return SetBand(rect, piece.words, piece.size)
    return SetShell(rect, piece.format)


def _whole_size(one: Paragraph, width: float, size: float) -> float:
    """The type in which words and amount fit into one line."""
    wide = _metrics(size, one.bold).horizontalAdvance(one.words + one.amount) + 1
    if wide <= width:
        return size
    return round(max(sizes.SMALL, size * max(_LEAST_SHARE, width / wide * 0.99)), 2)


@lru_cache(maxsize=16384)
def _broken(words: str, size: float, bold: bool, width: float) -> tuple[str, ...]:
    """The words line by line; a word longer than a line is broken."""
    if _metrics(size, bold).horizontalAdvance(words) <= width:
        return (words,) if words else ()
    layout = QTextLayout(words, _face(size, bold))
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    layout.setTextOption(option)
    layout.beginLayout()
    found: list[str] = []
    while (line := layout.createLine()).isValid():
        line.setLineWidth(width)
        found.append(words[line.textStart() : line.textStart() + line.textLength()].strip())
    layout.endLayout()
    return tuple(found)


@lru_cache(maxsize=256)
def _face(size: float, bold: bool) -> QFont:
    return theme.font(size, QFont.Weight.Bold if bold else QFont.Weight.Normal)


@lru_cache(maxsize=256)
def _metrics(size: float, bold: bool) -> QFontMetricsF:
    return QFontMetricsF(_face(size, bold))
