"""The folders of a shop's files outside of its records: papers, photos and, where they lie there, recordings.

Those of a shop in a file are beside it; those of one on a server are this user's.
"""

from __future__ import annotations

from pathlib import Path

import platformdirs

from core.model import private_files, regular_files
from core.services import incident_photos
from core.store.sharing import server_address
from core.store.sharing.shop_names import in_file_name

PREVIEW = "preview"
"""The folder, among the papers, of those that are only looked at."""


def papers(where: str | Path | None) -> Path:
    """Where the window puts PDFs unless another folder is named; None: the shop of the user's data folder.

    Each shop on a server has a folder of its own: two of them may give the same number.
    """
    if where is None:
        return _shared()
    if "://" in str(where):
        return _shared() / server_address.folder_name(str(where))
    return regular_files.expanded(where).resolve().parent / "papers"


def all_papers(where: str | Path) -> tuple[Path, ...]:
    """Every folder that papers of a shop may lie in without having been named, the one of today first.

    Shops on a server once shared one, so what lies there is still looked at; nothing is moved.
    """
    own = papers(where)
    if "://" in str(where):
        return (own, _once_shared(where))
    usual = Path(platformdirs.user_data_dir(private_files.PROGRAM, appauthor=False))
    return (own, papers(None)) if own.parent == usual.resolve() else (own,)


def _shared() -> Path:
    return Path(platformdirs.user_documents_dir()) / private_files.PROGRAM


def _once_shared(where: str | Path) -> Path:
    """The folder of every main shop on a server, or of every one of this name, before each had its own."""
    shared = _shared()
    return shared.with_name(f"{shared.name}{in_file_name(server_address.shop_at(str(where)))}")


def photos(where: str | Path) -> Path:
    """Where photos of lost or damaged tapes are kept."""
    return incident_photos.beside(str(where))


def recordings(where: str | Path) -> Path:
    """Where recordings lie that are kept with the shop; the records know a recording by its SHA-256 only."""
    beside = papers(where)
    return beside / "recordings" if "://" in str(where) else beside.with_name("recordings")


def all_recordings(where: str | Path) -> tuple[Path, ...]:
    """Every folder that they may lie in, as `all_papers`."""
    is_on_server = "://" in str(where)
    return (recordings(where), *([_once_shared(where) / "recordings"] if is_on_server else []))
