"""From a fresh copy of the project to a running program, with nothing but Python.

``python3 resources/start.py`` makes ``.venv``, installs the pinned packages and opens an invented
shop. Where there is no screen the same walk is drawn into ``out/walkthrough`` instead.
``python3 resources/start.py test`` installs the developers' tools and runs every check;
whatever follows ``test`` goes to pytest. ``tools`` installs them and runs nothing.

Only the standard library is used, because nothing else is there yet.
"""

from __future__ import annotations

import ctypes
import hashlib
import importlib.util
import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
WALKTHROUGH = ROOT / "out" / "walkthrough"
OLDEST = (3, 11)

QT_LIBRARIES = {
    "libGL.so.1": "libgl1",
    "libEGL.so.1": "libegl1",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libgthread-2.0.so.0": "libglib2.0-0",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libfreetype.so.6": "libfreetype6",
    "libX11.so.6": "libx11-6",
    "libbrotlidec.so.1": "libbrotli1",
}
"""What Qt's widgets load, and Debian's package of each; found by `ldd` in an empty Debian 12."""

SCREEN_LIBRARIES = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-render.so.0": "libxcb-render0",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxcb-util.so.1": "libxcb-util1",
    "libxcb-xkb.so.1": "libxcb-xkb1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
    "libwayland-cursor.so.0": "libwayland-cursor0",
    "libwayland-egl.so.1": "libwayland-egl1",
}
"""The same for a window on X11 or Wayland; not needed where nothing is shown."""

CHECKS = (
    ("format", ["-m", "ruff", "format", "--check", "."]),
    ("lint", ["-m", "ruff", "check", "."]),
    ("types", ["-m", "mypy"]),
    ("imports", ["-c", "from importlinter.cli import lint_imports_command as run; run()", "--no-logo"]),
)
"""Each is run by the environment's own Python: a program beside it names the folder it was installed in."""


class CannotStart(Exception):
    """The sentence says what is missing and the line that brings it."""


def main(arguments: Sequence[str]) -> int:
    """Set everything up, then show the shop or run the checks; the exit code of what was run."""
    wants_checks, is_tools = arguments[:1] == ["test"], list(arguments) == ["tools"]
    if arguments and not wants_checks and not is_tools:
        print(__doc__, file=sys.stderr)
        return 0 if arguments[0] in ("-h", "--help") else 2
    try:
        prepare(with_tools=wants_checks or is_tools)
    except CannotStart as problem:
        print(f"\n{problem}", file=sys.stderr)
        return 4
    if is_tools:
        return 0
    return check(arguments[1:]) if wants_checks else show()


def prepare(*, with_tools: bool) -> None:
    """Python, Qt's libraries, environment and packages are there; quick when they already are."""
    if sys.version_info < OLDEST:
        raise CannotStart(f"This needs Python 3.11 or newer; {sys.executable} is {sys.version.split()[0]}.")
    has_environment = _runs(PYTHON)
    if sys.platform.startswith("linux"):
        _bring_from_the_system(for_environment=not has_environment)
    if not has_environment:
        print(f"== making {VENV}", flush=True)
        _must([sys.executable, "-m", "venv", "--clear", str(VENV)], "The environment could not be made")
    if not _is_installed(with_tools):
        _install(with_tools)


def check(pytest_arguments: Sequence[str]) -> int:
    """Format, lint, types, imports, then the tests, whose closing line is the last one printed."""
    failed = [name for name, command in CHECKS if _failed(name, command)]
    if failed:
        print(f"== these checks failed: {', '.join(failed)}; the tests follow", flush=True)
    print("== tests", flush=True)
    command = [str(PYTHON), "-m", "pytest", "-n", "auto", "--own-postgres", *pytest_arguments]
    tests = subprocess.run(command, cwd=ROOT, check=False).returncode
    return tests or bool(failed)


def show() -> int:
    """The invented shop in a window, or drawn into files where there is no screen."""
    if _has_screen() and _opens_a_window():
        return subprocess.run([str(PYTHON), "-m", "gui", "demo"], cwd=ROOT, check=False).returncode
    print(f"There is no screen here, so the walk through the shop is drawn into {WALKTHROUGH}.", flush=True)
    command = [str(PYTHON), "-m", "gui.app.walkthrough", "--dir", str(WALKTHROUGH)]
    surroundings = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    return subprocess.run(command, cwd=ROOT, env=surroundings, check=False).returncode


# --- the environment ---------------------------------------------------------------------


def _install(with_tools: bool) -> None:
    print("== installing the pinned packages", flush=True)
    what = ".[dev]" if with_tools else "."
    # Python compiles what is imported when it first is: that is a sixth of what pip would compile.
    install = ["-m", "pip", "install", "--quiet", "--no-compile"]
    command = [str(PYTHON), *install, "-c", "constraints.txt", "-e", what]
    _must(command, "The packages could not be installed", PIP_DISABLE_PIP_VERSION_CHECK="1")
    _stamp(with_tools).write_text(_wanted(), encoding="ascii")


