"""A booked order opened again: as it lies there, as it is wanted, and what comes of it."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.agreement_records import AgreementVersion
from core.model.inventory import Inventory
from core.model.job_records import Job
from core.model.names import TapeCode
from core.pricing import agreement_differences
from core.pricing.agreement_differences import AgreementDifference


@dataclass(frozen=True, slots=True)
class Amendment:
    """The order as it is to be; ``codes`` holds the cassettes each line names, nothing where it names
    none."""

    inventory: Inventory
    codes: tuple[tuple[TapeCode, ...], ...] = ()
    ceiling_minor: int | None = None
    """None: it moves as the estimate does."""


@dataclass(frozen=True, slots=True)
class Amended:
    """What an amendment leads to."""

    job: Job
    version: AgreementVersion
    before: AgreementVersion

    @property
    def differences(self) -> tuple[AgreementDifference, ...]:
        """What the new version changes, line by line."""
        return agreement_differences.differences(self.before, self.version)


@dataclass(frozen=True, slots=True)
class OpenedOrder:
    """A booked order as it is laid out to be changed."""

    job: Job
    version: AgreementVersion
    codes: tuple[tuple[TapeCode, ...], ...]
    """The cassettes of each line of the version's inventory."""
