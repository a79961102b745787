"""What is written on the slip of the Counter: the quote of the box, or the job just booked."""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from core.model.job_records import Job
from core.model.quote_records import Quote
from gui.counter.box_quote import BoxQuote
from gui.widgets.slip import Slip


class SlipWriter(QObject):
    """Writes the slip after the echo of a key, so that both together do not delay the next key."""

    quote_written = Signal(object, bool)
    """The `Quote` on the slip, None for an empty one; and whether its day is marked as not its own."""

    def __init__(self, slip: Slip, box: BoxQuote, parent: QObject) -> None:
        super().__init__(parent)
        self._slip = slip
        self._box = box
        self.job: Job | None = None
        """The job just booked, until another quote or an empty slip is asked for."""
        self._written: Quote | Job | None = None
        self._due = QTimer(self, interval=0, singleShot=True)
        self._due.timeout.connect(self._write)
        box.day_became_late.connect(self._mark_late)

    @property
    def is_written(self) -> bool:
        """Whether the slip shows what was asked for last."""
        return not self._due.isActive()

    def show_quote(self) -> bool:
        """Write the quote of the box soon; returns False when it is on the slip already."""
        if self._box.quote is self._written:
            return False
        self.job = None
        self._due.start()
        return True

    def show_job(self, job: Job) -> None:
        """Write a booked job at once."""
        self.job = self._written = job
        self._slip.show_job(job)

    def forget_job(self) -> None:
        """Let the next quote, or an empty slip, take the place of the booked job."""
        self.job = None

    @Slot()
    def _write(self) -> None:
        quote = self._box.quote
        if self.job is not None or quote is self._written:
            return
        self._written = quote
        if quote is None:
            self._slip.show_nothing()
        else:
            self._slip.show_quote(quote, is_late=self._box.is_late)
        self.quote_written.emit(quote, self._box.is_late)

    @Slot()
    def _mark_late(self) -> None:
        if self._box.quote is not None and self.job is None:
            self._slip.mark_day(True)
            self.quote_written.emit(self._box.quote, True)
