"""The files of a shop that is moved: papers and photos go with its rows, and what is too large is named.

They are copied before the rows, each whole or not at all, and compared by the SHA-256 of all their bytes. A
place that has the files and not yet the rows is no shop; what a move that was cut off left there is taken up
by the next one.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from core.capture import checksums
from core.model.errors import Refused, Unavailable
from core.services.shop_places import shop_folders
from core.store import failures
from core.store.shop_files import durable_files, erased_orders
from core.wording.locale_figures import listed
from core.wording.messages import say

LARGEST = 500_000_000
"""Bytes of a recording that is still copied (an assumption). What is larger stays where it lies: the records
know it by its SHA-256, wherever it is, and to copy all of them takes hours."""

Named = tuple[str, int]
"""How the records know a recording: the name of its file, and its bytes."""


@dataclass(frozen=True, slots=True)
class StayingFile:
    """A recording that was not copied, and whether it can be read from here."""

    path: Path
    is_reachable: bool


@dataclass(frozen=True, slots=True)
class MovedFiles:
    """What became of the files: how many of each kind were copied, each found alike in its new place."""

    copied: dict[str, int]
    staying: tuple[StayingFile, ...] = ()
    elsewhere: int = 0
    """Recordings the records know whose files do not lie with the shop: they stay wherever they are."""

    @property
    def sentences(self) -> tuple[str, ...]:
        """What is to be told of them."""
        said = []
        if count := sum(self.copied.values()):
            said.append(say("records", "files_were_moved", n=count))
        for key, files in (("files_stay", self._paths(True)), ("files_unreachable", self._paths(False))):
            said += [say("records", key, n=len(files), files=listed(files))] if files else []
        if self.elsewhere:
            said.append(say("records", "files_elsewhere", n=self.elsewhere))
        return tuple(said)

    def _paths(self, is_reachable: bool) -> list[str]:
        return [str(each.path) for each in self.staying if each.is_reachable is is_reachable]


def copy(source: str, target: str, recordings: Collection[Named]) -> MovedFiles:
    """Copies papers, photos and recordings that are not too large from one place to the other.

    ``recordings`` are those of the records. Refused where another file of the same name is in the new place;
    Unavailable, naming the folder, where it cannot be written or a copy differs.
    """
    copied: dict[str, int] = {}
    own, *older = shop_folders.all_papers(source)
    _count(copied, "papers", own, shop_folders.papers(target), _files(own.glob("*.pdf")))
    for here in older:  # one that several shops wrote to: what has a name of ours may be another shop's
        there = [path for path in _files(here.glob("*.pdf")) if not (own / path.name).exists()]
        _count(copied, "papers", here, shop_folders.papers(target), there)
    photos = shop_folders.photos(source)
    _count(copied, "photos", photos, shop_folders.photos(target), _files(photos.glob("*")))
    files: list[Path] = []
    for here in shop_folders.all_recordings(source):
        held = [*_files(here.rglob("*"))]
        small = [path for path in held if path.stat().st_size <= LARGEST]
        _count(copied, "recordings", here, shop_folders.recordings(target), small)
        files += held
    staying = [StayingFile(path, _can_be_read(path)) for path in files if path.stat().st_size > LARGEST]
    known = {(path.name, path.stat().st_size) for path in files}
    erased_orders.add(erased_orders.beside(target), erased_orders.listed(erased_orders.beside(source)))
    return MovedFiles(copied, tuple(staying), len(set(recordings) - known))


def _count(copied: dict[str, int], kind: str, here: Path, there: Path, files: Iterable[Path]) -> None:
    if here == there:
        return
    with failures.named_here(str(there)):
        for path in files:
            _copy(path, there / path.relative_to(here))
            copied[kind] = copied.get(kind, 0) + 1


def _files(found: Iterable[Path]) -> Iterator[Path]:
    """Hidden ones are half written, links lead elsewhere."""
    for path in sorted(found):
        if path.is_file() and not path.is_symlink() and not path.name.startswith("."):
            yield path


def _copy(path: Path, target: Path) -> None:
    """Compared as it lies in its new place, also where it was copied before."""
    if target.exists() and _sha256(target) != _sha256(path):
        raise Refused(say("records", "other_file_there", file=target))
    if not target.exists():
        durable_files.make_folders(target.parent)
        growing = durable_files.beside(target)
        try:
            with path.open("rb") as source, growing.open("wb") as file:
                shutil.copyfileobj(source, file)
            durable_files.flush(growing)
            if _sha256(growing) != _sha256(path):
                raise Unavailable(say("records", "file_copy_differs", file=path))
            durable_files.replace(growing, target)
        finally:
            growing.unlink(missing_ok=True)


def _sha256(path: Path) -> str:
    return checksums.sha256(path, lambda _: None)


def _can_be_read(path: Path) -> bool:
    """Its first and its last bytes: a disk that is not there gives neither, and all of them take hours."""
    try:
        with path.open("rb") as file:
            file.read(1)
            file.seek(-1, os.SEEK_END)
            return len(file.read(1)) == 1
    except OSError:
        return False
