"""The menu of a tape in the list of the Bench: take it up, go on with it elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import SignalInstance
from PySide6.QtWidgets import QPushButton, QWidget

from gui.toolkit.text import say
from gui.widgets.order_ways import of_order
from gui.widgets.row_menu import MenuEntry, RowMenu, of_buttons
from gui.widgets.tray import Tray


def attach(tray: Tray, side: QWidget, wants_moment: SignalInstance) -> RowMenu:
    """``side`` holds the buttons of the tape in hand, whose code it says as property ``code``."""

    def entries() -> Sequence[MenuEntry]:
        code = tray.current
        if not code:
            return ()
        take = MenuEntry(say("bench", "menu_take"), "Return", partial(tray.taken.emit, code))
        in_hand = side.property("code") == code
        buttons = of_buttons(side.findChildren(QPushButton)) if in_hand else ()
        return (*(() if in_hand else (take,)), *buttons, *of_order(code, wants_moment, "bench"))

    return RowMenu(tray, entries)
