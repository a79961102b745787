"""What the life of an invented shop is made of: the shop and its troubles, and what became of its boxes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from tests.support.worlds.brought_boxes import Bring, Brought
from tests.support.worlds.people_at_work import USUAL, Dice, Efforts, Person, Span

Turn = tuple[bool, int, int, float, int]
"""By which tapes stand in order."""


@dataclass(frozen=True, slots=True)
class Troubles:
    """What befalls a shop. Minutes, and shares from 0 to 1."""

    again: float = 0.0
    """Of the tapes, played a second time."""
    between_failures: float = 0.0
    """Of play, of one deck, on average; 0: never."""
    repair: float = 0.0
    spells: tuple[float, float, float] | None = None
    """Days from one bad spell to the next and days it takes, on average; times as many failures in it."""
    closures: float = 0.0
    """Of the days, on which it stays shut."""
    rush: float = 0.0
    """Of the boxes."""


@dataclass(frozen=True, slots=True)
class World:
    """One kind of shop. ``hours``: from and to in minutes after midnight by weekday; None: shut."""

    name: str
    decks: tuple[frozenset[str], ...]
    people: tuple[Person, ...]
    boxes_a_day: float
    bring: Callable[[Dice], Bring]
    """What its customers bring; shops differ."""
    efforts: Efforts = USUAL
    troubles: Troubles = Troubles()
    hours: tuple[Span | None, ...] = (*[(600.0, 1080.0)] * 5, None, None)
    past_closing: float = 60.0
    pace: Callable[[float], float] = lambda day: 1.0
    """Times as many boxes on that day as on others."""
    days: int = 456
    """Those that count; eight lives are ten years."""


@dataclass(slots=True, eq=False)
class Tape:
    box: Box
    n: int
    new: Brought
    again: bool
    decks: int
    """How many play it."""
    estimate: float = 60.0
    """Minutes it is believed to take; whoever is asked for promises may tell better."""
    likely: float = 60.0
    station: str = "booked-in"
    since: float = 0.0
    deck: int | None = None
    ended: float = np.inf
    """When it was last taken out of a deck after it had played to its end."""

    @property
    def turn(self) -> Turn:
        return (not self.box.rush, self.box.number, self.decks, -self.likely, self.n)


@dataclass(slots=True, eq=False)
class Box:
    number: int
    came: float
    rush: bool
    tapes: list[Tape] = field(default_factory=list)
    left: int = 0
    """Tapes that are not checked yet."""
    done: float = np.inf


@dataclass(frozen=True, slots=True)
class Work:
    """What somebody did: from when to when, and how long it took of that (minutes)."""

    what: str
    person: int
    began: float
    ended: float
    minutes: float
    tape: Tape | None = None
    deck: int | None = None
    sends_back: bool = False
    """A check after which the tape is played again."""
