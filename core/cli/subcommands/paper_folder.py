"""``--paper DIR``: tried before anything is stored, filled afterwards."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from core.cli.invocation import Invocation
from core.model import private_files
from core.services import paper_files
from core.wording.messages import say

Papers = tuple[Path, ...]


def folder(call: Invocation) -> Path | None:
    """The folder of ``--paper``, made and tried before anything is stored; None when none is wanted."""
    if call.asked.paper is None:
        return None
    wanted = Path(call.asked.paper).absolute()
    call.made.extend(private_files.missing(wanted))
    return paper_files.prepare(wanted)


def after(done: str, place: Path | None, write: Callable[[Path], Papers]) -> tuple[Papers, str]:
    """The papers written, and what to say when they could not be: ``done`` is stored all the same."""
    if place is None:
        return (), ""
    try:
        return write(place), ""
    except OSError as error:
        return (), say("cli", "but_papers_could_written", done=done, strerror=error.strerror or error)
