"""Which counter a window is: this computer, and the lowest number that no other window on it has.

Drafts are kept by it, so that two counters never write over each other's; the same window of the same
computer, opened again, finds its own.
"""

from __future__ import annotations

import platform
import re
from pathlib import Path
from uuid import uuid4

from PySide6.QtCore import QLockFile

from core.model import private_files

MOST_WINDOWS = 50
"""More on one computer at a time would be a mistake (an assumption)."""
LONGEST_NODE = 30
_LONGEST_ID = 64


class CounterPlace:
    """Holds its number from `take` to `release`; a window that broke down holds it no longer."""

    def __init__(self, name: str, lock: QLockFile | None) -> None:
        self.name = name
        """At most 72 characters."""
        self._lock = lock

    def release(self) -> None:
        """Another window may have the number."""
        if self._lock is not None:
            self._lock.unlock()


def take(folder: Path) -> CounterPlace:
    """A place of one's own, its number locked in ``folder``.

    Where nothing can be written there, it is one that no other window will ever have: its draft is kept, and
    nobody finds it again.
    """
    try:
        private_files.make_folder(folder)
        computer = _computer(folder / "counter-id")
    except OSError:
        return CounterPlace(uuid4().hex, None)
    for number in range(1, MOST_WINDOWS + 1):
        lock = QLockFile(str(folder / f"window-{number}.lock"))
        lock.setStaleLockTime(0)  # only the end of the program that holds it frees it
        if lock.tryLock(0):
            return CounterPlace(f"{computer} {number}", lock)
    return CounterPlace(uuid4().hex, None)


def _computer(file: Path) -> str:
    """The name of this computer with an id of its own: a home folder may be shared by several."""
    if not _id_in(file):
        private_files.write(file, uuid4().hex[:16].encode())
    node = re.sub(r"[^A-Za-z0-9.-]", "-", platform.node())[:LONGEST_NODE]
    return f"{_id_in(file)} {node}".strip()


def _id_in(file: Path) -> str:
    """What was written there once; nothing for what nobody can have written there."""
    if not file.is_file():
        return ""
    with file.open("rb") as opened:
        found = opened.read(_LONGEST_ID + 1).decode(errors="replace").strip()
    return found[:16] if re.fullmatch(r"[A-Za-z0-9.-]+", found) else ""
