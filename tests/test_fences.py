"""The fences between the rooms hold, and a bad import breaks them."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LINT_IMPORTS = Path(sys.executable).parent / "lint-imports"

OPEN_ROOMS: frozenset[str] = frozenset(
    {
        "core.audit",
        "core.backup",
        "core.bench",
        "core.calls",
        "core.captures",
        "core.cli",
        "core.columns",
        "core.copying",
        "core.customers",
        "core.database",
        "core.daysoff",
        "core.decks",
        "core.demo",
        "core.donors",
        "core.drafts",
        "core.dump",
        "core.entries",
        "core.expectations",
        "core.failures",
        "core.final",
        "core.helping",
        "core.history",
        "core.jobs",
        "core.known_names",
        "core.looks",
        "core.paper_files",
        "core.payments",
        "core.pickups",
        "core.present",
        "core.promises",
        "core.recorded",
        "core.recordings",
        "core.repairs",
        "core.schema",
        "core.search",
        "core.shelf",
        "core.shop",
        "core.shopview",
        "core.tables",
        "core.tally",
        "core.tapes",
        "core.to_load",
        "core.turns",
        "core.unit",
    }
)
"""Rooms that may reach the database, the papers or the command line; every other room is pure."""


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


@pytest.mark.parametrize(
    ("room", "planted", "contract"),
    [
        ("core/ranges.py", "import PySide6.QtCore", "core knows neither the screens nor Qt"),
        ("core/money.py", "from gui import theme", "core knows neither the screens nor Qt"),
        ("core/ranges.py", "import sqlalchemy", "The pure rooms know no database"),
        ("core/documents/__init__.py", "from core import tables", "Papers are made from records"),
        ("core/captured/trims.py", "import av", "PyAV is optional"),
        ("gui/text.py", "from core import database", "Screens reach the shop's records"),
    ],
)
def test_a_planted_import_breaks_its_fence(house: Path, room: str, planted: str, contract: str) -> None:
    with (house / room).open("a", encoding="utf-8") as file:
        file.write(f"\n{planted}\n")

    held, answer = _look_at(house)

    assert not held
    assert any(line.startswith(contract) and " BROKEN" in line for line in answer.splitlines()), answer


def test_every_room_of_core_is_either_pure_or_named_as_open() -> None:
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    pure = next(set(c["source_modules"]) for c in contracts if c["id"] == "pure-rooms")
    rooms = {f"core.{path.stem}" for path in (ROOT / "core").glob("*.py") if path.stem != "__init__"}
    rooms.add("core.captured")

    assert pure.isdisjoint(OPEN_ROOMS)
    assert rooms - pure - OPEN_ROOMS == set(), "name it in pyproject.toml's pure-rooms, or in OPEN_ROOMS"
    assert (pure | OPEN_ROOMS) - rooms == set(), "these rooms are gone"


def _look_at(house: Path) -> tuple[bool, str]:
    command = [LINT_IMPORTS, "--no-logo", "--cache-dir", house / ".import_linter_cache"]
    done = subprocess.run(command, cwd=house, capture_output=True, text=True, timeout=60)
    return done.returncode == 0, done.stdout + done.stderr
