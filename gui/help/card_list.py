"""The cards in the drawer: in columns one behind another, guide cards between them."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QAbstractListModel, QModelIndex, QObject, QPersistentModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QListView

from core.wording.messages import say
from gui.help.card_paint import CARD, CardDelegate
from gui.help.screen_commands import Command
from gui.toolkit import theme
from gui.toolkit.plain_text import tip

_Index = QModelIndex | QPersistentModelIndex
_SPOKEN = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole)
_NARROWEST, _HIGH = 36, 4
"""Units of the grid."""


class CardList(QListView):
    """Stands on one card; guide cards cannot be stood on."""

    stood_on = Signal(object)
    """The `Command` of the card that it stands on now, or None."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("cards")
        self.setAccessibleName(say("commands", "cards"))
        self._cards = _Cards(self)
        self.setModel(self._cards)
        self.setItemDelegate(CardDelegate(self))
        self.setFlow(QListView.Flow.TopToBottom)
        self.setWrapping(True)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the field at the front steers it
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setMouseTracking(True)

    @property
    def command(self) -> Command | None:
        """That of the card it stands on."""
        shown = self.currentIndex().data(CARD)
        return shown if isinstance(shown, Command) else None

    @property
    def commands(self) -> tuple[Command, ...]:
        """Those of all cards in the drawer."""
        return tuple(each for each in self._cards.shown if isinstance(each, Command))

    def lay(self, shown: Sequence[Command | str]) -> None:
        """Put in these cards, a text as a guide card, and stand on the first."""
        self._cards.lay(tuple(shown))
        first = next((row for row, each in enumerate(shown) if isinstance(each, Command)), -1)
        self.setCurrentIndex(self._cards.index(first))
        self.scrollToTop()

    def step(self, rows: int) -> None:
        """Go on by so many cards, over the guide cards; it stops at the ends."""
        places = [row for row, each in enumerate(self._cards.shown) if isinstance(each, Command)]
        if places:
            here = places.index(self.currentIndex().row()) if self.command is not None else 0
            self.setCurrentIndex(self._cards.index(places[min(max(here + rows, 0), len(places) - 1)]))

    def step_column(self, columns: int) -> None:
        """Go to the same height in another column."""
        high = max(self.viewport().height() // self.gridSize().height(), 1)
        self.step(columns * high)

    def currentChanged(self, current: _Index, previous: _Index) -> None:
        super().currentChanged(current, previous)
        self.stood_on.emit(self.command)

    def resizeEvent(self, event: QResizeEvent) -> None:
        columns = max(self.viewport().width() // (_NARROWEST * theme.UNIT), 1)
        self.setGridSize(QSize(self.viewport().width() // columns, _HIGH * theme.UNIT))
        super().resizeEvent(event)


class _Cards(QAbstractListModel):
    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.shown: tuple[Command | str, ...] = ()

    def rowCount(self, parent: _Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own signature
        return 0 if parent.isValid() else len(self.shown)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not 0 <= index.row() < len(self.shown):
            return None
        shown = self.shown[index.row()]
        if role == CARD:
            return shown
        if role in _SPOKEN:
            return shown.spoken if isinstance(shown, Command) else shown
        if role == Qt.ItemDataRole.ToolTipRole and isinstance(shown, Command):
            return tip(shown.spoken)
        return None

    def flags(self, index: _Index) -> Qt.ItemFlag:
        is_card = 0 <= index.row() < len(self.shown) and isinstance(self.shown[index.row()], Command)
        return (
            Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable if is_card else Qt.ItemFlag.NoItemFlags
        )

    def lay(self, shown: tuple[Command | str, ...]) -> None:
        self.beginResetModel()
        self.shown = shown
        self.endResetModel()
