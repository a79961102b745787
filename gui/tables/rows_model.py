"""The one rows model: frozen rows and column specs in, the least possible change signals out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal

from gui.tables.column_specs import Column
from gui.toolkit.plain_text import tip
from gui.toolkit.text import say

Index = QModelIndex | QPersistentModelIndex
_NO_PARENT = QModelIndex()
_READ = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
_FLAGS = {False: _READ, True: _READ | Qt.ItemFlag.ItemIsEditable}
_ALIGN = {True: Qt.AlignmentFlag.AlignRight, False: Qt.AlignmentFlag.AlignLeft}


class RowsModel(QAbstractTableModel):
    """Shows rows it does not own. What is typed is offered to the owner, who shows the new rows."""

    written = Signal(int, str, str)
    """Row, column name and the text that was committed."""

    def __init__(self, columns: Sequence[Column], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.columns = tuple(columns)
        self.rows: tuple[Any, ...] = ()

    def show(self, rows: Sequence[Any]) -> None:
        """Replace the rows. Never a reset: an open editor and the current cell stay where they are."""
        new, old = tuple(rows), self.rows
        head = _same_head(old, new)
        tail = _same_head(old[head:][::-1], new[head:][::-1])
        gone, come = old[head : len(old) - tail], new[head : len(new) - tail]
        kept = min(len(gone), len(come))
        if len(gone) > kept:
            self._remove(head + kept, len(gone) - kept)
        if len(come) > kept:
            self._insert(head + kept, come[kept:])
        self.rows = new
        self._tell_changes(head, gone[:kept], come[:kept])

    def column_named(self, name: str) -> int:
        """Place of the column; ValueError when there is none."""
        return [column.name for column in self.columns].index(name)

    def is_edited(self, row: int, column: int) -> bool:
        """Whether something may be typed into a cell."""
        spec = self.columns[column]
        return spec.edited and (spec.edited_in is None or spec.edited_in(self.rows[row]))

    # --- Qt's own ------------------------------------------------------------------------

    def rowCount(self, parent: Index = _NO_PARENT) -> int:
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = _NO_PARENT) -> int:
        return 0 if parent.isValid() else len(self.columns)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return _FLAGS[self.is_edited(index.row(), index.column())]

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid() or index.row() >= len(self.rows):
            return None
        row, column = self.rows[index.row()], self.columns[index.column()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return column.show(row)
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _ALIGN[column.right] | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.ToolTipRole:
            return tip(self.complaint(index) or _tip(column, row)) or None
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return _spoken(column, row)
        return None

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole:
            return False
        self.written.emit(index.row(), self.columns[index.column()].name, str(value))
        return True

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation is Qt.Orientation.Vertical:
            return section + 1 if role == Qt.ItemDataRole.DisplayRole else None
        if role == Qt.ItemDataRole.DisplayRole:
            return self.columns[section].words
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _ALIGN[self.columns[section].right] | Qt.AlignmentFlag.AlignVCenter
        return tip(self.columns[section].tip) if role == Qt.ItemDataRole.ToolTipRole else None

    # --- inside --------------------------------------------------------------------------

    def complaint(self, index: Index) -> str:
        """The sentence on a cell's wrong text, or nothing."""
        column = self.columns[index.column()]
        return column.wrong(self.rows[index.row()]) if column.wrong is not None else ""

    def _remove(self, first: int, count: int) -> None:
        self.beginRemoveRows(QModelIndex(), first, first + count - 1)
        self.rows = self.rows[:first] + self.rows[first + count :]
        self.endRemoveRows()

    def _insert(self, first: int, rows: tuple[Any, ...]) -> None:
        self.beginInsertRows(QModelIndex(), first, first + len(rows) - 1)
        self.rows = self.rows[:first] + rows + self.rows[first:]
        self.endInsertRows()

    def _tell_changes(self, first: int, old: Sequence[Any], new: Sequence[Any]) -> None:
        last_column = len(self.columns) - 1
        for place, (before, after) in enumerate(zip(old, new, strict=True), start=first):
            if before != after:
                self.dataChanged.emit(self.index(place, 0), self.index(place, last_column))


def _same_head(one: Sequence[Any], other: Sequence[Any]) -> int:
    count = 0
    for left, right in zip(one, other, strict=False):
        if left != right:
            break
        count += 1
    return count


def _tip(column: Column, row: Any) -> str:
    besides = column.besides(row) if column.besides is not None else ""
    return "\n".join(part for part in (column.show(row), besides) if part)


def _spoken(column: Column, row: Any) -> str:
    wrong = column.wrong(row) if column.wrong is not None else ""
    return ", ".join(
        part for part in (column.words, column.show(row) or say("counter", "empty_cell"), wrong) if part
    )
