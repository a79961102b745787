"""Writing a receipt to the folder of papers."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from core import paper_files
from core.errors import Unavailable
from core.records import Pickup, ShopFront
from gui.text import say


def writing(pickup: Pickup, front: ShopFront, folder: Path) -> Callable[[], Path]:
    """The errand for the paper thread; it answers with the file, or raises Unavailable."""
    return partial(_write, pickup, front, folder)


def _write(pickup: Pickup, front: ShopFront, folder: Path) -> Path:
    from core.documents import receipt  # the paper library is imported where paper is made

    try:
        paper_files.prepare(folder)
        return paper_files.write(folder, f"receipt-{pickup.job.number}", receipt.render(pickup, front))
    except OSError as error:
        why = error.strerror or str(error)
        raise Unavailable(say("pickup", "no_paper", folder=folder, why=why)) from error
