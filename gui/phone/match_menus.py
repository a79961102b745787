"""The menus of the rows at Phone: orders that match, orders to tell, the tapes of the one on show."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import SignalInstance
from PySide6.QtWidgets import QPushButton, QWidget

from gui.phone.matches_panel import MatchesPanel
from gui.toolkit.text import say
from gui.widgets.order_ways import of_order
from gui.widgets.row_menu import MenuEntry, RowMenu, of_buttons
from gui.widgets.tray import Tray


def attach(panel: MatchesPanel, forms: QWidget, wants_moment: SignalInstance) -> None:
    """``forms`` holds what can be done with the order that is answered for."""

    def of_orders(tray: Tray) -> Sequence[MenuEntry]:
        number = tray.current
        if not number:
            return ()
        answer = MenuEntry(say("phone", "menu_answer"), "Return", partial(tray.taken.emit, number))
        ways = of_buttons(forms.findChildren(QPushButton)) if tray is panel.matches else ()
        return (answer, *ways, *of_order(number, wants_moment, "phone"))

    def of_tapes() -> Sequence[MenuEntry]:
        code = panel.tapes.current
        return tuple(of_order(code, wants_moment, "phone")) if code else ()

    for tray in (panel.matches, panel.to_tell):
        RowMenu(tray, partial(of_orders, tray))
    RowMenu(panel.tapes, of_tapes)
