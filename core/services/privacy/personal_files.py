"""Files of a customer outside of the records: papers by their order numbers, photos by their names."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from core.model.errors import Unavailable
from core.services import incident_photos
from core.services.privacy.emptied_records import Emptied
from core.wording.messages import say

_OF_ORDER = re.compile(r"\.?[a-z][a-z-]*-([0-9]{6})(?:[0-9]{4})?(?![0-9])")


def remove(where: str, gone: Emptied, folders: Sequence[Path]) -> tuple[Path, ...]:
    """Removes the photos of a shop that an erasure names, and papers of its orders from ``folders``.

    Gives what was there and is gone; Unavailable, naming the first one that stays.
    """
    photos = [incident_photos.beside(where) / name for name in gone.photos]
    papers = sorted({path for folder in folders for path in _papers(folder, gone.orders)})
    there = [path for path in (*photos, *papers) if path.is_file()]
    for path in there:
        try:
            path.unlink()
        except OSError as error:
            raise Unavailable(say("privacy", "paper-stays", path=path, why=error.strerror or "")) from error
    return tuple(there)


def _papers(folder: Path, orders: Sequence[str]) -> Iterator[Path]:
    """Papers name their order, or a tape of it, after words: ``receipt-000018-20260303-090000.pdf``; one that
    a power cut left half written has a dot before that. A moment is no order."""
    for path in folder.iterdir() if folder.is_dir() else ():
        found = _OF_ORDER.match(path.name)
        if found is not None and found.group(1) in orders:
            yield path
