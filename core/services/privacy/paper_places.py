"""Where papers of an order were written to apart from the folder beside the shop, to be found again.

A line of history of the order says the folder and the computer; it names nobody, and is emptied with the
other lines of the order. It is written before the papers are: whatever happens then, none is forgotten.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import select

from core.model.names import JobNumber
from core.services.proving import system_users
from core.services.shop_places import shop_folders
from core.store import history
from core.store.tables import EventRow
from core.store.unit import Unit
from core.wording.messages import say

KIND = "papers-elsewhere"
"""Of the lines of history."""


@dataclass(frozen=True, slots=True)
class PaperPlace:
    """A folder as the computer called ``machine`` names it."""

    folder: str
    machine: str

    @property
    def is_here(self) -> bool:
        """Whether this is that computer."""
        return self.machine == system_users.machine()

    @property
    def words(self) -> str:
        """Which folder on which computer."""
        return say("privacy", "paper-place", folder=self.folder, machine=self.machine)


def are_known(where: str | Path, folder: Path) -> bool:
    """Whether an erasure looks into a folder anyway, on any computer: it lies beside the shop's file."""
    if "://" in str(where):
        return False
    return folder.resolve() in {each.resolve() for each in shop_folders.all_papers(where)}


def note(unit: Unit, number: JobNumber, folder: str) -> None:
    """Notes that papers of an order are about to be written into a folder of this computer, if nobody has."""
    place = PaperPlace(folder, system_users.machine())
    if place not in of_orders(unit, [number]):
        words = say("privacy", "event-papers", place=place.words)
        history.append(unit, KIND, words, job=number, folder=place.folder, machine=place.machine)


def of_orders(unit: Unit, numbers: Sequence[str]) -> tuple[PaperPlace, ...]:
    """The folders that papers of these orders were written to, each once, in the order they were noted."""
    told = select(EventRow.payload).where(EventRow.job.in_(numbers), EventRow.kind == KIND)
    lines = map(history.payload_of, unit.session.scalars(told.order_by(EventRow.seq)))
    return tuple(
        dict.fromkeys(PaperPlace(str(each["folder"]), str(each["machine"])) for each in lines if each)
    )