def _is_installed(with_tools: bool) -> bool:
    """Whether the last installation was of just these versions; one with tools holds all others."""
    stamps = [_stamp(True)] if with_tools else [_stamp(True), _stamp(False)]
    return any(stamp.exists() and stamp.read_text(encoding="ascii") == _wanted() for stamp in stamps)


def _stamp(with_tools: bool) -> Path:
    return VENV / ("installed-with-tools" if with_tools else "installed")


def _wanted() -> str:
    """A fingerprint of what is to be installed, and where from."""
    files = [ROOT / "pyproject.toml", ROOT / "constraints.txt"]
    content = b"\0".join(file.read_bytes() for file in files) + os.fsencode(ROOT)
    return hashlib.sha256(content).hexdigest()


def _runs(python: Path) -> bool:
    if not python.exists():
        return False
    try:
        probe = f"import pip, sys; sys.exit(sys.version_info < {OLDEST})"
        return subprocess.run([python, "-c", probe], capture_output=True, check=False).returncode == 0
    except OSError:
        return False


# --- what the system must bring ----------------------------------------------------------


def _bring_from_the_system(*, for_environment: bool) -> None:
    """All that only the system's packages can bring, asked for in one go.

    Each library is tried the way Qt will load it, so that only what does not load is asked for.
    """
    lacking = _lacking(for_environment)
    if not lacking:
        return
    _bring_packages(sorted(set(lacking.values())), f"The system lacks {', '.join(lacking)}")
    importlib.invalidate_caches()
    still = _lacking(for_environment)
    if still:
        raise CannotStart(f"The system still lacks {', '.join(still)} after its packages were installed.")


def _lacking(for_environment: bool) -> dict[str, str]:
    """What is not there, and Debian's package of each."""
    libraries = QT_LIBRARIES | (SCREEN_LIBRARIES if _has_screen() else {})
    lacking = {name: package for name, package in libraries.items() if not _loads(name)}
    if for_environment and importlib.util.find_spec("ensurepip") is None:
        lacking["Python's ensurepip"] = f"python{sys.version_info.major}.{sys.version_info.minor}-venv"
    return lacking


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def _bring_packages(packages: Iterable[str], because: str) -> None:
    """Install with apt-get where that is allowed without asking; otherwise say the line to type."""
    install = ["apt-get", "install", "--yes", "--no-install-recommends", *packages]
    if shutil.which("apt-get") is None:
        raise CannotStart(f"{because}. On Debian the packages are called: {' '.join(packages)}.")
    became = _as_root()
    if became is None:
        raise CannotStart(f"{because}. {_line_to_type(install)}")
    print(f"== {because}: {shlex.join([*became, *install])}", flush=True)
    surroundings = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    if _apt(became, install, surroundings) != 0:
        _apt(became, ["apt-get", "update", "--quiet"], surroundings)
        if _apt(became, install, surroundings) != 0:
            raise CannotStart(f"{because}, and this failed:\n\n    {shlex.join(install)}\n")


def _line_to_type(install: Sequence[str]) -> str:
    if shutil.which("sudo") is None:
        line, who = f"apt-get update && {shlex.join(install)}", "As root, type this"
    else:
        line, who = f"sudo apt-get update && sudo {shlex.join(install)}", "Type this"
    return f"{who}, then start again:\n\n    {line}\n"


def _apt(became: Sequence[str], command: Sequence[str], surroundings: Mapping[str, str]) -> int:
    quiet = subprocess.run([*became, *command], env=surroundings, capture_output=True, text=True, check=False)
    if quiet.returncode != 0:
        print(quiet.stdout + quiet.stderr, file=sys.stderr)
    return quiet.returncode


def _as_root() -> list[str] | None:
    """What goes before a command of root's; None when a password would be needed."""
    if os.geteuid() == 0:
        return []
    if shutil.which("sudo") is None:
        return None
    allowed = subprocess.run(["sudo", "-n", "true"], capture_output=True, check=False).returncode == 0
    return ["sudo", "-n"] if allowed else None


# --- running -----------------------------------------------------------------------------


def _has_screen() -> bool:
    if os.environ.get("QT_QPA_PLATFORM", "").startswith(("offscreen", "minimal")):
        return False
    if sys.platform.startswith("linux"):
        return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
    return True


def _opens_a_window() -> bool:
    """Whether the screen that the surroundings name really answers; Qt aborts when it does not."""
    probe = "from PySide6.QtGui import QGuiApplication; QGuiApplication([])"
    return subprocess.run([PYTHON, "-c", probe], capture_output=True, check=False).returncode == 0


def _failed(name: str, command: Sequence[str]) -> bool:
    print(f"== {name}", flush=True)
    return subprocess.run([str(PYTHON), *command], cwd=ROOT, check=False).returncode != 0


def _must(command: Sequence[str | os.PathLike[str]], otherwise: str, **surroundings: str) -> None:
    code = subprocess.run(command, cwd=ROOT, env={**os.environ, **surroundings}, check=False).returncode
    if code != 0:
        raise CannotStart(f"{otherwise}; the reason is printed above.")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
