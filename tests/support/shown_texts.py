"""Every text a person reads or hears on a window: widgets, lists, tables, tips, and what is painted.

Rich text is taken as its plain words.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from unittest.mock import patch

from PySide6.QtCore import QAbstractItemModel, QAbstractListModel, QRectF, QSizeF
from PySide6.QtGui import QFontMetricsF, QPainter, Qt, QTextDocumentFragment
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QTextEdit,
    QWidget,
)

_ROLES = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
    Qt.ItemDataRole.AccessibleDescriptionRole,
)
_MOST_ROWS = 60
"""Rows of a list that are looked at; the rest are of the same making."""


@dataclass(frozen=True, slots=True)
class PaintedText:
    """A text as it was painted by code of ours: where, and how much room it needed."""

    words: str
    widget: QWidget
    place: QRectF
    needed: QSizeF

    @property
    def is_cut(self) -> bool:
        """Whether it is larger than its place; half a pixel is rounding."""
        return (
            self.needed.width() > self.place.width() + 0.5 or self.needed.height() > self.place.height() + 0.5
        )


@dataclass(slots=True)
class Painting:
    """What was painted while somebody watched."""

    texts: list[PaintedText] = field(default_factory=list)
    elided: dict[str, str] = field(default_factory=dict)
    """Texts as shown, by `…`, with the whole of each."""


@contextmanager
def watched_painting() -> Iterator[Painting]:
    """Notes every text that Python code paints or shortens meanwhile."""
    seen = Painting()
    draw, elide = QPainter.drawText, QFontMetricsF.elidedText

    def drawn(painter: QPainter, *args: object) -> object:
        words = next(arg for arg in args if isinstance(arg, str))
        place = args[0]
        device = painter.device()
        if isinstance(device, QWidget) and hasattr(place, "width"):
            rect = QRectF(place)  # type: ignore[call-overload]  # a QRect or a QRectF
            flags = next((int(arg) for arg in args[1:] if not isinstance(arg, str)), 0)  # type: ignore[call-overload]
            wide = QRectF(rect.left(), rect.top(), rect.width(), 10_000.0)
            metrics = QFontMetricsF(painter.font())
            needed = metrics.boundingRect(wide, flags & ~0xFF, words).size()
            if not flags & Qt.TextFlag.TextWordWrap.value:
                needed.setHeight(metrics.height())  # the brackets come from a higher face
            seen.texts.append(PaintedText(words, device, rect, needed))
        elif isinstance(device, QWidget):
            seen.texts.append(PaintedText(words, device, QRectF(), QSizeF()))
        return draw(painter, *args)

    def elided(metrics: QFontMetricsF, words: str, *args: object) -> str:
        shown = elide(metrics, words, *args)
        if shown != words:
            seen.elided[shown] = words
        return shown

    with patch.object(QPainter, "drawText", drawn), patch.object(QFontMetricsF, "elidedText", elided):
        yield seen


def texts(root: QWidget) -> Iterator[tuple[str, str]]:
    """Where each text is and the text, of all that shows on ``root``; rich text as its plain words."""
    for widget in (root, *root.findChildren(QWidget)):
        if widget is root or widget.isVisibleTo(root):
            where = called(widget)
            for part, said in _of_widget(widget):
                if said.strip():
                    yield f"{where} {part}", plain(said)


def called(widget: QWidget) -> str:
    """A widget by its class and the nearest name above it."""
    named: QWidget | None = widget
    while named is not None and not named.objectName():
        named = named.parentWidget()
    return f"{type(widget).__name__} {named.objectName() if named is not None else ''}".strip()


def plain(said: str) -> str:
    """The words of a text that may be rich."""
    return QTextDocumentFragment.fromHtml(said).toPlainText() if Qt.mightBeRichText(said) else said


def columns(model: QAbstractItemModel) -> int:
    """How many columns a model has; Qt keeps the answer of a list to itself."""
    return 1 if isinstance(model, QAbstractListModel) else model.columnCount()


def _of_widget(widget: QWidget) -> Iterator[tuple[str, str]]:
    yield from (
        ("tool tip", widget.toolTip()),
        ("accessible name", widget.accessibleName()),
        ("accessible description", widget.accessibleDescription()),
    )
    if widget.isWindow():
        yield "title", widget.windowTitle()
    for action in widget.actions():
        yield from (("action", action.text()), ("action's tool tip", action.toolTip()))
    yield from _written_on(widget)


def _written_on(widget: QWidget) -> Iterator[tuple[str, str]]:
    if isinstance(widget, QLabel | QAbstractButton):
        yield "text", widget.text()
    elif isinstance(widget, QLineEdit):
        yield from (("text", widget.text()), ("placeholder", widget.placeholderText()))
    elif isinstance(widget, QTextEdit):
        yield from (("text", widget.toPlainText()), ("placeholder", widget.placeholderText()))
    elif isinstance(widget, QComboBox):
        yield from (("item", widget.itemText(row)) for row in range(widget.count()))
    elif isinstance(widget, QAbstractSpinBox):
        yield "special value", widget.specialValueText()
    elif isinstance(widget, QHeaderView):
        yield from _headings(widget)
    elif isinstance(widget, QAbstractItemView) and widget.model() is not None:
        yield from _items(widget.model())


def _headings(header: QHeaderView) -> Iterator[tuple[str, str]]:
    model = header.model()
    for section in range(header.count() if model is not None else 0):
        if not header.isSectionHidden(section):
            for role in _ROLES:
                yield "heading", str(model.headerData(section, header.orientation(), role) or "")


def _items(model: QAbstractItemModel) -> Iterator[tuple[str, str]]:
    for row in range(min(model.rowCount(), _MOST_ROWS)):
        for column in range(columns(model)):
            for role in _ROLES:
                yield f"cell {row}, {column}", str(model.data(model.index(row, column), role) or "")
