"""What may be typed after ``tapewright``: subcommands, options and the values each accepts."""

from __future__ import annotations

import argparse
from collections.abc import Collection, Sequence

from core.cli.argument_parser import Parser, Subcommands, add_common
from core.cli.box_arguments import add_box, add_captured, add_catalogue
from core.cli.shop_arguments import add_demo, add_desktop, add_keeping, add_planned, add_promised
from core.cli.tape_arguments import add_care
from core.wording.messages import say


def read(argv: Sequence[str], subcommands: Collection[str]) -> argparse.Namespace:
    """What was typed; WrongArguments when it is not accepted.

    The subcommands take longer to set up than the window to import: they are, only when one of
    ``subcommands`` is named, help is wanted, or something is not understood.
    """
    if not any(each in subcommands for each in argv):
        asked, rest = _top(add_help=False).parse_known_args(argv)
        if not rest:
            asked.subcommand = None
            return asked
    return parser().parse_args(argv)


def parser() -> Parser:
    """The whole command line."""
    whole = _top(add_help=True)
    add = Subcommands(whole)
    add_catalogue(add)
    add_box(add)
    add_care(add)
    add_captured(add)
    add_promised(add)
    add_planned(add)
    add_keeping(add)
    add_demo(add)
    add_desktop(add)
    return whole


def _top(*, add_help: bool) -> Parser:
    top = Parser(
        prog="tapewright",
        description=say("cli", "cassette_transfer_shop_s"),
        allow_abbrev=False,
        add_help=add_help,
    )
    top.add_argument("--quit-after-first-paint", action="store_true", help=argparse.SUPPRESS)
    top.add_argument("--version", action="store_true", help=say("cli", "tell_version"))
    add_common(top, top=True)
    return top
