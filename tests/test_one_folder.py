"""What goes into the one-folder application; CI builds and tries it (``resources/one_folder.py --try``)."""

from __future__ import annotations

import subprocess
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from resources import one_folder
from tests import shelf_coverage

ROOT = Path(__file__).parents[1]


def test_what_is_found_at_run_time_goes_in() -> None:
    options = one_folder.options()
    assert {"--collect-submodules=core", "--collect-submodules=gui"} <= set(options)
    data = dict(each.removeprefix("--add-data=").split(":") for each in options if "--add-data=" in each)
    assert {Path(source): target for source, target in data.items()} == {
        ROOT / "resources": "resources",
        ROOT / "core" / "store" / "migrations": "core/store/migrations",
    }


def test_the_trial_stops_at_the_first_step_that_fails(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A folder whose program answers every command but holds no version."""

    def answer(command: Sequence[Any], **_: Any) -> subprocess.CompletedProcess[str]:
        return subprocess.CompletedProcess(command, 0, stdout="{}", stderr="")

    monkeypatch.setattr(one_folder.subprocess, "run", answer)
    with pytest.raises(AssertionError):
        one_folder.try_out(tmp_path)


def test_nothing_but_try_is_understood(capsys: pytest.CaptureFixture[str]) -> None:
    assert one_folder.main(["--tryy"]) == 2
    assert "--try" in capsys.readouterr().err


def test_coverage_is_measured_of_every_shelf_that_is_pure() -> None:
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]
    pure = {
        module.removeprefix("core.")
        for one in contracts["contracts"]
        if one["id"] in ("pure-shelves", "papers-see-records")
        for module in one["source_modules"]
    }
    assert set(shelf_coverage.SHELVES) == pure
