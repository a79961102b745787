"""The tray: cassettes and copies lying in rows, words first, each drawn as its shell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import (
    QAbstractListModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QListView

from core.model.names import FormatName
from gui.toolkit import theme
from gui.toolkit.plain_text import tip
from gui.toolkit.text import say
from gui.widgets.fading_edge import FadingEdge
from gui.widgets.tray_paint import CHECK_WIDE, PIECE, TrayItemDelegate

_Index = QModelIndex | QPersistentModelIndex


_SPOKEN = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole)
"""The whole row; what is painted is shortened where the tray is narrow."""
_CHECKED = {True: "checked_off", False: "not_checked_off"}


@dataclass(frozen=True, slots=True)
class TrayItem:
    """One row of the tray. A row without a key is a heading and cannot be chosen."""

    key: str
    title: str
    small: str = ""
    place: str = ""
    """Where it is, in words; stands at the right."""
    format: FormatName | None = None
    band: str = ""
    """Words of the not-for-reuse band; empty when the tape may be used again."""
    checked: bool | None = None
    """None when there is nothing to check off."""

    @property
    def spoken(self) -> str:
        """The whole row for a screen reader."""
        check = "" if self.checked is None else say("bench", _CHECKED[self.checked])
        return ". ".join(part for part in (self.title, self.place, self.small, self.band, check) if part)


class _TrayModel(QAbstractListModel):
    """The rows, replaced as a whole; rows that stay keep their place."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.pieces: tuple[TrayItem, ...] = ()

    def rowCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own signature
        return 0 if parent.isValid() else len(self.pieces)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not 0 <= index.row() < len(self.pieces):
            return None
        piece = self.pieces[index.row()]
        if role in _SPOKEN:
            return piece.spoken
        if role == Qt.ItemDataRole.ToolTipRole:
            return tip(piece.spoken)
        if role == PIECE:
            return piece
        return None

    def flags(self, index: _Index) -> Qt.ItemFlag:
        if 0 <= index.row() < len(self.pieces) and self.pieces[index.row()].key:
            return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return Qt.ItemFlag.NoItemFlags

    def lay(self, pieces: tuple[TrayItem, ...]) -> None:
        """Replace the rows; only what changed is told when the same keys stay in the same order."""
        before, same = self.pieces, [p.key for p in self.pieces] == [p.key for p in pieces]
        if not same:
            self.beginResetModel()
            self.pieces = pieces
            self.endResetModel()
            return
        self.pieces = pieces
        for row, (old, new) in enumerate(zip(before, pieces, strict=True)):
            if old != new:
                self.dataChanged.emit(self.index(row), self.index(row))


class Tray(QListView):
    """A tray that travels by arrows; Return takes a piece, Space checks it off.

    The piece the keyboard stands on is lit while the tray has the keyboard, or always where another
    field steers it. Where things are checked off, every row leaves room for the sign.
    """

    taken = Signal(str)
    """Return on, or a double click of, the piece with this key."""
    ticked = Signal(str)
    """Space on, or a click of the sign of, the piece with this key."""
    moved = Signal(str)
    """The keyboard stands on the piece with this key now."""

    def __init__(self, name: str, accessible: str, *, always_lit: bool = False, checks: bool = False) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setProperty("always_lit", always_lit)
        self.setProperty("checks", checks)
        self.setMinimumHeight(18 * theme.UNIT)
        self.setAccessibleName(accessible)
        self._pieces = _TrayModel(self)
        self.setModel(self._pieces)
        self.setItemDelegate(TrayItemDelegate(self))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setUniformItemSizes(False)
        self.setTabKeyNavigation(False)
        self.setMouseTracking(True)
        self.doubleClicked.connect(self._take)
        FadingEdge(self, "tray")

    @property
    def pieces(self) -> tuple[TrayItem, ...]:
        return self._pieces.pieces

    @property
    def current(self) -> str:
        """Key of the piece the keyboard stands on, or nothing."""
        row = self.currentIndex().row()
        return self.pieces[row].key if 0 <= row < len(self.pieces) else ""

    def lay(self, pieces: Sequence[TrayItem]) -> None:
        """Show these pieces; the keyboard stays on its piece when that is still there."""
        was = self.current
        self._pieces.lay(tuple(pieces))
        if self.current != was or not was:
            self.stand_on(was) or self.stand_on_first()

    def stand_on(self, key: str) -> bool:
        """Move the keyboard to a piece; says whether it is there."""
        for row, piece in enumerate(self.pieces):
            if key and piece.key == key:
                self.setCurrentIndex(self._pieces.index(row))
                return True
        return False

    def stand_on_first(self) -> bool:
        """Move the keyboard to the first piece, if there is one."""
        return any(self.stand_on(piece.key) for piece in self.pieces[:2] if piece.key)

    def step(self, rows: int) -> None:
        """Move the keyboard up or down, over the headings."""
        keys = [piece.key for piece in self.pieces if piece.key]
        if not keys:
            return
        here = keys.index(self.current) if self.current in keys else -1
        self.stand_on(keys[min(max(here + rows, 0), len(keys) - 1)])

    def steered_by(self, event: QEvent) -> bool:
        """Let Up and Down in another field travel this tray; says whether the key was one of them."""
        if not isinstance(event, QKeyEvent) or event.type() is not QEvent.Type.KeyPress:
            return False
        if event.key() not in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            return False
        self.step(-1 if event.key() == Qt.Key.Key_Up else 1)
        return True

    def tick(self, key: str, checked: bool) -> None:
        """Set the sign of one piece."""
        self._pieces.lay(
            tuple(replace(p, checked=checked) if p.key == key else p for p in self._pieces.pieces)
        )

    # --- Qt's own ------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.modifiers() and self.current:
            self.taken.emit(self.current)
        elif event.key() == Qt.Key.Key_Space and self.current:
            self.ticked.emit(self.current)
        elif event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.step(-1 if event.key() == Qt.Key.Key_Up else 1)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        super().mousePressEvent(event)
        index = self.indexAt(event.position().toPoint())
        piece = self.pieces[index.row()] if index.isValid() else None
        if piece and piece.checked is not None and event.position().x() < CHECK_WIDE.px:
            self.ticked.emit(piece.key)

    def currentChanged(self, current: _Index, previous: _Index) -> None:
        super().currentChanged(current, previous)
        self.moved.emit(self.current)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self.scheduleDelayedItemsLayout()

    def has_grown(self) -> None:
        """The rows are higher or lower now."""
        self.scheduleDelayedItemsLayout()

    def _take(self, index: QModelIndex) -> None:
        if self.pieces[index.row()].key:
            self.taken.emit(self.pieces[index.row()].key)
