"""Every command of the README works as it stands, in the order it stands there."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from core.cli import entry

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
TYPED = "2580\n"
"""What is typed where a command asks: only for a new PIN."""


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def commands() -> list[list[str]]:
    lines = (line for block in blocks("console") for line in block.splitlines())
    return [shlex.split(line, comments=True) for line in lines if line.startswith("tapewright ")]


def test_it_opens_with_the_job_in_one_paragraph_and_the_two_commands() -> None:
    paragraphs = README.split("\n\n")
    assert paragraphs[0] == "# Tapewright"
    assert paragraphs[1].startswith("A small shop")
    assert "python3 resources/start.py " in blocks("console")[0]
    assert "python3 resources/start.py test" in blocks("console")[0]


def command_of(words: Sequence[str]) -> tuple[str, ...]:
    """What a line is an example of: its subcommand; of ``shop`` what is done with the shop."""
    rest = list(words[1:])
    while rest[0] == "--who":
        del rest[:2]
    return tuple(rest[:2] if rest[0] == "shop" else rest[:1])


def test_every_command_works_in_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    """The first example of every command is a program started from nothing; further ones go on in this
    process, which has imported what a program takes most of its time to import."""
    (tmp_path / "box.json").write_text(blocks("json")[0], encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    for name in ("HOME", "XDG_DATA_HOME"):
        monkeypatch.setenv(name, str(tmp_path))
    typed = commands()
    assert len(typed) > 25
    seen = set()
    for words in typed:
        is_first = command_of(words) not in seen
        seen.add(command_of(words))
        code, out, err = started(words, tmp_path) if is_first else carried_out_here(words, capfd)
        assert code == 0, (words, err)
        assert out.strip(), words
    papers = {path.name.rsplit("-", 1)[0] for path in (tmp_path / "papers").glob("*.pdf")}
    assert {"quote", "claim-slip", "labels"} <= papers


def started(words: Sequence[str], folder: Path) -> tuple[int, str, str]:
    done = subprocess.run(
        [sys.executable, "-m", "gui", *words[1:]],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        input=TYPED,
        start_new_session=True,  # a question goes to standard input, not to the terminal of whoever tests
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    return done.returncode, done.stdout, done.stderr


def carried_out_here(words: Sequence[str], capfd: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    capfd.readouterr()
    code = entry.run(words[1:])
    return code, *capfd.readouterr()
