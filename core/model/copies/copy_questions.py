"""What a customer is asked when the copies no longer fit what was ordered, and what they may say."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import Enum

from core.model.agreement_records import StandingPrice
from core.model.copies.copy_records import OwnDrive
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.model.names import TapeCode


class MisfitReason(Enum):
    """Why a copy cannot be made as it was ordered."""

    SIZE = "size"
    """It is too much for the stick or the drive."""
    PIECES = "pieces"
    """It takes more discs."""
    FILE_SIZE = "file-size"
    """One file is longer than the file system of the customer's drive takes."""


@dataclass(frozen=True, slots=True)
class CopyMisfit:
    """A copy that cannot be made as it was ordered."""

    item: int
    """The copy."""
    words: str
    reason: MisfitReason
    needs: float
    """Gigabytes; of discs, pieces."""
    holds: float
    longest: TapeCode | None = None
    """The tape whose file is too long."""


class CopyChoice(Enum):
    """What a customer may say then."""

    LARGER = "larger"
    """One larger stick or disk."""
    MORE = "more"
    """A second stick, more discs."""
    SMALLER = "smaller"
    """Smaller files."""
    DOWNLOAD = "download"
    STICK = "stick"
    """A stick or disk of the shop's in place of the customer's own drive."""
    REFORMAT = "reformat"
    """The drive is emptied and formatted anew, as exFAT."""
    SPLIT = "split"
    """Long files are split into parts."""


@dataclass(frozen=True, slots=True)
class NewCopy:
    """What a copy becomes: its order, its piece, how many of it; the drive where that changes."""

    delivery: Delivery
    code: str
    words: str
    pieces: int
    drive: OwnDrive | None = None


@dataclass(frozen=True, slots=True)
class OfferedCopy:
    """One thing the customer may say, with what the order then costs and when it is ready."""

    choice: CopyChoice
    becomes: NewCopy
    price_minor: int
    """Gross, what would be billed as far as is known."""
    more_minor: int
    """By how much that is more than without a change; below zero: less."""
    ceiling_minor: int
    day: date | None
    """None: nothing is left to be done, or no date can be given."""


@dataclass(frozen=True, slots=True)
class CopyQuestion:
    """All that is on a call card about copies."""

    job: Job
    standing: StandingPrice
    misfit: CopyMisfit
    choices: tuple[OfferedCopy, ...]
