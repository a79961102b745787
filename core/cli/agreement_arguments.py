"""Options of the subcommands about what is agreed: amended, agreed, canceled, and the question about the
price."""

from __future__ import annotations

from core.cli.argument_parser import MOST_MINOR, Parser, Subcommands, private, text, whole
from core.model.agreement_records import AgreedHow, CeilingChoice
from core.model.names import Speed, TvSystem
from core.wording.messages import say


def add_agreement(add: Subcommands) -> None:
    one = add("amend", say("cli", "amend_does"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("file", metavar="FILE", help=say("cli", "inventory_json_reads_standard"))
    _add_ceiling(one)
    _add_step(one)
    one = add("agree", say("cli", "agree_does"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    choices = [each.value for each in CeilingChoice]
    one.add_argument("--choice", choices=choices, help=say("cli", "agree_choice"))
    one.add_argument("--tape", metavar="CODE", type=text, help=say("cli", "agree_tape"))
    _add_ceiling(one)
    _add_step(one)
    one = add("cancel", say("cli", "cancel_does"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument(
        "--tape", action="append", metavar="CODE", type=text, help=say("cli", "only_tape_repeatable")
    )
    _add_step(one)
    one = add("agreement", say("cli", "agreement_does"))
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--paper", metavar="DIR", help=say("cli", "agreement_paper"))
    one = add("found", say("cli", "found_does"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    speeds = [each.value for each in Speed]
    one.add_argument("--speed", dest="found_speed", choices=speeds, help=say("cli", "speed_deck_showed"))
    one.add_argument(
        "--as", dest="found_as", metavar="FORMAT", type=text, help=say("cli", "recording_deck_found")
    )
    systems = [each.value for each in TvSystem]
    one.add_argument("--tv", dest="found_tv", choices=systems, help=say("cli", "tv_system_deck_found"))
    add("to-call", say("cli", "to_call_does"))


def add_consent(one: Parser) -> None:
    """Who agreed, and how."""
    one.add_argument("--agreed-by", metavar="NAME", type=private, help=say("cli", "agreed_by"))
    ways = [each.value for each in AgreedHow]
    one.add_argument("--how", choices=ways, help=say("cli", "agreed_how"))
    one.add_argument("--signature", metavar="FILE.json", help=say("cli", "pen_strokes_json"))


def _add_ceiling(one: Parser) -> None:
    one.add_argument(
        "--ceiling-minor",
        "--ceiling",
        dest="ceiling_minor",
        type=whole(MOST_MINOR),
        metavar="N",
        help=say("cli", "new_ceiling"),
    )


def _add_step(one: Parser) -> None:
    add_consent(one)
    one.add_argument(
        "--because", "--reason", dest="because", metavar="WORDS", type=private, help=say("cli", "why_changed")
    )
    one.add_argument("--based-on", metavar="N", type=whole(MOST_MINOR), help=say("cli", "based_on_version"))
    one.add_argument("--paper", metavar="DIR", help=say("cli", "agreement_paper"))
