"""Options of the subcommands of the books: payments, the drawer, invoices, takings, the journal."""

from __future__ import annotations

from core.cli.argument_parser import MOST_MINOR, Parser, Subcommands, day, private, text, whole
from core.model.accounts.payment_methods import METHODS, TAKEN
from core.wording.messages import say


def add_accounts(add: Subcommands) -> None:
    one = add("pay", say("cli", "pay"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument(
        "--minor", type=whole(MOST_MINOR), required=True, metavar="N", help=say("cli", "minor_units")
    )
    one.add_argument("--kind", choices=TAKEN, default=TAKEN[-1])
    one.add_argument("--note", type=private, default="", help=say("cli", "word_history"))
    add_method(one, "--by", "by")
    one = add("drawer", say("cli", "drawer"), writes=True)
    what = one.add_mutually_exclusive_group()
    what.add_argument("--float", type=whole(MOST_MINOR), metavar="N", help=say("cli", "drawer_float"))
    what.add_argument("--close", type=whole(MOST_MINOR), metavar="N", help=say("cli", "drawer_close"))
    one.add_argument(
        "--taken-out", type=whole(MOST_MINOR), default=0, metavar="N", help=say("cli", "drawer_taken_out")
    )
    one.add_argument("--note", type=private, default="", help=say("cli", "word_history"))
    one = add("invoice", say("cli", "invoice"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one = add("invoices", say("cli", "invoices"))
    one.add_argument("number", metavar="NUMBER", type=text)
    _add_span(add("takings", say("cli", "takings")))
    one = add("journal", say("cli", "journal"))
    one.add_argument("file", metavar="FILE.csv", help=say("cli", "journal_file"))
    _add_span(one)


def add_method(one: Parser, option: str, kept: str) -> None:
    """How money changes hands."""
    one.add_argument(option, dest=kept, choices=METHODS, help=say("cli", "paid_how"))


def _add_span(one: Parser) -> None:
    one.add_argument("--day", type=day, metavar="DAY", help=say("cli", "span_day"))
    one.add_argument("--month", action="store_true", help=say("cli", "span_month"))
    one.add_argument("--year", action="store_true", help=say("cli", "span_year"))
    one.add_argument("--to", type=day, metavar="DAY", help=say("cli", "span_to"))
