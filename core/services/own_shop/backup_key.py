"""The key that backups are locked with: made here, shown once, and kept nowhere."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from core.model import regular_files
from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopFront
from core.services import paper_files
from core.store import current_settings
from core.store.shop_files import locked_files
from core.store.unit import Unit
from core.wording.messages import say

MOST_BYTES = 10_000
"""A key has 74 characters; a key file may begin with remarks."""


@dataclass(frozen=True, slots=True)
class BackupKey:
    """A new key. Only the public one stands in the settings."""

    key: str
    public_key: str


def new() -> BackupKey:
    """A key nobody has yet; nothing is stored."""
    return BackupKey(*locked_files.new_key())


def read(path: Path) -> str:
    """What a key file says; WrongInput for a file that cannot be one."""
    place, accepted = say("records", "backup_key"), say("records", "key_file_accepted")
    regular_files.check(path, place, accepted)
    try:
        with path.open("rb") as file:
            held = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise WrongInput(place, str(path), accepted) from error
    if len(held) > MOST_BYTES:
        raise WrongInput(place, str(path), accepted)
    return held.decode("utf-8", errors="replace")


def written(made: BackupKey, front: ShopFront, today: date, folder: Path) -> Path:
    """The key as a paper in ``folder``, which was found writable."""
    from core.papers import key_paper

    page = key_paper.render(made.key, made.public_key, today, front)
    return paper_files.write(folder, f"backup-key-{today.isoformat()}", page)


def write_paper(unit: Unit, made: BackupKey, folder: Path) -> Path:
    """`written` today, as the papers of this shop look."""
    today = current_settings.local(unit, unit.now).date()
    return written(made, current_settings.read(unit).front, today, folder)
