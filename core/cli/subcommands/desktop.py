"""What a user's shell and menu know of the program: completion, and the desktop entry with its icon."""

from __future__ import annotations

import argparse
import os
import re
import sys
from collections.abc import Iterator
from pathlib import Path

from core.cli.invocation import Invocation, Reply
from core.model import regular_files, resource_files
from core.model.errors import Refused, Unavailable
from core.wording.messages import say

_SIZE = 256
"""Pixels of the icon beside the drawing, for desktops that take no SVG."""

_FILES = ("FILE", "FILE.json", "PATH-OR-URL")
_FOLDERS = ("DIR",)
"""What an argument is called where the name of a file, or of a folder, is typed."""


def complete_shell(call: Invocation) -> Reply:
    """The script that the shell reads at its start."""
    import shtab

    from core.cli.entry import parser

    whole = parser()
    for action in _actions(whole):
        if action.metavar in _FILES:
            vars(action)["complete"] = shtab.FILE  # an attribute that only shtab knows
        elif action.metavar in _FOLDERS:
            vars(action)["complete"] = shtab.DIRECTORY
    script = shtab.complete(whole, call.asked.shell)
    return Reply({"shell": call.asked.shell, "script": script}, script)


def write_desktop_entry(call: Invocation) -> Reply:
    """Write the entry and the icon below the data folder, at the places the standards name.

    Desktop Entry Specification 1.1 and Icon Theme Specification 0.13, freedesktop.org.
    """
    if not sys.platform.startswith("linux"):
        raise Refused(say("cli", "desktop_entry_only_linux"))
    entry = _resource("tapewright.desktop").decode().replace("COMMAND", quoted(_command()))
    contents = {
        "applications/tapewright.desktop": entry.encode(),
        "icons/hicolor/scalable/apps/tapewright.svg": _resource("tapewright.svg"),
        f"icons/hicolor/{_SIZE}x{_SIZE}/apps/tapewright.png": _resource(f"tapewright-{_SIZE}.png"),
    }
    folder = regular_files.expanded(call.asked.dir).absolute() if call.asked.dir else _data_folder()
    for name, content in contents.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    files = [str(folder / name) for name in contents]
    return Reply({"files": files}, "\n".join(files))


def quoted(command: Path) -> str:
    """One word of an ``Exec`` line: quoted, its own signs escaped, backslashes once more as in any string."""
    word = re.sub(r'(["`$\\])', r"\\\1", str(command)).replace("%", "%%")
    return f'"{word}"'.replace("\\", "\\\\")


def _command() -> Path:
    """What starts the program: the application itself, else the command beside this Python."""
    if getattr(sys, "frozen", False):
        return Path(sys.executable)
    command = Path(sys.executable).with_name("tapewright")
    if not os.access(command, os.X_OK):
        raise Unavailable(say("cli", "desktop_entry_no_command", command=str(command)))
    return command


def _resource(name: str) -> bytes:
    return resource_files.path("icon", name).read_bytes()


def _data_folder() -> Path:
    """``XDG_DATA_HOME``, or what the XDG Base Directory Specification 0.8 names where it is not set."""
    return Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share")


def _actions(whole: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    for action in whole._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for one in action.choices.values():
                yield from _actions(one)
