"""The end of a look-over: everything that was found, what it changes and what to tell the customer."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from core.catalogue import inspection
from core.model.names import FormatName
from core.model.spoken_names import spoken
from gui.inspection.look_progress import LookProgress
from gui.inspection.look_step import changes
from gui.toolkit.text import say, sentence_case
from gui.widgets.caution_frame import caution_frame
from gui.widgets.layouts import empty, stacked, words


class LookEnd(QWidget):
    """The last page. A short look-over leaves the cautions out."""

    def __init__(self, *, short: bool) -> None:
        super().__init__()
        self._short = short
        self._column = stacked(self)

    def write(self, progress: LookProgress, format: FormatName, waiting: str) -> None:
        """Write the page anew; ``waiting``: how long the tape waits before it is played, or nothing."""
        empty(self._column)
        found = inspection.ranked(progress.found, format)
        if not found:
            looked = say("inspection", "nothing_found", looked=progress.furthest, of=len(progress.steps))
            self._column.addWidget(words(looked, "lead"))
        if progress.stop:
            self._column.addWidget(words(progress.stop, "attention"))
        for each in found:
            self._column.addWidget(words(sentence_case(spoken(each.finding)), "heading"))
            self._column.addWidget(words(" ".join(changes(each))))
            self._column.addWidget(words(say("inspection", "say", means=each.means)))
        cautions = inspection.cautions(progress.found, format)
        if cautions and not self._short:
            self._column.addWidget(caution_frame(cautions))
        if waiting:
            self._column.addWidget(words(waiting, "attention"))
        self._column.addStretch(1)
