"""Incidents: a tape lost or damaged in the shop's hands, line by line, for the owner and the insurer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from core.model.names import JobNumber, TapeCode
from core.model.tape_records import TapeRecord


class IncidentKind(Enum):
    """What one line of an incident tells; the first two open one."""

    LOST = "lost"
    DAMAGED = "damaged"
    ADDED = "added"
    PHOTO = "photo"
    TOLD = "told"
    """The owner was told."""
    SETTLED = "settled"
    """How it was settled with the owner."""
    FOUND = "found"
    """It is over: the tape was found again, or was not damaged after all."""

    @property
    def opens(self) -> bool:
        return self in (IncidentKind.LOST, IncidentKind.DAMAGED)


@dataclass(frozen=True, slots=True)
class IncidentLine:
    """One line; ``moment`` is when it happened, was told or was settled, ``at`` when it was written down."""

    kind: IncidentKind
    words: str
    moment: datetime | None
    photo: str | None
    sha256: str | None
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Incident:
    """Everything written down about one tape, the oldest line first; never empty."""

    tape: TapeCode
    lines: tuple[IncidentLine, ...]

    @property
    def opening(self) -> IncidentLine:
        """The line that opened it, the newest if there are several."""
        return [line for line in self.lines if line.kind.opens][-1]

    @property
    def is_open(self) -> bool:
        """Whether it is neither settled with the owner nor over."""
        return self.since(IncidentKind.SETTLED) is None and self.since(IncidentKind.FOUND) is None

    @property
    def told(self) -> IncidentLine | None:
        """When the owner was told."""
        return self.since(IncidentKind.TOLD)

    @property
    def settled(self) -> IncidentLine | None:
        """How it was settled."""
        return self.since(IncidentKind.SETTLED)

    def since(self, kind: IncidentKind) -> IncidentLine | None:
        """The newest line of a kind since it was opened."""
        later = self.lines[self.lines.index(self.opening) :]
        found = [line for line in later if line.kind is kind]
        return found[-1] if found else None


class IncidentStep(Enum):
    """What is to be done next about an incident that is open."""

    TELL = "tell"
    """Nobody has told the owner of the tape yet."""
    SETTLE = "settle"
    """The owner knows; it is not settled with them."""


@dataclass(frozen=True, slots=True)
class OpenIncident:
    """An incident that is not settled, and whose tape it is about."""

    incident: Incident
    number: JobNumber
    tape: TapeRecord
    customer: str
    phone: str | None

    @property
    def next(self) -> IncidentStep:
        return IncidentStep.TELL if self.incident.told is None else IncidentStep.SETTLE

    @property
    def happened(self) -> datetime:
        """When it happened, else when it was written down."""
        opening = self.incident.opening
        return opening.moment or opening.at
