"""How much of the pure shelves their tests run, by line and branch: ``python -m tests.shelf_coverage``.

Runs the tests of those shelves and of the reference values under coverage.py and prints one row a file that
is not covered whole, then the sum. Whatever follows the command goes to pytest; ``--quick`` leaves out the
slow modules. A command of its own, because measuring takes time that the usual run does not have.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[1]
SHELVES = (
    "model",
    "wording",
    "catalogue",
    "playtime",
    "pricing",
    "capture",
    "scheduling",
    "promise",
    "papers",
)


def main(arguments: list[str]) -> int:
    """Measure, then report; the exit code of the tests."""
    folders = [f"tests/core/{shelf}" for shelf in SHELVES] + ["tests/reference"]
    with tempfile.TemporaryDirectory(prefix="tapewright-coverage-") as kept:
        settings = Path(kept) / "settings.ini"
        settings.write_text(_settings(Path(kept)), encoding="utf-8")
        rules = f"--rcfile={settings}"
        tests = _run("run", rules, "-m", "pytest", "-q", "-n", "auto", *folders, *arguments)
        _run("combine", rules, "--quiet")
        _run("report", rules)
    return tests


def _settings(kept: Path) -> str:
    """Every process of the run is measured, pytest's workers too."""
    sources = "".join(f"\n  core/{shelf}" for shelf in SHELVES)
    return (
        f"[run]\nbranch = true\nparallel = true\npatch = subprocess\ndata_file = {kept / 'data'}\n"
        f"source ={sources}\n[report]\nskip_covered = true\nshow_missing = false\nprecision = 1\n"
        "exclude_also =\n  if TYPE_CHECKING:\n  raise NotImplementedError\n"
    )


def _run(*words: str) -> int:
    command = [sys.executable, "-m", "coverage", *words]
    return subprocess.run(command, cwd=ROOT, check=False).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
