"""The border of the command line: how things are said, and what happens when nobody thought of it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from core.cli import argument_parser, entry, proving
from core.cli.invocation import Invocation
from core.cli.subcommands import SUBCOMMANDS
from core.services import decks
from core.services.own_shop import settings_versions, shop_opening
from core.services.records_door import Shop
from core.wording.messages import say
from tests.support.inventories import GOOD, changed
from tests.support.typed import NOW, ROOT, Typist, environment, run_python


def test_options_may_stand_before_or_after_the_subcommand(typed: Typist, box: Path) -> None:
    options = ["--json", "--now", NOW, "--shop", str(typed.shop), "--who", "Robin"]
    assert typed.plainly(*options, "book", box).code == 0
    before, after = typed.plainly(*options, "promises"), typed.plainly("promises", *options)
    assert before.document == after.document != {}


def test_the_answers_are_in_the_language_of_the_shop(typed: Typist, box: Path) -> None:
    """The pseudo-language puts every sentence in ⟦ ⟧."""
    booked = typed("book", box).document
    asked = ("status", booked["number"])
    assert "⟦" not in typed(*asked, as_json=False).out
    with Shop.open(typed.shop, create=False) as shop:
        fitted = shop.ask(decks.settings)
        shop.run(decks.refit, replace(fitted, front=replace(fitted.front, language="xx")))
    assert "⟦" in typed(*asked, as_json=False).out
    assert typed(*asked).document["jobs"][0]["spoken"].startswith("⟦")
    sound = say("cli", "database_chain_history_sound", language="xx")
    assert typed("verify", as_json=False).out.startswith(f"{sound}\n")


def test_the_settings_are_read_once_when_a_shop_is_opened(
    typed: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Three looks there were: to prove who asks, for the clock, for the language. Seen red with them."""
    asked: list[object] = []
    real = Shop.ask

    def counted(shop: Shop, query: Callable[..., Any], /, *args: Any, **named: Any) -> Any:
        asked.append(query)
        return real(shop, query, *args, **named)

    monkeypatch.setattr(Shop, "ask", counted)
    call = Invocation(entry.parser().parse_args(["verify", "--shop", str(typed.shop)]), proving.prove)
    call.open().close()
    assert asked == [shop_opening.read]


def test_the_same_clock_gives_the_same_quote(typed: Typist, box: Path) -> None:
    assert typed("quote", box).out == typed("quote", box).out


def test_without_json_a_person_reads_sentences(typed: Typist, box: Path) -> None:
    told = typed("quote", box, as_json=False)
    assert told.code == 0
    assert "4 tapes" in told.out
    assert "Promised for Monday, March 2, 2026" in told.out


def test_json_is_ascii_so_that_no_console_can_spoil_it(typed: Typist, tmp_path: Path) -> None:
    file = tmp_path / "box.json"
    file.write_bytes(json.dumps(changed("customer.name", "Zoë Núñez"), ensure_ascii=False).encode())
    booked = typed("book", file)
    assert booked.out.isascii()
    assert booked.document["customer"]["name"] == "Zoë Núñez"


@pytest.mark.parametrize("subcommand", SUBCOMMANDS)
def test_every_subcommand_explains_itself(typed: Typist, subcommand: str) -> None:
    told = typed.plainly(subcommand, "--help")
    assert told.code == 0
    assert "--json" in told.out


def test_a_reader_that_goes_away_is_no_failure(tmp_path: Path) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    words = [sys.executable, "-m", "core.cli.entry", "playtime", "--format", "vhs"]
    done = subprocess.run(
        words, stdout=writing, stderr=subprocess.PIPE, cwd=ROOT, env=environment(tmp_path), check=False
    )
    os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")


def test_the_window_opens_without_setting_up_every_subcommand(monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[Sequence[str]] = []

    def open_window(options: Sequence[str]) -> int:
        told.append(tuple(options))
        return 0

    def never() -> None:
        raise AssertionError("the subcommands were set up")

    monkeypatch.setattr(entry, "parser", never)
    assert entry.run(["--shop", "a.sqlite", "--quit-after-first-paint"], open_window=open_window) == 0
    assert told == [("--who", "counter", "--shop", "a.sqlite", "--quit-after-first-paint")]


@pytest.mark.parametrize("typed", [["--help"], ["--sshop", "x"], ["quotee"], ["--now", "soon"], ["--shop"]])
def test_short_of_a_subcommand_the_answer_is_that_of_the_whole_command_line(
    typed: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    def open_window(_: Sequence[str]) -> int:
        raise AssertionError("there is nothing to open a window for")

    code = entry.run(typed, open_window=open_window)
    told = capsys.readouterr()
    with pytest.raises((SystemExit, argument_parser.WrongArguments)) as whole:
        entry.parser().parse_args(typed)
    again = capsys.readouterr()
    if isinstance(whole.value, SystemExit):
        assert (code, told.out) == (whole.value.code, again.out)
    else:
        assert code == 2
        assert whole.value.sentence in told.err


def test_no_subcommand_opens_the_window(capsys: pytest.CaptureFixture[str]) -> None:
    opened: list[list[str]] = []

    def open_window(options: Sequence[str]) -> int:
        opened.append(list(options))
        return 0

    assert entry.run(["--shop", "a.sqlite", "--who", "Sam"], open_window=open_window) == 0
    assert opened == [["--who", "Sam", "--shop", "a.sqlite"]]


def test_subcommands_work_where_qt_cannot_be_imported(box: Path, tmp_path: Path) -> None:
    script = (
        "import sys; sys.modules['PySide6'] = None; sys.argv[0] = 'tapewright';"
        "from gui.__main__ import main; sys.exit(main())"
    )
    done = run_python("-c", script, "quote", str(box), "--json", "--now", NOW, home=tmp_path)
    assert json.loads(done.stdout)["currency"] == "USD"
    window = run_python("-c", script, home=tmp_path)
    assert (window.returncode, window.stderr.count("\n")) == (4, 1)


def test_an_unforeseen_failure_is_one_sentence_and_a_log(
    typed: Typist, box: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise ZeroDivisionError(GOOD["customer"])

    monkeypatch.setattr("core.services.quoting.quote", fail)
    monkeypatch.setattr("platformdirs.user_log_dir", lambda *_, **__: str(tmp_path / "log"))
    failed = typed("quote", box)
    assert (failed.code, failed.out) == (4, "")
    assert failed.err.count("\n") == 1
    log = (tmp_path / "log" / "tapewright.log").read_text()
    assert "ZeroDivisionError" in log
    assert "test_entry.py" in log
    assert "Fenwick" not in log + failed.err
    assert "555" not in log + failed.err


def test_ctrl_c_is_one_sentence(typed: Typist, box: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("core.services.quoting.quote", interrupt)
    stopped = typed("quote", box)
    assert (stopped.code, stopped.err.count("\n")) == (130, 1)


def test_answers_of_a_practice_shop_say_so(typed: Typist, tmp_path: Path) -> None:
    with Shop.open(tmp_path / "practice.sqlite") as shop:
        shop.run(settings_versions.make_practice, shop.ask(decks.settings))
    assert "practice" not in typed("promises").document
    assert Typist(tmp_path / "practice.sqlite", typed._capture)("promises").document["practice"] is True
