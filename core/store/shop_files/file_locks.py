"""One program at a time: a lock on an open file that the system lets go of when the program ends, however."""

from __future__ import annotations

import os
import sys

_FAR = 1 << 30
"""Where Windows locks a byte: beyond what is read, because it keeps others from reading what is locked."""


def take(handle: int) -> bool:
    """Locks an open file without waiting; whether nobody else had it."""
    try:
        _lock(handle)
    except OSError:
        return False
    return True


if sys.platform == "win32":
    import msvcrt

    def _lock(handle: int) -> None:
        os.lseek(handle, _FAR, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        os.lseek(handle, 0, os.SEEK_SET)

else:
    import fcntl

    def _lock(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
