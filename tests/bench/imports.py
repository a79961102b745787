"""What importing the window costs beside Qt's own widgets, and what a subcommand costs beside bare Python."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator

from tests.bench.ratio import Ratio, median, timed

RUNS = 9


def measure() -> Iterator[Ratio]:
    """Whole processes that import one thing and end."""
    yield Ratio(
        "import the window",
        _cost("gui.app.startup"),
        "Qt's widgets",
        _cost("PySide6.QtWidgets"),
        "ms",
        1.5,
    )
    yield Ratio(
        "import the command line", _cost("core.cli.entry"), "argparse and json", _cost("argparse, json"), "ms"
    )


def _cost(modules: str) -> float:
    command = [sys.executable, "-c", f"import {modules}"]
    return median(timed(lambda: subprocess.run(command, check=True), RUNS))
