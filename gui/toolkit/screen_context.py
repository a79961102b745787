"""What every screen is handed: the work, the clock and who stands at the counter."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from core.model.errors import TapewrightError
from core.model.names import JobNumber
from gui.toolkit.workers import Work

if TYPE_CHECKING:
    from core.services.records_door import Shop


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

    def write_paper_of(
        self,
        number: JobNumber,
        write: Callable[[], Any],
        *,
        then: Callable[[Any], None],
        otherwise: Callable[[TapewrightError], None],
    ) -> None:
        """Write papers that tell of an order. Where they do not lie beside the shop's file, the records know
        the folder first, so that an erasure finds them."""
        write_now = partial(self.work.write_paper, write, then=then, otherwise=otherwise)
        self.work.on_records(
            partial(_remember, number, self.papers), then=lambda _: write_now(), otherwise=otherwise
        )

    def act_as(self, name: str) -> None:
        """What is asked of the records from now on is done by this person."""
        self.who = name
        self.work.act_as(name)


def _remember(number: JobNumber, folder: Path, shop: Shop) -> None:
    from core.services.privacy import paper_places

    if not paper_places.are_known(shop.where, folder):
        shop.run(paper_places.note, number, str(folder.absolute()))
