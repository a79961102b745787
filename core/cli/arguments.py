"""What may be typed after ``tapewright``: subcommands, options and the values each accepts."""

from __future__ import annotations

import argparse
import math
from collections.abc import Callable, Collection, Sequence
from datetime import date, datetime
from typing import NoReturn

from core.model.errors import TapewrightError
from core.model.names import DonorPart, FillKnown, Finding, Join, Look, Section, Speed, TvSystem
from core.model.stations import Station

LONGEST_TEXT = 500
_SPEEDS = (*(speed.value for speed in Speed), "unknown")
_SYSTEMS = tuple(system.value for system in TvSystem)
_MOST_MINUTES = 24 * 60.0
"""No cassette of the catalogue plays for a day."""
_MOST_METRES_IN_CM = 100_000.0
"""A kilometre; the longest tapes of the catalogue are below half of that."""
_MOST_METRES = _MOST_METRES_IN_CM / 100
_MOST_SPLICES = 1000
_MOST_RADIUS_MM = 200.0
"""Wider than the widest shell."""
_MOST_MINOR = 100_000_000


class WrongArguments(TapewrightError):
    """What was typed after ``tapewright`` cannot be carried out."""

    exit_code = 2


class Parser(argparse.ArgumentParser):
    """A parser that complains with one sentence instead of ending the process."""

    def error(self, message: str) -> NoReturn:
        raise WrongArguments(f"{message.rstrip('.')}. `{self.prog} --help` lists what is accepted.")


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
    add = _Subcommands(whole)
    _add_shelf(add)
    _add_box(add)
    _add_care(add)
    _add_captured(add)
    _add_promised(add)
    _add_planned(add)
    _add_keeping(add)
    _add_demo(add)
    return whole


def _top(*, add_help: bool) -> Parser:
    top = Parser(
        prog="tapewright",
        description="A cassette-transfer shop's desk.",
        allow_abbrev=False,
        add_help=add_help,
    )
    top.add_argument("--quit-after-first-paint", action="store_true", help=argparse.SUPPRESS)
    _add_common(top, top=True)
    return top


class _Subcommands:
    """Adds subcommands that all take the common options."""

    def __init__(self, whole: Parser) -> None:
        self._choices = whole.add_subparsers(dest="subcommand", metavar="SUBCOMMAND", parser_class=Parser)

    def __call__(self, name: str, does: str) -> Parser:
        one = self._choices.add_parser(name, help=does, description=does, allow_abbrev=False)
        _add_common(one, top=False)
        return one


def _add_common(one: Parser, *, top: bool) -> None:
    """The options accepted before and after the subcommand; only the first place sets defaults."""

    def default(value: object) -> object:
        return value if top else argparse.SUPPRESS

    one.add_argument("--json", action="store_true", default=default(False), help="print one JSON document")
    one.add_argument(
        "--shop", metavar="PATH-OR-URL", type=text, default=default(None), help="the shop's file or database"
    )
    one.add_argument(
        "--now",
        metavar="ISO-TIME",
        type=moment,
        default=default(None),
        help="the clock; a time without offset is the time of this computer",
    )
    one.add_argument("--who", metavar="NAME", type=text, default=default("counter"), help="the person acting")


def _add_shelf(add: _Subcommands) -> None:
    one = add("playtime", "how long a cassette may play, and why")
    _add_recording(one)
    one.add_argument("--marking", type=text, help="as printed on the cassette, e.g. T-120")
    one.add_argument("--recorded-as", type=text, metavar="FORMAT", help="another system that fits the shell")
    one.add_argument("--fill", type=amount("a share above 0 and up to 1", 1.0), help="share that is recorded")
    one.add_argument(
        "--fill-known",
        choices=[known.value for known in FillKnown],
        help="how that share is known; told, an estimate, when it is not said",
    )
    off = amount("a share above 0 and up to 1", 1.0)
    one.add_argument("--fill-off", type=off, help="how far that share may lie off either way")
    one = add("cut", "the seconds that a cut takes away")
    _add_recording(one)
    one.add_argument("--cm", type=amount("centimetres of tape", _MOST_METRES_IN_CM), required=True)
    one = add("pack", "metres and minutes on one reel")
    _add_recording(one)
    one.add_argument("--marking", type=text, help="as printed on the cassette")
    radius = amount("millimetres", _MOST_RADIUS_MM)
    one.add_argument("--radius-mm", type=radius, required=True, help="one pack; with both, the supply")
    one.add_argument(
        "--take-up-radius-mm", type=radius, help="the other pack: says whether both agree with the marking"
    )


def _add_recording(one: Parser) -> None:
    one.add_argument("--format", type=text, required=True, help="the shell, e.g. vhs")
    one.add_argument("--speed", choices=_SPEEDS, default="unknown", help="recording speed")
    one.add_argument("--tv", choices=_SYSTEMS, help="TV system of the recording")


