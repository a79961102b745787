"""Options of the subcommands that care for tapes: moves, splices, repairs, pickup."""

from __future__ import annotations

from core.cli.accounts_arguments import add_method
from core.cli.argument_parser import (
    MOST_METRES,
    MOST_METRES_IN_CM,
    MOST_MINOR,
    MOST_MINUTES,
    MOST_SPLICES,
    Parser,
    Subcommands,
    amount,
    moment,
    private,
    text,
    whole,
)
from core.model.dispositions import Disposition
from core.model.names import DonorPart, Finding, Join, Look, Section, Speed, TvSystem
from core.model.stations import Station
from core.wording.messages import say


def add_care(add: Subcommands) -> None:
    one = add("status", say("cli", "answer_caller"))
    one.add_argument("query", metavar="QUERY", type=private, help=say("cli", "number_tape_code_name"))
    one = add("move", say("cli", "one_tape_station"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("station", metavar="STATION", choices=[station.value for station in Station])
    _add_findings(one)
    one.add_argument(
        "--minutes", type=amount("minutes", MOST_MINUTES), help=say("cli", "play_time_turned_out")
    )
    add_sure(one)
    _add_note(one)
    one.add_argument("--deck", metavar="NAME", type=text, help=say("cli", "deck_starts_play"))
    one.add_argument(
        "--without-splice", metavar="WHAT", type=private, help=say("cli", "what_done_instead_splice")
    )
    one.add_argument(
        "--found-speed", choices=[each.value for each in Speed], help=say("cli", "speed_deck_showed")
    )
    one.add_argument("--found-as", metavar="FORMAT", type=text, help=say("cli", "recording_deck_found"))
    one.add_argument(
        "--found-tv", choices=[each.value for each in TvSystem], help=say("cli", "tv_system_deck_found")
    )
    _add_settled(add)
    _add_splice(add)
    _add_repairs(add)
    one = add("mark", say("cli", "confirm_reuse_label_cassette"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one = add("clear", say("cli", "take_finding_off_tape"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("finding", metavar="FINDING", type=text, help=say("cli", "finding_or_own"))
    one.add_argument("--note", type=private, required=True, help="why")
    one = add("history", say("cli", "everything_happened_one_tape"))
    one.add_argument("code", metavar="CODE", type=text)
    _add_pickup(add)
    add("promises", say("cli", "open_jobs_date_chance"))
    add("load-now", say("cli", "which_tape_goes_each"))
    add("habits", say("cli", "what_shop_believed_tapes"))


def add_sure(one: Parser) -> None:
    """What is far beyond the end of the tape is kept only with this."""
    one.add_argument("--sure", action="store_true", help=say("cli", "sure"))


def _add_findings(one: Parser) -> None:
    names = [finding.value for finding in Finding]
    told = say("cli", "findings_or_own", names=", ".join(names))
    one.add_argument("--finding", action="append", default=[], type=text, metavar="F", help=told)


def _add_note(one: Parser) -> None:
    one.add_argument("--note", type=private, help=say("cli", "word_history"))
    one.add_argument("--tell", action="store_true", help=say("cli", "note_is_told"))


def _add_settled(add: Subcommands) -> None:
    one = add("settle", say("cli", "what_became"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    names = [each.value for each in Disposition]
    one.add_argument("disposition", metavar="DISPOSITION", choices=names, help=", ".join(names))
    _add_note(one)
    one.add_argument("--when", metavar="ISO-TIME", type=moment, help=say("cli", "incident_happened"))
    one = add("unsettle", say("cli", "not_settled_any_more"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--because", type=private, required=True, help="why")
    one = add("incident", say("cli", "lost_or_damaged"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    what = one.add_mutually_exclusive_group()
    for name in ("add", "told", "settled"):
        what.add_argument(f"--{name}", metavar="WORDS", type=private, help=say("cli", f"incident_{name}"))
    one.add_argument("--when", metavar="ISO-TIME", type=moment, help=say("cli", "incident_when"))
    one.add_argument(
        "--photo", metavar="FILE", action="append", default=[], help=say("cli", "incident_photo")
    )
    one.add_argument("--paper", metavar="DIR", help=say("cli", "incident_paper"))
    add("incidents", say("cli", "incidents_open"))


def _add_splice(add: Subcommands) -> None:
    one = add("splice", say("cli", "record_splice_tape_becomes"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    where = one.add_mutually_exclusive_group(required=True)
    where.add_argument("--at-minutes", metavar="M", type=amount(say("cli", "minutes_head"), MOST_MINUTES))
    where.add_argument("--at-metres", metavar="M", type=amount(say("cli", "metres_head"), MOST_METRES))
    one.add_argument(
        "--cut-cm", type=amount(say("cli", "centimetres_tape"), MOST_METRES_IN_CM), required=True
    )
    one.add_argument("--joined-with", choices=[join.value for join in Join], required=True)
    one.add_argument(
        "--in", dest="section", choices=[each.value for each in Section], help=say("cli", "what_tape_lies")
    )
    one.add_argument("--redone", choices=["yes", "no"], help=say("cli", "splice_redone"))
    add_sure(one)
    one = add("undo-splice", say("cli", "strike_out_splice_entered"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--because", type=private, required=True, help="why")
    one.add_argument(
        "--nth", type=whole(MOST_SPLICES), metavar="N", help=say("cli", "first_second_splice_lists")
    )
    one = add("label-off", say("cli", "confirm_label_which_longer"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)


def _add_repairs(add: Subcommands) -> None:
    parts = [part.value for part in DonorPart]
    one = add("repair", say("cli", "record_repair_tried_whether"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("repair", metavar="REPAIR", type=text, help=say("cli", "splice_re_anchor_shell"))
    one.add_argument("--failed", action="store_true", help=say("cli", "did_hold"))
    one.add_argument("--part", choices=parts, help=say("cli", "what_fitted_donor"))
    one.add_argument("--from-elsewhere", metavar="WHERE", type=private, help=say("cli", "part_off_shelf"))
    one.add_argument("--note", type=private, help=say("cli", "word_history"))
    one = add("undo-repair", say("cli", "strike_out_last_repair"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument("--because", type=private, required=True, help="why")
    one = add("looked", say("cli", "what_look_repaired_tape"), writes=True)
    one.add_argument("code", metavar="CODE", type=text)
    one.add_argument(
        "verdict", metavar="VERDICT", choices=[look.value for look in Look], help=say("cli", "ok_again")
    )
    one.add_argument("--note", type=private, help=say("cli", "word_history"))
    one = add("donors", say("cli", "donor_parts_shelf_2"), writes=True)
    what = one.add_mutually_exclusive_group()
    what.add_argument(
        "--add",
        nargs=3,
        metavar=("FORMAT", "PART", "N"),
        help=say("cli", "put_parts", parts=", ".join(parts)),
    )
    what.add_argument(
        "--correct", nargs=3, metavar=("FORMAT", "PART", "N"), help=say("cli", "many_really_lie")
    )
    one.add_argument("--because", type=private, help=say("cli", "why_count_put_right"))
    one.add_argument("--came-from", metavar="WHERE", type=private, help=say("cli", "where_those_parts"))


def _add_pickup(add: Subcommands) -> None:
    one = add("pickup", say("cli", "hand_back_all_some"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument(
        "--tape", action="append", metavar="CODE", type=text, help=say("cli", "only_tape_repeatable")
    )
    one.add_argument(
        "--copy", action="append", metavar="ID", type=whole(MOST_MINOR), help=say("cli", "only_copy")
    )
    one.add_argument("--partly", action="store_true", help=say("cli", "pickup_partly"))
    one.add_argument("--signed-by", metavar="NAME", type=private, required=True)
    one.add_argument("--shown", metavar="WORDS", type=private, help=say("cli", "pickup_shown"))
    one.add_argument("--signature", metavar="FILE.json", help=say("cli", "pen_strokes_json"))
    one.add_argument(
        "--paid-minor", type=whole(MOST_MINOR), default=0, metavar="N", help=say("cli", "money_taken_now")
    )
    add_method(one, "--paid-by", "paid_by")
    one.add_argument("--paper", metavar="DIR", help=say("cli", "write_receipt"))
