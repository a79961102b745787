"""What a customer is asked about the price of an order, all on one card."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.agreement_records import CeilingQuestion, OfferedChoice, StandingPrice
from core.model.job_records import Job


@dataclass(frozen=True, slots=True)
class PriceQuestion:
    """All that is on a call card."""

    job: Job
    standing: StandingPrice
    asking: tuple[CeilingQuestion, ...]
    """The tapes that wait, the one stopped last at the end."""
    choices: tuple[OfferedChoice, ...]
