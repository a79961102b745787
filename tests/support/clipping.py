"""Texts of a window that do not fit where they stand."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QComboBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QStyle,
    QStyleOptionButton,
    QStyleOptionComboBox,
    QWidget,
)

from gui.app.identity_button import IdentityButton
from gui.toolkit import theme
from tests.support.shown_texts import Painting, called, columns, plain


def cut(root: QWidget, painting: Painting) -> Iterator[str]:
    """Each visible text that is larger than its room, with what it is; ``painting`` is that of ``root``."""
    for widget in root.findChildren(QWidget):
        if widget.isVisibleTo(root):
            for text, needed, room in _written(widget):
                if needed.width() > room.width() or needed.height() > room.height():
                    yield (
                        f"{called(widget)} “{text}” needs {needed.width()} × {needed.height()}"
                        f" of {room.width()} × {room.height()}"
                    )
            if _has_words(widget) and (hidden := _hidden_by(widget, root)):
                yield f"{called(widget)} “{_words(widget)}” reaches out of {called(hidden)}"
            if isinstance(widget, QScrollArea) and widget.horizontalScrollBar().maximum() > 0:
                yield f"{called(widget)} is to be scrolled sideways"
    yield from _painted(painting)


def _painted(painting: Painting) -> Iterator[str]:
    for each in painting.texts:
        whole = painting.elided.get(each.words)
        if whole is not None and not _told_in_full(each.widget, whole):
            yield f"{called(each.widget)} paints “{each.words}” for “{whole}”, which no tool tip tells"
        elif whole is None and each.is_cut and not each.place.isNull():
            yield (
                f"{called(each.widget)} paints “{each.words}”, which needs {each.needed.width():.0f} × "
                f"{each.needed.height():.0f} of {each.place.width():.0f} × {each.place.height():.0f}"
            )


def _told_in_full(widget: QWidget, whole: str) -> bool:
    """Whether the tool tip of the widget, or of a row of the list it is the viewport of, has all of it."""
    holder = widget.parentWidget()
    tips = [widget.toolTip()]
    if isinstance(holder, QAbstractScrollArea) and hasattr(holder, "model"):
        model = holder.model()
        tips += [
            str(model.data(model.index(row, column), Qt.ItemDataRole.ToolTipRole) or "")
            for row in range(model.rowCount())
            for column in range(columns(model))
        ]
    return any(whole in plain(tip) for tip in tips)


def _written(widget: QWidget) -> Iterator[tuple[str, QSize, QSize]]:
    """A text with the room it needs and the room it has."""
    if isinstance(widget, QLabel) and widget.text():
        yield widget.text(), _label_size(widget), widget.size()
    elif isinstance(widget, QPushButton) and widget.text():
        option = QStyleOptionButton()
        widget.initStyleOption(option)
        inside = widget.style().subElementRect(QStyle.SubElement.SE_PushButtonContents, option, widget)
        yield widget.text(), _line(widget, widget.text()), inside.size()
    elif isinstance(widget, IdentityButton):  # paints its words to the edge
        yield widget.text(), _line(widget, widget.text()), widget.contentsRect().size()
    elif isinstance(widget, QAbstractButton) and widget.text():
        yield widget.text(), widget.sizeHint(), widget.size()
    elif isinstance(widget, QComboBox):
        yield widget.currentText(), _line(widget, widget.currentText()), _combo_room(widget)
    elif isinstance(widget, QLineEdit) and not widget.text() and not isinstance(widget.parent(), QComboBox):
        hint = widget.placeholderText()
        if hint and hint not in widget.toolTip():
            yield hint, _line(widget, hint), _field_room(widget)
    elif isinstance(widget, QHeaderView):
        yield from _headings(widget)


def _label_size(label: QLabel) -> QSize:
    if label.wordWrap():
        return QSize(label.minimumSizeHint().width(), label.heightForWidth(label.width()))
    return label.sizeHint()


def _line(widget: QWidget, text: str) -> QSize:
    """Of a text on one line, in the face of the widget: the brackets come from a higher one."""
    metrics = widget.fontMetrics()
    return QSize(metrics.size(int(Qt.TextFlag.TextShowMnemonic), text).width(), metrics.height())


def _combo_room(box: QComboBox) -> QSize:
    option = QStyleOptionComboBox()
    box.initStyleOption(option)
    part = QStyle.SubControl.SC_ComboBoxEditField
    return box.style().subControlRect(QStyle.ComplexControl.CC_ComboBox, option, part, box).size()


def _field_room(field: QLineEdit) -> QSize:
    """Qt leaves two pixels at either end of the line."""
    margins = field.textMargins()
    inside = field.contentsRect()
    return QSize(inside.width() - margins.left() - margins.right() - 4, inside.height())


def _headings(header: QHeaderView) -> Iterator[tuple[str, QSize, QSize]]:
    if header.orientation() is not Qt.Orientation.Horizontal:
        return
    for section in range(header.count()):
        text = str(
            header.model().headerData(section, header.orientation(), Qt.ItemDataRole.DisplayRole) or ""
        )
        if text and not header.isSectionHidden(section):
            tip = str(
                header.model().headerData(section, header.orientation(), Qt.ItemDataRole.ToolTipRole) or ""
            )
            is_told = header.textElideMode() is not Qt.TextElideMode.ElideNone and text in tip
            room = QSize(header.sectionSize(section) - 2 * theme.UNIT, header.height())
            if not is_told:
                yield text, _line(header, text), room


def _has_words(widget: QWidget) -> bool:
    return isinstance(widget, QLabel | QAbstractButton | QLineEdit | QComboBox)


def _words(widget: QWidget) -> str:
    return widget.currentText() if isinstance(widget, QComboBox) else str(widget.text())  # type: ignore[attr-defined]


def _hidden_by(widget: QWidget, root: QWidget) -> QWidget | None:
    """The widget above that cuts this one off; what a scroll area can bring into view is not cut off."""
    rect = QRect(QPoint(0, 0), widget.size())
    inner = widget
    while inner is not root:
        outer = inner.parentWidget()
        rect = rect.translated(inner.pos())
        if isinstance(outer.parentWidget(), QScrollArea) and outer.parentWidget().viewport() is outer:
            return None
        if not outer.rect().contains(rect):
            return outer
        inner = outer
    return None
