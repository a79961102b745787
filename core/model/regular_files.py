"""Files that are read must be files: a pipe would wait for ever, a device never ends."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from core.model.errors import AsWritten, WrongInput
from core.wording.messages import say


def expanded(typed: str | Path) -> Path:
    """The path with ``~`` as the home it stands for; one of nobody's stays as it was typed."""
    try:
        return Path(typed).expanduser()
    except RuntimeError:
        return Path(typed)


def check(path: str | Path, place: str, accepted: str) -> None:
    """WrongInput at ``place`` for a pipe or a device. A folder, or nothing, is for the reader to name."""
    try:
        kind = os.stat(path).st_mode
    except (OSError, ValueError):
        return
    if not stat.S_ISREG(kind) and not stat.S_ISDIR(kind):
        raise WrongInput(place, AsWritten(say("files", "no-plain-file")), accepted)
