"""The tapes of a tray with the words below each group: as large as all fit, else on several pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter

from core.model.names import FormatName
from gui.customer_side.page_scale import plain
from gui.customer_side.tape_arrangement import Arrangement, EqualTapes, PlacedTapes, arrange
from gui.customer_side.text_rows import points
from gui.toolkit import sizes, theme
from gui.widgets.cassette_drawing import largest_shell, paint_cassette, shell
from gui.widgets.not_for_reuse_strip import band_size, paint_band


@dataclass(frozen=True, slots=True)
class DrawnTapes:
    """Equal cassettes and the words below them."""

    format: FormatName
    count: int
    words: str
    length: str = ""
    """How long they may play; empty where no tape is meant."""
    not_for_reuse: bool = False


@dataclass(frozen=True, slots=True)
class Lettering:
    """How much is written below the cassettes, how large, and how small these may be drawn for it."""

    size: float
    """Of the letters, in points."""
    has_length: bool
    at_least: float
    """Pixels a millimetre."""


@dataclass(frozen=True, slots=True)
class TrayPage:
    """What lies in the tray at one time."""

    drawn: tuple[DrawnTapes, ...]
    lies: Arrangement
    lettering: Lettering


_CHOICES = ((1.1, True, 0.4), (1.0, True, 0.25), (0.85, True, 0.2), (0.85, False, 0.16))
"""Share of the small type, whether the length is written, least pixels a millimetre: from the fullest to the
barest; the first at which all cassettes fit is drawn, else they turn pages in the last but one."""
_PAGED = 2


def pages(shown: Sequence[DrawnTapes], width: float, height: float, scale: float) -> tuple[TrayPage, ...]:
    """All of them on one page, else on as few as they need, at this scale of the page they lie on."""
    choices = [
        Lettering(points(sizes.SMALL * share, scale), has_length, at_least * scale)
        for share, has_length, at_least in _CHOICES
    ]
    for lettering in choices if shown else ():
        lies = _lie(shown, width, height, lettering, scale)
        if lies is not None:
            return (TrayPage(tuple(shown), lies, lettering),)
    return tuple(_paged(list(shown), width, height, choices[_PAGED], scale))


def _paged(
    shown: list[DrawnTapes], width: float, height: float, lettering: Lettering, scale: float
) -> list[TrayPage]:
    found: list[TrayPage] = []
    while shown:
        most = _most(shown, width, height, lettering, scale)
        page = _page(shown[: max(1, most)], width, height, lettering, scale)
        if page is None:
            return found  # no room for a single cassette and its words; the page takes smaller type
        found.append(page)
        shown = shown[max(1, most) :]
    return found


def _page(
    part: list[DrawnTapes], width: float, height: float, lettering: Lettering, scale: float
) -> TrayPage | None:
    """A page of these groups; of one that is too much for a page fewer cassettes, and smaller ones."""
    tiny = Lettering(lettering.size, False, lettering.at_least / 4)
    for drawn in (part, [_fewer(part[0], width, height, lettering, scale)]):
        for written in (lettering, tiny):
            lies = _lie(drawn, width, height, written, scale)
            if lies is not None:
                return TrayPage(tuple(drawn), lies, written)
    return None


def _most(
    shown: Sequence[DrawnTapes], width: float, height: float, lettering: Lettering, scale: float
) -> int:
    """How many of the first groups fit on one page."""
    least, most = 0, len(shown)
    while least < most:
        middle = (least + most + 1) // 2
        if _lie(shown[:middle], width, height, lettering, scale, is_least=True) is not None:
            least = middle
        else:
            most = middle - 1
    return least


def _fewer(drawn: DrawnTapes, width: float, height: float, lettering: Lettering, scale: float) -> DrawnTapes:
    """So many of equal cassettes as there is room for; the words still tell how many there are."""
    count = drawn.count
    while count > 1:
        count = count * 3 // 4
        fewer = replace(drawn, count=count)
        if _lie((fewer,), width, height, lettering, scale, is_least=True) is not None:
            return fewer
    return replace(drawn, count=1)


def _lie(
    shown: Sequence[DrawnTapes],
    width: float,
    height: float,
    lettering: Lettering,
    scale: float,
    *,
    is_least: bool = False,
) -> Arrangement | None:
    groups = [_group(each, lettering) for each in shown]
    largest = lettering.at_least if is_least else None
    return arrange(groups, width, height, lettering.at_least, scale, largest)


def paint_group(
    painter: QPainter, drawn: DrawnTapes, placed: PlacedTapes, scale: float, lettering: Lettering
) -> None:
    """Equal cassettes, and the words below them."""
    wide, deep = shell(drawn.format)
    most_wide, most_deep = largest_shell()
    for left, top in placed.shells:
        room = QRectF(0, 0, most_wide * scale, most_deep * scale)
        room.moveCenter(QPointF(left + wide * scale / 2, top + deep * scale / 2))
        paint_cassette(painter, room, drawn.format)
    tokens = theme.current_tokens()
    left, top = placed.words
    for text, face, ink in lines(drawn, lettering):
        painter.setFont(face)
        painter.setPen(QColor(getattr(tokens, ink)))
        painter.drawText(QPointF(left, top + QFontMetricsF(face).ascent() + 2), text)
        top += QFontMetricsF(face).height()
    if drawn.not_for_reuse:
        size = _band(lettering)
        paint_band(painter, QRectF(left, top + 4, size.width(), size.height()), "", plain(lettering.size))


def lines(drawn: DrawnTapes, lettering: Lettering) -> list[tuple[str, QFont, str]]:
    """The lines below a group: text, type, and name of the ink."""
    written = [(drawn.words, theme.font(lettering.size, QFont.Weight.Bold), "ink")]
    if lettering.has_length and drawn.length:
        written.append((drawn.length, theme.font(lettering.size), "time"))
    return written


def _group(drawn: DrawnTapes, lettering: Lettering) -> EqualTapes:
    written = [(QFontMetricsF(face), text) for text, face, _ in lines(drawn, lettering)]
    width = max((metrics.horizontalAdvance(text) for metrics, text in written), default=0.0)
    height = sum(metrics.height() for metrics, _ in written) + 4
    if drawn.not_for_reuse:
        size = _band(lettering)
        width, height = max(width, size.width()), height + size.height() + 4
    return EqualTapes(drawn.count, *shell(drawn.format), width, height)


def _band(lettering: Lettering) -> QSize:
    return band_size("", plain(lettering.size))
