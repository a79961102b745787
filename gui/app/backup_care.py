"""Makes the backups that are due while the window is open, and tells when there is no good one."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from core.model.backup_records import BackupRound
from core.model.errors import TapewrightError, Unavailable
from core.services.own_shop import backup_places
from gui.toolkit.workers import Work

EVERY_MS = 10 * 60 * 1000
"""How often the places are gone through: a backup is at most this late."""


class BackupCare(QObject):
    """Goes through the places on entering, and then every ten minutes. Each trouble is told once."""

    refused = Signal(object)
    """A `TapewrightError` to be shown."""

    def __init__(self, work: Work, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._told: set[str] = set()
        self._is_under_way = False
        self._is_wanted_again = False
        self._timer = QTimer(self, interval=EVERY_MS)
        self._timer.timeout.connect(self.look_after)
        work.changed.connect(self._note_change)
        work.broke.connect(self._abandon)

    def begin(self) -> None:
        """The shop was just entered."""
        self._timer.start()
        self.look_after()

    @Slot()
    def end(self) -> None:
        """The shop is left: nothing more is due."""
        self._timer.stop()

    @Slot()
    def look_after(self) -> None:
        """Make what is due, beside the window."""
        self._is_wanted_again = self._is_under_way
        if self._is_under_way or self._work.is_closing:
            return
        self._is_under_way = True
        self._work.run_beside(backup_places.keep_up, then=self._was_done, otherwise=self._was_not_done)

    @Slot(object)
    def _note_change(self, changed: frozenset[str]) -> None:
        """Places that were just set get their first backup at once."""
        if "shop" in changed and self._timer.isActive():
            self.look_after()

    def _was_done(self, done: BackupRound) -> None:
        """What was made is not told: it would wipe off the banner what somebody is just reading."""
        self._rest()
        troubles = tuple(_troubles(done))
        new = [each for each in troubles if each not in self._told]
        self._told = set(troubles)  # what is over and comes back is told again
        if new:
            self.refused.emit(Unavailable(" ".join(new)))
        if done.files:
            self._work.changed.emit(frozenset({"backups"}))

    def _was_not_done(self, failure: TapewrightError) -> None:
        self._rest()
        if failure.sentence not in self._told:
            self._told = {failure.sentence}
            self.refused.emit(failure)

    @Slot()
    def _abandon(self) -> None:
        """A bug was told already; the next round is not to wait for it for ever."""
        self._is_under_way = False

    def _rest(self) -> None:
        self._is_under_way = False
        if self._is_wanted_again:
            self.look_after()


def _troubles(done: BackupRound) -> Iterator[str]:
    """What the owner should hear: a wrong clock, no good backup, then each place that failed."""
    if done.clock:
        yield done.clock
    if done.warning:
        yield done.warning
    for _, failure in done.failures:
        yield failure.sentence
