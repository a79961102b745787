"""The menu of a row of the tray: the commands of the Counter, by their own keys."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from gui.tables.keyboard_navigation import KeyboardTable
from gui.toolkit import actions
from gui.toolkit.text import say
from gui.widgets.row_menu import MenuEntry, RowMenu

_OF_A_ROW = (
    *(actions.FINDINGS, actions.LOOK_OVER, actions.MEASURE, actions.REPEAT, actions.REMOVE),
    *(actions.UNDO, actions.REDO, actions.LINE),
)


def attach(table: KeyboardTable, screen: QWidget) -> RowMenu:
    """Offer on the rows of ``table`` what the actions of ``screen`` do."""

    def entries() -> Sequence[MenuEntry]:
        named: dict[str, QAction] = {each.objectName(): each for each in screen.actions()}
        own = [MenuEntry(each.words, each.keys, named[each.name].trigger) for each in _OF_A_ROW]
        if table.has_list_here:
            own.insert(0, MenuEntry(say("counter", "menu_choose"), "F4", table.open_list))
        return own

    return RowMenu(table, entries)
