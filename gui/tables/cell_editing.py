"""How a cell looks and how it is edited: what is typed belongs to the person until it is committed."""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QRectF,
    Qt,
    Signal,
    Slot,
)
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import QLineEdit, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from gui.tables.cell_lettering import write_words
from gui.tables.column_specs import Column
from gui.tables.rows_model import RowsModel
from gui.tables.type_ahead import TypeAhead
from gui.toolkit import theme
from gui.toolkit.text import say

Index = QModelIndex | QPersistentModelIndex
PADDING = 8.0
_SIDE = {True: Qt.AlignmentFlag.AlignRight, False: Qt.AlignmentFlag.AlignLeft}
NARROWEST_EDITOR = 72
_ONWARD = {
    Qt.Key.Key_Return: (1, 0),
    Qt.Key.Key_Enter: (1, 0),
    Qt.Key.Key_Tab: (1, 0),
    Qt.Key.Key_Backtab: (-1, 0),
    Qt.Key.Key_Down: (0, 1),
    Qt.Key.Key_Up: (0, -1),
}


class CellDelegate(QStyledItemDelegate):
    """Draws and edits the cells of `RowsModel`."""

    typed = Signal(int, str, str)
    """Row, column name and text, at every key while a cell is edited."""
    left = Signal(int, int)
    """The editor closed and the person goes on: steps along the row, steps down the table."""

    def __init__(self, rows: RowsModel, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows = rows
        self.editor: QLineEdit | None = None
        self._edited: tuple[int, str] | None = None

    # --- editing -------------------------------------------------------------------------

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        column = self._rows.columns[index.column()]
        editor = self._field(parent, column, index)
        editor.setObjectName(f"editing-{column.name}")
        editor.setAccessibleName(say("counter", "cell", column=column.words, row=index.row() + 1))
        editor.setFrame(False)
        typed = editor.considered if isinstance(editor, TypeAhead) else editor.textEdited
        typed.connect(self._tell_typed)
        self.editor, self._edited = editor, None
        return editor

    def _field(self, parent: QWidget, column: Column, index: Index) -> QLineEdit:
        if column.choices is None:
            return QLineEdit(parent)
        offers, row = column.choices, self._rows.rows[index.row()]
        return TypeAhead(lambda: offers(row), column.many, parent)

    def open_list(self) -> None:
        """Show all that may be chosen in the cell that is open."""
        if isinstance(self.editor, TypeAhead):
            self.editor.open_all()

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        """Only once: a recompute must never write over what is being typed."""
        if self._edited is None:
            assert isinstance(editor, QLineEdit)
            editor.setText(str(index.data(Qt.ItemDataRole.EditRole)))
            self._edited = (index.row(), self._rows.columns[index.column()].name)

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        assert isinstance(editor, QLineEdit)
        text = editor.settle() if isinstance(editor, TypeAhead) else editor.text()
        model.setData(index, text.strip(), Qt.ItemDataRole.EditRole)

    def destroyEditor(self, editor: QWidget, index: Index) -> None:
        if editor is self.editor:
            self.editor = self._edited = None
        super().destroyEditor(editor, index)

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, index: Index) -> None:
        place: QRect = option.rect
        place.setWidth(max(place.width(), NARROWEST_EDITOR))
        editor.setGeometry(place)

    @Slot(str)
    def _tell_typed(self, text: str) -> None:
        if self._edited is not None:
            self.typed.emit(*self._edited, text)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(watched, QLineEdit):
            assert isinstance(event, QKeyEvent)
            if self._goes_on(watched, event):
                return True
            if self._belongs_to_the_list(watched, event):
                return False
        return super().eventFilter(watched, event)

    def _goes_on(self, editor: QLineEdit, event: QKeyEvent) -> bool:
        key = Qt.Key(event.key())
        if key not in _ONWARD or event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            return False
        if (
            key in (Qt.Key.Key_Up, Qt.Key.Key_Down)
            and isinstance(editor, TypeAhead)
            and _walks(editor, event)
        ):
            return False
        self.commitData.emit(editor)
        self.closeEditor.emit(editor, QStyledItemDelegate.EndEditHint.NoHint)
        self.left.emit(*_ONWARD[key])
        return True

    def _belongs_to_the_list(self, editor: QLineEdit, event: QKeyEvent) -> bool:
        if not isinstance(editor, TypeAhead):
            return False
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Escape:
            return bool(editor.offered)
        return key in (Qt.Key.Key_Up, Qt.Key.Key_Down)

    # --- painting ------------------------------------------------------------------------

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        tokens = theme.current_tokens()
        place = QRectF(option.rect)
        state: QStyle.StateFlag = option.state
        column, row = self._rows.columns[index.column()], self._rows.rows[index.row()]
        painter.save()
        self._paint_ground(painter, place, state, tokens)
        painter.setPen(QColor(tokens.ink))
        painter.setFont(theme.font(theme.BODY))
        inner = place.adjusted(PADDING, 0, -PADDING, -1)
        if column.paint is None or not column.paint(painter, inner, row):
            write_words(painter, inner, column.show(row), _SIDE[column.right])
        if self._rows.complaint(index):
            paint_wrong(painter, place, tokens)
        painter.restore()

    def _paint_ground(
        self, painter: QPainter, place: QRectF, state: QStyle.StateFlag, tokens: theme.Tokens
    ) -> None:
        here = bool(state & QStyle.StateFlag.State_HasFocus)
        if state & QStyle.StateFlag.State_MouseOver:
            painter.fillRect(place, QColor(tokens.slip))
        if here or state & QStyle.StateFlag.State_Selected:
            painter.fillRect(place, QColor(tokens.lit))
        painter.setPen(QPen(QColor(tokens.line), 1))
        painter.drawLine(
            QPointF(place.left(), place.bottom() - 0.5), QPointF(place.right(), place.bottom() - 0.5)
        )
        if here:
            painter.setPen(QPen(QColor(tokens.oxide), 2))
            painter.drawRect(place.adjusted(1, 1, -1, -2))


def paint_wrong(painter: QPainter, place: QRectF, tokens: theme.Tokens) -> None:
    """The sign of a text nobody accepts: a broken line below it and a folded corner."""
    painter.setPen(QPen(QColor(tokens.attention), 2, Qt.PenStyle.DashLine))
    y = place.bottom() - 3
    painter.drawLine(QPointF(place.left() + PADDING, y), QPointF(place.right() - PADDING, y))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(tokens.attention))
    corner = place.topRight()
    painter.drawPolygon([corner, corner - QPointF(9, 0), corner + QPointF(0, 9)])


def _walks(editor: QLineEdit, event: QKeyEvent) -> bool:
    """Whether Up and Down choose among the offers, or Alt opens them, rather than leave the cell."""
    if not isinstance(editor, TypeAhead):
        return False
    opens = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
    return opens or bool(editor.offered) or not editor.text().strip()
