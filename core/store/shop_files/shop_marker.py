"""Remembers beside a shop's file that there is a shop, so that no empty one ever takes its place.

A file that is missing may lie on a disk that was not plugged in, or was lost: numbers that customers have on
their slips would be given a second time by a new shop. The marker is a small hidden file in the same folder.
"""

from __future__ import annotations

import contextlib
from pathlib import Path

from core.model.errors import Unavailable
from core.store.shop_files import durable_files
from core.wording.messages import say


def place(path: Path) -> Path:
    """Where the marker of a shop lies."""
    return path.with_name(f".{path.name}.started")


def leave(path: Path) -> None:
    """Notes that there is a shop. A folder that cannot be written has nothing started in it either."""
    marker = place(path)
    if marker.exists():
        return
    with contextlib.suppress(OSError):
        durable_files.write(marker, say("records", "marker_means", name=path.name).encode() + b"\n")


def is_gone(path: Path) -> Unavailable:
    """The failure, with the ways out, where there was a shop and its file is gone or empty."""
    return Unavailable(say("records", "shop_is_gone", path=path, marker=place(path)))
