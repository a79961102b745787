"""Memory that nobody needs any more goes back to the system: on Linux by the calls of the GNU C library.

Other systems give back by themselves, or have no such call; then nothing is done.
"""

from __future__ import annotations

import ctypes
import linecache
import sys
from contextlib import suppress
from functools import cache

_M_ARENA_MAX = -8
"""The parameter of ``mallopt`` (glibc, malloc.h)."""
ARENAS = 2
"""Each of the workers would else keep a heap of its own, 12 MB after sixty bookings (measured)."""


def keep_few_heaps() -> None:
    """Let all threads share two heaps; for the beginning, before there are threads."""
    library = _library()
    if library is not None:
        with suppress(AttributeError):
            library.mallopt(_M_ARENA_MAX, ARENAS)


def forget_sources() -> None:
    """Drop the source of every module, which PySide reads as it is imported and `linecache` keeps: 28 MB."""
    linecache.clearcache()


def give_back() -> None:
    """Drop what can be read again, and return pages that are free."""
    forget_sources()
    library = _library()
    if library is not None:
        with suppress(AttributeError):
            library.malloc_trim(0)


@cache
def _library() -> ctypes.CDLL | None:
    return ctypes.CDLL(None) if sys.platform == "linux" else None