def _add_box(add: _Subcommands) -> None:
    one = add("quote", "the full quote of an inventory; stores nothing")
    one.add_argument("file", metavar="FILE", help="the inventory, JSON; - reads standard input")
    one = add("book", "book the job of an inventory")
    one.add_argument("file", metavar="FILE", help="the inventory, JSON; - reads standard input")
    one.add_argument("--paper", metavar="DIR", help="write quote, claim slip and labels there")
    one.add_argument("--deposit-minor", type=whole(_MOST_MINOR), default=0, metavar="N", help="deposit taken")
    _add_command(one)
    one = add("correct", "put right who brought a box; what is not named stays as it is")
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--name", type=text)
    one.add_argument("--phone", type=text)
    one.add_argument("--email", type=text)
    one = add("refund", "give money back that was paid for a job")
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--minor", type=whole(_MOST_MINOR), required=True, metavar="N", help="minor units")
    one.add_argument("--because", type=text, required=True, help="why")


def _add_care(add: _Subcommands) -> None:
    one = add("status", "the answer to a caller")
    one.add_argument("query", metavar="QUERY", type=text, help="number, tape code, name, part of a phone")
    one = add("move", "one tape to a station")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("station", metavar="STATION", choices=[station.value for station in Station])
    _add_findings(one)
    one.add_argument("--minutes", type=amount("minutes", _MOST_MINUTES), help="play time as it turned out")
    one.add_argument("--note", type=text, help="a word for the history")
    one.add_argument("--deck", metavar="NAME", type=text, help="the deck it starts to play on")
    one.add_argument("--without-splice", metavar="WHAT", type=text, help="what was done instead of a splice")
    one.add_argument("--found-speed", choices=_SPEEDS[:-1], help="the speed the deck showed")
    one.add_argument("--found-as", metavar="FORMAT", type=text, help="the recording the deck found")
    one.add_argument("--found-tv", choices=_SYSTEMS, help="the TV system the deck found")
    _add_splice(add)
    _add_repairs(add)
    one = add("mark", "confirm that the not-for-reuse label is on the cassette")
    one.add_argument("code", metavar="CODE", type=text)
    one = add("clear", "take a finding off a tape: it was wrong, or is over")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("finding", metavar="FINDING", choices=[finding.value for finding in Finding])
    one.add_argument("--note", type=text, required=True, help="why")
    one = add("history", "everything that happened to one tape")
    one.add_argument("code", metavar="CODE", type=text)
    _add_pickup(add)
    add("promises", "open jobs with date, chance and what holds them")
    add("load-now", "which tape goes on each free deck now")
    add("habits", "what the shop believed of tapes at first, what it has seen, what it believes now")


def _add_findings(one: Parser) -> None:
    names = [finding.value for finding in Finding]
    one.add_argument(
        "--finding", action="append", default=[], choices=names, metavar="F", help=", ".join(names)
    )


def _add_splice(add: _Subcommands) -> None:
    one = add("splice", "record a splice; the tape becomes not for reuse")
    one.add_argument("code", metavar="CODE", type=text)
    where = one.add_mutually_exclusive_group(required=True)
    where.add_argument("--at-minutes", metavar="M", type=amount("minutes from the head", _MOST_MINUTES))
    where.add_argument("--at-metres", metavar="M", type=amount("metres from the head", _MOST_METRES))
    one.add_argument("--cut-cm", type=amount("centimetres of tape", _MOST_METRES_IN_CM), required=True)
    one.add_argument("--joined-with", choices=[join.value for join in Join], required=True)
    one.add_argument(
        "--in", dest="section", choices=[each.value for each in Section], help="what of the tape it lies in"
    )
    one = add("undo-splice", "strike out a splice entered by mistake, the last one if none is named")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--because", type=text, required=True, help="why")
    one.add_argument(
        "--nth", type=whole(_MOST_SPLICES), metavar="N", help="the first, second … as `splice` lists them"
    )
    one = add("label-off", "confirm that a label which no longer belongs on a cassette is off it")
    one.add_argument("code", metavar="CODE", type=text)


def _add_repairs(add: _Subcommands) -> None:
    parts = [part.value for part in DonorPart]
    one = add("repair", "record a repair that was tried, and whether it held")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("repair", metavar="REPAIR", type=text, help="splice, re-anchor, shell-swap …")
    one.add_argument("--failed", action="store_true", help="it did not hold")
    one.add_argument("--part", choices=parts, help="what was fitted from a donor")
    one.add_argument("--from-elsewhere", metavar="WHERE", type=text, help="the part is not off the shelf")
    one.add_argument("--note", type=text, help="a word for the history")
    one = add("undo-repair", "strike out the last repair of a tape, entered by mistake")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--because", type=text, required=True, help="why")
    one = add("looked", "what a look at a repaired tape told: it may go on, or has to be done again")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("verdict", metavar="VERDICT", choices=[look.value for look in Look], help="ok or again")
    one.add_argument("--note", type=text, help="a word for the history")
    one = add("donors", "the donor parts on the shelf")
    what = one.add_mutually_exclusive_group()
    what.add_argument(
        "--add", nargs=3, metavar=("FORMAT", "PART", "N"), help=f"put parts there: {', '.join(parts)}"
    )
    what.add_argument("--correct", nargs=3, metavar=("FORMAT", "PART", "N"), help="so many really lie there")
    one.add_argument("--because", type=text, help="why the count is put right")
    one.add_argument("--came-from", metavar="WHERE", type=text, help="where those parts are from")


