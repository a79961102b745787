"""What tells of a customer need not be in the list of processes: @FILE, or - and one line for each."""

from __future__ import annotations

import argparse
import io
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from time import monotonic

import pytest

from core.cli import entry
from core.cli.argument_parser import LONGEST_TEXT, private, private_or_nothing, text
from tests.support.typed import ROOT, Typist, environment

NOT_PERSONAL = {
    "number": "an order number",
    "code": "a tape code",
    "tape": "a tape code",
    "file": "the name of a file",
    "files": "names of files",
    "key": "the name of a file",
    "dir": "the name of a folder",
    "from_place": "a file or a server",
    "to_place": "a file or a server",
    "shop": "a file or a server",
    "command": "an id of the caller's own",
    "who": "somebody who works here, by whose name the history goes; with a token it is left out",
    "person": "somebody who works here",
    "token": "what a token is for; the token itself is never an argument",
    "user": "a user of a computer, whom the list of processes shows anyway",
    "name": "a deck; the name of a customer is `private`",
    "deck": "a deck",
    "format": "a key of the catalogue",
    "marking": "printed on a cassette by its maker",
    "recorded_as": "a key of the catalogue",
    "found_as": "a key of the catalogue",
    "finding": "a key of the catalogue",
    "repair": "a key of the catalogue",
    "last_number": "an order number",
    "path": "a key of the settings",
    "backups": "a folder",
}
"""Arguments that take any text and tell of no customer, by their name, each with its reason."""


def parsers(whole: argparse.ArgumentParser, name: str = "") -> Iterator[tuple[str, argparse.ArgumentParser]]:
    yield name, whole
    for action in whole._actions:
        if isinstance(action, argparse._SubParsersAction):
            for each, one in action.choices.items():
                yield from parsers(one, f"{name} {each}".strip())


def test_every_argument_that_takes_any_text_is_private_or_says_why_not() -> None:
    """A free text without a type would not be asked here: there are only names of files, and settings."""
    found = {
        (name, action.dest)
        for name, one in parsers(entry.parser())
        for action in one._actions
        if action.type is text and action.dest not in NOT_PERSONAL
    }
    assert found == set()
    untyped = {
        (name, action.dest)
        for name, one in parsers(entry.parser())
        for action in one._actions
        if action.type is None and action.nargs != 0 and action.choices is None
    }
    places = {"file", "paper", "dir", "out", "token_file", "signature", "photo", "add", "correct", "typed"}
    assert {dest for _, dest in untyped} <= places


def test_what_a_customer_is_known_by_is_private() -> None:
    found = {
        (name, action.dest)
        for name, one in parsers(entry.parser())
        for action in one._actions
        if action.type in (private, private_or_nothing)
    }
    assert {
        *(("correct", "name"), ("correct", "phone"), ("correct", "email"), ("status", "query")),
        *(("customers", "query"), ("erase", "customer"), ("export-customer", "customer")),
        *(("pickup", "signed_by"), ("pickup", "shown"), ("wish", "collector"), ("called", "caller")),
        *(("agree", "agreed_by"), ("move", "note"), ("told", "note"), ("download", "link")),
    } <= found


def test_the_help_of_each_such_subcommand_says_how(typed: Typist) -> None:
    told = " ".join(typed.plainly("correct", "--help").out.split())
    assert "can be read from a file instead (@FILE), or from standard input (-)" in told
    assert "@FILE" not in typed.plainly("playtime", "--help").out


def lines(monkeypatch: pytest.MonkeyPatch, *typed: str) -> None:
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO("".join(typed).encode())))


def test_each_dash_takes_a_line_in_the_order_they_are_typed(monkeypatch: pytest.MonkeyPatch) -> None:
    lines(monkeypatch, "Ada Fenwick\n", " (303) 555-0142 \r\n", "rest")
    assert [private("-"), private("-"), private("-")] == ["Ada Fenwick", "(303) 555-0142", "rest"]
    with pytest.raises(argparse.ArgumentTypeError, match="nothing was found in -"):
        private("-")


def test_a_file_holds_one_line_and_two_at_signs_are_one(tmp_path: Path) -> None:
    file = tmp_path / "name"
    file.write_text("Zoë Fenwick\n", encoding="utf-8")
    assert private(f"@{file}") == "Zoë Fenwick"
    assert private("@@home") == "@home"
    assert private("@") == "@"
    assert private("a@b.example") == "a@b.example"


@pytest.mark.parametrize(
    "held", [b"", b" \n", b"two\nlines", b"\xff\xfe", b"x" * (LONGEST_TEXT + 1), b"x" * 5000, b"bell\x07"]
)
def test_what_is_no_line_of_text_is_refused_and_not_repeated(held: bytes, tmp_path: Path) -> None:
    file = tmp_path / "name"
    file.write_bytes(held)
    with pytest.raises(argparse.ArgumentTypeError) as refused:
        private(f"@{file}")
    assert "lines" not in str(refused.value).replace("one line", "")
    assert "xxx" not in str(refused.value)


def test_a_file_that_is_none_is_wrong_input_and_changes_nothing(
    typed: Typist, box: Path, tmp_path: Path
) -> None:
    number = typed("book", box).document["number"]
    before = Path(typed.shop).read_bytes()
    for wrong in (tmp_path, tmp_path / "nowhere", "/dev/zero"):
        done = typed("correct", number, "--name", f"@{wrong}")
        assert (done.code, done.out) == (2, ""), wrong
        assert str(wrong)[:40] in done.err
    assert Path(typed.shop).read_bytes() == before


def test_lines_come_before_the_inventory_on_standard_input(
    typed: Typist, box: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines(monkeypatch, "Ada Fenwick\n", box.read_text(encoding="utf-8"))
    booked = typed("book", "-", "--agreed-by", "-")
    assert booked.code == 0, booked.err


@pytest.mark.skipif(sys.platform != "linux", reason="/proc is Linux's")
def test_the_list_of_processes_shows_no_customer(typed: Typist, box: Path, tmp_path: Path) -> None:
    """proc(5), /proc/PID/cmdline: what ps(1) shows everybody, read while the program waits for input."""
    number = typed("book", box).document["number"]
    phone = tmp_path / "phone"
    phone.write_text("(303) 555-0187", encoding="utf-8")
    words = ["correct", number, "--name", "-", "--phone", f"@{phone}", "--shop", str(typed.shop)]
    with subprocess.Popen(
        [sys.executable, "-m", "core.cli.entry", *words],
        cwd=ROOT,
        env=environment(tmp_path),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as program:
        seen, until = b"", monotonic() + 20
        while not seen and monotonic() < until:  # empty for a moment while the program is being loaded
            seen = Path(f"/proc/{program.pid}/cmdline").read_bytes()
        out, err = program.communicate(b"Quillona Zebedee\n", timeout=60)
    assert b"correct" in seen
    assert b"Quillona" not in seen
    assert b"555-0187" not in seen
    assert program.returncode == 0, err
    assert out.startswith(b"Quillona Zebedee")
    assert "Quillona" in typed("status", number).out
