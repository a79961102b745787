"""The command `tapewright` refuses to run somebody else's `core`, `gui` or `resources`."""

from __future__ import annotations

import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
LAUNCHER = ROOT / "resources" / "launcher"


def _start(*path: Path, words: tuple[str, ...] = ("--version",)) -> subprocess.CompletedProcess[str]:
    surroundings = {**os.environ, "PYTHONPATH": os.pathsep.join(map(str, path))}
    command = [sys.executable, "-m", "tapewright", *words]
    return subprocess.run(
        command, cwd=path[0], env=surroundings, capture_output=True, text=True, timeout=60, check=False
    )


@pytest.mark.parametrize("name", ["core", "gui", "resources"])
@pytest.mark.parametrize("kind", ["package", "module"])
def test_a_foreign_package_is_named_and_nothing_of_it_runs(tmp_path: Path, name: str, kind: str) -> None:
    planted = tmp_path / name if kind == "package" else tmp_path / f"{name}.py"
    code = planted / "__init__.py" if kind == "package" else planted
    code.parent.mkdir(exist_ok=True)
    code.write_text("print('foreign code ran')\n", encoding="utf-8")

    done = _start(tmp_path, LAUNCHER, ROOT)

    assert (done.returncode, done.stdout) == (4, "")
    assert done.stderr.count("\n") == 1
    assert f"`{name}`" in done.stderr
    assert str(planted.resolve()) in done.stderr


def test_a_folder_of_that_name_without_code_is_in_nobodys_way(tmp_path: Path) -> None:
    (tmp_path / "resources").mkdir()
    done = _start(tmp_path, LAUNCHER, ROOT)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("tapewright ")


def test_files_of_ours_overwritten_by_another_package_are_told(tmp_path: Path) -> None:
    """Installed beside others: the launcher lies beside the packages, and another `core` lies over ours."""
    (tmp_path / "tapewright.py").write_bytes((LAUNCHER / "tapewright.py").read_bytes())
    for name in ("core", "gui", "resources"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "__init__.py").touch()
    (tmp_path / "gui" / "__main__.py").write_bytes((ROOT / "gui" / "__main__.py").read_bytes())

    done = _start(tmp_path)

    assert (done.returncode, done.stderr.count("\n")) == (4, 1)
    assert str(tmp_path.resolve() / "core") in done.stderr


def test_the_command_starts_the_launcher_installed_and_from_the_checkout() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert project["project"]["scripts"] == {"tapewright": "tapewright:main"}
    build = project["tool"]["hatch"]["build"]
    here = LAUNCHER.relative_to(ROOT).as_posix()
    assert build["dev-mode-dirs"] == [".", here]
    # Not by force-include: it would copy the module away from its packages when installed in place.
    assert build["targets"]["wheel"] == {"packages": ["core", "gui", "resources"], "sources": [here]}


def test_the_command_of_this_environment_starts() -> None:
    """As it was installed, in place or not: the launcher finds the packages that belong to it."""
    command = Path(sys.executable).with_name("tapewright")
    if not command.exists():
        pytest.skip("the program is not installed here")
    done = subprocess.run([command, "--version"], capture_output=True, text=True, timeout=60, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("tapewright ")
