"""The folders of a shop's files outside of its records: papers, photos and, where they lie there, recordings.

Those of a shop in a file are beside it; those of one on a server are this user's.
"""

from __future__ import annotations

from pathlib import Path

import platformdirs

from core.model import private_files, regular_files
from core.services import incident_photos
from core.store import engines
from core.store.sharing.shop_names import in_file_name


def papers(where: str | Path | None) -> Path:
    """Where the window puts PDFs unless another folder is named; None: the shop of the user's data folder."""
    if where is None or "://" in str(where):
        own = "" if where is None else in_file_name(engines.shop_at(str(where)))
        return Path(platformdirs.user_documents_dir()) / f"{private_files.PROGRAM}{own}"
    return regular_files.expanded(where).resolve().parent / "papers"


def all_papers(where: str | Path) -> tuple[Path, ...]:
    """Every folder that papers of a shop may lie in without having been named."""
    usual = Path(platformdirs.user_data_dir(private_files.PROGRAM, appauthor=False))
    beside = papers(where)
    is_usual = "://" not in str(where) and beside.parent == usual.resolve()
    return (beside, papers(None)) if is_usual else (beside,)


def photos(where: str | Path) -> Path:
    """Where photos of lost or damaged tapes are kept."""
    return incident_photos.beside(str(where))


def recordings(where: str | Path) -> Path:
    """Where recordings lie that are kept with the shop; the records know a recording by its SHA-256 only."""
    beside = papers(where)
    return beside / "recordings" if "://" in str(where) else beside.with_name("recordings")
