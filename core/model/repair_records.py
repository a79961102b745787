"""What a tape needs at the bench, what was done: splices, repairs, the look after them, donor parts."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from core.model.names import DonorPart, FormatName, Join, Look, Measure, Outcome, Section
from core.model.ranges import Range


@dataclass(frozen=True, slots=True)
class Repair:
    """One action at the bench. ``code`` names its price in the price book."""

    code: str
    words: str
    minutes: Range


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A recording that no deck of this shop can play: why, and the partner that may copy it instead."""

    why: str
    partner: str = ""
    """Name of the partner; empty where the shop sends nobody on."""
    price: str = ""
    """The partner's own price, in words; it is no price of this shop."""
    days: int = 0
    """Days the partner needs."""


class Hold(Enum):
    """Why the shop does nothing on a tape yet, though it might be played."""

    RIGHTS = "rights"
    """A commercial recording: copied for whoever shows the right to it."""
    LOOK = "look"
    """Nobody can say before somebody has looked; then the customer is asked."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the findings of one tape mean."""

    outcome: Outcome
    repairs: tuple[Repair, ...]
    cautions: tuple[str, ...]
    """For the person at the bench: hazards, and whose rules go first."""
    told: tuple[str, ...]
    """Sentences for the customer, said before money is taken."""
    not_for_reuse: bool
    elsewhere: Elsewhere | None = None
    """Set where no deck of the shop can play the recording: the tape is neither priced nor in the date."""
    hold: Hold | None = None
    """Set where the tape waits for an answer: nothing is done, promised or charged before."""

    @property
    def is_worked_on(self) -> bool:
        """Whether the shop repairs and copies the tape, so that it is priced and in the date."""
        return not self.set_aside

    @property
    def bench_minutes(self) -> float:
        """Likely minutes of a person's time for the repairs, by the catalogue."""
        return sum((repair.minutes.likely for repair in self.repairs), 0.0)

    @property
    def set_aside(self) -> str:
        """Why nothing is done on it: ``not-here``, ``cannot``, or the hold; empty where it is worked on."""
        if self.elsewhere is not None:
            return "not-here"
        if self.outcome is Outcome.CANNOT:
            return "cannot"
        return self.hold.value if self.hold else ""


@dataclass(frozen=True, slots=True)
class Splice:
    """One join. Seconds come from the geometry of the format (see `core.playtime.cuts`)."""

    at_minutes: float
    """Play time from the head of the tape."""
    cut_cm: float
    joined_with: Join
    seconds_removed: float
    seconds_disturbed: float
    by: str
    at: datetime
    at_metres: float | None = None
    """Tape from the head; None on a joint kept before metres were."""
    measured: Measure = Measure.MINUTES
    """Which of the two was read; the other is reckoned."""
    reckoned: Range | None = None
    """The figure that was not read, 10 to 90 %; None where the speed is known."""
    section: Section | None = None
    """None on a joint kept before the leader was told apart."""
    removed: Range | None = None
    disturbed: Range | None = None
    """Seconds, 10 to 90 %; None where the speed is known."""
    redone: bool = False
    """Made again because the one before was bad: nobody pays for it twice."""

    @property
    def in_leader(self) -> bool:
        """Whether it lies in the clear leader, so that nothing of the programme is lost."""
        return self.section is Section.LEADER


@dataclass(frozen=True, slots=True)
class StruckSplice:
    """A joint that was entered by mistake; it stays readable."""

    splice: Splice
    at: datetime
    by: str | None
    """None where it was struck out before names were kept with it."""
    because: str


@dataclass(frozen=True, slots=True)
class RepairAttempt:
    """One repair that was tried, and whether it held."""

    code: str
    """One of `core.catalogue.findings.repair_codes`."""
    words: str
    succeeded: bool
    part: DonorPart | None
    """What was fitted from a donor."""
    came_from: str
    """Where that part came from."""
    note: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class AfterRepair:
    """The look at a tape that has been repaired; no verdict as long as nobody has looked."""

    repaired_at: datetime
    look: Look | None = None
    by: str | None = None
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Donor:
    """Parts on the shelf, all taken from the same place."""

    format: FormatName
    part: DonorPart
    came_from: str
    count: int
