"""The menu of a row, by right click and by the Menu key: the commands and keys of elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from PySide6.QtCore import QObject, QPoint, Qt, Slot
from PySide6.QtWidgets import QAbstractItemView, QMenu, QPushButton, QWidget

_GAP = "   "
"""Stands on a button between its words and its key."""


class MenuEntry(NamedTuple):
    """One command: its words, the key that does it elsewhere, and what it does."""

    words: str
    keys: str
    do: Callable[[], object]


class RowMenu(QObject):
    """Opens at the row under the pointer, or at the one with the keyboard; where nothing is, none opens."""

    def __init__(self, view: QWidget, entries: Callable[[], Sequence[MenuEntry]]) -> None:
        super().__init__(view)
        self._view = view
        self._entries = entries
        self.menu: QMenu | None = None
        """The menu while it is open."""
        view.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        view.customContextMenuRequested.connect(self._open)

    @Slot(QPoint)
    def _open(self, spot: QPoint) -> None:
        if isinstance(self._view, QAbstractItemView) and not self._stand_at(self._view, spot):
            return
        entries = self._entries()
        if not entries:
            return
        menu = self.menu = QMenu(self._view)
        menu.setObjectName("row-menu")
        for entry in entries:
            menu.addAction(f"{entry.words}\t{entry.keys}").triggered.connect(_doing(entry.do))
        menu.aboutToHide.connect(self._was_closed)
        inside = self._view.viewport() if isinstance(self._view, QAbstractItemView) else self._view
        menu.popup(inside.mapToGlobal(spot))

    @staticmethod
    def _stand_at(view: QAbstractItemView, spot: QPoint) -> bool:
        here = view.indexAt(spot)
        if here.isValid():
            view.setCurrentIndex(here)
        return here.isValid()

    @Slot()
    def _was_closed(self) -> None:
        menu, self.menu = self.menu, None
        if menu is not None:
            menu.deleteLater()


def of_buttons(buttons: Iterable[QPushButton]) -> Iterator[MenuEntry]:
    """The buttons that are there to be pressed, by what stands on them."""
    for button in buttons:
        if button.isVisible() and button.isEnabled() and button.text():
            words, _, keys = button.text().partition(_GAP)
            yield MenuEntry(words, keys.strip(), button.click)


def _doing(do: Callable[[], object]) -> Callable[[], None]:
    def chosen() -> None:
        do()

    return chosen
