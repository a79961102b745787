"""A parser that complains in a sentence, and the options that all subcommands share."""

from __future__ import annotations

import argparse
from typing import NoReturn

from core.cli.argument_types import (
    moment,
    text,
)
from core.model.errors import TapewrightError
from core.wording.messages import say


class WrongArguments(TapewrightError):
    """What was typed after ``tapewright`` cannot be carried out."""

    exit_code = 2


class Parser(argparse.ArgumentParser):
    """A parser that complains with one sentence instead of ending the process."""

    def error(self, message: str) -> NoReturn:
        raise WrongArguments(
            say("cli", "help_lists_what_accepted", message=message.rstrip("."), prog=self.prog)
        )


class Subcommands:
    """Adds subcommands that all take the common options."""

    def __init__(self, whole: Parser) -> None:
        self._choices = whole.add_subparsers(dest="subcommand", metavar="SUBCOMMAND", parser_class=Parser)

    def __call__(self, name: str, does: str) -> Parser:
        one = self._choices.add_parser(name, help=does, description=does, allow_abbrev=False)
        add_common(one, top=False)
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


def add_command_id(one: Parser) -> None:
    one.add_argument("--command", metavar="ID", type=text, help=say("cli", "same_command_carried_out"))
