"""One function a subcommand, imported when it is called: play time needs no database."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from core.cli.invocation import Invocation, Reply

(
    _CATALOGUE,
    _BOX,
    _CARE,
    _KEEPING,
    _CAPTURED,
    _PROMISED,
    _LOADING,
    _PLANNED,
    _DESKTOP,
    _SETTINGS,
    _SETTLED,
    _HANDOVER,
    _AGREED,
    _SIGNED,
    _COPIES,
    _PRIVACY,
    _MOVING,
) = (
    f"core.cli.subcommands.{room}"
    for room in (
        "catalogue_questions",
        "box_of_tapes",
        "tape_care",
        "shop_keeping",
        "recorded_files",
        "promised_dates",
        "deck_loading",
        "planning",
        "desktop",
        "own_settings",
        "settled",
        "handover",
        "agreements_typed",
        "signed_files",
        "copies_typed",
        "privacy_typed",
        "shop_moving",
    )
)

_ROOMS = {
    "demo": (_KEEPING, "make_demo"),
    "playtime": (_CATALOGUE, "tell_playtime"),
    "cut": (_CATALOGUE, "tell_cut"),
    "pack": (_CATALOGUE, "tell_pack"),
    "quote": (_BOX, "quote"),
    "book": (_BOX, "book"),
    "status": (_CARE, "tell_status"),
    "move": (_CARE, "move"),
    "settle": (_SETTLED, "settle"),
    "unsettle": (_SETTLED, "unsettle"),
    "incident": (_SETTLED, "tell_incident"),
    "incidents": (_SETTLED, "list_incidents"),
    "splice": (_CARE, "splice"),
    "mark": (_CARE, "mark"),
    "undo-splice": (_CARE, "undo_splice"),
    "label-off": (_CARE, "take_label_off"),
    "repair": (_CARE, "repair"),
    "undo-repair": (_CARE, "undo_repair"),
    "looked": (_CARE, "look"),
    "donors": (_CARE, "keep_donors"),
    "clear": (_CARE, "clear_finding"),
    "history": (_CARE, "tell_history"),
    "capture": (_CAPTURED, "tell_capture"),
    "undo-capture": (_CAPTURED, "strike_file"),
    "files": (_CAPTURED, "list_files"),
    "file-check": (_SIGNED, "check"),
    "sign-off": (_SIGNED, "sign_off"),
    "undo-sign-off": (_SIGNED, "undo"),
    "to-tell": (_HANDOVER, "list_to_tell"),
    "told": (_HANDOVER, "tell"),
    "wish": (_HANDOVER, "wish"),
    "called": (_HANDOVER, "note_call"),
    "copies": (_COPIES, "list_copies"),
    "copy-made": (_COPIES, "make"),
    "copy-checked": (_COPIES, "check"),
    "undo-copy": (_COPIES, "strike"),
    "own-drive": (_COPIES, "describe_drive"),
    "copy-choice": (_COPIES, "answer"),
    "download": (_COPIES, "give_link"),
    "download-deleted": (_COPIES, "delete_download"),
    "downloads": (_COPIES, "list_downloads"),
    "pickup": (_BOX, "hand_back"),
    "promises": (_CARE, "tell_promises"),
    "promise-again": (_PROMISED, "promise_again"),
    "kept": (_PROMISED, "tell_kept"),
    "deck": (_PROMISED, "switch_deck"),
    "shut": (_PROMISED, "stay_shut"),
    "close": (_PLANNED, "close_days"),
    "reopen": (_PLANNED, "reopen_days"),
    "outage": (_PLANNED, "plan_outage"),
    "expect": (_PLANNED, "expect"),
    "queue": (_PLANNED, "order_boxes"),
    "customers": (_BOX, "list_customers"),
    "correct": (_BOX, "correct_customer"),
    "refund": (_BOX, "refund"),
    "load-now": (_LOADING, "tell_load_now"),
    "habits": (_CARE, "tell_habits"),
    "amend": (_AGREED, "amend"),
    "agree": (_AGREED, "agree"),
    "cancel": (_AGREED, "cancel"),
    "agreement": (_AGREED, "tell_agreement"),
    "found": (_CARE, "see_on_deck"),
    "to-call": (_AGREED, "tell_to_call"),
    "shop": (_SETTINGS, "carry_out"),
    "backup": (_KEEPING, "back_up"),
    "restore": (_KEEPING, "restore"),
    "rehearse-restore": (_KEEPING, "rehearse_restore"),
    "backup-key": (_KEEPING, "make_key"),
    "move-shop": (_MOVING, "move_shop"),
    "verify": (_KEEPING, "verify"),
    "data-kept": (_PRIVACY, "tell_kept"),
    "export-customer": (_PRIVACY, "export"),
    "erase": (_PRIVACY, "erase"),
    "renew-backups": (_PRIVACY, "renew_backups"),
    "completion": (_DESKTOP, "complete_shell"),
    "desktop-entry": (_DESKTOP, "write_desktop_entry"),
}

SUBCOMMANDS = tuple(_ROOMS)


def carry_out(name: str, call: Invocation) -> Reply:
    """Run the subcommand ``name``."""
    room, function = _ROOMS[name]
    reply: Reply = getattr(import_module(room), function)(call)
    return reply
