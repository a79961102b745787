"""Photos of a lost or damaged tape: checked by what is in them, and copied among the shop's own."""

from __future__ import annotations

import hashlib
import io
from dataclasses import dataclass
from pathlib import Path

import platformdirs

from core.model import private_files, regular_files
from core.model.errors import Unavailable, WrongInput
from core.model.incident_records import IncidentLine
from core.store.sharing import server_address, shop_names
from core.wording.messages import say

MOST_BYTES = 20_000_000
"""A photo of any phone has room in it (an assumption)."""
_ENDINGS = {"PNG": "png", "JPEG": "jpg"}


@dataclass(frozen=True, slots=True)
class Photo:
    """One photo as it is kept: its name in the shop's folder of photos, and its SHA-256."""

    name: str
    sha256: str


def keep(path: Path, folder: Path) -> Photo:
    """Copies a PNG or JPEG file into ``folder``, named by its fingerprint; the same file is kept once.

    WrongInput for a file that cannot be read, is too large or holds no such picture, whatever it is called;
    Unavailable where ``folder`` cannot be written.
    """
    data = _read(path)
    sha = hashlib.sha256(data).hexdigest()
    kept = folder / f"{sha[:16]}.{_ending(path, data)}"
    try:
        private_files.make_folder(folder)
        if not kept.exists() or kept.read_bytes() != data:
            private_files.write(kept, data)
    except OSError as error:
        raise Unavailable(say("incidents", "photo-not-kept", folder=folder, why=f"{error}")) from error
    return Photo(kept.name, sha)


def beside(shop: str) -> Path:
    """The folder of photos of a shop: beside its file; of one on a server, in this user's data folder."""
    if "://" in shop:
        folder = f"photos{shop_names.in_file_name(server_address.shop_at(shop))}"
        return Path(platformdirs.user_data_dir("Tapewright", appauthor=False)) / folder
    return Path(shop).absolute().parent / "photos"


def is_whole(line: IncidentLine, folder: Path) -> bool:
    """Whether the photo of a line still lies there unchanged."""
    try:
        return hashlib.sha256((folder / (line.photo or "")).read_bytes()).hexdigest() == line.sha256
    except OSError:
        return False


def _read(path: Path) -> bytes:
    regular_files.check(path, say("incidents", "photo"), say("incidents", "photo-readable"))
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise WrongInput(say("incidents", "photo"), str(path), say("incidents", "photo-readable")) from error
    if len(data) > MOST_BYTES:
        raise WrongInput(say("incidents", "photo"), path.name, _accepted())
    return data


def _ending(path: Path, data: bytes) -> str:
    from PIL import Image, UnidentifiedImageError

    try:
        with Image.open(io.BytesIO(data), formats=tuple(_ENDINGS)) as picture:
            picture.load()
            return _ENDINGS[picture.format or ""]
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, Image.DecompressionBombError) as error:
        raise WrongInput(say("incidents", "photo"), path.name, _accepted()) from error


def _accepted() -> str:
    return say("incidents", "photo-accepted", most=MOST_BYTES // 1_000_000)
