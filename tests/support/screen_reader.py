"""What a screen reader hears of the running program, over the desktop's own accessibility bus.

Run by the system's Python, which has the reader's library (Debian: ``python3-pyatspi``), inside
``dbus-run-session``: it starts a screen of its own, the bus and the program, takes the steps from its
input and writes what it heard into a file, because others on the bus write to the output. The steps are
a JSON list; each is one of

- ``["type", NAME, TEXT]``: put a text into the field of that name
- ``["press", NAME]``: press what is called so
- ``["hear", TEXT]``: wait until something that shows says TEXT
- ``["read"]``: everything that shows, as (role, name, whether the keyboard comes to it)
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import Any

import pyatspi
from gi.repository import GLib

BUS = "/usr/libexec/at-spi-bus-launcher"
APPLICATION = "Tapewright"
PATIENCE = 60.0
"""Seconds until something that does not come is given up."""
OFTEN = 0.1

Thing = Any
"""An accessible of the library, which publishes no types."""


def main(heard: Path, command: list[str]) -> int:
    """Start ``command``, do the steps, write a list with one entry for each."""
    steps = json.load(sys.stdin)
    with ExitStack() as running:
        display = running.enter_context(_screen())
        surroundings = {
            **os.environ,
            "DISPLAY": display,
            "QT_QPA_PLATFORM": "xcb",
            "QT_LINUX_ACCESSIBILITY_ALWAYS_ON": "1",
        }
        running.enter_context(_started([BUS, "--launch-immediately"], surroundings))
        running.enter_context(_started(command, surroundings))
        program = _awaited(_program, f"{APPLICATION} on the accessibility bus")
        heard.write_text(json.dumps([_done(program, *step) for step in steps]), encoding="utf-8")
    return 0


@contextmanager
def _screen() -> Iterator[str]:
    """A virtual screen on a free number."""
    read, write = os.pipe()
    command = ["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x800x24", "-nolisten", "tcp"]
    with _started(command, dict(os.environ), pass_fds=(write,)):
        os.close(write)
        with os.fdopen(read) as number:
            yield f":{number.readline().strip()}"


@contextmanager
def _started(
    command: list[str], surroundings: dict[str, str], pass_fds: tuple[int, ...] = ()
) -> Iterator[None]:
    process = subprocess.Popen(command, env=surroundings, stdout=subprocess.DEVNULL, pass_fds=pass_fds)
    try:
        yield
    finally:
        process.terminate()
        process.wait(PATIENCE)


def _done(program: Thing, what: str, *words: str) -> object:
    if what == "type":
        field = _awaited(lambda: _called(program, words[0], "EditableText"), f"a field {words[0]}")
        return bool(field.queryEditableText().setTextContents(words[1]))
    if what == "press":
        button = _awaited(lambda: _called(program, words[0], "Action"), f"a button {words[0]}")
        return bool(button.queryAction().doAction(_press(button)))
    if what == "hear":
        return _awaited(lambda: _saying(program, words[0]), f"somebody saying {words[0]}")
    return _awaited(lambda: [_told(thing) for thing in _showing(program)], "anything that shows")


# --- looking ------------------------------------------------------------------------------


def _program() -> Thing | None:
    return next((each for each in pyatspi.Registry.getDesktop(0) if each and each.name == APPLICATION), None)


def _called(program: Thing, name: str, can: str) -> Thing | None:
    return next(
        (each for each in _showing(program) if each.name == name and can in pyatspi.listInterfaces(each)),
        None,
    )


def _saying(program: Thing, text: str) -> str | None:
    return next((each.name for each in _showing(program) if text in each.name), None)


def _press(button: Thing) -> int:
    actions = button.queryAction()
    return next(n for n in range(actions.nActions) if actions.getName(n) == "Press")


def _told(thing: Thing) -> tuple[str, str, bool]:
    return thing.getRoleName(), thing.name, thing.getState().contains(pyatspi.STATE_FOCUSABLE)


def _showing(program: Thing) -> Iterator[Thing]:
    """All that is on the screen just now; the library would go on telling what it was told before."""
    program.clear_cache()
    yield from _below(program)


def _below(thing: Thing) -> Iterator[Thing]:
    for child in thing:
        if child is not None and child.getState().contains(pyatspi.STATE_SHOWING):
            yield child
            yield from _below(child)


def _awaited(look: Callable[[], Thing | None], what: str) -> Thing:
    given_up = time.monotonic() + PATIENCE
    while time.monotonic() < given_up:
        with suppress(GLib.Error):  # something that was being looked at has gone meanwhile
            found = look()
            if found is not None:
                return found
        time.sleep(OFTEN)
    raise TimeoutError(f"{what} did not come within {PATIENCE:.0f} s")


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), sys.argv[2:]))
