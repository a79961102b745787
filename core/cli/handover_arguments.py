"""Options of the subcommands for orders that are ready: who is told, what they wish, who called."""

from __future__ import annotations

from core.cli.argument_parser import Subcommands, private, private_or_nothing, text
from core.model.handover_records import ToldHow, ToldResult
from core.wording.messages import say


def add_handover(add: Subcommands) -> None:
    one = add("to-tell", say("cli", "to_tell"))
    one.add_argument("--all", action="store_true", help=say("cli", "to_tell_all"))
    one = add("told", say("cli", "told"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--how", choices=[each.value for each in ToldHow], required=True)
    one.add_argument("--result", choices=[each.value for each in ToldResult], required=True)
    one.add_argument("--note", type=private, help=say("cli", "word_history"))
    one = add("wish", say("cli", "wish"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--told-by", choices=[each.value for each in ToldHow], help=say("cli", "wish_how"))
    one.add_argument("--collector", metavar="WHO", type=private_or_nothing, help=say("cli", "wish_collector"))
    one.add_argument("--pass-phrase", action="store_true", help=say("cli", "wish_pass_phrase"))
    one.add_argument("--said-by", metavar="NAME", type=private, help=say("cli", "wish_said_by"))
    one = add("called", say("cli", "called"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--caller", metavar="NAME", type=private, help=say("cli", "called_caller"))
    one.add_argument("--said", metavar="WORDS", type=private, help=say("cli", "called_said"))
