"""The program as one folder that runs without Python: ``python resources/one_folder.py [--try]``.

Builds ``out/application/tapewright`` with PyInstaller (the extra ``application``), for the system it runs on.
With ``--try`` the result is then used as a stranger would: its version, an invented shop, a box booked and
found, the window on that shop; without Python's packages in reach.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
BUILT = ROOT / "out" / "application"
COMMAND = BUILT / "tapewright" / ("tapewright.exe" if os.name == "nt" else "tapewright")
NOW = "2026-03-02T10:00:00-05:00"
WINDOW_SECONDS = 20
"""How long the window is left open on the invented shop; all of its screens are filled long before."""

BOX = {
    "customer": {"name": "A. Example", "phone": "+1 212 555 0142", "email": None},
    "tv": "ntsc",
    "tapes": [{"count": 2, "format": "vhs", "marking": "T-120", "speed": "sp", "findings": []}],
    "deliver": [{"as": "files", "codec": "h264", "on": "usb"}],
    "rush": False,
    "needed_by": None,
}


def main(arguments: Sequence[str]) -> int:
    """Build, and try what was built when asked to; the exit code."""
    if any(each != "--try" for each in arguments):
        print(__doc__, file=sys.stderr)
        return 2
    build()
    if arguments:
        with tempfile.TemporaryDirectory(prefix="tapewright-application-") as folder:
            try_out(Path(folder))
    print(f"== {COMMAND}", flush=True)
    return 0


def build() -> None:
    """One folder with the command, its libraries and the files beside the code."""
    command = [sys.executable, "-m", "PyInstaller", *options(), "resources/launcher/tapewright.py"]
    subprocess.run(command, cwd=ROOT, check=True)


def options() -> list[str]:
    """What PyInstaller does not see by following imports: rooms found at run time, files that are read."""
    separate = os.pathsep
    return [
        "--noconfirm",
        "--log-level=WARN",
        "--name=tapewright",
        f"--distpath={BUILT}",
        f"--workpath={BUILT / 'work'}",
        f"--specpath={BUILT / 'work'}",
        f"--icon={ROOT / 'resources' / 'icon' / 'tapewright-256.png'}",
        f"--paths={ROOT}",
        "--collect-submodules=core",
        "--collect-submodules=gui",
        "--collect-submodules=reportlab.graphics.barcode",
        "--hidden-import=pysqlite3.dbapi2",
        f"--add-data={ROOT / 'core' / 'store' / 'migrations'}{separate}core/store/migrations",
        f"--add-data={ROOT / 'resources'}{separate}resources",
        "--copy-metadata=tapewright",
        "--exclude-module=tkinter",
    ]


# --- trying what was built ---------------------------------------------------------------


def try_out(folder: Path) -> None:
    """Every step of a first day in ``folder``; AssertionError, or CalledProcessError, where one fails."""
    print(f"== trying {COMMAND}", flush=True)
    assert _run(folder, "--version").startswith("tapewright ")
    made = json.loads(_run(folder, "demo", "--dir", "invented", "--no-window", "--json", "--now", NOW))
    assert all(Path(file).exists() for file in made["files"]), made
    (folder / "box.json").write_text(json.dumps(BOX), encoding="utf-8")
    options = ("--shop", made["shop"], "--json", "--now", NOW)  # a new shop books only when it is its own
    booked = json.loads(_run(folder, "book", "box.json", "--paper", "papers", *options))
    assert len(booked["tapes"]) == 2, booked
    assert len(list((folder / "papers").glob("*.pdf"))) == len(booked["papers"]) > 0, booked
    found = json.loads(_run(folder, "status", "0142", *options))
    assert booked["number"] in [job["number"] for job in found["jobs"]], found
    assert "_shtab_tapewright" in _run(folder, "completion", "bash")
    _look_at_window(folder, made["shop"])


def _run(folder: Path, *words: str) -> str:
    done = subprocess.run(
        [COMMAND, *words],
        cwd=folder,
        env=_surroundings(folder),
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    return done.stdout


def _look_at_window(folder: Path, shop: str) -> None:
    """It stays open, says nothing, and writes no report of something that went wrong."""
    command = [str(COMMAND), "--shop", shop, "--now", NOW]
    window = subprocess.Popen(
        command, cwd=folder, env=_surroundings(folder), stderr=subprocess.PIPE, text=True
    )
    try:
        _, said = window.communicate(timeout=WINDOW_SECONDS)
    except subprocess.TimeoutExpired:
        window.terminate()
        _, said = window.communicate()
    else:
        raise AssertionError(f"the window closed by itself with {window.returncode}: {said}")
    assert said == "", said
    assert list(folder.rglob("*.log")) == [], [file.read_text() for file in folder.rglob("*.log")]


def _surroundings(folder: Path) -> dict[str, str]:
    """Nothing of this computer's Python, and a home of its own."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "XDG_"))}
    return kept | {"HOME": str(folder), "USERPROFILE": str(folder), "QT_QPA_PLATFORM": "offscreen"}


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
