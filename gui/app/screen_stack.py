"""What fills the window: one screen at a time, a page before any shop is open, or a page over the screens."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QStackedWidget, QWidget

from core.wording.messages import say
from gui.toolkit.plain_text import plain_label

if TYPE_CHECKING:
    from gui.toolkit.screen import Screen


class ScreenStack(QStackedWidget):
    """Tells screens when they are entered and left."""

    def __init__(self) -> None:
        super().__init__()
        self.screens: dict[str, Screen] = {}
        """Those of the shop that is open, by the names of their moments."""
        self._behind: QWidget | None = None
        """The screen that is covered."""
        self._waiting = plain_label(say("window", "opening"))
        self._waiting.setProperty("role", "lead")
        self._waiting.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._waiting.setWordWrap(True)
        self.addWidget(self._waiting)

    @property
    def is_covered(self) -> bool:
        """Whether something stands before the screens."""
        return self._behind is not None

    def on_show(self) -> Screen | None:
        """The screen in front, if one is."""
        return self._screen(self.currentWidget())

    def say_waiting(self, sentence: str) -> None:
        """What is waited for while there is nothing else to show."""
        self._waiting.setText(sentence)

    def show_alone(self, page: QWidget | None) -> None:
        """A page where no screens are; None: what is waited for."""
        shown = page or self._waiting
        if page is not None:
            self.addWidget(page)
        self.setCurrentWidget(shown)
        shown.setFocus()

    def add(self, screens: Mapping[str, Screen]) -> None:
        """Bring in the screens of a shop, as far as they do not lie here yet; none is shown."""
        self.screens = dict(screens)
        for screen in screens.values():
            if self.indexOf(screen) < 0:
                self.addWidget(screen)

    def turn_to(self, name: str) -> bool:
        """Show the screen of a moment; False when there is none, or the screens are covered."""
        screen = self.screens.get(name)
        if screen is None or self.is_covered:
            return False
        if self.currentWidget() is not screen:
            self.leave()
        self.setCurrentWidget(screen)
        screen.enter()
        return True

    def cover(self, page: QWidget) -> bool:
        """Show a page before the screen in front, which is left; False when it is there already."""
        if self.currentWidget() is page:
            return False
        self.leave()
        self._behind = self.currentWidget()
        self.setCurrentWidget(page)
        return True

    def uncover(self) -> None:
        """Back to the screen that was covered."""
        behind, self._behind = self._behind, None
        if behind is not None:
            self.setCurrentWidget(behind)
        screen = self._screen(behind)
        if screen is not None:
            screen.enter()

    def leave(self) -> None:
        """The screen in front, if one is, is told that it is left."""
        screen = self.on_show()
        if screen is not None:
            screen.leave()

    def drop(self, but: Collection[Screen] = ()) -> None:
        """The screens of the shop that was open, or the page that stood there alone, go."""
        self.leave()
        for place in reversed(range(self.count())):
            widget = self.widget(place)
            if widget is not None and widget is not self._waiting and widget not in but:
                self.removeWidget(widget)
                widget.deleteLater()
        self._behind, self.screens = None, {}

    def _screen(self, page: QWidget | None) -> Screen | None:
        return next((screen for screen in self.screens.values() if screen is page), None)
