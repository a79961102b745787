"""Names other programs rely on: each subcommand of the contract answers with its fixed keys and types."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from core.cli import entry

NOW = "2026-03-03T10:00:00-05:00"
RANGE = {"low": (int, float), "likely": (int, float), "high": (int, float)}
QUOTE: dict[str, Any] = {
    "currency": str,
    "book": str,
    "valid_until": str,
    "tapes": [
        {
            "line": int,
            "n": int,
            "format": str,
            "minutes": RANGE,
            "outcome": str,
            "repairs": list,
            "cautions": list,
            "not_for_reuse": bool,
        }
    ],
    "capture_hours": RANGE,
    "charges": [
        {
            "code": str,
            "text": str,
            "because": str,
            "quantity": str,
            "unit_minor": int,
            "amount_minor": RANGE,
        }
    ],
    "net_minor": RANGE,
    "tax_minor": RANGE,
    "gross_minor": RANGE,
    "rounding_minor": RANGE,
    "due_minor": RANGE,
    "taxes": [{"text": str, "percent": str, "base_minor": RANGE, "tax_minor": RANGE}],
    "ceiling_minor": int,
    "deposit_minor": int,
    "storage": {"gigabytes": RANGE, "discs": RANGE},
    "promise": {
        "date": str,
        "stated": float,
        "p50": str,
        "p90": str,
        "held_by": list,
        "chances": [{"date": str, "by": float}],
    },
    "warnings": list,
}
BOX = {
    "customer": {"name": "Ada Fenwick", "phone": "+1 212 555 0142", "email": None},
    "tv": "ntsc",
    "tapes": [
        {
            "count": 2,
            "format": "vhs",
            "marking": "T-120",
            "speed": "unknown",
            "findings": [],
            "label": "attic",
        },
        {
            "count": 1,
            "format": "hi8",
            "marking": "P6-120",
            "recorded_as": "digital8",
            "findings": ["snapped"],
        },
    ],
    "deliver": [{"as": "files", "codec": "h264", "on": "usb"}, {"as": "dvd"}],
    "rush": False,
    "needed_by": None,
}

Run = Callable[..., tuple[int, Any]]


def holds(found: Any, wanted: Any, at: str = "answer") -> None:
    """Asserts that ``found`` has at least the keys of ``wanted``, each with its type."""
    if isinstance(wanted, dict):
        assert isinstance(found, dict), at
        assert wanted.keys() <= found.keys(), f"{at}: {sorted(wanted.keys() - found.keys())} missing"
        for key, inner in wanted.items():
            holds(found[key], inner, f"{at}.{key}")
    elif isinstance(wanted, list):
        assert isinstance(found, list), at
        assert found, at
        for place, each in enumerate(found):
            holds(each, wanted[0], f"{at}[{place}]")
    else:
        assert isinstance(found, wanted), f"{at}: {found!r}"


@pytest.fixture
def run(tmp_path: Path, empty_file: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs one subcommand on a shop of its own and gives the exit code with the JSON document."""

    shop = str(shutil.copy(empty_file, tmp_path / "shop.sqlite"))

    def asked(*words: str) -> tuple[int, Any]:
        code = entry.run([*words, "--json", "--shop", shop, "--now", NOW])
        printed = capsys.readouterr()
        return code, json.loads(printed.out) if code == 0 else printed.err

    return asked


@pytest.fixture
def box(tmp_path: Path) -> str:
    file = tmp_path / "box.json"
    file.write_text(json.dumps(BOX), encoding="utf-8")
    return str(file)


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        (
            ("playtime", "--format", "vhs", "--marking", "T-120", "--speed", "sp", "--tv", "ntsc"),
            {"minutes": RANGE, "full_minutes": float, "metres": float, "speed_mm_s": float, "sources": [str]},
        ),
        (
            ("cut", "--format", "vhs", "--speed", "sp", "--tv", "ntsc", "--cm", "10"),
            {"seconds_removed": float, "seconds_disturbed": float},
        ),
        (
            ("pack", "--format", "vhs", "--marking", "T-120", "--radius-mm", "30", "--speed", "sp"),
            {"metres": float, "minutes": (float, dict)},
        ),
    ],
    ids=["playtime", "cut", "pack"],
)
def test_questions_about_cassettes(run: Run, words: tuple[str, ...], wanted: Any) -> None:
    code, answer = run(*words)
    assert code == 0, answer
    holds(answer, wanted)


def test_the_life_of_a_box(run: Run, box: str, tmp_path: Path) -> None:
    holds(run("quote", box)[1], QUOTE)
    booked = run("book", box, "--paper", str(tmp_path / "papers"))[1]
    holds(booked, {"number": str, "tapes": [{"code": str, "line": int, "n": int}], "papers": [str]})
    holds(booked["quote"], QUOTE)
    first, spliced = booked["tapes"][0]["code"], booked["tapes"][2]["code"]
    tape = {"code": str, "station": str, "not_for_reuse": bool}
    holds(run("status", "Fenwick")[1], {"jobs": [{"number": str, "spoken": str, "tapes": [tape]}]})
    holds(run("promises")[1], {"promises": [{"date": str, "chance": float, "held_by": list}]})
    holds(run("move", first, "cannot-be-played", "--finding", "mould")[1], tape)
    run("move", spliced, "looked-over")
    run("move", spliced, "at-the-bench")
    told = run("splice", spliced, "--at-minutes", "5", "--cut-cm", "2", "--joined-with", "tape")[1]
    holds(told, tape)
    assert told["not_for_reuse"]
    holds(run("mark", spliced)[1], tape)
    handed = run("pickup", booked["number"], "--tape", first, "--signed-by", "Ada Fenwick")[1]
    holds(handed, {"number": str, "handed_back": [str], "still_here": [str], "receipt": (str, type(None))})


def test_copies_and_the_check(run: Run, box: str, tmp_path: Path) -> None:
    run("book", box)
    code, made = run("backup", str(tmp_path / "copies"))
    assert code == 0
    code, told = run("verify")
    assert (code, told["sound"], told["problems"]) == (0, True, [])
    assert run("restore", made["file"])[0] == 0


def test_the_demonstration_names_its_files(run: Run, tmp_path: Path) -> None:
    code, made = run("demo", "--dir", str(tmp_path / "demo"), "--no-window")
    assert code == 0
    holds(made, {"shop": str, "files": [str]})
    assert all(Path(each).exists() for each in made["files"])


def test_exit_codes(run: Run, box: str, tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.json"
    wrong.write_text('{"tapes": [{"count": 0, "format": "vhs"}]}', encoding="utf-8")
    code, said = run("quote", str(wrong))
    assert (code, "wrong.json: tapes[0].count" in said) == (2, True)
    booked = run("book", box)[1]
    assert run("pickup", booked["number"], "--signed-by", "Ada Fenwick")[0] == 3
    assert run("move", booked["tapes"][0]["code"], "ready")[0] == 3
    assert run("status", "000018", "--no-such-option")[0] == 2