def _add_pickup(add: _Subcommands) -> None:
    one = add("pickup", "hand back all or some tapes")
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--tape", action="append", metavar="CODE", type=text, help="only this tape, repeatable")
    one.add_argument("--copy", action="append", metavar="ID", type=whole(_MOST_MINOR), help="only this copy")
    one.add_argument("--signed-by", metavar="NAME", type=text, required=True)
    one.add_argument("--signature", metavar="FILE.json", help="pen strokes, JSON")
    one.add_argument("--paid-minor", type=whole(_MOST_MINOR), default=0, metavar="N", help="money taken now")
    one.add_argument("--paper", metavar="DIR", help="write the receipt there")
    _add_command(one)


def _add_command(one: Parser) -> None:
    one.add_argument("--command", metavar="ID", type=text, help="the same command is carried out once")


def _add_captured(add: _Subcommands) -> None:
    one = add("capture", "what a recorded file holds: length, blank and silent stretches, trims, checksum")
    one.add_argument("file", metavar="FILE", type=text)
    one.add_argument("--tape", metavar="CODE", type=text, help="attach it to the tape it was recorded from")
    one = add("undo-capture", "strike out the last file of a tape, attached by mistake")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--because", type=text, required=True, help="why")
    one = add("files", "the files of a job with their checksums")
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--paper", metavar="DIR", help="write the delivery list there")


def _add_promised(add: _Subcommands) -> None:
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


def _add_planned(add: _Subcommands) -> None:
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
    one = add("queue", "look for an order of boxes that has more of them ready sooner and harms no promise")
    which = one.add_mutually_exclusive_group()
    which.add_argument("--keep", action="store_true", help="put the boxes in the order that is found")
    which.add_argument("--take-back", action="store_true", help="the order before the last one holds again")


def _add_span(one: Parser) -> None:
    one.add_argument("first", metavar="ISO-DATE", type=day)
    one.add_argument("last", metavar="LAST", type=day, nargs="?", help="the last day, if there are several")


def _add_keeping(add: _Subcommands) -> None:
    one = add("backup", "copy the shop while it is in use")
    one.add_argument("dir", metavar="DIR")
    one = add("restore", "put a copy back in the shop's place")
    one.add_argument("file", metavar="FILE")
    add("verify", "check the database and the chain of history")


def _add_demo(add: _Subcommands) -> None:
    one = add("demo", "an invented shop with a day's work in it")
    one.add_argument("--dir", metavar="DIR", help="where to make it; must be new or empty")
    one.add_argument("--no-window", action="store_true", help="only make the files")


def text(typed: str) -> str:
    """One line of Unicode text, not empty."""
    if not typed.strip() or len(typed) > LONGEST_TEXT:
        raise argparse.ArgumentTypeError(f"from 1 to {LONGEST_TEXT} characters are accepted")
    if any(ord(character) < 32 or "\ud800" <= character <= "\udfff" for character in typed):
        raise argparse.ArgumentTypeError("one line of UTF-8 text is accepted")
    return typed.strip()


def moment(typed: str) -> datetime:
    """An ISO 8601 time; without an offset it is the time of this computer."""
    try:
        parsed = datetime.fromisoformat(typed.strip())
        if not 2000 <= parsed.year <= 2200:
            raise ValueError(typed)
        return parsed if parsed.tzinfo is not None else parsed.astimezone()
    except (ValueError, OverflowError) as error:
        accepted = "an ISO 8601 time between 2000 and 2200 is accepted, like 2026-03-02T09:30:00-05:00"
        raise argparse.ArgumentTypeError(f"found {typed[:60]!r}; {accepted}") from error


def day(typed: str) -> date:
    """An ISO 8601 date."""
    try:
        parsed = date.fromisoformat(typed.strip())
        if not 2000 <= parsed.year <= 2200:
            raise ValueError(typed)
    except ValueError as error:
        accepted = "a date between 2000 and 2200 is accepted, like 2026-03-02"
        raise argparse.ArgumentTypeError(f"found {typed[:60]!r}; {accepted}") from error
    return parsed


def amount(words: str, most: float) -> Callable[[str], float]:
    """A reader of numbers from 0 to ``most``; ``words`` say what is counted."""

    def read(typed: str) -> float:
        try:
            number = float(typed)
        except ValueError:
            number = math.nan
        if not 0 <= number <= most:
            raise argparse.ArgumentTypeError(f"found {typed[:60]!r}; {words} from 0 to {most:g} are accepted")
        return number

    return read


def whole(most: int) -> Callable[[str], int]:
    """A reader of whole numbers from 0 to ``most``."""

    def read(typed: str) -> int:
        if not (typed.isascii() and typed.isdigit() and len(typed) <= 12 and int(typed) <= most):
            accepted = f"a whole number from 0 to {most} is accepted"
            raise argparse.ArgumentTypeError(f"found {typed[:60]!r}; {accepted}")
        return int(typed)

    return read
