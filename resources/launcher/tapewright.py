"""What the command `tapewright` starts: it looks whether `core`, `gui` and `resources` are the program's own.

Those names are common. Where another package of one of them comes first on Python's path, somebody else's
code would run: the start is refused and the other package is named. Nothing of ours can be imported before
that, so the sentence stands here.
"""

from __future__ import annotations

import sys
from importlib.machinery import ModuleSpec
from importlib.util import find_spec
from pathlib import Path

OURS = ("core", "gui", "resources")
UNAVAILABLE = 4
_HERE = Path(__file__).resolve().parent
ROOT = _HERE if (_HERE / "gui").is_dir() else _HERE.parents[1]
"""Beside this file where the program is installed; else the checkout, two folders above this one."""


def main() -> int:
    """Start the program; exit code 4 and a sentence where a foreign package stands in its way."""
    foreign = [] if getattr(sys, "frozen", False) else foreign_packages()
    if foreign:
        return _refuse(*foreign[0])
    try:
        from gui.__main__ import main as run
    except ModuleNotFoundError as error:
        name = (error.name or "").split(".")[0]
        if name not in OURS:
            raise
        # Another distribution was installed over ours, into the same folder.
        return _refuse(name, ROOT / name)
    return run()


def foreign_packages() -> list[tuple[str, Path]]:
    """Name and folder of each package that comes before ours."""
    found = [(name, _folder(find_spec(name))) for name in OURS]
    return [(name, folder) for name, folder in found if folder is not None and folder != ROOT / name]


def _folder(spec: ModuleSpec | None) -> Path | None:
    if spec is None:
        return None
    if spec.submodule_search_locations:
        return Path(next(iter(spec.submodule_search_locations))).resolve()
    return Path(spec.origin or "?").resolve()


def _refuse(name: str, folder: Path) -> int:
    print(
        f"tapewright: another package named `{name}` comes before the program's own: {folder}. Install "
        "Tapewright in an environment of its own, with `pipx install` or `uv tool install`, or take that "
        "folder out of PYTHONPATH; nothing was changed.",
        file=sys.stderr,
    )
    return UNAVAILABLE


if __name__ == "__main__":
    sys.exit(main())
