"""An administrator held to what the file modes say, as everybody else is."""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

NOBODY = 65534
CAP_DAC_OVERRIDE = 1
"""Source: capabilities(7): bypass file read, write, and execute permission checks."""
_VERSION_3 = 0x20080522
"""Source: linux/capability.h."""


@contextmanager
def held_to_modes() -> Iterator[None]:
    """This thread may no longer write what its mode forbids.

    Where Linux lets an administrator lay down that one might, he stays owner of his files: a checkout in
    his own home can still be read. Elsewhere he becomes nobody for a while.
    """
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        yield
        return
    give_up, take_back = (_lower, _raise) if sys.platform == "linux" else (_become_nobody, _become_root)
    give_up()
    try:
        yield
    finally:
        take_back()


def _lower() -> None:
    _set_effective(lambda effective: effective & ~(1 << CAP_DAC_OVERRIDE))


def _raise() -> None:
    _set_effective(lambda effective: effective | 1 << CAP_DAC_OVERRIDE)


def _become_nobody() -> None:
    os.seteuid(NOBODY)


def _become_root() -> None:
    os.seteuid(0)


def _set_effective(changed: Callable[[int], int]) -> None:
    """Changes the first 32 of this thread's effective capabilities, never beyond the permitted ones."""
    libc = ctypes.CDLL(None, use_errno=True)
    header = (ctypes.c_uint32 * 2)(_VERSION_3, 0)
    sets = (ctypes.c_uint32 * 6)()  # effective, permitted, inheritable; twice 32 bits
    _check(libc.capget(header, sets))
    sets[0] = changed(sets[0]) & sets[1]
    _check(libc.capset(header, sets))


def _check(result: int) -> None:
    if result != 0:
        raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()))
