"""Command lines carried out here, with what they printed, and what to say of it."""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from core.cli import entry
from tests.support.inventories import GOOD, written

ROOT = Path(entry.__file__).parents[2]
NOW = "2026-03-02T10:00:00-05:00"
"""A Monday."""


@dataclass(frozen=True, slots=True)
class Printed:
    """What one command line left behind."""

    code: int
    out: str
    err: str

    @property
    def document(self) -> dict[str, Any]:
        """The one JSON document on standard output."""
        document: dict[str, Any] = json.loads(self.out)
        return document


class Typist:
    """Types command lines at one shop."""

    def __init__(self, shop: Path | str, capture: pytest.CaptureFixture[str]) -> None:
        self.shop = shop
        self._capture = capture

    def __call__(self, *words: str | Path, now: str = NOW, as_json: bool = True) -> Printed:
        """Run one subcommand at the shop."""
        options = ["--shop", str(self.shop), "--now", now, *(["--json"] if as_json else [])]
        return self.plainly(*words, *options)

    def plainly(self, *words: str | Path) -> Printed:
        """Run exactly these words."""
        self._capture.readouterr()
        code = entry.run([str(word) for word in words])
        printed = self._capture.readouterr()
        return Printed(code, printed.out, printed.err)


def contents(shop: Path) -> Sequence[str]:
    """Everything in a shop's file, statement by statement."""
    connection = sqlite3.connect(f"{shop.as_uri()}?mode=ro", uri=True)
    try:
        return list(connection.iterdump())
    finally:
        connection.close()


@pytest.fixture
def typed(tmp_path: Path, empty_file: Path, capsys: pytest.CaptureFixture[str]) -> Typist:
    """Types at a shop that is set up and has no orders yet."""
    return Typist(shutil.copy(empty_file, tmp_path / "shop.sqlite"), capsys)


@pytest.fixture
def typed_first(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Typist:
    """Types at a shop that is not there yet."""
    return Typist(tmp_path / "shop.sqlite", capsys)


@pytest.fixture
def box(tmp_path: Path) -> Path:
    """The file of the good box."""
    file = tmp_path / "box.json"
    file.write_bytes(written(GOOD))
    return file


@pytest.fixture
def codes(typed: Typist, box: Path) -> list[str]:
    """Tape codes of the booked good box: two VHS, one snapped Hi8, one MiniDV."""
    return [tape["code"] for tape in typed("book", box).document["tapes"]]


READY = ("looked-over", "cleared-to-play", "playing", "being-checked", "ready")


def walk(typed: Typist, code: str, *stations: str) -> None:
    """One tape through these stations; it is ready with the minutes it played."""
    for station in stations:
        moved = typed("move", code, station, *(("--minutes", "60") if station == "ready" else ()))
        assert moved.code == 0, moved.err


COLUMNS = ("low", "likely", "high")


def money_of(quote: dict[str, Any], column: str) -> tuple[int, int, int, int]:
    charges = sum(charge["amount_minor"][column] for charge in quote["charges"])
    return charges, *(quote[name][column] for name in ("net_minor", "tax_minor", "gross_minor"))


def adds_up(quote: dict[str, Any]) -> bool:
    """Charges to net, net and tax to gross, in every column, in whole minor units."""
    figures = [money_of(quote, column) for column in COLUMNS]
    return all(
        charges == net and net + tax == gross and all(isinstance(one, int) for one in (charges, tax, gross))
        for charges, net, tax, gross in figures
    )


def environment(home: Path) -> dict[str, str]:
    """The environment of a user whose home is ``home``."""
    return {**os.environ, "HOME": str(home), "XDG_DATA_HOME": str(home), "XDG_STATE_HOME": str(home)}


def run_python(*words: str, home: Path, stdin: bytes = b"") -> subprocess.CompletedProcess[str]:
    """A new Python in the project's folder."""
    done = subprocess.run(
        [sys.executable, *words],
        cwd=ROOT,
        env=environment(home),
        input=stdin,
        capture_output=True,
        check=False,
    )
    return subprocess.CompletedProcess(words, done.returncode, done.stdout.decode(), done.stderr.decode())
