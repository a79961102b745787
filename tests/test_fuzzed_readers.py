"""A share of the fuzzed inputs of every reader, and the list of readers held against the program itself.

All of them: ``python -m tests.fuzzed_readers``.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.cli import entry
from core.cli.subcommands import SUBCOMMANDS
from tests.fuzzed_readers import fed_commands, feeding, shop_readers, typed_lines
from tests.fuzzed_readers.fed_commands import CommandLine
from tests.fuzzed_readers.feeding import Trough
from tests.fuzzed_readers.line_examples import EXAMPLES, REFUSED, SLOW
from tests.fuzzed_readers.reader_list import OF_THE_PROGRAM, READERS

ROOT = Path(entry.__file__).parents[2]
COUNT = 400
"""Inputs in each run of the tests; another seed each day would make a red run nobody's fault."""
SEED = 7


@pytest.fixture(scope="module")
def trough(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Trough]:
    with feeding.filled(tmp_path_factory.mktemp("fuzzed")) as made:
        yield made


# --- what is read at all -----------------------------------------------------------------

_READING = {
    *("read_text", "read_bytes", "fromisoformat", "getpass", "make_url", "strptime", "b64decode"),
    *("json.loads", "json.load", "tomllib.loads", "tomllib.load", "csv.reader", "Image.open", "av.open"),
    *("os.open", "decompress", "phonenumbers.parse", "msgspec.convert", "QImageReader", "FluentParser"),
    *("serialization.loads", "message_files.read", "decrypt_file", "parse_decimal"),
    *("Identity.from_str", "Recipient.from_str"),
}
_ROOTS = ("os.environ", "sys.stdin")
_MODES = ("r", "rb", "r+b", "a", "w", "wb")


def _reads(source: str) -> bool:
    """Whether a module opens a file, or turns a text or the environment into something else."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Attribute) and ast.unparse(node) in _ROOTS:
            return True
        if isinstance(node, ast.Call) and _is_reading(node):
            return True
    return False


def _is_reading(call: ast.Call) -> bool:
    called = ast.unparse(call.func)
    opens = called.endswith(".open") and any(map(_is_mode, call.args))
    return called == "open" or opens or called in _READING or called.rpartition(".")[2] in _READING


def _is_mode(argument: ast.expr) -> bool:
    return isinstance(argument, ast.Constant) and argument.value in _MODES


def _modules() -> Iterator[tuple[str, str]]:
    for folder in ("core", "gui"):
        for file in sorted((ROOT / folder).rglob("*.py")):
            name = file.relative_to(ROOT).with_suffix("").as_posix().replace("/", ".")
            if "migrations" not in name and "walkthrough" not in name:
                yield name, file.read_text(encoding="utf-8")


def test_every_module_that_reads_is_in_the_list() -> None:
    listed = {module for reader in READERS for module in reader.modules} | OF_THE_PROGRAM.keys()
    found = {name for name, source in _modules() if _reads(source)}
    assert sorted(found - listed) == []
    assert sorted(listed - {name for name, _ in _modules()}) == []


def test_a_module_that_reads_is_noticed() -> None:
    assert _reads("path.read_text()")
    assert _reads("import os\nvalue = os.environ.get('X')")
    assert _reads("with file.open('rb') as opened: pass")
    assert not _reads("dialog.open()")


# --- every subcommand, every option ------------------------------------------------------


def test_every_subcommand_has_good_lines() -> None:
    assert EXAMPLES.keys() == typed_lines.actions().keys()
    assert {name.split()[0] for name in EXAMPLES} == set(SUBCOMMANDS)
    assert EXAMPLES.keys() >= (SLOW | REFUSED)


def test_every_option_stands_in_one_of_them() -> None:
    common = {"-h", "--help", "--json", "--shop", "--now", "--who", "--pin", "--token-file"}
    missing = [
        f"{name} {option}"
        for name, taken in typed_lines.actions().items()
        for each in taken
        for option in each.option_strings
        if option not in common and not any(option in line.split() for line in EXAMPLES[name])
    ]
    assert missing == []


NEED_PEOPLE = {"shop pin", "shop token", "shop revoke", "shop system-user"}
"""The throwaway shop has nobody entered by name: a PIN would be asked before everything else."""
CHEAP = [(name, lines[0]) for name, lines in EXAMPLES.items() if name not in SLOW | REFUSED | NEED_PEOPLE]


def test_the_first_good_line_of_each_is_carried_out(trough: Trough) -> None:
    """Else the faults put into it would all be met at the door."""
    refused = []
    for name, line in CHEAP:
        trough.shop.renew()
        answer = fed_commands.carried_out(CommandLine(typed_lines.good(line, trough.shop.names), {}))
        if answer.code:
            refused.append(f"{name}: {answer.err}")
    assert refused == []


# --- a share of it -----------------------------------------------------------------------


@pytest.mark.no_qt_log  # Qt tells of each picture it cannot read
@pytest.mark.parametrize("reader", READERS, ids=lambda reader: reader.name)
def test_no_input_finds_a_fault(trough: Trough, reader: feeding.Reader) -> None:
    tally = trough.feed(reader, range(feeding.share(reader, COUNT)), SEED)
    assert tally.faults == {}
    assert tally.fed == sum(tally.answers.values())


# --- teeth -------------------------------------------------------------------------------


def test_a_bug_a_hang_and_a_partial_write_are_found(trough: Trough, monkeypatch: pytest.MonkeyPatch) -> None:
    def breaks(*_: object) -> str:
        raise KeyError("x")

    def hangs(*_: object) -> str:
        while True:
            pass

    def writes(shop: object, *_: object) -> str:
        line = CommandLine(("quote", "nothing.json", "--shop", "shop.sqlite"), {})
        return fed_commands.fed(trough.shop, line)

    def half_done(line: CommandLine) -> fed_commands.CommandAnswer:
        Path("left-over").write_bytes(b"x")
        return fed_commands.CommandAnswer(2, "", "tapewright: no\n")

    monkeypatch.setattr(fed_commands, "carried_out", half_done)
    for feed, kind in ((breaks, "KeyError at"), (writes, "changed with code 2"), (hangs, "hangs at")):
        monkeypatch.setattr(feeding, "LIMIT_S", 0.1 if feed is hangs else 30.0)
        tally = trough.feed(feeding.Reader("one", 1, feed), range(1), SEED)
        (found,) = tally.faults
        assert found.startswith(kind)
    assert shop_readers.QUICK
