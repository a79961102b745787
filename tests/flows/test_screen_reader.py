"""The program as a screen reader hears it: the real window, over the desktop's own accessibility bus."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from core.services.invented_shop import InventedShop
from core.wording.messages import say
from gui.toolkit import actions
from tests.support.demonstration import AFTERNOON

TRAY = say("counter", "tray")
READER = Path(__file__).parents[1] / "support" / "screen_reader.py"
SYSTEM = "/usr/bin/python3"
"""The system's Python: the library of the reader comes with the system's packages."""
NEEDED = ("Xvfb", "dbus-run-session", "/usr/libexec/at-spi-bus-launcher", SYSTEM)
TO_BE_NAMED = {"text", "check box", "radio button", "push button", "table", "table cell", "list", "list item"}


@pytest.fixture(scope="module")
def shop(request: pytest.FixtureRequest) -> Path:
    """The invented shop; skips where there is no screen reader to hear it."""
    if not _can_hear():
        if os.environ.get("CI"):
            pytest.fail("there is no screen reader's library, and this run may not go without")
        pytest.skip("no screen reader's library (Debian: xvfb, at-spi2-core, python3-pyatspi)")
    made: InventedShop = request.getfixturevalue("made")
    return made.shop


def _can_hear() -> bool:
    if not all(shutil.which(program) for program in NEEDED):
        return False
    return subprocess.run([SYSTEM, "-c", "import pyatspi"], capture_output=True, check=False).returncode == 0


def hear(shop: Path, *steps: list[str]) -> list[Any]:
    """What came of each step (`tests/support/screen_reader.py` lists them)."""
    program = [sys.executable, "-m", "gui", "--shop", str(shop), "--now", AFTERNOON.isoformat()]
    told = shop.with_name("heard.json")
    heard = subprocess.run(
        ["dbus-run-session", "--", SYSTEM, str(READER), str(told), *program],
        input=json.dumps(steps),
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert heard.returncode == 0, heard.stderr
    return json.loads(told.read_text(encoding="utf-8"))


def test_a_caller_is_answered_without_seeing_the_screen(shop: Path) -> None:
    steps = (
        ["hear", TRAY],
        ["press", "Phone  F2"],
        ["type", "Who is calling?", "Edwin Marsh"],
    )
    *_, answer = hear(shop, *steps, ["hear", "Edwin's seven tapes"])
    assert "one is playing now" in answer


def test_everything_the_keyboard_comes_to_is_called_something(shop: Path) -> None:
    steps = (
        ["hear", TRAY],
        ["read"],
        ["press", "Bench  F3"],
        ["hear", "Tapes at work"],
        ["read"],
    )
    _, counter, _, _, bench = hear(shop, *steps)
    tabs = [name for role, name, _ in counter if role == "page tab"]
    assert tabs[: len(actions.MOMENTS)] == [key.words_with_keys for key in actions.MOMENTS]
    for heard in (counter, bench):
        reached = [(role, name) for role, name, focusable in heard if focusable]
        assert {role for role, _ in reached} & TO_BE_NAMED
        assert [role for role, name in reached if not name.strip() and role in TO_BE_NAMED] == []


def test_the_cells_of_the_tray_say_their_column(shop: Path) -> None:
    _, heard = hear(shop, ["hear", TRAY], ["read"])
    assert ["table cell", "Count, empty", True] in heard
