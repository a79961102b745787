"""The agreement of an order: its numbered versions, what the customer may choose, what was asked and
answered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import Enum

from core.model.inventory import Inventory, TapeLine
from core.model.names import JobNumber, TapeCode
from core.model.promise_records import Promise
from core.model.quote_records import Quote
from core.model.signatures import Stroke
from core.model.stations import Station


class AgreementKind(Enum):
    """What a version of the agreement is. The value is what the database and the command line say."""

    QUOTED = "quoted"
    AGREED = "agreed"
    REVISED = "revised"
    CANCELLED = "cancelled"
    SETTLED = "settled"


class AgreedHow(Enum):
    """How somebody agreed."""

    SIGNATURE = "signature"
    PAPER = "paper"
    SPOKEN = "spoken"


class CeilingChoice(Enum):
    """What a customer may say when the price would go over what was agreed."""

    GO_ON = "go-on"
    STOP = "stop"
    LEAVE = "leave"
    RETURN_ALL = "return-all"


@dataclass(frozen=True, slots=True)
class Consent:
    """Who said yes and how; the strokes where somebody signed on the screen."""

    who: str
    how: AgreedHow = AgreedHow.SPOKEN
    strokes: tuple[Stroke, ...] = ()


@dataclass(frozen=True, slots=True)
class AgreementVersion:
    """One version of what was agreed. ``quote`` and ``codes`` are those that hold in it."""

    number: int
    kind: AgreementKind
    quote: Quote
    codes: tuple[TapeCode, ...]
    """The tapes of ``quote``, in its order."""
    ceiling_minor: int
    """Gross: what is not exceeded without asking."""
    given_away_minor: int
    """Gross: what the shop does beyond the ceiling without charging it, as settled with the customer."""
    fee_minor: int
    """Before tax: what the price book charges for calling off, all versions together."""
    promise: Promise
    reason: str
    agreed_by: str | None
    """None where nobody wrote down who agreed."""
    consent: Consent | None
    """None where nobody wrote down who agreed, or how."""
    choice: CeilingChoice | None
    at: datetime
    by: str
    """Who of the shop heard it."""
    told: tuple[str, ...] = ()
    """What was said to the customer before."""

    @property
    def inventory(self) -> Inventory:
        return self.quote.inventory

    @property
    def tapes(self) -> dict[TapeCode, TapeLine]:
        """How each cassette is described, by its code."""
        each = zip(self.codes, self.quote.tapes, strict=True)
        return {code: replace(tape.draft, count=1) for code, tape in each}


@dataclass(frozen=True, slots=True)
class StandingPrice:
    """The price of an order as it stands against what was agreed; gross, minor units."""

    number: JobNumber
    currency: str
    stands_minor: int
    """Minutes played where known, else the likely ones; nothing is taken off for the ceiling."""
    ceiling_minor: int
    given_away_minor: int
    version: int

    @property
    def over_minor(self) -> int:
        """By how much it stands above what is agreed; 0 when it does not."""
        return max(0, self.stands_minor - self.ceiling_minor - self.given_away_minor)


@dataclass(frozen=True, slots=True)
class CeilingQuestion:
    """A tape that waits because the price would go over what was agreed."""

    code: TapeCode
    stands_minor: int
    ceiling_minor: int
    bound_for: Station
    """Where it was going."""
    at: datetime


@dataclass(frozen=True, slots=True)
class OfferedChoice:
    """One thing the customer may say, with what the order then costs and when it is ready."""

    choice: CeilingChoice
    price_minor: int
    """Gross, what would be billed as far as is known."""
    ceiling_minor: int
    given_away_minor: int
    day: date | None
    """None: nothing is left to be done, or no date can be given."""
    leaves: tuple[TapeCode, ...]
    """Tapes that go home as they came."""


@dataclass(frozen=True, slots=True)
class WaitingAnswer:
    """An order that waits for its owner's answer: whom to call first."""

    number: JobNumber
    customer: str
    phone: str | None
    rush: bool
    standing: StandingPrice
    asking: tuple[CeilingQuestion, ...]
    """Tapes that wait because of the price; others ask for another reason."""
    tapes_asking: int
    minutes_waiting: float
    """Likely minutes of all tapes of the order that are not done yet."""
    since: datetime
    misfits: tuple[tuple[int, str], ...] = ()
    """Copies that cannot be made as they were ordered: each with the sentence that says why."""
