"""Files that are still there after a power cut: their bytes flushed, and the folders that list them as well.

A system keeps both apart: bytes that were flushed are lost together with a name that was not. So a file is
flushed before its name is given, and its folder afterwards. Errors of a flush pass through as OSError: a disk
that failed then must not be taken for one that keeps.
"""

from __future__ import annotations

import contextlib
import errno
import os
import tempfile
from pathlib import Path

from core.model import private_files

_NO_FOLDER_FLUSH = (errno.EINVAL, errno.ENOTSUP, errno.ENOSYS)
"""What file systems answer that cannot flush a list of names, as some on a network do."""


def flush(path: Path) -> None:
    """Makes sure that the bytes of a file are on the disk."""
    handle = os.open(path, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def flush_folder(folder: Path) -> None:
    """Makes sure that the names in a folder are on the disk, where the system can do that."""
    if os.name == "nt":  # Windows opens no folder, and keeps names by itself
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in _NO_FOLDER_FLUSH:
            raise
    finally:
        os.close(handle)


def make_folders(folder: Path) -> None:
    """The folder and those above it, each new one for its owner alone and with its name sure."""
    missing = []
    while not folder.exists():
        missing.append(folder)
        folder = folder.parent
    for each in reversed(missing):
        private_files.make_folder(each)
        flush_folder(each.parent)
    if not folder.is_dir():
        raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(folder))


def replace(source: Path, target: Path) -> None:
    """Gives a flushed file the place of another, or of none, for good; both in one file system."""
    os.replace(source, target)
    flush_folder(target.parent)


def give_free_name(source: Path, target: Path) -> Path:
    """Names a flushed file ``target``, or the next name with a number that is free; gives the name.

    No other file is ever overwritten, although several programs may do this at once.
    """
    free, count = target, 1
    while not _named(source, free):
        count += 1
        free = target.with_name(f"{target.stem}-{count}{target.suffix}")
    flush_folder(free.parent)
    return free


def remove(path: Path) -> None:
    """The file goes, if it is there, and does not come back."""
    path.unlink(missing_ok=True)
    flush_folder(path.parent)


def write(path: Path, data: bytes) -> None:
    """A small file, whole or as it was before."""
    growing = beside(path)
    try:
        growing.write_bytes(data)
        flush(growing)
        replace(growing, path)
    finally:
        growing.unlink(missing_ok=True)


def append(path: Path, data: bytes) -> None:
    """Adds to the end of a small file, for its owner alone, and makes sure that it is there.

    Several programs may do this at once. A cut may tear the last of it, so whoever reads looks at each line.
    """
    handle = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, private_files.FILE_MODE)
    try:
        os.write(handle, data)
        os.fsync(handle)
    finally:
        os.close(handle)
    flush_folder(path.parent)


def beside(path: Path) -> Path:
    """A new empty file in the folder of ``path`` that nobody else writes, for its bytes to grow in."""
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", suffix=".growing", dir=path.parent)
    os.close(handle)
    return Path(name)


def _named(source: Path, target: Path) -> bool:
    """Whether ``target`` was free and is the name of the file now."""
    try:
        os.link(source, target)
    except FileExistsError:
        return False
    except OSError:  # no second names on this disk
        return _named_by_reservation(source, target)
    os.unlink(source)
    return True


def _named_by_reservation(source: Path, target: Path) -> bool:
    try:
        os.close(os.open(target, os.O_CREAT | os.O_EXCL))
    except FileExistsError:
        return False
    try:
        os.replace(source, target)
    except OSError:
        with contextlib.suppress(OSError):
            target.unlink()
        raise
    return True
