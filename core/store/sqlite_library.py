"""Which SQLite the records are kept with: of those on this computer, one that cannot lose them."""

from __future__ import annotations

import platform
import sys
from importlib import import_module
from typing import Any

from core.model.errors import Unavailable
from core.wording.messages import say

SOUND = "3.51.3"
"""The oldest version that is sound together with all that follow it."""

_LIBRARIES = ("pysqlite3.dbapi2", "sqlite3")
"""The newer one that comes as a package, then the one of Python itself."""

_WITH_A_WHEEL = (("linux", "x86_64"), ("darwin", "arm64"), ("win32", "amd64"))
"""Systems and processors that pysqlite3 0.6.1 is published for, as a marker in `pyproject.toml` says too."""


def sqlite_module() -> Any:
    """The first SQLite that is sound; where none is, the first that can be loaded.

    Errors: Unavailable where none can be loaded.
    """
    loaded = []
    for name in _LIBRARIES:
        module = _load(name)
        if module is not None and not has_reset_race(module.sqlite_version_info):
            return module
        loaded.append(module)
    for module in loaded:
        if module is not None:
            return module
    raise Unavailable(say("records", "no_sqlite", way_out=_way_out()))


def refuse_reset_race(module: Any) -> None:
    """Unavailable, naming what to install, where two programs that write at once could lose records."""
    if has_reset_race(module.sqlite_version_info):
        raise Unavailable(
            say("records", "sqlite_may_lose_records", version=module.sqlite_version, way_out=_way_out())
        )


def has_reset_race(version: tuple[int, ...]) -> bool:
    """Whether this SQLite can lose data when two connections write and reset the log at the same time.

    Source: sqlite.org/wal.html, "The WAL-Reset Bug": 3.7.0 to 3.51.2, save 3.44.6 and 3.50.7 and later in
    those lines.
    """
    fixed = version >= (3, 51, 3) or (3, 50, 7) <= version < (3, 51) or (3, 44, 6) <= version < (3, 45)
    return version >= (3, 7, 0) and not fixed


def _load(name: str) -> Any:
    """The module, or None where it is not installed or its library does not load."""
    try:
        return import_module(name)
    except ImportError:
        return None


def _way_out() -> str:
    """What to install on this computer, as a sentence."""
    machine = platform.machine()
    if (sys.platform, machine.lower()) in _WITH_A_WHEEL:
        return say("records", "install_pysqlite3", python=sys.executable)
    return say("records", "install_python_with_sqlite", sound=SOUND, system=f"{sys.platform} {machine}")
