"""Where the files lie that come with the program: catalogue, price books, fonts, wording."""

from __future__ import annotations

from pathlib import Path

_ROOT = Path(__file__).resolve().parents[2] / "resources"


def path(*parts: str) -> Path:
    """The place of one file or folder below ``resources``; whether it exists is the caller's question."""
    return _ROOT.joinpath(*parts)
