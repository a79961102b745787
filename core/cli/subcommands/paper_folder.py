"""``--paper DIR``: tried before anything is stored, filled afterwards."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from core.cli.invocation import Invocation
from core.services import paper_files
from core.wording.messages import say

Papers = tuple[Path, ...]


def folder(call: Invocation) -> Path | None:
    """The folder of ``--paper``, made and tried before anything is stored; None when none is wanted."""
    return None if call.asked.paper is None else paper_files.prepare(Path(call.asked.paper).absolute())


def after(done: str, place: Path | None, write: Callable[[Path], Papers]) -> tuple[Papers, str]:
    """The papers written, and what to say when they could not be: ``done`` is stored all the same."""
    if place is None:
        return (), ""
    try:
        return write(place), ""
    except OSError as error:
        return (), say("cli", "but_papers_could_written", done=done, strerror=error.strerror or error)
