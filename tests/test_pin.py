"""The canary of the pinned Qt binding.

PySide6 6.12.0 drops a reference to None, True or False with each call on CPython 3.10 and 3.11 and
aborts after some hundred signals; 6.11.1 to 6.11.3 do not (measured on Linux x86-64, CPython 3.11.7).
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import PySide6

ROOT = Path(__file__).parents[1]
TOLERATED = 200
"""References that may come and go by themselves; a lost one per call would be thousands."""


def test_qt_is_the_pinned_version() -> None:
    pinned = [line for line in (ROOT / "constraints.txt").read_text().splitlines() if "PySide6" in line]

    assert pinned == [f"PySide6_Essentials=={PySide6.__version__}"]
    assert f'"PySide6-Essentials=={PySide6.__version__}"' in (ROOT / "pyproject.toml").read_text()


def test_twenty_thousand_calls_lose_no_reference_to_the_singletons() -> None:
    command = [sys.executable, "-m", "tests.support.storm"]
    storm = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=120)

    assert storm.returncode == 0, storm.stderr
    answer = json.loads(storm.stdout)
    assert answer["operations"] == 20_000
    assert all(abs(drift) < TOLERATED for drift in answer["drift"].values()), answer
