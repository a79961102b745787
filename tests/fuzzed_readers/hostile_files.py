"""What may lie where a file is expected: a pipe, a folder, a device, a ring of links, far too much."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path
from random import Random

SPARSE_BYTES = 100_000_000


def put(path: Path, kind: str) -> None:
    """Something else at ``path``, whatever was there."""
    clear(path)
    KINDS[kind](path)


def any_kind(dice: Random) -> str:
    return dice.choice(tuple(KINDS))


def clear(path: Path) -> None:
    """Nothing at ``path``."""
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path)
    else:
        path.unlink(missing_ok=True)


def _sparse(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(SPARSE_BYTES)


def _ring(path: Path) -> None:
    path.symlink_to(path.name)


def _link_to(target: str) -> Callable[[Path], None]:
    return lambda path: path.symlink_to(target)


def _folder(path: Path) -> None:
    path.mkdir()
    (path / "inside").write_bytes(b"x")


KINDS: dict[str, Callable[[Path], None]] = {
    "nothing": lambda path: None,
    "empty": lambda path: path.write_bytes(b"") and None,
    "pipe": os.mkfifo,
    "folder": _folder,
    "ring of links": _ring,
    "link to nothing": _link_to("not-there"),
    "link to a device that never ends": _link_to("/dev/zero"),
    "link to an empty device": _link_to("/dev/null"),
    "link to a full device": _link_to("/dev/full"),
    "link to a terminal": _link_to("/dev/tty"),
    "link to the memory of the process": _link_to("/proc/self/mem"),
    "sparse": _sparse,
}
