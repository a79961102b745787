"""Memory of the program with the invented shop open, against a bare window."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path

from tests.bench.different_boxes import BOXES
from tests.bench.ratio import Ratio

SETTLED_S = 6.0
"""Long enough for the shop to open and the screens to fill; measured, not waited for in a test."""

GROWTH = 2.0
"""What is remembered between keys is bounded: before beliefs were arrays, these boxes made it 5.7 times."""


def measure() -> Iterator[Ratio]:
    """Resident megabytes, read from the kernel while both programs stand still. Linux only."""
    with tempfile.TemporaryDirectory() as folder:
        demo = [sys.executable, "-m", "gui", "demo", "--dir", folder, "--no-window"]
        subprocess.run(demo, check=True, capture_output=True)
        shop = next(Path(folder).rglob("*.sqlite"))
        ours = _resident(["-m", "gui", "--shop", str(shop)])
        many = [sys.executable, "-m", "tests.bench.different_boxes", str(shop)]
        said = subprocess.run(many, check=True, capture_output=True, text=True).stdout
    before, after = map(float, said.split())
    yield Ratio("memory, invented shop open", ours, "bare window", _resident(BARE), "MB")
    yield Ratio(f"memory, {BOXES} different boxes quoted", after, "one box quoted", before, "MB", GROWTH)


BARE = ("-m", "tests.bench.bare_window", "--stay")


def _resident(arguments: Sequence[str]) -> float:
    with subprocess.Popen([sys.executable, *arguments], stdout=subprocess.DEVNULL) as program:
        time.sleep(SETTLED_S)
        if program.poll() is not None:
            raise RuntimeError(f"{' '.join(arguments)} ended by itself with {program.returncode}")
        status = Path(f"/proc/{program.pid}/status").read_text(encoding="ascii")
        program.terminate()
    kilobytes = next(int(line.split()[1]) for line in status.splitlines() if line.startswith("VmRSS"))
    return kilobytes / 1024
