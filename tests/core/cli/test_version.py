"""The version is told, and a computer without a screen gets a sentence instead of a crash."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from core.cli import entry
from core.wording.messages import say

ROOT = Path(__file__).parents[3]


def test_the_version_is_that_of_the_project(capsys: pytest.CaptureFixture[str]) -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert entry.run(["--version"]) == 0
    assert capsys.readouterr().out == f"tapewright {project['version']}\n"


def test_without_a_screen_the_window_is_refused_in_a_sentence(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(entry, "_OWN_SCREEN", ())
    opened: list[object] = []
    assert entry.run([], open_window=lambda options: opened.append(options) or 0) == 4
    assert opened == []
    assert capsys.readouterr().err == f"tapewright: {say('cli', 'no_screen')}\n"
