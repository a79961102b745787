"""One event at the window as data: it names no widget, so that a list with some left out can be played."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum


class Does(Enum):
    """What an event does."""

    KEY = "key"
    """A key with those held, as ``Ctrl+Z``, to whoever has the keyboard."""
    TYPE = "type"
    """Words letter by letter."""
    CLICK = "click"
    """Left button on one of the things that can be clicked, by its share of them."""
    DOUBLE = "double"
    MENU = "menu"
    """Right button."""
    POINT = "point"
    """Left button anywhere in the window in front."""
    WHEEL = "wheel"
    INK = "ink"
    """A stroke on a pad that is in sight."""
    SCAN = "scan"
    """A code and Return, faster than any hand."""
    PASTE = "paste"
    """Words into the clipboard, then Ctrl+V."""
    WAIT = "wait"
    """So many milliseconds."""
    GO = "go"
    """To the screen this run is about, on another of its pages."""
    SCREEN = "screen"
    """A second screen is plugged in, or unplugged."""
    ELSEWHERE = "elsewhere"
    """Another till does something in the same shop."""
    CLOSE = "close"
    """The window is closed with whatever is under way, and opened again."""


@dataclass(frozen=True, slots=True)
class Event:
    """``text`` for keys and words; ``at`` and ``to`` are shares from 0 to 1 of whatever there is."""

    does: Does
    text: str = ""
    at: float = 0.0
    to: float = 0.0

    def line(self) -> str:
        """One line that `of_line` reads."""
        return json.dumps([self.does.value, self.text, self.at, self.to])


def of_line(line: str) -> Event:
    """The event of a line; ValueError for what is none."""
    does, text, at, to = json.loads(line)
    return Event(Does(does), str(text), float(at), float(to))


def of_lines(text: str) -> tuple[Event, ...]:
    """The events of a file with one on each line."""
    return tuple(of_line(line) for line in text.splitlines() if line.strip())


def to_lines(events: Sequence[Event]) -> str:
    return "".join(f"{event.line()}\n" for event in events)
