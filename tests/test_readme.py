"""Every command of the README works as it stands, in the order it stands there."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

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


def test_every_command_works_in_order(tmp_path: Path) -> None:
    (tmp_path / "box.json").write_text(blocks("json")[0], encoding="utf-8")
    home = str(tmp_path)
    surroundings = {**os.environ, "PYTHONPATH": str(ROOT), "HOME": home, "XDG_DATA_HOME": home}
    typed = commands()
    assert len(typed) > 25
    for words in typed:
        command = [sys.executable, "-m", "gui", *words[1:]]
        done = subprocess.run(
            command,
            cwd=tmp_path,
            env=surroundings,
            input=TYPED,
            start_new_session=True,  # a question goes to standard input, not to the terminal of whoever tests
            capture_output=True,
            text=True,
            timeout=120,
            check=False,
        )
        assert done.returncode == 0, (words, done.stderr)
        assert done.stdout.strip(), words
    papers = {path.name.rsplit("-", 1)[0] for path in (tmp_path / "papers").glob("*.pdf")}
    assert {"quote", "claim-slip", "labels"} <= papers
