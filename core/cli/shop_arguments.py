"""Options of the subcommands about the shop itself: promises, plans, copies, the invented shop."""

from __future__ import annotations

from core.cli.argument_parser import (
    Parser,
    Subcommands,
    amount,
    day,
    head,
    private,
    text,
)
from core.wording.messages import say


def add_promised(add: Subcommands) -> None:
    one = add("promise-again", say("cli", "say_new_day_job"), writes=True)
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("--reason", type=private, required=True, help=say("cli", "why_day_changes"))
    one.add_argument("--agreed-with", type=private, metavar="WHO", help=say("cli", "who_heard_how"))
    one.add_argument("--day", type=day, metavar="ISO-DATE", help=say("cli", "day_they_would_rather"))
    add("kept", say("cli", "how_promises_turned_out"))
    one = add("deck", say("cli", "deck_broke_down_back"), writes=True)
    one.add_argument("name", metavar="NAME", type=text)
    one.add_argument("state", metavar="STATE", choices=["out", "back"], help=say("cli", "out_back"))
    one.add_argument("--because", type=private, help=say("cli", "what_broke_what_done"))
    one = add("shut", say("cli", "day_shop_stays_shut"), writes=True)
    one.add_argument("day", metavar="ISO-DATE", type=day)
    one.add_argument("--because", type=private, required=True, help="why")


def add_planned(add: Subcommands) -> None:
    one = add("close", say("cli", "close_shop_plan_day"), writes=True)
    _add_span(one)
    one.add_argument("--because", type=private, required=True, help="why")
    one = add("reopen", say("cli", "take_closed_days_back"), writes=True)
    _add_span(one)
    one.add_argument("--because", type=private, help="why")
    one = add("outage", say("cli", "deck_out_service_plan"), writes=True)
    one.add_argument("name", metavar="NAME", type=text)
    _add_span(one)
    one.add_argument("--because", type=private, help="why")
    one.add_argument("--take-back", action="store_true", help=say("cli", "out_after_all"))
    one = add("expect", say("cli", "what_shop_states_failures"), writes=True)
    for name, words, most in (
        ("hours-between-failures", say("cli", "playing_hours"), 1_000_000.0),
        ("hours-to-repair", say("cli", "real_hours"), 10_000.0),
        ("rush-boxes-a-week", "boxes", 1_000.0),
        ("tapes-in-a-rush-box", "tapes", 500.0),
        ("unplanned-closures", say("cli", "share_opening_days"), 0.5),
    ):
        one.add_argument(f"--{name}", type=amount(words, most), metavar="N", help=words)
    one = add("queue", say("cli", "look_order_boxes_more"), writes=True)
    which = one.add_mutually_exclusive_group()
    which.add_argument("--keep", action="store_true", help=say("cli", "put_boxes_order_found"))
    which.add_argument("--take-back", action="store_true", help=say("cli", "order_before_last_one"))


def _add_span(one: Parser) -> None:
    one.add_argument("first", metavar="ISO-DATE", type=day)
    one.add_argument("last", metavar="LAST", type=day, nargs="?", help=say("cli", "last_day_if_several"))


def add_keeping(add: Subcommands) -> None:
    one = add("backup", say("cli", "copy_shop_while_use"))
    one.add_argument("dir", metavar="DIR", nargs="?", help=say("cli", "backup_places"))
    one.add_argument("--check", action="store_true", help=say("cli", "backup_check"))
    _add_key(one)
    one = add("restore", say("cli", "put_copy_back_shop"))
    one.add_argument("file", metavar="FILE")
    one.add_argument("--replace", action="store_true", help=say("cli", "restore_replace"))
    one.add_argument("--another-shop", action="store_true", help=say("cli", "restore_another_shop"))
    one.add_argument("--last-number", metavar="NUMBER", type=text, help=say("cli", "restore_last_number"))
    _add_key(one)
    one = add("rehearse-restore", say("cli", "rehearse_restore"))
    one.add_argument("file", metavar="FILE")
    _add_key(one)
    one = add("backup-key", say("cli", "backup_key"), writes=True)
    one.add_argument("--paper", metavar="DIR", help=say("cli", "backup_key_paper"))
    one = add("move-shop", say("cli", "move_shop"))
    one.add_argument("from_place", metavar="FROM", type=text, help=say("cli", "move_shop_from"))
    one.add_argument("to_place", metavar="TO", type=text, help=say("cli", "move_shop_to"))
    one = add("verify", say("cli", "check_database_chain_history"))
    one.add_argument("--head", metavar="HEX", type=head, help=say("cli", "verify_head"))
    one.add_argument("--backups", metavar="DIR", type=text, help=say("cli", "verify_backups"))


def _add_key(one: Parser) -> None:
    one.add_argument("--key", metavar="FILE", type=text, help=say("cli", "backup_key_file"))


def add_desktop(add: Subcommands) -> None:
    one = add("completion", say("cli", "completion_of_shell"))
    one.add_argument("shell", choices=("bash", "zsh", "fish"))
    one = add("desktop-entry", say("cli", "desktop_entry_writes"))
    one.add_argument("--dir", metavar="DIR", type=text, help=say("cli", "desktop_entry_dir"))


def add_demo(add: Subcommands) -> None:
    one = add("demo", say("cli", "invented_shop_day_s"))
    one.add_argument("--dir", metavar="DIR", help=say("cli", "where_make_must_new"))
    one.add_argument("--no-window", action="store_true", help=say("cli", "only_make_files"))
