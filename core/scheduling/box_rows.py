"""A short row of tapes as tables: which decks play each, from when, and which of the next may go before it.

Every scenario is at another tape of the row, so what is asked of a tape is looked up for many tapes at once.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

import numpy as np

from core.scheduling.opening_hours import Minutes
from core.scheduling.slot_lookup import Places
from core.scheduling.waiting_tapes import Decks, Ground, Turnout


class Row:
    """The tapes of the row as tables, one line a tape and where it is needed one more for none."""

    def __init__(self, tapes: Sequence[Turnout], ground: Ground) -> None:
        self._ground = ground
        self._scenarios = ground.lanes.free.shape[1]
        most = max(len(tape.decks) for tape in tapes)
        self.decks = np.array([[*tape.decks, *[tape.decks[0]] * (most - len(tape.decks))] for tape in tapes])
        """The decks of each in the order named, filled up with the first."""
        filled = [len(tape.decks) for tape in tapes]
        self.barrier = np.where(np.arange(most) < np.array(filled)[:, None], 0.0, np.inf)
        self.estimate = np.array([*(tape.estimate for tape in tapes), np.inf])
        self._set_up_gates(tapes)
        self._set_up_ready(tapes)
        kinds = {(tape.decks, tape.estimate): place for place, tape in enumerate(tapes)}
        self.kind = np.array([kinds[tape.decks, tape.estimate] for tape in tapes])
        """The same number for tapes planned alike."""
        last = {tape.decks: place for place, tape in enumerate(tapes)}
        self.is_last = np.array([last[tape.decks] == place for place, tape in enumerate(tapes)])
        """Whether no tape for the same decks stands behind."""
        self.meets = [
            np.array([not set(coming.kind.decks).isdisjoint(tape.decks) for tape in tapes])
            for coming in ground.rush
        ]
        """For each kind of rush tape, whether it plays on a deck of a tape."""
        self._set_up_near(tapes)

    def start(self, tape: Places, moment: Minutes) -> Minutes:
        """The first allowed start of each tape at or after a moment (`Gate.start`, for tapes unlike)."""
        slots = self._ground.lanes.slots
        cell = self._line.take(tape) + slots.closing_from(moment)
        slot = self._following.take(cell + (moment > self._latest.take(cell)))
        return np.asarray(np.maximum(moment, slots.opens.take(slot)))

    def ready_of(self, tape: Places, at: Places) -> Minutes:
        """The minute at which the bench lets tapes go in the scenarios ``at``."""
        if self.may_wait:
            return np.asarray(self._ready.take(tape * self._scenarios + at))
        return np.asarray(self._ready.take(tape))

    def _set_up_gates(self, tapes: Sequence[Turnout]) -> None:
        """The gates of all estimates, laid end to end."""
        estimates = list(dict.fromkeys(tape.estimate for tape in tapes))
        gates = [self._ground.lanes.gate(estimate) for estimate in estimates]
        self._following = np.concatenate([gate.following for gate in gates])
        self._latest = np.concatenate([np.append(gate.latest, np.inf) for gate in gates])
        width = len(self._following) // len(gates)
        self._line = np.array([width * estimates.index(tape.estimate) for tape in tapes])

    def _set_up_ready(self, tapes: Sequence[Turnout]) -> None:
        self.may_wait = any(isinstance(tape.ready, np.ndarray) for tape in tapes)
        """Whether the bench lets tapes go at other moments in other scenarios."""
        if self.may_wait:
            rows = [np.broadcast_to(tape.ready, self._scenarios) for tape in tapes]
            self._ready = np.concatenate(rows)
        else:
            self._ready = np.array([tape.ready for tape in tapes], dtype=np.float64)
        self.latest = float(self._ready.max())

    def _set_up_near(self, tapes: Sequence[Turnout]) -> None:
        """Which tapes stand behind another and may take its deck for the rest of the day.

        Only tapes that play on no other decks than its own: for those the deck that has become free is the
        first that could have taken them, so nothing is fetched that would have been playing elsewhere.
        """
        rows = {decks: _within(decks, tapes) for decks in dict.fromkeys(tape.decks for tape in tapes)}
        behind = [
            _behind(place, rows[tape.decks], tapes, self._ground.fill) for place, tape in enumerate(tapes)
        ]
        most = max(1, max(len(each) for each in behind))
        none = len(tapes)
        self.near = np.array([[*each, *[none] * (most - len(each))] for each in behind], dtype=np.intp)
        self.has_shorter = self.near[:, 0] < none
        decks = range(self._ground.lanes.free.shape[0])
        plays = [[deck in tape.decks for deck in decks] for tape in tapes]
        self.plays = np.array([*plays, [False for _ in decks]]).reshape(-1)


def _within(decks: Decks, tapes: Sequence[Turnout]) -> list[int]:
    """The places of the tapes that play on these decks only."""
    own = set(decks)
    return [place for place, tape in enumerate(tapes) if own.issuperset(tape.decks)]


def _behind(place: int, row: list[int], tapes: Sequence[Turnout], most: int) -> list[int]:
    """The next tapes of a row planned shorter than one, the longest first, of equally long ones the next."""
    begin = bisect_right(row, place)
    shorter = [each for each in row[begin : begin + most] if tapes[each].estimate < tapes[place].estimate]
    return sorted(shorter, key=lambda each: -tapes[each].estimate)
