"""Options of the subcommands that care for tapes: moves, splices, repairs, pickup."""

from __future__ import annotations

from core.cli.argument_parser import Parser, Subcommands, add_command_id
from core.cli.argument_types import (
    MOST_METRES,
    MOST_METRES_IN_CM,
    MOST_MINOR,
    MOST_MINUTES,
    MOST_SPLICES,
    SPEEDS,
    SYSTEMS,
    amount,
    text,
    whole,
)
from core.model.names import DonorPart, Finding, Join, Look, Section
from core.model.stations import Station


def add_care(add: Subcommands) -> None:
    one = add("status", "the answer to a caller")
    one.add_argument("query", metavar="QUERY", type=text, help="number, tape code, name, part of a phone")
    one = add("move", "one tape to a station")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("station", metavar="STATION", choices=[station.value for station in Station])
    _add_findings(one)
    one.add_argument("--minutes", type=amount("minutes", MOST_MINUTES), help="play time as it turned out")
    one.add_argument("--note", type=text, help="a word for the history")
    one.add_argument("--deck", metavar="NAME", type=text, help="the deck it starts to play on")
    one.add_argument("--without-splice", metavar="WHAT", type=text, help="what was done instead of a splice")
    one.add_argument("--found-speed", choices=SPEEDS[:-1], help="the speed the deck showed")
    one.add_argument("--found-as", metavar="FORMAT", type=text, help="the recording the deck found")
    one.add_argument("--found-tv", choices=SYSTEMS, help="the TV system the deck found")
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
    add("up-next", "which tape goes on each free deck now")
    add("habits", "what the shop believed of tapes at first, what it has seen, what it believes now")


def _add_findings(one: Parser) -> None:
    names = [finding.value for finding in Finding]
    one.add_argument(
        "--finding", action="append", default=[], choices=names, metavar="F", help=", ".join(names)
    )


def _add_splice(add: Subcommands) -> None:
    one = add("splice", "record a splice; the tape becomes not for reuse")
    one.add_argument("code", metavar="CODE", type=text)
    where = one.add_mutually_exclusive_group(required=True)
    where.add_argument("--at-minutes", metavar="M", type=amount("minutes from the head", MOST_MINUTES))
    where.add_argument("--at-metres", metavar="M", type=amount("metres from the head", MOST_METRES))
    one.add_argument("--cut-cm", type=amount("centimetres of tape", MOST_METRES_IN_CM), required=True)
    one.add_argument("--joined-with", choices=[join.value for join in Join], required=True)
    one.add_argument(
        "--in", dest="section", choices=[each.value for each in Section], help="what of the tape it lies in"
    )
    one = add("undo-splice", "strike out a splice entered by mistake, the last one if none is named")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--because", type=text, required=True, help="why")
    one.add_argument(
        "--nth", type=whole(MOST_SPLICES), metavar="N", help="the first, second … as `splice` lists them"
    )
    one = add("label-off", "confirm that a label which no longer belongs on a cassette is off it")
    one.add_argument("code", metavar="CODE", type=text)


def _add_repairs(add: Subcommands) -> None:
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


def _add_pickup(add: Subcommands) -> None:
    one = add("pickup", "hand back all or some tapes")
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--tape", action="append", metavar="CODE", type=text, help="only this tape, repeatable")
    one.add_argument("--copy", action="append", metavar="ID", type=whole(MOST_MINOR), help="only this copy")
    one.add_argument("--signed-by", metavar="NAME", type=text, required=True)
    one.add_argument("--signature", metavar="FILE.json", help="pen strokes, JSON")
    one.add_argument("--paid-minor", type=whole(MOST_MINOR), default=0, metavar="N", help="money taken now")
    one.add_argument("--paper", metavar="DIR", help="write the receipt there")
    add_command_id(one)
