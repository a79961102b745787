"""The key that backups are locked with: made here, shown once, and kept nowhere."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from core.services import paper_files
from core.store import current_settings
from core.store.shop_files import locked_files
from core.store.unit import Unit


@dataclass(frozen=True, slots=True)
class BackupKey:
    """A new key. Only the public one stands in the settings."""

    key: str
    public_key: str


def new() -> BackupKey:
    """A key nobody has yet; nothing is stored."""
    return BackupKey(*locked_files.new_key())


def write_paper(unit: Unit, made: BackupKey, folder: Path) -> Path:
    """The key as a paper in ``folder``, which was found writable (`paper_files.prepare`)."""
    from core.papers import key_paper

    front, today = current_settings.read(unit).front, current_settings.local(unit, unit.now).date()
    page = key_paper.render(made.key, made.public_key, today, front)
    return paper_files.write(folder, f"backup-key-{today.isoformat()}", page)
