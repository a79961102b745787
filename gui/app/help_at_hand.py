"""The drawer of commands and the handbook, made when they are first asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Slot

from gui.toolkit import actions

if TYPE_CHECKING:
    from gui.app.main_window import Window
    from gui.help.card_drawer import CardDrawer
    from gui.help.handbook_window import HandbookWindow


class HelpAtHand(QObject):
    """Ctrl+K and F1, of one window."""

    def __init__(self, window: Window) -> None:
        super().__init__(window)
        self._window = window
        self._drawer: CardDrawer | None = None
        self._handbook: HandbookWindow | None = None
        actions.action(actions.FIND_COMMAND, window).triggered.connect(self.open_drawer)
        actions.action(actions.HELP, window).triggered.connect(self.open_handbook)

    @property
    def drawer(self) -> CardDrawer:
        """The drawer, made now if it was not yet."""
        if self._drawer is None:
            from gui.help.card_drawer import CardDrawer  # not before the first paint

            self._drawer = CardDrawer(self._window)
        return self._drawer

    @property
    def handbook(self) -> HandbookWindow:
        """The handbook, made now if it was not yet."""
        if self._handbook is None:
            from gui.help.handbook_window import HandbookWindow  # not before the first paint

            self._handbook = HandbookWindow(self._window)
        return self._handbook

    @Slot()
    def open_drawer(self) -> None:
        """Pull the drawer out, or push it in."""
        if self.drawer.isVisible():
            self.drawer.close_drawer()
        else:
            self.drawer.open(self._window.screen_on_show())

    @Slot()
    def open_handbook(self) -> None:
        """Open the handbook at the page of the screen in front."""
        screen = self._window.screen_on_show()
        self.handbook.open_at("" if screen is None else screen.name.lower())

    def forget(self) -> None:
        """The shop is closed, and another may speak another language."""
        for made in (self._drawer, self._handbook):
            if made is not None:
                made.close()
                made.deleteLater()
        self._drawer = self._handbook = None
