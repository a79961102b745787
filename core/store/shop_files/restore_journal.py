"""A restore that the power may cut: done as a whole, or not at all, and settled at the next start.

Beside the shop lies a journal while its records are replaced. Its first line names the folder in which the
backup is made ready and the name under which what was there is kept; the second, flushed once all is ready,
decides. A journal that nobody holds was cut off: with both lines the restore is finished, else undone. The
shop is replaced by one renaming, so its file is there at every moment.
"""

from __future__ import annotations

import contextlib
import json
import os
import shutil
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from uuid import uuid4

from core.model.errors import Unavailable
from core.store.shop_files import durable_files, file_locks
from core.wording.messages import say

_DECIDED = "decided"
_SCRATCH = ".restoring-"
"""How the name of every folder begins in which a backup is made ready."""
_LOGS = ("-wal", "-shm", "-journal")


@dataclass(slots=True)
class RestoreJournal:
    """A restore under way, held by this program alone until it is let go of."""

    path: Path
    """The shop."""
    scratch: Path
    kept: Path | None
    """Where the shop there is now will be found afterwards; None where there is none."""
    handle: int
    is_held: bool = True

    @property
    def sound(self) -> Path:
        """Where the backup is made ready."""
        return self.scratch / "shop.sqlite"

    def carry_out(self) -> None:
        """Puts what was made ready in the place of the shop. From here on it is finished even after a cut."""
        durable_files.flush(self.sound)
        durable_files.flush_folder(self.scratch)
        _add_line(self.handle, _DECIDED)
        try:
            self.finish()
        except OSError as error:
            raise Unavailable(say("records", "restore_not_finished", where=self.path, error=error)) from error

    def finish(self) -> None:
        """Does what is left to do; said again it does no harm."""
        if self.sound.exists():
            self._keep_what_is_there()
            durable_files.replace(self.sound, self.path)
        self.put_away()

    def put_away(self) -> None:
        """Removes what the restore needed, the journal last."""
        shutil.rmtree(self.scratch, ignore_errors=True)
        if os.name == "nt":  # there no file goes that is open
            self.let_go()
        durable_files.remove(place(self.path))

    def let_go(self) -> None:
        """Others may restore from here on."""
        if self.is_held:
            self.is_held = False
            os.close(self.handle)

    def _keep_what_is_there(self) -> None:
        if self.kept is not None:
            for ending in ("", *_LOGS):
                _also_named(Path(f"{self.path}{ending}"), Path(f"{self.kept}{ending}"))
            durable_files.flush_folder(self.path.parent)
        for ending in _LOGS:  # a log that is left over would be read into the file that comes
            Path(f"{self.path}{ending}").unlink(missing_ok=True)
        durable_files.flush_folder(self.path.parent)


def place(path: Path) -> Path:
    """Where the journal of a shop lies."""
    return path.with_name(f"{path.name}.restoring")


@contextmanager
def under_way(path: Path, kept: Path) -> Iterator[RestoreJournal]:
    """A restore of the shop at ``path``, undone at the end when it was not carried out.

    ``kept`` is where the shop that is there goes, if there is one. Unavailable while another restore is
    under way.
    """
    settle(path)
    durable_files.make_folders(path.parent)
    handle = _opened(path, os.O_CREAT)
    if handle is None:
        raise Unavailable(say("records", "restore_under_way", where=path))
    scratch = path.with_name(f"{_SCRATCH}{uuid4().hex}")
    journal = RestoreJournal(path, scratch, kept if path.exists() else None, handle)
    try:
        _add_line(handle, json.dumps([scratch.name, journal.kept and journal.kept.name]))
        durable_files.flush_folder(path.parent)
        scratch.mkdir(mode=0o700)
        yield journal
    finally:
        if journal.is_held and place(path).exists() and not _is_decided(handle):
            with contextlib.suppress(OSError):
                journal.put_away()
        journal.let_go()


def settle(path: Path) -> None:
    """Finishes or undoes a restore that was cut off; Unavailable while one is under way."""
    handle = _opened(path, 0)
    if handle is None:
        return
    journal = _read(path, handle)
    try:
        if _is_decided(handle):
            journal.finish()
        else:
            journal.put_away()
    finally:
        journal.let_go()


def _opened(path: Path, create: int) -> int | None:
    """The journal, held; None when it was put away meanwhile. Unavailable when another program holds it."""
    try:
        handle = os.open(place(path), os.O_RDWR | create, 0o600)
    except (FileNotFoundError, NotADirectoryError):
        return None
    except OSError as error:
        raise _unreadable(path) from error
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise _unreadable(path)
    if not file_locks.take(handle):
        os.close(handle)
        raise Unavailable(say("records", "restore_under_way", where=path))
    try:
        if os.path.samestat(os.fstat(handle), os.stat(place(path))):
            return handle
    except FileNotFoundError:
        pass
    os.close(handle)
    return None


def _read(path: Path, handle: int) -> RestoreJournal:
    """What the first line says; of one that was cut off there is nothing to undo yet.

    Unavailable for a line that the program did not write: what it names would be removed.
    """
    named = _named(handle)
    if named is None:
        os.close(handle)
        raise _unreadable(path)
    scratch, kept = named
    return RestoreJournal(
        path, path.with_name(scratch), None if kept is None else path.with_name(kept), handle
    )


def _named(handle: int) -> tuple[str, str | None] | None:
    """The folder and the kept name of the first line; None where it is none of ours."""
    try:
        first, *_ = [*_lines(handle), f'["{_SCRATCH}", null]']
        scratch, kept = json.loads(first)
    except (OSError, ValueError, TypeError, RecursionError):
        return None
    is_ours = _is_name(scratch) and scratch.startswith(_SCRATCH) and (kept is None or _is_name(kept))
    return (scratch, kept) if is_ours else None


def _is_name(given: object) -> bool:
    """Whether it is the bare name of something in a folder."""
    return (
        isinstance(given, str) and bool(given) and not {"/", "\\", "\0"} & set(given) and given.isprintable()
    )


def _unreadable(path: Path) -> Unavailable:
    return Unavailable(say("records", "restore_journal_unreadable", path=path, journal=place(path)))


def _is_decided(handle: int) -> bool:
    return _lines(handle)[1:] == [_DECIDED]


def _lines(handle: int) -> list[str]:
    """The whole lines of the journal: what a cut tore has no end."""
    os.lseek(handle, 0, os.SEEK_SET)
    return os.read(handle, 4096).decode(errors="replace").split("\n")[:-1]


def _add_line(handle: int, line: str) -> None:
    os.lseek(handle, 0, os.SEEK_END)
    os.write(handle, line.encode() + b"\n")
    os.fsync(handle)


def _also_named(source: Path, name: Path) -> None:
    """The file has a second name, or a copy where the disk knows no second names."""
    if not source.exists() or name.exists():
        return
    try:
        os.link(source, name)
    except OSError:
        growing = durable_files.beside(name)
        shutil.copyfile(source, growing)
        durable_files.flush(growing)
        os.replace(growing, name)
