"""Operators of the model out of a record of what a hand did, with M's where the rules of the paper put them.

The rules (Card, Moran and Newell 1980, figure 2; their wording shortened, from memory):

0. An M before every K that is no part of an argument proper (a text or a number), and before every P that
   selects a command.
1. An M is left out where what follows is fully anticipated by what went before: a click after its pointing.
2. Of a string of M K's that is one cognitive unit, such as the name of a command, only the first M stays.
3. A redundant terminator has no M: a terminator right behind the terminator of its argument.
4. A terminator of a constant string has no M; of a variable string (an argument) it keeps it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import Enum
from itertools import groupby

from tests.support.klm import CLICK_S, HOME_S, KEY_S, POINT_S, THINK_S


class Did(Enum):
    """What a hand did."""

    WRITE = "write"
    """A key of an argument: a letter of a text, a digit of a number."""
    COMMAND = "command"
    """A key that is none: Return, Tab, a function key, one that is held with Ctrl or Alt."""
    POINT = "point"
    """Pointing and clicking at a command: a button, a tick, an entry of a list."""
    PLACE = "place"
    """Pointing and clicking at a place for an argument: a field, a cell."""
    SCAN = "scan"
    """The hand takes the scanner, aims and pulls the trigger: no source; taken as pointing with a click."""


TERMINATORS = ("return", "enter", "tab", "down")
"""Keys that end a cell, a row or a field, by their units; held with Ctrl they are commands of their own."""
_SHIFTED = '~!@#$%^&*()_+{}|:"<>?'
"""Beside the capitals, on the keyboard of the United States (ANSI INCITS 154)."""


def keys_of(sign: str) -> int:
    """How many keys a letter takes: Shift counts as a key of its own, as it does in the paper."""
    return 2 if sign.isupper() or sign in _SHIFTED else 1


@dataclass(frozen=True, slots=True)
class Deed:
    """One thing done; ``unit`` is the same for deeds of one cognitive unit."""

    did: Did
    unit: str = ""
    keys: int = 1
    """Keys that go down, those that are held among them."""


@dataclass(frozen=True, slots=True)
class Operators:
    """How many of each the task takes."""

    keys: int
    points: int
    homes: int
    thoughts: int

    @property
    def seconds(self) -> float:
        by_hand = self.keys * KEY_S + self.points * (POINT_S + CLICK_S) + self.homes * HOME_S
        return by_hand + self.thoughts * THINK_S

    @property
    def words(self) -> str:
        return f"{self.keys}K {self.points}PBB {self.homes}H {self.thoughts}M"


_BY_MOUSE = (Did.POINT, Did.PLACE, Did.SCAN)


def operators(deeds: Iterable[Deed]) -> Operators:
    """The operators of a task that begins with both hands at the keyboard."""
    done = list(deeds)
    keys = sum(each.keys for each in done if each.did in (Did.WRITE, Did.COMMAND))
    points = sum(each.did in _BY_MOUSE for each in done)
    return Operators(keys, points, sum(_homes(done)), sum(_thoughts(done)))


def _homes(done: list[Deed]) -> Iterator[int]:
    """A hand goes over whenever the device is another."""
    at_mouse = False
    for each in done:
        yield int((each.did in _BY_MOUSE) is not at_mouse)
        at_mouse = each.did in _BY_MOUSE


def _thoughts(done: list[Deed]) -> Iterator[int]:
    """One M before each unit that is a command; rule 1 covers the click, rule 2 the rest of the unit.

    Rule 3: a terminator right behind another one has none.
    """
    behind_terminator = False
    for (did, unit), _group in groupby(done, key=lambda each: (each.did, each.unit)):
        is_terminator = did is Did.COMMAND and unit in TERMINATORS
        yield int(did in (Did.COMMAND, Did.POINT) and not (is_terminator and behind_terminator))
        behind_terminator = is_terminator
