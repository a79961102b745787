"""The fences between the rooms hold, and a bad import breaks them."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LINT_IMPORTS = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()"]


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A copy of the house in which an import can be planted."""
    for room in ("core", "gui"):
        shutil.copytree(ROOT / room, tmp_path / room, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def test_the_fences_hold() -> None:
    held, answer = _look_at(ROOT)

    assert held, answer


SHELVES = "The shelves of core lie one above the other"


@pytest.mark.parametrize(
    ("room", "planted", "contract"),
    [
        ("core/model/ranges.py", "import PySide6.QtCore", "core knows neither the screens nor Qt"),
        ("core/model/money.py", "from gui.toolkit import theme", "core knows neither the screens nor Qt"),
        ("core/model/ranges.py", "import sqlalchemy", "The pure shelves know no database"),
        ("core/papers/handover/receipt.py", "from core.store import tables", "Papers are made from records"),
        ("core/capture/trims.py", "import av", "PyAV is optional"),
        ("gui/toolkit/text.py", "from core.store import engines", "Screens reach the shop's records"),
        ("core/model/ranges.py", "from core.catalogue import formats", SHELVES),
        ("core/catalogue/formats.py", "from core.playtime import cuts", SHELVES),
        ("core/playtime/cuts.py", "from core.scheduling import opening_hours", SHELVES),
        ("core/scheduling/plan.py", "from core.promise import chances", SHELVES),
        ("core/store/tables.py", "from core.services import jobs", SHELVES),
        (
            "gui/phone/answer_slip.py",
            "from gui.bench import tape_card",
            "The screens lie one above the other",
        ),
        ("gui/widgets/tray.py", "from gui.app import main_window", "The screens lie one above the other"),
    ],
)
def test_a_planted_import_breaks_its_fence(house: Path, room: str, planted: str, contract: str) -> None:
    with (house / room).open("a", encoding="utf-8") as file:
        file.write(f"\n{planted}\n")

    held, answer = _look_at(house)

    assert not held
    assert any(line.startswith(contract) and " BROKEN" in line for line in answer.splitlines()), answer


def test_every_shelf_stands_in_its_layer() -> None:
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    named = {
        name
        for contract in contracts
        if contract["type"] == "layers"
        for layer in contract["layers"]
        for name in layer.split(" | ")
    }
    there = {
        f"{house}.{room.parent.name}"
        for house in ("core", "gui")
        for room in (ROOT / house).glob("*/__init__.py")
    }

    assert named == there, "name it in a layer of pyproject.toml"


def _look_at(house: Path) -> tuple[bool, str]:
    command = [*LINT_IMPORTS, "--no-logo", "--cache-dir", house / ".import_linter_cache"]
    done = subprocess.run(command, cwd=house, capture_output=True, text=True, timeout=60)
    return done.returncode == 0, done.stdout + done.stderr
