"""How long a person is busy with a tape on its way through the shop, step by step."""

from __future__ import annotations

from dataclasses import dataclass

SHORT = 120.0
"""Minutes a tape plays up to which a spot check of its copy takes `HandlingMinutes.check`."""


@dataclass(frozen=True, slots=True)
class HandlingMinutes:
    """Minutes of a person's time for one tape; repairs and copies have figures of their own."""

    look_over: float = 5.0
    """Condition check and label before play (common practice, no source)."""
    load: float = 3.0
    """From memory."""
    unload: float = 2.0
    """From memory."""
    check: float = 8.0
    """A spot check of the copy: its start, its end and places between (from memory)."""
    further_hour: float = 3.0
    """What a spot check takes more for each hour beyond `SHORT`: a place every half hour, a minute and a half
    each (an assumption)."""
    whole_check: bool = False
    """Whether every copy is watched from start to end: the check then takes as long as the tape plays."""
    watching: float = 1.0
    """Minutes of watching for each minute of such a copy; learned, never stated (see `WorkHabits`)."""

    @property
    def check_each_minute(self) -> float:
        """Minutes of the check for each further minute that a tape plays."""
        return self.watching if self.whole_check else self.further_hour / 60

    @property
    def check_from(self) -> float:
        """Minutes of the check that do not grow with the tape; `check` is the least in any case."""
        return 0.0 if self.whole_check else self.check - SHORT * self.check_each_minute

    def check_of(self, played: float) -> float:
        """Minutes of the check of a tape that plays so many minutes."""
        return max(self.check, self.check_from + self.check_each_minute * played)


USUAL_HANDLING = HandlingMinutes()
