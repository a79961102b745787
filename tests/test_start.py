"""Starting from a fresh copy: what is asked of the system, what is installed, what is run last."""

from __future__ import annotations

import ast
import subprocess
import sys
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from packaging.requirements import Requirement

from resources import start

ROOT = Path(__file__).parents[1]


class Programs:
    """Stands in for everything that start runs; remembers the command lines, fails those it is told to."""

    def __init__(self) -> None:
        self.ran: list[str] = []
        self.fails: set[str] = set()

    def __call__(self, command: Sequence[Any], **_: Any) -> subprocess.CompletedProcess[str]:
        words = " ".join(Path(str(word)).name if "/" in str(word) else str(word) for word in command)
        self.ran.append(words)
        failed = any(fragment in words for fragment in self.fails)
        return subprocess.CompletedProcess(command, int(failed), stdout="", stderr="")


@pytest.fixture
def programs(monkeypatch: pytest.MonkeyPatch) -> Programs:
    stand_in = Programs()
    monkeypatch.setattr(start.subprocess, "run", stand_in)
    return stand_in


@pytest.fixture
def lacks_egl(monkeypatch: pytest.MonkeyPatch) -> None:
    """A Debian without libEGL; it comes when its package is installed."""
    monkeypatch.setattr(start, "_loads", lambda library: library != "libEGL.so.1")
    monkeypatch.setattr(start, "_has_screen", lambda: False)
    monkeypatch.setattr(start.shutil, "which", lambda program, **_: f"/usr/bin/{program}")


def test_only_the_standard_library_is_used() -> None:
    tree = ast.parse(Path(start.__file__).read_text(encoding="utf-8"))
    imported = {
        name.split(".")[0]
        for node in ast.walk(tree)
        for name in (
            [alias.name for alias in node.names]
            if isinstance(node, ast.Import)
            else [node.module or ""]
            if isinstance(node, ast.ImportFrom)
            else []
        )
    }

    assert imported <= sys.stdlib_module_names


@pytest.mark.usefixtures("lacks_egl")
def test_without_root_the_exact_line_is_said(monkeypatch: pytest.MonkeyPatch, programs: Programs) -> None:
    monkeypatch.setattr(start.os, "geteuid", lambda: 1000)
    programs.fails = {"sudo -n true"}

    with pytest.raises(start.CannotStart) as said:
        start._bring_from_the_system(for_environment=False)

    assert "libEGL.so.1" in str(said.value)
    assert "    sudo apt-get update && sudo apt-get install --yes --no-install-recommends libegl1\n" in str(
        said.value
    )
    assert not any(ran.startswith("apt-get") for ran in programs.ran)


@pytest.mark.usefixtures("lacks_egl", "programs")
def test_where_there_is_no_sudo_the_line_is_one_for_root(monkeypatch: pytest.MonkeyPatch) -> None:
    """A bare Debian has none: a line with it could not be typed."""
    monkeypatch.setattr(start.os, "geteuid", lambda: 1000)
    monkeypatch.setattr(
        start.shutil, "which", lambda program, **_: None if program == "sudo" else f"/usr/bin/{program}"
    )

    with pytest.raises(start.CannotStart) as said:
        start._bring_from_the_system(for_environment=False)

    assert "As root, type this" in str(said.value)
    assert "sudo" not in str(said.value)
    assert "    apt-get update && apt-get install --yes --no-install-recommends libegl1\n" in str(said.value)


@pytest.mark.usefixtures("lacks_egl")
def test_root_installs_just_what_does_not_load(monkeypatch: pytest.MonkeyPatch, programs: Programs) -> None:
    monkeypatch.setattr(start.os, "geteuid", lambda: 0)

    with pytest.raises(start.CannotStart, match=r"still lacks libEGL\.so\.1"):
        start._bring_from_the_system(for_environment=False)

    assert programs.ran == ["apt-get install --yes --no-install-recommends libegl1"]


@pytest.mark.usefixtures("lacks_egl")
def test_stale_package_lists_are_refreshed_once(monkeypatch: pytest.MonkeyPatch, programs: Programs) -> None:
    monkeypatch.setattr(start.os, "geteuid", lambda: 0)
    programs.fails = {"install"}

    with pytest.raises(start.CannotStart, match="and this failed"):
        start._bring_from_the_system(for_environment=False)

    assert [ran.split()[1] for ran in programs.ran] == ["install", "update", "install"]


def test_a_missing_ensurepip_is_named_by_the_package_of_this_python(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(start, "_loads", lambda library: True)
    monkeypatch.setattr(start.importlib.util, "find_spec", lambda name: None)

    lacking = start._lacking(for_environment=True)

    assert list(lacking.values()) == [f"python3.{sys.version_info.minor}-venv"]


def test_the_tests_run_last_even_when_a_check_failed(
    programs: Programs, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    programs.fails = {"mypy"}

    code = start.check(["-k", "money"])

    assert code == 1
    told = [ran.removeprefix(f"{start.PYTHON.name} ") for ran in programs.ran]
    assert [ran.split()[1] for ran in told[:3]] == ["ruff", "ruff", "mypy"]
    assert "lint_imports_command" in told[3]
    assert told[4].startswith("-m pytest ")
    assert told[4].endswith(" -k money")
    assert "these checks failed: types" in capsys.readouterr().out


def test_the_tools_are_installed_and_nothing_is_run(
    programs: Programs, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """CI builds the application beside the checks, so both need the environment first."""
    prepared: list[bool] = []
    monkeypatch.setattr(start, "prepare", lambda *, with_tools: prepared.append(with_tools))

    assert start.main(["tools"]) == 0
    assert (prepared, programs.ran) == ([True], [])
    assert start.main(["tools", "-k", "money"]) == 2
    assert "tools" in capsys.readouterr().err


def test_packages_are_installed_again_only_when_the_versions_change(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, programs: Programs
) -> None:
    for name in ("pyproject.toml", "constraints.txt"):
        (tmp_path / name).write_text("one")
    (tmp_path / ".venv").mkdir()
    monkeypatch.setattr(start, "ROOT", tmp_path)
    monkeypatch.setattr(start, "VENV", tmp_path / ".venv")

    assert not start._is_installed(with_tools=False)
    start._install(with_tools=True)
    assert "-c constraints.txt -e .[dev]" in programs.ran[-1]
    assert start._is_installed(with_tools=True)
    assert start._is_installed(with_tools=False), "the developers' set holds the other"

    (tmp_path / "constraints.txt").write_text("two")
    assert not start._is_installed(with_tools=True)


def test_every_requirement_is_pinned_within_its_range() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = [Requirement(line) for line in project["dependencies"] + project["optional-dependencies"]["dev"]]
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pinned = dict(_normal(line).split("==") for line in lines if not line.startswith("#"))

    unpinned = [one.name for one in wanted if not one.specifier.contains(pinned.get(_normal(one.name), "0"))]
    assert unpinned == []


def _normal(name: str) -> str:
    return name.lower().replace("_", "-")
