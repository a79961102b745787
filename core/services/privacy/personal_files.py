"""Files of a customer outside of the records: papers by their order numbers, photos by their names."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from core.model.errors import Unavailable
from core.services import incident_photos
from core.services.privacy.emptied_records import Emptied
from core.services.privacy.paper_places import PaperPlace
from core.services.shop_places import shop_folders
from core.wording.messages import say

_OF_ORDER = re.compile(r"\.?[a-z][a-z-]*-([0-9]{6})(?:[0-9]{4})?(?![0-9])")


@dataclass(frozen=True, slots=True)
class RemovedFiles:
    """What was there and is gone, and where papers were once written to of which none was found."""

    files: tuple[Path, ...]
    not_found: tuple[PaperPlace, ...] = ()


def remove(where: str, gone: Emptied, folders: Sequence[Path]) -> RemovedFiles:
    """Removes the photos of a shop that an erasure names, and papers of its orders.

    They are looked for in ``folders`` and wherever this computer wrote some to. A folder of another computer
    is named and left alone: what bears its name here may be another shop's. Unavailable, naming the first
    file that stays.
    """
    photos = [incident_photos.beside(where) / name for name in gone.photos]
    files, not_found = _removed(photos), []
    for folder in dict.fromkeys(folders):
        files += _removed(_papers(folder, gone.orders))
    looked = {folder.resolve() for folder in folders}
    for place in gone.elsewhere:
        found = _removed(_papers(Path(place.folder), gone.orders)) if place.is_here else []
        if not found and not (place.is_here and Path(place.folder).resolve() in looked):
            not_found.append(place)
        files += found
    return RemovedFiles(tuple(files), tuple(not_found))


def _removed(paths: Sequence[Path]) -> list[Path]:
    there = [path for path in paths if path.is_file()]
    for path in there:
        try:
            path.unlink()
        except OSError as error:
            raise Unavailable(say("privacy", "paper-stays", path=path, why=error.strerror or "")) from error
    return there


def _papers(folder: Path, orders: Sequence[str]) -> list[Path]:
    """Papers name their order, or a tape of it, after words: ``receipt-000018-20260303-090000.pdf``; one that
    a power cut left half written has a dot before that. A moment is no order."""
    return sorted(path for path in _files(folder) if _names_one(path.name, orders))


def _names_one(name: str, orders: Sequence[str]) -> bool:
    found = _OF_ORDER.match(name)
    return found is not None and found.group(1) in orders


def _files(folder: Path) -> Iterator[Path]:
    for each in (folder, folder / shop_folders.PREVIEW):
        yield from each.iterdir() if each.is_dir() else ()
