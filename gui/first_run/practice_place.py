"""Where the invented shop to practise in lies, and a new one beside it when it is begun afresh."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from core.model.errors import Unavailable
from core.services import invented_shop
from gui.toolkit.text import say


def newest(folder: Path) -> Path | None:
    """The practice shop made last: in ``folder``, or in the ``folder-2``, ``folder-3`` … beside it."""
    made = [each / invented_shop.FILE for each in folder.parent.glob(f"{folder.name}*") if each.is_dir()]
    return max((each for each in made if each.exists()), key=_number, default=None)


def made(folder: Path, now: datetime, language: str) -> Path:
    """A new practice shop; those before stay where they are. Unavailable when it cannot be written."""
    try:
        return invented_shop.make(folder, now, language).shop
    except OSError as error:
        why = error.strerror or str(error)
        raise Unavailable(say("settings", "first-no-practice", folder=str(folder), why=why)) from error


def _number(shop: Path) -> int:
    _, _, number = shop.parent.name.rpartition("-")
    return int(number) if number.isdecimal() else 1
