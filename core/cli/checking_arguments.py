"""Options of the subcommands that check copied files and sign them off."""

from __future__ import annotations

from core.cli.argument_parser import Subcommands, private, text
from core.wording.messages import say


def add_checking(add: Subcommands) -> None:
    one = add("file-check", say("cli", "file_check_does"))
    one.add_argument("code", metavar="CODE", type=text)
    one = add("sign-off", say("cli", "sign_off_does"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--by", metavar="NAME", type=private, required=True, help=say("cli", "sign_off_by"))
    one.add_argument(
        "--accept",
        metavar="FINDING[=WHY]",
        action="append",
        default=[],
        type=private,
        help=say("cli", "sign_off_accept"),
    )
    one = add("undo-sign-off", say("cli", "undo_sign_off_does"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument(
        "--because", metavar="WORDS", type=private, required=True, help=say("cli", "undo_sign_off_why")
    )
