"""A code that was scanned goes to the screen in front; one it has no use for, to the next that has."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QApplication

from core.wording.messages import say
from gui.widgets.scanner import NUMBER_LENGTH, ScanWatch

if TYPE_CHECKING:
    from core.model.errors import TapewrightError
    from core.model.tape_records import TapeRecord
    from gui.app.main_window import Window
    from gui.toolkit.screen import Screen


class ScanHearing(QObject):
    """Hears the scanner for the whole window."""

    def __init__(self, window: Window) -> None:
        super().__init__(window)
        self._window = window
        self._kept = ""
        """The code that waits for a screen which hears it."""
        self.watch = ScanWatch(window)
        self.watch.scanned.connect(self._scanned)

    def turned_to(self, screen: Screen) -> None:
        """Another screen is in front."""
        self.watch.begin()
        code, self._kept = self._kept, ""
        if code and not screen.hear_scan(code):
            self._kept = code

    @Slot(str, str)
    def take_to(self, moment: str, code: str) -> None:
        """Turn to a screen and go on there with what this code is of."""
        self._kept = code
        self._window.go(moment)

    @Slot(str)
    def _scanned(self, code: str) -> None:
        screen = self._window.screen_on_show()
        if screen is None or self._window.is_covered:
            return
        is_asked = QApplication.activeModalWidget() is not None
        if is_asked or not screen.hear_scan(code):
            self._to_pickup(code) if len(code) == NUMBER_LENGTH and not is_asked else self._keep(screen, code)

    def _to_pickup(self, number: str) -> None:
        """Whoever hands a claim slip over the counter is here to collect."""
        self._window.go("pickup")
        screen = self._window.screen_on_show()
        if screen is not None:
            screen.hear_scan(number)

    def _keep(self, screen: Screen, code: str) -> None:
        from core.model.names import TapeCode
        from core.services import tapes

        self._kept = ""
        screen.desk.work.ask(tapes.get, TapeCode(code), then=self._tell, otherwise=self._complain)

    def _tell(self, tape: TapeRecord) -> None:
        from core.model.spoken_names import spoken
        from gui.widgets import tray_rows

        self._kept = tape.code
        title, station = tray_rows.tape_title(tape), spoken(tape.station)
        told = {"code": tray_rows.spaced(tape.code), "title": title, "station": station}
        self._window.banner.say(say("window", "scanned", **told))

    def _complain(self, failure: TapewrightError) -> None:
        self._window.banner.refuse(failure)
