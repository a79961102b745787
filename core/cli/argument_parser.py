"""The parser of the command line: its complaints, the options all subcommands share, the values accepted."""

from __future__ import annotations

import argparse
import math
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, NoReturn

from core.model.errors import TapewrightError
from core.wording import record_heads
from core.wording.messages import say

if TYPE_CHECKING:
    from datetime import date, datetime
    from decimal import Decimal

MOST_MINUTES = 24 * 60.0
"""No cassette of the catalogue plays for a day."""

MOST_METRES_IN_CM = 100_000.0
"""A kilometre; the longest tapes of the catalogue are below half of that."""

MOST_METRES = MOST_METRES_IN_CM / 100

MOST_SPLICES = 1000

MOST_RADIUS_MM = 200.0
"""Wider than the widest shell."""

MOST_MINOR = 100_000_000

LONGEST_TEXT = 500
MOST_BYTES = 4 * LONGEST_TEXT
"""Of a text in UTF-8 (RFC 3629): four bytes a character at most."""

MOST_DECIMALS = 12
"""Of a percentage or an amount; no price book has more."""


class WrongArguments(TapewrightError):
    """What was typed after ``tapewright`` cannot be carried out."""

    exit_code = 2


class Parser(argparse.ArgumentParser):
    """A parser that complains with one sentence instead of ending the process.

    Its help says how arguments that tell of somebody are kept out of the list of processes.
    """

    def format_help(self) -> str:
        if any(action.type in (private, private_or_nothing) for action in self._actions):
            self.epilog = say("cli", "private_arguments")
        return super().format_help()

    def error(self, message: str) -> NoReturn:
        raise WrongArguments(
            say("cli", "help_lists_what_accepted", message=message.rstrip("."), prog=self.prog)
        )


class Subcommands:
    """Adds subcommands that all take the common options, and those that write ``--command``."""

    def __init__(self, whole: Parser) -> None:
        self._choices = whole.add_subparsers(dest="subcommand", metavar="SUBCOMMAND", parser_class=Parser)
        self._shared = Parser(add_help=False)
        add_common(self._shared, top=False)

    def __call__(self, name: str, does: str, *, writes: bool = False) -> Parser:
        one = self._choices.add_parser(
            name, help=does, description=does, allow_abbrev=False, parents=[self._shared]
        )
        if writes:
            add_command_id(one)
        return one


def add_common(one: Parser, *, top: bool) -> None:
    """The options accepted before and after the subcommand; only the first place sets defaults."""

    def default(value: object) -> object:
        return value if top else argparse.SUPPRESS

    one.add_argument(
        "--json", action="store_true", default=default(False), help=say("cli", "print_one_json_document")
    )
    one.add_argument(
        "--shop",
        metavar="PATH-OR-URL",
        type=text,
        default=default(None),
        help=say("cli", "shop_s_file_database"),
    )
    one.add_argument(
        "--now",
        metavar="ISO-TIME",
        type=moment,
        default=default(None),
        help=say("cli", "clock_time_without_offset"),
    )
    one.add_argument(
        "--who", metavar="NAME", type=text, default=default("counter"), help=say("cli", "person_acting")
    )

    one.add_argument(
        "--pin", action="store_true", default=default(False), help=say("settings", "option-pin-asked")
    )
    one.add_argument(
        "--token-file", metavar="FILE", default=default(None), help=say("access", "option-token-file")
    )


def add_command_id(one: Parser) -> None:
    one.add_argument("--command", metavar="ID", type=text, help=say("cli", "same_command_carried_out"))


# --- the values an option accepts, each with its bounds ------------------------------------


def text(typed: str) -> str:
    """One line of Unicode text, not empty."""
    if not typed.strip() or len(typed) > LONGEST_TEXT:
        raise argparse.ArgumentTypeError(say("cli", "characters_accepted", longest_text=LONGEST_TEXT))
    if any(ord(character) < 32 or "\ud800" <= character <= "\udfff" for character in typed):
        raise argparse.ArgumentTypeError(say("cli", "one_line_utf_text"))
    return typed.strip()


