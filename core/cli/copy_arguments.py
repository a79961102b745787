"""Options of the subcommands about copies: made, checked, handed over, too large, downloaded, deleted."""

from __future__ import annotations

from core.cli.agreement_arguments import add_consent
from core.cli.argument_parser import (
    MOST_MINOR,
    Parser,
    Subcommands,
    add_command_id,
    amount,
    day,
    private,
    text,
    whole,
)
from core.model.copies.copy_questions import CopyChoice
from core.model.copies.copy_records import FileSystem
from core.wording.messages import say

MOST_GB = 100_000.0


def add_copies(add: Subcommands) -> None:
    one = add("copies", say("cli", "copies_does"))
    one.add_argument("number", metavar="NUMBER", type=text, nargs="?", help=say("cli", "copies_number"))
    one = _of_item(add, "copy-made", "copy_made_does")
    one.add_argument("--tape", action="append", metavar="CODE", type=text, help=say("cli", "copy_made_tape"))
    _add_files(one, "copy_made_files")
    add_command_id(one)
    one = _of_item(add, "copy-checked", "copy_checked_does")
    _add_files(one, "copy_checked_files")
    add_command_id(one)
    one = _of_item(add, "undo-copy", "undo_copy_does")
    one.add_argument("--because", type=private, required=True, help="why")
    add_command_id(one)
    one = _of_item(add, "own-drive", "own_drive_does")
    gigabytes = amount(say("copies", "drive-gigabytes"), MOST_GB)
    one.add_argument("--gb", type=gigabytes, required=True, help=say("cli", "own_drive_gb"))
    systems = [each.value for each in FileSystem]
    one.add_argument("--file-system", choices=systems, required=True, help=say("cli", "own_drive_system"))
    add_command_id(one)
    one = _of_item(add, "copy-choice", "copy_choice_does")
    choices = [each.value for each in CopyChoice]
    one.add_argument("--choice", choices=choices, help=say("cli", "copy_choice_choice"))
    one.add_argument("--because", metavar="WORDS", type=private, help=say("cli", "why_changed"))
    one.add_argument("--based-on", metavar="N", type=whole(MOST_MINOR), help=say("cli", "based_on_version"))
    add_consent(one)
    add_command_id(one)


def add_downloads(add: Subcommands) -> None:
    one = _of_download(add, "download", "download_does")
    one.add_argument("--link", metavar="URL", type=private, required=True, help=say("cli", "download_link"))
    one.add_argument("--until", metavar="DATE", type=day, required=True, help=say("cli", "download_until"))
    add_command_id(one)
    add_command_id(_of_download(add, "download-deleted", "download_deleted_does"))
    one = add("downloads", say("cli", "downloads_does"))
    one.add_argument("--due", action="store_true", help=say("cli", "downloads_due"))


def _of_item(add: Subcommands, name: str, does: str) -> Parser:
    one = add(name, say("cli", does))
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument("item", metavar="COPY", type=whole(MOST_MINOR), help=say("cli", "copy_item"))
    return one


def _of_download(add: Subcommands, name: str, does: str) -> Parser:
    one = add(name, say("cli", does))
    one.add_argument("number", metavar="NUMBER", type=text)
    one.add_argument(
        "item", metavar="COPY", type=whole(MOST_MINOR), nargs="?", help=say("cli", "download_item")
    )
    return one


def _add_files(one: Parser, words: str) -> None:
    one.add_argument("--files", nargs="+", metavar="FILE", type=text, help=say("cli", words))
