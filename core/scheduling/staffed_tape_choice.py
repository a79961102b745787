"""The dispatching rule with staff: what somebody who has come to a deck can load at that moment.

Only what can start at once is loaded. A deck that gets nothing is seen to again when its next tape may start,
or a tape that must be played again is there.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from core.scheduling.next_event import NextEvent
from core.scheduling.opening_calendar import NEVER, RETIRED, Minutes, Places, where
from core.scheduling.tape_choice import TapeChoice


class StaffedTapeChoice(TapeChoice):
    """The choices of a simulation with staff, in every scenario at once."""

    _awaited: Minutes
    """When a tape may be played again on the deck that is seen to now."""

    def _choose(
        self, going: NDArray[np.bool_], deck: Places, spot: Places, moment: Minutes
    ) -> tuple[NextEvent, Minutes]:
        """What is loaded at each moment; where nothing can start at once, when the deck is seen to again."""
        slot = self._openings.closing(moment)
        event = self._next_tape(deck, spot, moment, slot)
        event.tape[~going] = self._count
        event.is_busy[~going] = True
        wants = event.tape < self._count
        if self._timelines.out:
            self._hold_by_plan(event)
        held = event.is_held
        wants &= ~held
        self._rush_first(event)
        self._awaited = np.full(self._scenarios, RETIRED)
        if self._rework.is_any_waiting:
            self._again_first(event)
        self._fetch_forward(event)
        later = wants & (event.start > moment) & ~event.is_busy
        event.tape[later] = self._count
        nothing = np.where(held, self._decks.due[spot], self._awaited)
        return event, np.where(later & (event.start < NEVER), event.start, nothing)

    def _rush_first(self, event: NextEvent) -> bool:
        """Rush tapes that are here and fit before closing; they are put away when they have played."""
        moment = event.moment
        for coming, allowed in zip(self._rush, self._rush_on, strict=True):
            here = (coming.next <= moment) & self._overtaken.take(event.tape)
            if allowed is not None:
                here &= allowed.take(event.deck)
            at = where(here)
            at = at[self._rush_starts(coming, at, event)[0] <= moment[at]]
            if len(at):
                _, minutes = coming.take(at)
                self._occupy(event.spot[at], np.minimum(moment[at] + minutes, NEVER), event.slot[at])
                event.give(at, self._count)
        return event.are_all_busy

    def _again_first(self, event: NextEvent) -> None:
        """Tapes whose deck has failed go first, once that has happened and where they fit before closing."""
        at = self._rework.waiting(self._columns)
        if not len(at):
            return
        line, first = self._rework.first(event.deck[at], at)
        able = (first < NEVER) & ~event.is_busy[at]
        at, line, first = at[able], line[able], first[able]
        tape, now = self._rework.tape[line, at], event.moment[at]
        start, _ = self._starts.of(tape, np.maximum(now, first))
        if self._timelines.out:
            start = np.maximum(start, self._back_at(event.deck[at], tape, start))
        fits = start <= now
        self._awaited[at[~fits]] = start[~fits]
        at = at[fits]
        event.again(at, self._rework.take(line[fits], at), now[fits], event.slot[at])
