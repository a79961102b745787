"""What each scenario of an event simulation does next."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.scheduling.opening_calendar import Minutes, Places

DECK, BENCH, NIGHT = 0, 1, 2
"""What a tape waited for: a deck, the bench, or an opening although a deck was free (our choice of names)."""


@dataclass(slots=True, eq=False)
class NextEvent:
    """One row a scenario that is not through yet; changed in place as something else goes before."""

    deck: Places
    spot: Places
    """Its place among all decks of all rows."""
    moment: Minutes
    """When it is due."""
    first_slot: Places
    """The first that closes at or after that moment."""
    ready_list: Places
    """Whose tapes the deck takes from: its cell in `ReadyLists.first`."""
    head: Places
    """Where on that list the first tape left lies."""
    place: Places
    """Where on that list the tape lies that goes next; ``head`` itself where that is so in every row."""
    tape: Places
    """That tape; the count of all tapes stands for none."""
    begin: Minutes
    """When the deck could begin anything at all."""
    start: Minutes
    """``begin`` itself where nothing has to wait in any row."""
    slot: Places
    """The first slot that closes at or after the start."""
    why: NDArray[np.int8]
    is_held: NDArray[np.bool_]
    """Whether the deck waits until it is back in service."""
    is_busy: NDArray[np.bool_]
    """Whether the deck has been given something that is not of the queue."""
    is_again: NDArray[np.bool_]
    """Whether the tape has been played before, on a deck that failed."""
    busy: int = 0
    """In how many rows the deck has been given something that is not of the queue."""

    def give(self, at: Places, no_tape: int) -> None:
        """Decks have been given something that is not of the queue."""
        self.tape[at] = no_tape
        self.is_busy[at] = True
        self.busy += len(at)

    @property
    def are_all_busy(self) -> bool:
        """Whether no deck plays a tape of the queue."""
        return self.busy == len(self.tape)

    def fetch(self, at: Places, place: Places, tape: Places, start: Minutes, slot: Places) -> None:
        """Other tapes of the ready list go first."""
        if self.place is self.head:
            self.place = self.head.copy()
        self.place[at], self.tape[at], self.start[at], self.slot[at] = place, tape, start, slot
        self.why[at] = DECK

    def again(self, at: Places, tape: Places, start: Minutes, slot: Places) -> None:
        """Tapes that have been played before go first."""
        self.may_start_later()
        self.tape[at], self.start[at], self.slot[at] = tape, start, slot
        self.why[at] = DECK
        self.is_again[at] = True

    def may_start_later(self) -> None:
        """The starts are about to be changed: from now on they are not those at which decks could begin."""
        if self.start is self.begin:
            self.start, self.slot = self.begin.copy(), self.slot.copy()

    def only(self, at: Places) -> NextEvent:
        """The tapes of some rows."""
        head = self.head.take(at)
        start = self.start.take(at)
        return NextEvent(
            self.deck,
            self.spot.take(at),
            self.moment,
            self.first_slot,
            self.ready_list.take(at),
            head,
            head if self.place is self.head else self.place.take(at),
            self.tape.take(at),
            start,
            start,
            self.slot.take(at),
            self.why.take(at),
            self.is_held,
            self.is_busy,
            self.is_again.take(at),
        )
