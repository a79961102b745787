"""Options of the subcommands about cassettes in general, a box of them, and recorded files."""

from __future__ import annotations

from core.cli.argument_parser import Parser, Subcommands, add_command_id
from core.cli.argument_types import (
    MOST_METRES_IN_CM,
    MOST_MINOR,
    MOST_RADIUS_MM,
    SPEEDS,
    SYSTEMS,
    amount,
    text,
    whole,
)
from core.model.names import FillKnown


def add_catalogue(add: Subcommands) -> None:
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
    one.add_argument("--cm", type=amount("centimetres of tape", MOST_METRES_IN_CM), required=True)
    one = add("pack", "metres and minutes on one reel")
    _add_recording(one)
    one.add_argument("--marking", type=text, help="as printed on the cassette")
    radius = amount("millimetres", MOST_RADIUS_MM)
    one.add_argument("--radius-mm", type=radius, required=True, help="one pack; with both, the supply")
    one.add_argument(
        "--take-up-radius-mm", type=radius, help="the other pack: says whether both agree with the marking"
    )


def _add_recording(one: Parser) -> None:
    one.add_argument("--format", type=text, required=True, help="the shell, e.g. vhs")
    one.add_argument("--speed", choices=SPEEDS, default="unknown", help="recording speed")
    one.add_argument("--tv", choices=SYSTEMS, help="TV system of the recording")


def add_box(add: Subcommands) -> None:
    one = add("quote", "the full quote of an inventory; stores nothing")
    one.add_argument("file", metavar="FILE", help="the inventory, JSON; - reads standard input")
    one = add("book", "book the job of an inventory")
    one.add_argument("file", metavar="FILE", help="the inventory, JSON; - reads standard input")
    one.add_argument("--paper", metavar="DIR", help="write quote, claim slip and labels there")
    one.add_argument("--deposit-minor", type=whole(MOST_MINOR), default=0, metavar="N", help="deposit taken")
    add_command_id(one)
    one = add("correct", "put right who brought a box; what is not named stays as it is")
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--name", type=text)
    one.add_argument("--phone", type=text)
    one.add_argument("--email", type=text)
    one = add("refund", "give money back that was paid for a job")
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--minor", type=whole(MOST_MINOR), required=True, metavar="N", help="minor units")
    one.add_argument("--because", type=text, required=True, help="why")


def add_captured(add: Subcommands) -> None:
    one = add("capture", "what a recorded file holds: length, blank and silent stretches, trims, checksum")
    one.add_argument("file", metavar="FILE", type=text)
    one.add_argument("--tape", metavar="CODE", type=text, help="attach it to the tape it was recorded from")
    one = add("undo-capture", "strike out the last file of a tape, attached by mistake")
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--because", type=text, required=True, help="why")
    one = add("files", "the files of a job with their checksums")
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--paper", metavar="DIR", help="write the delivery list there")
