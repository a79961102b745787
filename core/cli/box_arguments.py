"""Options of the subcommands about cassettes in general, a box of them, and recorded files."""

from __future__ import annotations

from core.cli.accounts_arguments import add_method
from core.cli.agreement_arguments import add_consent
from core.cli.argument_parser import (
    MOST_METRES_IN_CM,
    MOST_MINOR,
    MOST_RADIUS_MM,
    Parser,
    Subcommands,
    amount,
    private,
    text,
    whole,
)
from core.cli.tape_arguments import add_sure
from core.model.inventory import MOST_FILL
from core.model.names import FillKnown, Speed, TvSystem
from core.wording.messages import say


def add_catalogue(add: Subcommands) -> None:
    one = add("playtime", say("cli", "how_long_cassette_may"))
    _add_recording(one)
    one.add_argument("--marking", type=text, help=say("cli", "printed_cassette_e_g"))
    one.add_argument(
        "--recorded-as", type=text, metavar="FORMAT", help=say("cli", "another_system_fits_shell")
    )
    one.add_argument(
        "--fill", type=amount(say("cli", "share_told"), MOST_FILL), help=say("cli", "share_recorded")
    )
    one.add_argument(
        "--fill-known",
        choices=[known.value for known in FillKnown],
        help=say("cli", "how_share_known_told"),
    )
    off = amount(say("cli", "share_above_up"), 1.0)
    one.add_argument("--fill-off", type=off, help=say("cli", "how_far_share_may"))
    one = add("cut", say("cli", "seconds_cut_takes_away"))
    _add_recording(one)
    one.add_argument("--cm", type=amount(say("cli", "centimetres_tape"), MOST_METRES_IN_CM), required=True)
    one = add("pack", say("cli", "metres_minutes_one_reel"))
    _add_recording(one)
    one.add_argument("--marking", type=text, help=say("cli", "printed_cassette"))
    radius = amount("millimetres", MOST_RADIUS_MM)
    one.add_argument("--radius-mm", type=radius, required=True, help=say("cli", "one_pack_both_supply"))
    one.add_argument("--take-up-radius-mm", type=radius, help=say("cli", "other_pack_says_whether"))


def _add_recording(one: Parser) -> None:
    one.add_argument("--format", type=text, required=True, help=say("cli", "shell_e_g_vhs"))
    one.add_argument(
        "--speed",
        choices=[*(speed.value for speed in Speed), "unknown"],
        default="unknown",
        help=say("cli", "recording_speed"),
    )
    one.add_argument(
        "--tv", choices=[each.value for each in TvSystem], help=say("cli", "tv_system_recording")
    )


def add_box(add: Subcommands) -> None:
    one = add("quote", say("cli", "full_quote_inventory_stores"))
    _add_inventory(one)
    one.add_argument("--paper", metavar="DIR", help=say("cli", "write_quote"))
    one.add_argument("--detail", action="store_true", help=say("cli", "quote_detail"))
    one = add("book", say("cli", "book_job_inventory"), writes=True)
    _add_inventory(one)
    one.add_argument("--paper", metavar="DIR", help=say("cli", "write_quote_claim_slip"))
    one.add_argument("--detail", action="store_true", help=say("cli", "quote_detail"))
    one.add_argument(
        "--deposit-minor", type=whole(MOST_MINOR), default=0, metavar="N", help=say("cli", "deposit_taken")
    )
    add_method(one, "--deposit-by", "deposit_by")
    add_consent(one)
    one.add_argument("--told", action="store_true", help=say("cli", "customer_was_told"))
    add_sure(one)
    one = add("customers", say("cli", "who_was_here"))
    one.add_argument("query", metavar="QUERY", type=private, help=say("cli", "name_or_phone"))
    one = add("correct", say("cli", "put_right_who_brought"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--name", type=private)
    one.add_argument("--phone", type=private)
    one.add_argument("--email", type=private)
    one = add("refund", say("cli", "give_money_back_paid"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument(
        "--minor", type=whole(MOST_MINOR), required=True, metavar="N", help=say("cli", "minor_units")
    )
    one.add_argument("--because", type=private, required=True, help="why")
    add_method(one, "--by", "by")
    one.add_argument("--paper", metavar="DIR", help=say("cli", "write_refund"))


def _add_inventory(one: Parser) -> None:
    """A file, or one line in words with who brings the tapes beside it."""
    one.add_argument("file", metavar="FILE", nargs="?", help=say("cli", "inventory_json_reads_standard"))
    one.add_argument("--line", type=private, help=say("box_line", "option-line"))
    one.add_argument("--name", type=private, dest="customer_name", help=say("box_line", "option-name"))
    one.add_argument("--phone", type=private)
    one.add_argument("--email", type=private)
    one.add_argument("--tv", choices=[each.value for each in TvSystem], help=say("box_line", "option-tv"))


def add_captured(add: Subcommands) -> None:
    one = add("capture", say("cli", "what_recorded_file_holds"), writes=True)
    one.add_argument("file", metavar="FILE", type=text)
    one.add_argument("--tape", metavar="CODE", type=text, help=say("cli", "attach_tape_recorded"))
    add_sure(one)
    one = add("undo-capture", say("cli", "strike_out_last_file"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--because", type=private, required=True, help="why")
    one = add("files", say("cli", "files_job_their_checksums"))
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--paper", metavar="DIR", help=say("cli", "write_delivery_list"))
