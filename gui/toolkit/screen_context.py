"""What every screen is handed: the work, the clock and who stands at the counter."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from core.model.errors import TapewrightError
from gui.toolkit.workers import Work


@dataclass(slots=True)
class Desk:
    """One person's place at one counter."""

    work: Work
    clock: Callable[[], datetime]
    who: str
    """Who acts; changes when somebody signs in."""
    papers: Path
    """Folder the PDFs go to."""
    show_file: Callable[[Path], None]
    """Hands a finished PDF to the system's viewer."""
    counter: str = "1"
    """Which counter this is, whoever works there (see `gui.toolkit.counter_place`)."""
    drafts: Path | None = None
    """Folder on this computer for what the records cannot take; None: nothing is kept there."""

    def show_paper(self, write: Callable[[], Path], otherwise: Callable[[TapewrightError], None]) -> None:
        """Write a paper on the thread of papers, then show its file; ``otherwise`` hears why it could not."""
        self.work.write_paper(write, then=self.show_file, otherwise=otherwise)

    def act_as(self, name: str) -> None:
        """What is asked of the records from now on is done by this person."""
        self.who = name
        self.work.act_as(name)
