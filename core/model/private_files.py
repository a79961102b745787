"""Files that only the owner of the account may read: the shop, its copies, papers, photos and logs.

POSIX modes 0600 and 0700, whatever the umask is; on Windows a file inherits the rights of the user's folder.
"""

from __future__ import annotations

import glob
import os
import stat
from contextlib import suppress
from pathlib import Path
from tempfile import NamedTemporaryFile

FILE_MODE, FOLDER_MODE = 0o600, 0o700
PROGRAM = "Tapewright"
"""What the program's own folders for data and logs are called."""
MADE_BESIDE = ("papers", "photos", "recordings")
"""Folders the program makes beside a shop's file."""


def missing(folder: Path) -> list[Path]:
    """``folder`` and the folders above it that are not there, the outermost first."""
    return [each for each in (folder, *folder.parents) if not each.exists()][::-1]


def make_folder(folder: Path) -> Path:
    """``folder`` with what is missing above it, for its owner alone; what is there stays as it is."""
    for each in missing(folder):
        with suppress(FileExistsError):  # another program was quicker
            each.mkdir(mode=FOLDER_MODE)
            each.chmod(FOLDER_MODE)
    if not folder.is_dir():
        raise NotADirectoryError(20, os.strerror(20), str(folder))
    return folder


def make_file(path: Path) -> Path:
    """An empty file for a library to fill; one that is there keeps what is in it and is tightened.

    OSError for a pipe that nobody reads, instead of waiting for somebody.
    """
    os.close(os.open(path, os.O_CREAT | os.O_WRONLY | getattr(os, "O_NONBLOCK", 0), FILE_MODE))
    tighten(path)
    return path


def write(path: Path, data: bytes) -> Path:
    """``data`` as the whole of a file."""
    make_file(path).write_bytes(data)
    return path


def try_file(path: Path) -> None:
    """OSError where `write` could not begin; a file that was not there is not there afterwards either."""
    was_there = path.exists()
    make_file(path)
    if not was_there:
        path.unlink()


def tighten(path: Path) -> None:
    """Takes the rights of everybody else from a file or folder of ours; one of somebody else stays.

    So does a device: the administrator who writes to ``/dev/null`` would take it from the whole computer.
    """
    with suppress(OSError):
        mode = path.stat().st_mode
        if (stat.S_ISREG(mode) or stat.S_ISDIR(mode)) and mode & 0o077:
            path.chmod(stat.S_IMODE(mode) & FOLDER_MODE)


def tighten_beside(shop: Path) -> None:
    """`tighten` for a shop's file, its log, its copies, and the folders the program made beside it."""
    for each in shop.parent.glob(f"{glob.escape(shop.stem)}*"):
        tighten(each)
    for name in MADE_BESIDE:
        tighten(shop.parent / name)
    if shop.parent.name == PROGRAM:
        tighten(shop.parent)


def try_folder(folder: Path) -> Path:
    """``folder``, made when it is missing and found writable (else OSError)."""
    make_folder(folder)
    with NamedTemporaryFile(dir=folder, prefix=".try-"):
        return folder
