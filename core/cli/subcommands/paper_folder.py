"""``--paper DIR``: tried before anything is stored, filled afterwards."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from core.cli.invocation import Invocation
from core.model import private_files
from core.model.errors import TapewrightError
from core.model.names import JobNumber
from core.services import paper_files
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop

Papers = tuple[Path, ...]


def folder(call: Invocation) -> Path | None:
    """The folder of ``--paper``, made and tried before anything is stored; None when none is wanted."""
    if call.asked.paper is None:
        return None
    wanted = Path(call.asked.paper).absolute()
    call.made.extend(private_files.missing(wanted))
    return paper_files.prepare(wanted)


def remembered(call: Invocation, shop: Shop, place: Path | None, number: JobNumber, done: str) -> Path | None:
    """The folder, once the records know that papers of an order go there, so that an erasure finds them.

    Where that cannot be stored, nothing is written and None given: ``done`` is stored all the same.
    """
    from core.services.privacy import paper_places

    if place is None or paper_places.are_known(shop.where, place):
        return place
    try:
        shop.run(paper_places.note, number, str(place))
    except TapewrightError as failure:
        why = failure.sentence.rstrip(".")
        call.notes.append(say("cli", "but_papers_could_written", done=done, strerror=why))
        return None
    return place


def after(done: str, place: Path | None, write: Callable[[Path], Papers]) -> tuple[Papers, str]:
    """The papers written, and what to say when they could not be: ``done`` is stored all the same."""
    if place is None:
        return (), ""
    try:
        return write(place), ""
    except OSError as error:
        return (), say("cli", "but_papers_could_written", done=done, strerror=error.strerror or error)
