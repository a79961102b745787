"""Options of the subcommands about the shop itself: promises, plans, copies, the invented shop."""

from __future__ import annotations

from core.cli.argument_parser import Parser, Subcommands
from core.cli.argument_types import (
    amount,
    day,
    text,
)


def add_promised(add: Subcommands) -> None:
    one = add("promise-again", "say a new day for a job; the old one stays readable")
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--reason", type=text, required=True, help="why the day changes")
    one.add_argument("--agreed-with", type=text, metavar="WHO", help="who heard it, and how")
    one.add_argument("--day", type=day, metavar="ISO-DATE", help="the day they would rather have")
    add("kept", "how the promises turned out, and what was counted on the way")
    one = add("deck", "a deck that broke down, or is back")
    one.add_argument("name", metavar="NAME", type=text)
    one.add_argument("state", metavar="STATE", choices=["out", "back"], help="out or back")
    one.add_argument("--because", type=text, help="what broke, or what was done")
    one = add("shut", "a day the shop stays shut though it was to be open")
    one.add_argument("day", metavar="ISO-DATE", type=day)
    one.add_argument("--because", type=text, required=True, help="why")


def add_planned(add: Subcommands) -> None:
    one = add("close", "close the shop by plan, for a day or from one to another")
    _add_span(one)
    one.add_argument("--because", type=text, required=True, help="why")
    one = add("reopen", "take closed days back, planned or not; they count no more")
    _add_span(one)
    one.add_argument("--because", type=text, help="why")
    one = add("outage", "a deck that is out of service by plan")
    one.add_argument("name", metavar="NAME", type=text)
    _add_span(one)
    one.add_argument("--because", type=text, help="why")
    one.add_argument("--take-back", action="store_true", help="it is not out after all")
    one = add(
        "expect", "what the shop states of failures, rush and closures, and reckons with; 0 is not at all"
    )
    for name, words, most in (
        ("hours-between-failures", "playing hours", 1_000_000.0),
        ("hours-to-repair", "real hours", 10_000.0),
        ("rush-boxes-a-week", "boxes", 1_000.0),
        ("tapes-in-a-rush-box", "tapes", 500.0),
        ("unplanned-closures", "a share of the opening days", 0.5),
    ):
        one.add_argument(f"--{name}", type=amount(words, most), metavar="N", help=words)
    one = add("order", "look for an order of boxes that has more of them ready sooner and harms no promise")
    which = one.add_mutually_exclusive_group()
    which.add_argument("--keep", action="store_true", help="put the boxes in the order that is found")
    which.add_argument("--take-back", action="store_true", help="the order before the last one holds again")


def _add_span(one: Parser) -> None:
    one.add_argument("first", metavar="ISO-DATE", type=day)
    one.add_argument("last", metavar="LAST", type=day, nargs="?", help="the last day, if there are several")


def add_keeping(add: Subcommands) -> None:
    one = add("backup", "copy the shop while it is in use")
    one.add_argument("dir", metavar="DIR")
    one = add("restore", "put a copy back in the shop's place")
    one.add_argument("file", metavar="FILE")
    add("verify", "check the database and the chain of history")


def add_demo(add: Subcommands) -> None:
    one = add("demo", "an invented shop with a day's work in it")
    one.add_argument("--dir", metavar="DIR", help="where to make it; must be new or empty")
    one.add_argument("--no-window", action="store_true", help="only make the files")
