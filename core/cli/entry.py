"""The command line: the same steps as the window, without one.

Exit 0 done, 2 the input is wrong, 3 refused by a rule, 4 unavailable; 130 after Ctrl+C. Libraries
that take long to import are imported by the command that needs them: the window starts through here.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Collection, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from core.cli import terminal_text
from core.cli.argument_parser import Parser, Subcommands, WrongArguments, add_common
from core.cli.subcommands import SUBCOMMANDS, carry_out
from core.cli.window_options import window_options
from core.model.errors import TapewrightError, Unavailable, Unconfirmed
from core.model.program_version import version
from core.wording.messages import say

if TYPE_CHECKING:
    from core.cli.invocation import Reply

OpenWindow = Callable[[Sequence[str]], int]
"""Opens the window with its own options (``--shop``, ``--who``, ``--now``) and returns its exit code."""

_UNAVAILABLE = 4
_OWN_SCREEN = ("win32", "darwin")
_INTERRUPTED = 130
"""128 + SIGINT, as shells have it."""


def run(argv: Sequence[str], *, open_window: OpenWindow | None = None) -> int:
    """Carry out one command line and return the exit code; never raises.

    ``open_window`` is called when no subcommand is named, and after ``demo`` on a machine with a
    screen; without it nothing is opened.
    """
    try:
        return _carry_out(argv, open_window)
    except TapewrightError as error:
        _say(error.sentence)
        if isinstance(error, Unconfirmed):
            _say(say("cli", "say_sure"))
        return error.exit_code
    except SystemExit as asked:
        return asked.code if isinstance(asked.code, int) else 0
    except KeyboardInterrupt:
        _say(say("cli", "stopped_what_already_reported"))
        return _INTERRUPTED
    except BrokenPipeError:
        _close_output()
        return 0
    except OSError as error:
        _say(say("cli", "nothing_changed", named=_named(error)))
        return _UNAVAILABLE
    except Exception as error:  # noqa: BLE001 - the border of failure: a person never sees a traceback
        _say(_report(error))
        return _UNAVAILABLE


def main() -> int:
    """``python -m core.cli.entry``."""
    return run(sys.argv[1:])


def _carry_out(argv: Sequence[str], open_window: OpenWindow | None) -> int:
    asked = arguments(argv, SUBCOMMANDS)
    if asked.version:
        print(f"tapewright {version()}", flush=True)
        return 0
    if asked.subcommand is None:
        return _without_subcommand(asked, open_window)
    return _with_subcommand(asked, open_window)


def _with_subcommand(asked: argparse.Namespace, open_window: OpenWindow | None) -> int:
    from core.cli import proving  # not on the window's way to its first paint
    from core.cli.invocation import Invocation, marked

    call = Invocation(asked, proving.prove)
    try:
        reply = carry_out(asked.subcommand, call)
    except Exception as failure:
        call.take_back_folders()
        if isinstance(failure, Unavailable):
            raise call.with_way_back(failure) from failure
        raise
    reply = marked(reply, call.marks)
    _answer(reply, as_json=asked.json)
    for note in (*dict.fromkeys(call.notes), reply.note):
        if note:
            _say(note)
    if reply.shop_to_open is not None and open_window is not None and has_screen():
        return open_window(window_options(asked, reply.shop_to_open))
    return reply.exit_code


def _without_subcommand(asked: argparse.Namespace, open_window: OpenWindow | None) -> int:
    if open_window is None:
        raise WrongArguments(say("cli", "subcommand_named_accepted", subcommands=", ".join(SUBCOMMANDS)))
    if not has_screen() and not os.environ.get("QT_QPA_PLATFORM"):
        raise Unavailable(say("cli", "no_screen"))
    return open_window(window_options(asked, asked.shop))


def has_screen() -> bool:
    """Whether a window could be seen: always on Windows and macOS, else under X11 or Wayland."""
    if os.environ.get("QT_QPA_PLATFORM", "").split(":")[0] in ("offscreen", "minimal"):
        return False
    return sys.platform in _OWN_SCREEN or bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def arguments(argv: Sequence[str], subcommands: Collection[str]) -> argparse.Namespace:
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
    """The whole command line; its parts are imported here because a window that is opened needs none."""
    from core.cli.accounts_arguments import add_accounts
    from core.cli.agreement_arguments import add_agreement
    from core.cli.box_arguments import add_box, add_captured, add_catalogue
    from core.cli.checking_arguments import add_checking
    from core.cli.copy_arguments import add_copies, add_downloads
    from core.cli.handover_arguments import add_handover
    from core.cli.paper_arguments import add_papers
    from core.cli.privacy_arguments import add_privacy
    from core.cli.settings_arguments import add_settings
    from core.cli.shop_arguments import add_demo, add_desktop, add_keeping, add_planned, add_promised
    from core.cli.tape_arguments import add_care

    whole = _top(add_help=True)
    add = Subcommands(whole)
    add_catalogue(add)
    add_box(add)
    add_care(add)
    add_agreement(add)
    add_captured(add)
    add_papers(add)
    add_checking(add)
    add_handover(add)
    add_copies(add)
    add_downloads(add)
    add_promised(add)
    add_planned(add)
    add_keeping(add)
    add_settings(add)
    add_privacy(add)
    add_accounts(add)
    add_demo(add)
    add_desktop(add)
    return whole


def _top(*, add_help: bool) -> Parser:
    top = Parser(
        prog="tapewright",
        description=say("cli", "cassette_transfer_shop_s"),
        allow_abbrev=False,
        add_help=add_help,
    )
    top.add_argument("--quit-after-first-paint", action="store_true", help=argparse.SUPPRESS)
    top.add_argument("--version", action="store_true", help=say("cli", "tell_version"))
    add_common(top, top=True)
    return top


def _answer(reply: Reply, *, as_json: bool) -> None:
    """Prints what was done. Unavailable when that cannot be written: it was done all the same."""
    try:
        _print(reply, as_json=as_json)
    except BrokenPipeError:
        raise
    except OSError as error:
        _close_output()
        raise Unavailable(say("cli", "answer_not_written", named=_named(error))) from error


def _print(reply: Reply, *, as_json: bool) -> None:
    import json

    # JSON stays ASCII so that no console encoding can spoil it; what damaged records hold is told as text.
    written = json.dumps(reply.document, indent=2, default=str) if as_json else reply.text
    text = written if as_json else terminal_text.shown(written, sys.stdout)
    print(text, flush=True)


def _say(sentence: str) -> None:
    try:
        print(f"tapewright: {terminal_text.shown(sentence, sys.stderr)}", file=sys.stderr, flush=True)
    except OSError:
        _close_output()


def _close_output() -> None:
    """Whoever read our output went away: write no more, not even at exit."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)


def _named(error: OSError) -> str:
    where = f"{error.filename}: " if error.filename else ""
    return f"{where}{(error.strerror or str(error)).rstrip('.')}"


def _report(error: Exception) -> str:
    """One sentence for the person, and the traceback in a log file for whoever mends it."""
    sentence = say("cli", "something_went_wrong_inside", name=type(error).__name__)
    try:
        import platformdirs

        from core.model import failure_trace, private_files

        folder = private_files.make_folder(Path(platformdirs.user_log_dir("Tapewright", appauthor=False)))
        private_files.tighten(folder)
        log = private_files.make_file(folder / "tapewright.log")
        with log.open("a", encoding="utf-8") as file:
            file.write(failure_trace.trace(error))
    except OSError:
        return say("cli", "log_could_written_nothing", sentence=sentence)
    return say("cli", "details_nothing_half_done", sentence=sentence, log=log)


if __name__ == "__main__":
    sys.exit(main())
