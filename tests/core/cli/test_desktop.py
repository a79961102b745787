"""Completion as the shells themselves do it; the menu entry as the desktops' own checker reads it."""

from __future__ import annotations

import configparser
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from core.cli.subcommands import SUBCOMMANDS, desktop
from tests.support.typed import Typist

BASH = """
source "$1"; COMP_WORDS=(tapewright "${@:2}"); COMP_CWORD=$(($# - 1))
_shtab_tapewright; echo "${COMPREPLY[@]}"
"""
"""What bash does on Tab: it calls the function that is registered for the command."""


def _shell(name: str) -> str:
    return shutil.which(name) or pytest.skip(f"{name} is not installed")


@pytest.fixture
def script(typed: Typist, tmp_path: Path, request: pytest.FixtureRequest) -> Path:
    told = typed("completion", request.param, as_json=False)
    assert (told.code, told.err) == (0, "")
    file = tmp_path / f"completion.{request.param}"
    file.write_text(told.out, encoding="utf-8")
    return file


@pytest.mark.parametrize("script", ["bash"], indirect=True)
@pytest.mark.parametrize(
    ("words", "offered"),
    [
        (["loa"], {"load-now"}),
        (["quote", "--pa"], {"--paper"}),
        (["status", "--pa"], set()),
        (["book", "--pa"], {"--paper"}),
        (["playtime", "--speed", "l"], {"lp"}),
    ],
)
def test_bash_completes_subcommands_options_and_values(
    script: Path, words: list[str], offered: set[str]
) -> None:
    command = [_shell("bash"), "-c", BASH, "bash", str(script), *words]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=True)
    assert done.stderr == ""
    assert offered <= set(done.stdout.split())
    assert bool(done.stdout.split()) == bool(offered)


@pytest.mark.parametrize("script", ["fish"], indirect=True)
def test_fish_completes_subcommands_and_options(script: Path, tmp_path: Path) -> None:
    def offered(line: str) -> set[str]:
        code = f"source {shlex.quote(str(script))}; complete -C {shlex.quote(line)}"
        surroundings = {"HOME": str(tmp_path), "PATH": "/usr/bin:/bin"}
        done = subprocess.run(
            [_shell("fish"), "--no-config", "-c", code],
            capture_output=True,
            text=True,
            timeout=60,
            check=True,
            env=surroundings,
        )
        return {each.split("\t")[0] for each in done.stdout.splitlines()}

    assert offered("tapewright loa") == {"load-now"}
    assert "--signed-by" in offered("tapewright pickup --si")


@pytest.mark.parametrize("script", ["zsh"], indirect=True)
def test_zsh_takes_the_script_from_a_folder_of_functions(script: Path) -> None:
    """As the README says: under the name ``_tapewright`` in a folder of ``fpath``."""
    script.rename(script.with_name("_tapewright"))
    code = (
        f"fpath=({shlex.quote(str(script.parent))} $fpath); autoload -U compinit && compinit -u -D;"
        "autoload +X _tapewright && print $_comps[tapewright]"
    )
    done = subprocess.run(
        [_shell("zsh"), "-f", "-c", code], capture_output=True, text=True, timeout=60, check=True
    )
    assert (done.stdout.strip(), done.stderr) == ("_tapewright", "")
    told = script.with_name("_tapewright").read_text(encoding="utf-8")
    assert [name for name in SUBCOMMANDS if f"\n    {name}:'" not in told] == []


def test_the_entry_and_the_icon_lie_where_desktops_look(
    typed: Typist, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    command = tmp_path / "bin" / "tapewright"
    command.parent.mkdir()
    command.touch(0o755)
    monkeypatch.setattr(sys, "executable", str(command.with_name("python")))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))

    told = typed.plainly("desktop-entry", "--json")

    data = tmp_path / "data"
    entry = data / "applications" / "tapewright.desktop"
    icons = data / "icons" / "hicolor"
    assert told.document["files"] == [
        str(entry),
        str(icons / "scalable" / "apps" / "tapewright.svg"),
        str(icons / "256x256" / "apps" / "tapewright.png"),
    ]
    assert all(Path(file).stat().st_size > 0 for file in told.document["files"])
    read = configparser.RawConfigParser()
    read.read(entry, encoding="utf-8")
    assert read["Desktop Entry"]["exec"] == f'"{command}"'
    checker = shutil.which("desktop-file-validate") or pytest.skip("desktop-file-utils is not installed")
    checked = subprocess.run([checker, entry], capture_output=True, text=True, timeout=60, check=False)
    assert (checked.returncode, checked.stdout) == (0, "")


def test_signs_of_the_entry_s_own_are_escaped() -> None:
    """Source: Desktop Entry Specification 1.1, "The Exec key" and its example of a literal backslash."""
    assert desktop.quoted(Path("/home/a b/tapewright")) == '"/home/a b/tapewright"'
    assert desktop.quoted(Path("/p%f/$x")) == '"/p%%f/\\\\$x"'
    assert desktop.quoted(Path("/a\\b")) == '"/a\\\\\\\\b"'


def test_without_a_command_to_start_nothing_is_written(
    typed: Typist, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "executable", str(tmp_path / "python"))
    told = typed.plainly("desktop-entry", "--dir", tmp_path / "data")
    assert (told.code, told.out) == (4, "")
    assert str(tmp_path / "tapewright") in told.err
    assert not (tmp_path / "data").exists()


def test_elsewhere_than_on_linux_another_way_is_named(typed: Typist, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "darwin")
    told = typed.plainly("desktop-entry")
    assert (told.code, told.out) == (3, "")
    assert "one-folder application" in told.err
