"""Options of the subcommand ``shop``: the shop's settings and prices."""

from __future__ import annotations

from collections.abc import Callable

from core.cli.argument_parser import Parser, Subcommands, add_command_id, add_common, day, decimal, text
from core.model.own_shop.setup_pages import SetupPage
from core.wording.messages import say

WRITING = (
    *("set", "remove", "import", "confirm", "raise-prices", "prices-in", "undo"),
    *("pin", "token", "revoke", "system-user"),
)
"""Actions that change settings or prices."""


def add_settings(add: Subcommands) -> None:
    one = add("shop", say("settings", "option-shop"))
    actions = one.add_subparsers(dest="action", metavar="ACTION", parser_class=Parser, required=True)

    def action(name: str, room: str = "settings") -> Parser:
        words = say(room, f"option-{name}")
        made = actions.add_parser(name, help=words, description=words, allow_abbrev=False)
        add_common(made, top=False)
        if name in WRITING:
            add_command_id(made)
        return made

    made = action("show")
    made.add_argument("path", metavar="PATH", type=text, nargs="?", help=say("settings", "option-path"))
    made = action("set")
    made.add_argument("typed", metavar="PATH VALUE", nargs="+", help=say("settings", "option-pairs"))
    _add_valid_from(made)
    _add_dry_run(made)
    made = action("remove")
    made.add_argument("path", metavar="PATH", type=text, help=say("settings", "option-path"))
    _add_dry_run(made)
    made = action("export")
    made.add_argument("file", metavar="FILE", nargs="?", default="-", help=say("settings", "option-out"))
    made = action("import")
    made.add_argument("file", metavar="FILE", help=say("settings", "option-in"))
    _add_dry_run(made)
    made = action("confirm")
    pages = [page.value for page in SetupPage]
    made.add_argument("pages", metavar="PAGE", nargs="+", choices=pages, help=", ".join(pages))
    made = action("raise-prices")
    made.add_argument("percent", metavar="PERCENT", type=decimal, help=say("settings", "option-percent"))
    made.add_argument(
        "--round", dest="rounded_to", metavar="AMOUNT", type=decimal, help=say("settings", "option-round")
    )
    _add_valid_from(made)
    made = action("prices-out")
    made.add_argument("file", metavar="FILE", nargs="?", default="-", help=say("settings", "option-out"))
    made = action("prices-in")
    made.add_argument("file", metavar="FILE", help=say("settings", "option-prices-in-file"))
    _add_valid_from(made)
    action("history")
    made = action("undo")
    made.add_argument("part", metavar="PART", nargs="?", choices=["settings", "prices"], default="settings")
    action("missing")
    made = action("pin")
    _add_person(made)
    _add_access(action)


def _add_access(action: Callable[[str, str], Parser]) -> None:
    """Who is proven, and by what."""
    action("who", "access")
    made = action("token", "access")
    _add_person(made)
    made.add_argument("token", metavar="WORDS", type=text, help=say("access", "option-token-name"))
    made.add_argument("--until", metavar="ISO-DATE", type=day, help=say("access", "option-until"))
    made.add_argument("--out", metavar="FILE", help=say("access", "option-token-out"))
    made.add_argument("--paper", metavar="DIR", help=say("access", "option-token-paper"))
    made = action("revoke", "access")
    _add_person(made)
    made.add_argument("token", metavar="WORDS", type=text, help=say("access", "option-token-name"))
    made = action("system-user", "access")
    _add_person(made)
    told = say("access", "option-system-user-user")
    made.add_argument("user", metavar="USER", type=text, nargs="?", help=told)
    made.add_argument("--take-away", action="store_true", help=say("access", "option-take-away"))


def _add_person(one: Parser) -> None:
    one.add_argument("person", metavar="NAME", type=text, help=say("settings", "people-name"))


def _add_valid_from(one: Parser) -> None:
    one.add_argument(
        "--from", dest="valid_from", metavar="ISO-DATE", type=day, help=say("settings", "option-from")
    )


def _add_dry_run(one: Parser) -> None:
    one.add_argument("--dry-run", action="store_true", help=say("settings", "option-dry-run"))
