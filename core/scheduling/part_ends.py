"""When parts end in an event simulation with staff: with the last of their tapes to be checked."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from core.scheduling.opening_calendar import NEVER, Minutes, Places, where
from core.scheduling.simulated_shop import Part, Reasons


class PartEnds:
    """The end of each part so far and what its last tape waited for; parts are told by their places."""

    def __init__(self, parts: Iterable[Part], scenarios: int) -> None:
        self._parts = list({id(part): part for part in parts}.values())
        self._places = {id(part): place for place, part in enumerate(self._parts)}
        self.none = len(self._parts)
        """The place that stands for no part."""
        self._ends = np.full((self.none + 1, scenarios), -np.inf)
        self._why = np.zeros((self.none + 1, scenarios), dtype=np.int8)

    def place_of(self, part: Part) -> int:
        """The place of a part; KeyError for one that was not named."""
        return self._places[id(part)]

    def note(self, part: Places, ends: Minutes, why: Reasons, at: Places) -> None:
        """One more tape of each of these parts ends, in the scenarios ``at``."""
        last = where(ends > self._ends[part, at])
        part, at = part.take(last), at.take(last)
        self._ends[part, at] = ends.take(last)
        self._why[part, at] = why.take(last)

    def note_never(self, part: Places | np.intp, at: Places) -> None:
        """These parts never end in the scenarios ``at``."""
        self._ends[part, at] = NEVER

    def hand_over(self) -> None:
        """Gives the parts their ends; infinity for never."""
        for place, part in enumerate(self._parts):
            part.ends[:] = np.where(self._ends[place] >= NEVER, np.inf, self._ends[place])
            part.why[:] = self._why[place]