def private(typed: str) -> str:
    """As `text`, for what tells of somebody: ``@FILE`` reads it from a file, ``-`` from standard input.

    What is typed is seen by every user of the computer in the list of processes, and stays in the history of
    the shell. Each ``-`` takes one line, in the order they are typed; ``@@`` begins a text with an ``@``.
    """
    if typed == "-":
        return text(_line(sys.stdin.buffer.readline(MOST_BYTES + 1), "-"))
    if typed.startswith("@@"):
        return text(typed[1:])
    return text(_file(typed[1:])) if typed.startswith("@") and len(typed) > 1 else text(typed)


def private_or_nothing(typed: str) -> str:
    """As `private`; what is empty takes back what was said before."""
    return private(typed) if typed.strip() else ""


def _file(name: str) -> str:
    """The one line of a file; its name is repeated, what stands in it never."""
    from core.model import regular_files

    accepted = say("cli", "name_readable_file_accepted")
    try:
        path = regular_files.expanded(name)
        regular_files.check(path, name, accepted)
        with path.open("rb") as file:
            return _line(file.read(MOST_BYTES + 1), name)
    except TapewrightError as wrong:
        raise argparse.ArgumentTypeError(wrong.sentence) from wrong
    except (OSError, ValueError) as error:
        raise argparse.ArgumentTypeError(say("cli", "private_unreadable", file=name[:60])) from error


def _line(data: bytes, place: str) -> str:
    if not data.strip():
        raise argparse.ArgumentTypeError(say("cli", "private_empty", place=place))
    if len(data) > MOST_BYTES:
        raise argparse.ArgumentTypeError(say("cli", "characters_accepted", longest_text=LONGEST_TEXT))
    try:
        return data.decode("utf-8").strip()
    except UnicodeDecodeError as error:
        raise argparse.ArgumentTypeError(say("cli", "one_line_utf_text")) from error


def moment(typed: str) -> datetime:
    """An ISO 8601 time; without an offset it is the time of this computer."""
    from datetime import datetime

    try:
        parsed = datetime.fromisoformat(typed.strip())
        if not 2000 <= parsed.year <= 2200:
            raise ValueError(typed)
        return parsed if parsed.tzinfo is not None else parsed.astimezone()
    except (ValueError, OverflowError) as error:
        accepted = say("cli", "iso_time_between_accepted")
        raise argparse.ArgumentTypeError(f"found {typed[:60]!r}; {accepted}") from error


def head(typed: str) -> str:
    """How a digest begins, as it is printed: hexadecimal digits, spaces between them as one likes."""
    try:
        return record_heads.typed(typed)
    except ValueError as error:
        raise argparse.ArgumentTypeError(say("cli", "head_accepted", typed=typed[:60])) from error


def day(typed: str) -> date:
    """An ISO 8601 date."""
    from datetime import date

    try:
        parsed = date.fromisoformat(typed.strip())
        if not 2000 <= parsed.year <= 2200:
            raise ValueError(typed)
    except ValueError as error:
        accepted = say("cli", "date_between_accepted_like")
        raise argparse.ArgumentTypeError(f"found {typed[:60]!r}; {accepted}") from error
    return parsed


def decimal(typed: str) -> Decimal:
    """A decimal number with a point, exact."""
    from decimal import Decimal, InvalidOperation

    try:
        number = Decimal(typed)
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or not _is_counted_with(number) or abs(number) > MOST_MINOR:
        raise argparse.ArgumentTypeError(say("settings", "decimal-accepted", found=typed[:60]))
    return number


def _is_counted_with(number: Decimal) -> bool:
    """Whether a number has a size anybody means: Python itself gives up over 1e999999999."""
    return number.adjusted() < 12 and -int(number.as_tuple().exponent) <= MOST_DECIMALS


def amount(words: str, most: float) -> Callable[[str], float]:
    """A reader of numbers from 0 to ``most``; ``words`` say what is counted."""

    def read(typed: str) -> float:
        try:
            number = float(typed)
        except ValueError:
            number = math.nan
        if not 0 <= number <= most:
            raise argparse.ArgumentTypeError(
                say("cli", "found_accepted", typed=f"{typed[:60]!r}", words=words, most=f"{most:g}")
            )
        return number

    return read


def whole(most: int) -> Callable[[str], int]:
    """A reader of whole numbers from 0 to ``most``."""

    def read(typed: str) -> int:
        if not (typed.isascii() and typed.isdigit() and len(typed) <= 12 and int(typed) <= most):
            accepted = say("cli", "whole_number_accepted", most=most)
            raise argparse.ArgumentTypeError(f"found {typed[:60]!r}; {accepted}")
        return int(typed)

    return read
