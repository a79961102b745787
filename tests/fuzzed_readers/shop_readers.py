"""Readers that stand in the records: command lines, what a caller says, rows that somebody altered."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from contextlib import closing, redirect_stdout
from io import StringIO
from pathlib import Path
from random import Random
from typing import Any

from core.cli import entry
from core.cli.argument_parser import WrongArguments
from core.cli.subcommands import SUBCOMMANDS
from core.model.errors import TapewrightError
from core.model.own_shop import settings_differences
from core.services import calls, customers
from core.services.own_shop import shop_document
from core.services.records_door import Shop
from core.store import search
from core.store.columns import StoredTable
from core.store.sqlite_library import sqlite_module
from tests.fuzzed_readers import fed_commands, hostile_files, hostile_texts, spoiled_documents, typed_lines
from tests.fuzzed_readers.fed_commands import CommandLine
from tests.fuzzed_readers.line_examples import EXAMPLES, REFUSED, SLOW
from tests.fuzzed_readers.throwaway_shop import SHOP, ThrowawayShop
from tests.support.booked import MORNING

Files = Mapping[str, bytes]
QUICK = tuple(name for name in EXAMPLES if name not in SLOW | REFUSED)
READING = (
    *("status Fenwick", "status {booked}", "history {booked}", "history {spliced}", "agreement {asking}"),
    *("quote box.json", "promises", "load-now", "habits", "kept", "copies", "downloads", "files {recorded}"),
    *(
        "to-tell --all",
        "to-call",
        "incidents",
        "file-check {unsigned}",
        "shop show",
        "shop history",
        "verify",
    ),
    *(
        "shop export",
        "shop prices-out",
        "shop missing",
        "data-kept",
        "customers Fenwick",
        "move {booked} looked-over",
    ),
    *("book box.json --agreed-by Ada --how phone --command c-1", "mark {spliced} --command c-2"),
)
"""Lines that read much of the records, and two that write."""


def quick_command(shop: ThrowawayShop, files: Files, dice: Random) -> str:
    """Any subcommand but the slow ones."""
    return _command(dice.choice(QUICK), shop, files, dice)


def slow_command(shop: ThrowawayShop, files: Files, dice: Random) -> str:
    return _command(dice.choice(sorted(SLOW - REFUSED)), shop, files, dice)


def _command(name: str, shop: ThrowawayShop, files: Files, dice: Random) -> str:
    line = typed_lines.spoiled(name, shop, files, dice)
    try:
        return fed_commands.fed(shop, line)
    finally:
        restored(files)


def typed_setting(shop: ThrowawayShop, files: Files, dice: Random) -> str:
    """A key of the settings or prices, and a value for it."""
    words = ["shop", dice.choice(("set", "set", "set", "remove", "show"))]
    path, value = dice.choice(_settings(shop))
    if dice.random() < 0.5:
        path = dice.choice(
            (hostile_texts.mutated(path, dice), f"{path}.{path}", path.rpartition(".")[0], f"{path}.1")
        )
    words.append(path or "front")
    if words[1] == "set":
        other = dice.choice(_settings(shop))[1]
        words.append(dice.choice((hostile_texts.mutated(value, dice), hostile_texts.any_text(dice), other)))
    if words[1] != "show" and dice.random() < 0.7:
        words.append("--dry-run")
    words = [hostile_texts.harmless(word, ()) for word in words]
    return fed_commands.fed(shop, CommandLine((*words, "--shop", shop.where, "--now", typed_lines.NOW), {}))


def _settings(shop: ThrowawayShop) -> list[tuple[str, str]]:
    """Every key of the settings with its value as it is typed; worked out once."""
    if shop.folder not in _KEYS:
        _KEYS[shop.folder] = list(_leaves((), _reading(shop).ask(shop_document.read)))
    return _KEYS[shop.folder]


def _leaves(path: tuple[str, ...], value: Any) -> Iterator[tuple[str, str]]:
    inner = settings_differences._entries(value)
    if path:
        yield ".".join(path), settings_differences.spelled(value)
    for key, each in inner.items():
        yield from _leaves((*path, key), each)


def parsed_line(shop: ThrowawayShop, files: Files, dice: Random) -> str:
    """What is typed, as far as the parser: nothing is carried out."""
    line = typed_lines.spoiled(dice.choice(tuple(EXAMPLES)), shop, files, dice)
    try:
        with redirect_stdout(StringIO()):
            entry.arguments(line.words, SUBCOMMANDS)
    except WrongArguments:
        return "2"
    except SystemExit:  # help was asked for
        return "0"
    finally:
        restored(files)
    return "0"


def said_by_a_caller(shop: ThrowawayShop, files: Files, dice: Random) -> str:
    """The search line of the Phone, and the name on the Counter that is looked up while it is typed."""
    text = hostile_texts.mutated(dice.choice(("Fenwick", "000018", "5550142", "0000180014", "Ada")), dice)
    opened = _reading(shop)
    opened.ask(calls.status, text)
    opened.ask(search.jobs, text)
    try:
        opened.ask(customers.recalled, text, hostile_texts.any_text(dice))
    except TapewrightError as failure:
        return str(failure.exit_code)
    return "0"


def altered_row(shop: ThrowawayShop, files: Files, dice: Random) -> str:
    """One cell of the records is not what the program wrote: told in a sentence by whatever reads it."""
    told = _altered(Path(SHOP), dice)
    words = typed_lines.good(dice.choice(READING), shop.names)
    line = CommandLine((*words, "--json"), {"ALTERED": told})
    try:
        return fed_commands.judged(line, fed_commands.carried_out(line))
    finally:
        shop.renew()


def _altered(file: Path, dice: Random) -> str:
    with closing(sqlite_module().connect(str(file), isolation_level=None)) as connection:
        connection.execute("PRAGMA foreign_keys=OFF")
        connection.execute("PRAGMA ignore_check_constraints=ON")
        for (trigger,) in connection.execute(
            "SELECT name FROM sqlite_master WHERE type='trigger'"
        ).fetchall():
            connection.execute(f"DROP TRIGGER {trigger}")
        table, column, row, value = dice.choice(tuple(_cells(connection, dice)))
        new = _another(value, dice)
        try:
            connection.execute(f'UPDATE "{table}" SET "{column}" = ? WHERE rowid = ?', (new, row))
        except (sqlite_module().Error, UnicodeEncodeError, OverflowError):
            return "nothing: SQLite takes no such value"
    return f"{table}.{column} of row {row}: {value!r:.80} -> {new!r:.200}"


def _cells(connection: Any, dice: Random) -> Iterator[tuple[str, str, int, object]]:
    """One cell of each column of every table that has a row."""
    for (table,) in connection.execute("SELECT name FROM sqlite_master WHERE type='table'").fetchall():
        try:
            rows = connection.execute(f'SELECT rowid FROM "{table}"').fetchall()
        except sqlite_module().Error:  # a table of the search index without row ids
            continue
        if not rows or table not in StoredTable.metadata.tables:
            continue
        (row,) = dice.choice(rows)
        found = connection.execute(f'SELECT * FROM "{table}" WHERE rowid = ?', (row,))
        names = [each[0] for each in found.description]
        yield from ((table, name, row, value) for name, value in zip(names, found.fetchone(), strict=True))


def _another(value: object, dice: Random) -> object:
    if isinstance(value, str) and value[:1] in ("[", "{") and dice.random() < 0.8:
        return json.dumps(spoiled_documents.spoiled(json.loads(value), dice))
    if isinstance(value, str) and dice.random() < 0.7:
        return hostile_texts.mutated(value, dice)
    return dice.choice((None, 0, -1, 2**62, 1.5, "", "x", b"\x00\xff", hostile_texts.any_text(dice)))


def restored(files: Files) -> None:
    """Puts the input files back that an input spoiled."""
    for name, data in files.items():
        file = Path(name)
        if (
            file.is_symlink()
            or not file.is_file()
            or file.stat().st_size != len(data)
            or file.read_bytes() != data
        ):
            hostile_files.clear(file)
            file.write_bytes(data)
    for name in ("odd.sqlite", *typed_lines.WRITTEN):
        hostile_files.clear(Path(name))


_OPEN: dict[Path, Shop] = {}
_KEYS: dict[Path, list[tuple[str, str]]] = {}


def _reading(shop: ThrowawayShop) -> Shop:
    """The shop, opened once: nothing is written through it."""
    if shop.folder not in _OPEN:
        _OPEN[shop.folder] = Shop.open(shop.untouched, clock=lambda: MORNING)
    return _OPEN[shop.folder]


def let_go(shop: ThrowawayShop) -> None:
    """Closes what `said_by_a_caller` opened."""
    opened = _OPEN.pop(shop.folder, None)
    if opened is not None:
        opened.close()
