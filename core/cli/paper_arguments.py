"""Options of the subcommands that print a paper of an order, again or for the first time."""

from __future__ import annotations

from core.cli.argument_parser import Parser, Subcommands, text, whole
from core.wording.messages import say

_MOST_PLACES = 500


def add_papers(add: Subcommands) -> None:
    for name in ("job-sheet", "reminder", "not-saved", "refund-slip"):
        _add_paper(add, name)
    _add_paper(add, "receipt").add_argument("--roll", action="store_true", help=say("cli", "on_roll"))
    one = _add_paper(add, "claim-slip")
    one.add_argument("--roll", action="store_true", help=say("cli", "on_roll"))
    one.add_argument("--agreement", action="store_true", help=say("cli", "slip_agreement"))
    one = _add_paper(add, "labels")
    one.add_argument(
        "--tape", metavar="CODE", type=text, nargs="+", default=[], help=say("cli", "labels_tape")
    )
    start = whole(_MOST_PLACES)
    one.add_argument("--start", type=start, metavar="N", help=say("cli", "labels_start"))
    one.add_argument("--marks", action="store_true", help=say("cli", "labels_marks"))
    one.add_argument("--single", action="store_true", help=say("cli", "labels_single"))


def _add_paper(add: Subcommands, name: str) -> Parser:
    one = add(name, say("cli", f"paper_{name}"))
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--paper", metavar="DIR", required=True, help=say("cli", "paper_there"))
    return one
