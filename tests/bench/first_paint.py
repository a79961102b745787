"""From the start of the process to the first paint: the program's window against the smallest one."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path

from tests.bench.ratio import Ratio, median

RUNS = 11
AT_MOST = 1.5
"""Libraries of the records and the papers imported before the paint would make it about 5."""


def measure() -> Iterator[Ratio]:
    """Medians of runs that take turns, so that a busy moment meets both."""
    with tempfile.TemporaryDirectory() as folder:
        shop = Path(folder) / "shop.sqlite"
        ours = ["-m", "gui", "--shop", str(shop), "--quit-after-first-paint"]
        bare = ["-m", "tests.bench.bare_window"]
        for command in (ours, bare):  # once for the file cache
            milliseconds_to_paint(command)
        pairs = [(milliseconds_to_paint(ours), milliseconds_to_paint(bare)) for _ in range(RUNS)]
    painted, floor = zip(*pairs, strict=True)
    yield Ratio("first paint", median(painted), "bare window", median(floor), "ms", AT_MOST)


def milliseconds_to_paint(arguments: Sequence[str]) -> float:
    """Wall time until the program says ``first-paint``; RuntimeError when it ends without saying so."""
    began = time.perf_counter()
    with subprocess.Popen([sys.executable, *arguments], stdout=subprocess.PIPE, text=True) as program:
        assert program.stdout is not None
        for line in program.stdout:
            if line.startswith("first-paint"):
                taken = 1000 * (time.perf_counter() - began)
                program.wait(timeout=30)
                return taken
    raise RuntimeError(f"{' '.join(arguments)} ended without a paint")
