"""One cassette in the shop's care, and a line of its history."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from core.model.deck_showing import Shown
from core.model.dispositions import Disposition
from core.model.inventory import TapeLine
from core.model.names import AnyFinding, FormatName, Look, TapeCode
from core.model.ranges import Range
from core.model.repair_records import AfterRepair, RepairAttempt, Splice, StruckSplice, Verdict
from core.model.stations import Station


@dataclass(frozen=True, slots=True)
class JournalEntry:
    """One line of a tape's history."""

    at: datetime
    by: str
    words: str


@dataclass(frozen=True, slots=True)
class TapeRecord:
    """One cassette in the shop's care."""

    code: TapeCode
    line: int
    n: int
    format: FormatName
    format_words: str
    marking: str | None
    label: str
    station: Station
    since: datetime
    findings: tuple[AnyFinding, ...]
    verdict: Verdict
    minutes: Range
    played_minutes: float | None
    splices: tuple[Splice, ...]
    not_for_reuse: bool
    marked_at: datetime | None
    """When somebody confirmed that the not-for-reuse label is on the cassette."""
    draft: TapeLine
    deck: str | None = None
    """The deck it is playing on, when somebody named it."""
    note: str = ""
    """What was noted when it came to its station."""
    struck: tuple[StruckSplice, ...] = ()
    """Joints entered by mistake."""
    tried: tuple[RepairAttempt, ...] = ()
    """Repairs that were tried, in the order they were."""
    after_repair: AfterRepair | None = None
    label_astray: bool = False
    """A not-for-reuse label is still on the cassette though its splices were struck out."""
    rests_until: datetime | None = None
    """Until when a tape that came in cold rests (`core.catalogue.acclimatisation`)."""
    disposition: Disposition | None = None
    """What became of it; None while that is not settled."""
    note_is_told: bool = False
    """Whether the note is for the customer; one that is for us is never spoken or printed."""
    is_counted: bool = False
    """Whether it is counted by its feet, pictures or minutes, so that none need be read off a deck."""
    left_out_in: int | None = None
    """The version of the agreement that left it out: it goes home as it came, and nothing is charged for
    it."""
    shown: Shown | None = None
    """What a deck has shown of it so far."""
    signed_off_by: str | None = None
    """Who checked its copied files and signed them off."""
    settled: tuple[AnyFinding, ...] = ()
    """Findings that were dealt with; they stay on record."""

    @property
    def open_findings(self) -> tuple[AnyFinding, ...]:
        """Findings nobody has dealt with yet."""
        return tuple(each for each in self.findings if each not in self.settled)

    @property
    def joints(self) -> tuple[Splice, ...]:
        """The splices as they lie on the tape, from its head."""
        return tuple(sorted(self.splices, key=lambda each: each.at_minutes))

    @property
    def is_returned(self) -> bool:
        """Whether its owner gets it back, as far as anybody knows."""
        return self.disposition is None or self.disposition.is_returned

    @property
    def is_copied(self) -> bool:
        """Whether there are copies of it; of a receipt older than dispositions, whether it had played."""
        return self.played_minutes is not None if self.disposition is None else self.disposition.is_copied

    @property
    def is_unsettled(self) -> bool:
        """Whether nobody knows yet what becomes of it: it waits for an answer, or apart from the others."""
        return self.station.is_unsettled and self.disposition is None

    @property
    def is_settled(self) -> bool:
        """Whether somebody said what became of it, so that no move takes it back."""
        return self.disposition is not None and not self.disposition.follows_a_move

    @property
    def is_done(self) -> bool:
        """Whether the shop has done for it what it can."""
        return self.station.is_done and not self.is_unsettled

    @property
    def is_to_talk_about(self) -> bool:
        """Whether it was lost or damaged here and its owner is to hear of it from the shop first."""
        return (
            self.disposition is not None
            and self.disposition.needs_incident
            and self.station is Station.ASKING_THE_CUSTOMER
        )

    @property
    def told_note(self) -> str:
        """The note as far as it is for the customer."""
        return self.note if self.note_is_told else ""

    @property
    def look_due(self) -> bool:
        """Whether it has to be looked over again before it may play."""
        return self.after_repair is not None and self.after_repair.look is not Look.OK
