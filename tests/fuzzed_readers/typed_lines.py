"""Command lines as nobody should type them: good ones with faults in words, files and environment."""

from __future__ import annotations

import argparse
import os
import shlex
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from random import Random

from core.cli import entry
from tests.fuzzed_readers import hostile_files, hostile_texts, input_files
from tests.fuzzed_readers.fed_commands import CommandLine, put
from tests.fuzzed_readers.line_examples import EXAMPLES
from tests.fuzzed_readers.throwaway_shop import SHOP, ThrowawayShop

WRITTEN = ("token.txt", "out.toml", "out.csv", "customer.zip", "papers", "copies", "entries")
"""Where the good lines write."""
NOW = "2026-03-03T10:00:00-05:00"
PINS = (
    "TAPEWRIGHT_TOKEN",
    "TAPEWRIGHT_PIN",
    "TAPEWRIGHT_NEW_PIN",
    "TAPEWRIGHT_BACKUP_KEY",
    "TZ",
    "LANG",
    "LC_ALL",
    "COLUMNS",
)
URLS = (
    *("postgresql://", "postgresql:///", "postgresql://127.0.0.1:1/x", "postgres://u:p@127.0.0.1:1/x"),
    *(
        "postgresql://127.0.0.1:99999/x",
        "postgresql://127.0.0.1:abc/x",
        "postgresql://[::1",
        "postgresql://u:p@w@h/x",
    ),
    *(
        "postgresql+psycopg://127.0.0.1:1/x",
        "mysql://127.0.0.1/x",
        "sqlite:///x",
        "http://127.0.0.1/x",
        "://",
        "x://",
    ),
    *(
        "postgresql://127.0.0.1:1/x?password=p",
        "postgresql://127.0.0.1:1/x?sslmode=no",
        "postgresql://127.0.0.1:1/%zz",
    ),
    *(
        "postgresql://127.0.0.1:1/x?connect_timeout=abc",
        "postgresql://127.0.0.1:1/x?options=%00",
        "file:///etc/passwd",
    ),
)


def actions() -> dict[str, list[argparse.Action]]:
    """What every subcommand takes, by its name; an action of ``shop`` as two words."""
    found: dict[str, list[argparse.Action]] = {}
    for name, parser in _choices(entry.parser()).items():
        inner = _choices(parser)
        for action, one in inner.items():
            found[f"{name} {action}"] = one._actions
        if not inner:
            found[name] = parser._actions
    return found


@cache
def _actions_once() -> dict[str, list[argparse.Action]]:
    return actions()


def _choices(parser: argparse.ArgumentParser) -> Mapping[str, argparse.ArgumentParser]:
    for each in parser._actions:
        if isinstance(each, argparse._SubParsersAction):
            return each.choices
    return {}


def good(example: str, names: Mapping[str, str], where: str = SHOP) -> tuple[str, ...]:
    """A good line at the throwaway shop (``where``) and its clock."""
    words = [
        word.format_map(names) if "value" not in word and "plays" not in word else word
        for word in shlex.split(example)
    ]
    return (*words, "--shop", where, "--now", NOW)


def spoiled(subcommand: str, shop: ThrowawayShop, files: Mapping[str, bytes], dice: Random) -> CommandLine:
    """A line of ``subcommand`` with one to three faults; what it reads lies in the working folder already."""
    words = list(good(dice.choice(EXAMPLES[subcommand]), shop.names, shop.where))
    if dice.random() < 0.5:
        words.append("--json")
    environment: dict[str, str] = {}
    standard_input = b""
    for _ in range(dice.choice((1, 1, 1, 2, 3))):
        way = dice.random()
        read = [place for place, word in enumerate(words) if word in files]
        if read and way < 0.45:
            place = dice.choice(read)
            standard_input = _spoil_file(words, place, files, dice)
        elif way < 0.9:
            _spoil_words(subcommand, words, shop, dice)
        elif way < 0.95:
            environment[dice.choice(PINS)] = _for_environment(hostile_texts.any_text(dice))
        else:
            _spoil_shop(words, dice)
    known = (*files, *URLS, *EXAMPLES[subcommand], shop.where, "/".join(()))
    return CommandLine(
        tuple(hostile_texts.harmless(word, known) for word in words), environment, standard_input
    )


def _spoil_file(words: list[str], place: int, files: Mapping[str, bytes], dice: Random) -> bytes:
    """Another file under its name, or by standard input, or what is no file."""
    name = words[place]
    if dice.random() < 0.15:
        hostile_files.put(Path(name), hostile_files.any_kind(dice))
        return b""
    data = input_files.spoiled(name, files[name], dice)
    if dice.random() < 0.15:
        words[place] = "-"
        return data
    put(Path(name), data)
    return b""


def _spoil_words(subcommand: str, words: list[str], shop: ThrowawayShop, dice: Random) -> None:
    place = dice.randint(0, len(words) - 1)
    way = dice.random()
    written = [word for word in words if word in WRITTEN]
    if written and way < 0.1:
        hostile_files.put(Path(written[0]), hostile_files.any_kind(dice))
    elif way < 0.25:
        words[place] = hostile_texts.mutated(words[place], dice)
    elif way < 0.45:
        words[place] = hostile_texts.any_text(dice)
    elif way < 0.6:
        words[place] = dice.choice(tuple(shop.names.values()))
    elif way < 0.7:
        del words[place]
    elif way < 0.78:
        words.insert(place, words[dice.randint(0, len(words) - 1)])
    else:
        words[place:place] = _option(subcommand, shop, dice)


def _option(subcommand: str, shop: ThrowawayShop, dice: Random) -> Iterator[str]:
    """Another option of the subcommand with something behind it."""
    action = dice.choice([each for each in _actions_once()[subcommand] if each.option_strings])
    name = dice.choice(action.option_strings)
    values = [
        *map(str, action.choices or ()),
        *shop.names.values(),
        "1",
        "0",
        "sp",
        NOW,
        "2026-03-09",
        "papers",
    ]
    if isinstance(action, argparse._StoreAction | argparse._AppendAction):
        value = dice.choice(values) if dice.random() < 0.6 else hostile_texts.any_text(dice)
        yield from ((f"{name}={value}",) if dice.random() < 0.3 else (name, value))
    else:
        yield name


def _spoil_shop(words: list[str], dice: Random) -> None:
    """The shop is somewhere else, or is no shop."""
    if "--shop" not in words[:-1]:
        return
    kind = dice.random()
    place = words.index("--shop") + 1
    if kind < 0.5:
        words[place] = dice.choice(URLS)
    elif kind < 0.8:
        words[place] = "odd.sqlite"
        hostile_files.put(Path("odd.sqlite"), hostile_files.any_kind(dice))
    else:
        words[place] = dice.choice(
            (*hostile_texts.HARMLESS_PATHS, "in-a-new-folder", "x" * 300, "home", "box.json")
        )


def _for_environment(text: str) -> str:
    """What an environment can hold: no NUL, and only what the file system's encoding has a byte for."""
    plain = text.replace("\x00", "").replace("=", "")
    try:
        os.fsencode(plain)
    except UnicodeEncodeError:
        return plain.encode("utf-8", "replace").decode()
    return plain
