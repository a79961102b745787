"""Events drawn from a seed: mostly what a hand does at this screen, some that no hand should."""

from __future__ import annotations

import random
from collections.abc import Iterator

from tests.random_events.event_records import Does, Event

SCREENS = ("counter", "phone", "bench", "pickup", "shop", "set-up", "first-run")
_PLAIN = (
    *("Return", "Tab", "Backtab", "Escape", "Up", "Down", "Left", "Right", "Space", "Backspace", "Delete"),
    *("Home", "End", "PgUp", "PgDown", "Enter", "Insert"),
)
_HELD = (
    *("Ctrl+Return", "Ctrl+Z", "Ctrl+Y", "Ctrl+D", "Ctrl+Del", "Ctrl+N", "Ctrl+L", "Ctrl+M", "Ctrl+H"),
    *("Ctrl+S", "Ctrl+A", "Ctrl+C", "Ctrl+X", "Ctrl+V", "Ctrl+I", "Ctrl+G", "Ctrl+K", "Shift+Tab"),
    *("Shift+Return", "Shift+Left", "Ctrl+Home", "Ctrl+End", "Alt+Down", "Ctrl+Shift+N", "Ctrl+Backspace"),
    *(f"Alt+{sign}" for sign in "123ABCDEFHLMNOPRSTUVWY"),
)
_FUNCTION = ("F4", "F6", "F7", "F8", "F9", "F10", "F11", "F12", "Shift+F8", "Shift+F10")
_MOMENTS = ("F1", "F2", "F3", "F4", "F5")
_WORDS = (
    *("5 vhs t120, 3 vhs-c", "hi8 snapped", "2 betamax mold", "vhs", "minidv", "12", "3", "T-120", "mold"),
    *("Ada Fenwick", "fenwick", "0142", "3035550142", "000001", "1", "0", "-1", "9" * 30, "12.50", "$40"),
    *(
        "tomorrow",
        "March 12",
        "usb",
        "dvd, usb",
        "ntsc",
        "snapped, mold",
        "labeled Oma",
        "Łódź ☃ ",
        "\u202e",
        "<b>",
    ),
    *(
        " ",
        ",",
        ";",
        "“",
        "%",
        "&",
        "x" * 300,
        "31.12.2026",
        "9:00-17:00",
        "o’clock",
        "nobody",
        "5 of them wet",
    ),
)
_TABLES = (
    "count\tformat\twrong\n2\tVHS\tmold\n1\thi8\n",
    "5 vhs\n3 hi8",
    "format,count\nvhs,2\nno such thing,x\n",
    "Ada\x00Fenwick",
)
_SHARES: tuple[tuple[Does, float], ...] = (
    (Does.KEY, 30),
    (Does.TYPE, 16),
    (Does.CLICK, 26),
    (Does.POINT, 6),
    (Does.DOUBLE, 2),
    (Does.MENU, 1),
    (Does.WHEEL, 2),
    (Does.INK, 4),
    (Does.SCAN, 5),
    (Does.PASTE, 2),
    (Does.WAIT, 3),
    (Does.GO, 2.4),
    (Does.SCREEN, 0.4),
    (Does.ELSEWHERE, 0.5),
    (Does.CLOSE, 0.15),
)
_KINDS, _WEIGHTS = zip(*_SHARES, strict=True)


def drawn(screen: str, count: int, seed: int) -> tuple[Event, ...]:
    """So many events for a screen; always the same for a seed."""
    return tuple(_drawn(random.Random(f"{screen} {seed}"), count))


def _drawn(dice: random.Random, count: int) -> Iterator[Event]:
    for _ in range(count):
        does = dice.choices(_KINDS, _WEIGHTS)[0]
        at, to = round(dice.random(), 4), round(dice.random(), 4)
        yield Event(does, _text(does, dice), at, to)


def _text(does: Does, dice: random.Random) -> str:
    if does is Does.KEY:
        return _key(dice)
    if does is Does.TYPE:
        return dice.choice(_WORDS)
    if does is Does.PASTE:
        return dice.choice((*_WORDS, *_TABLES))
    if does is Does.WAIT:
        return str(dice.choice((0, 10, 70, 160, 400, 1050)))
    if does is Does.CLOSE:
        return dice.choice(("", "Ctrl+Return", "5"))
    return ""


def _key(dice: random.Random) -> str:
    kinds = (_PLAIN, "abdehmstv0123456789 ,.", _HELD, _FUNCTION, _MOMENTS)
    return dice.choice(dice.choices(kinds, (46, 22, 24, 6, 1.5))[0])
