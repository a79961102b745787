"""A booked box with its customer, copies, payments and agreements, and what was handed back of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from core.model.agreement_records import Consent
from core.model.copies.copy_records import CopyRecord
from core.model.handover_records import NO_WISHES, HandoverWishes, NamedCollector, NotedCall, Telling
from core.model.names import JobNumber
from core.model.promise_records import Promise
from core.model.quote_records import Price, Quote
from core.model.signatures import Signature
from core.model.tape_records import TapeRecord


@dataclass(frozen=True, slots=True)
class Customer:
    name: str
    phone: str | None
    """E.164, or as given when it is no valid number."""
    email: str | None


@dataclass(frozen=True, slots=True)
class Payment:
    kind: str
    """``deposit``, ``part``, ``balance``, ``refund`` or ``rounding`` (of cash)."""
    minor: int
    at: datetime
    by: str
    method: str | None = None
    """One of `payment_methods.METHODS`; None: nobody was asked."""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Agreement:
    """What the customer said yes to after booking, and to whom of the shop."""

    at: datetime
    by: str
    who_agreed: str
    words: str
    ceiling_minor: int | None
    """The new ceiling, gross; None when the price was not the question."""
    tax_exempt: str | None = None
    """Why no tax is charged from now on; nothing: it is charged again; None when tax was not the question."""
    version: int = 0
    """Its number; 0 for one that was kept before versions were numbered."""


@dataclass(frozen=True, slots=True)
class Job:
    """A booked box of tapes."""

    number: JobNumber
    customer: Customer
    booked_at: datetime
    booked_by: str
    rush: bool
    quote: Quote
    """As it was agreed last."""
    promise: Promise
    """As it stands now."""
    tapes: tuple[TapeRecord, ...]
    copies: tuple[CopyRecord, ...]
    payments: tuple[Payment, ...]
    agreements: tuple[Agreement, ...] = ()
    agreed_ceiling_minor: int | None = None
    """The ceiling of the newest version; None in a record that was kept before there were versions."""
    told: tuple[str, ...] = ()
    """What the customer was told before it was booked, by whoever booked it."""
    consent: Consent | None = None
    """Who agreed when it was booked, and how; None where nobody wrote it down."""

    @property
    def paid_minor(self) -> int:
        return sum(payment.minor for payment in self.payments)

    @property
    def ceiling_minor(self) -> int:
        """Gross: what was last agreed not to be exceeded without asking."""
        if self.agreed_ceiling_minor is not None:
            return self.agreed_ceiling_minor
        raised = [each.ceiling_minor for each in self.agreements if each.ceiling_minor is not None]
        return raised[-1] if raised else self.quote.price.ceiling_minor

    @property
    def tax_exempt(self) -> str:
        """Why the customer pays no tax, as it was said last; nothing where they pay it."""
        said = [each.tax_exempt for each in self.agreements if each.tax_exempt is not None]
        return said[-1] if said else self.quote.inventory.tax_exempt

    @property
    def agreed_version(self) -> int | None:
        """The number of the agreement that holds while the order is open; None where nobody can say."""
        number = self.agreements[-1].version if self.agreements else 1
        return (number or None) if self.is_open else None

    @property
    def is_open(self) -> bool:
        """Whether any tape is still in the shop."""
        return any(tape.station.is_in_the_shop for tape in self.tapes)


@dataclass(frozen=True, slots=True)
class Pickup:
    """What was handed back at one moment, and to whom."""

    job: Job
    at: datetime
    by: str
    signature: Signature
    handed_back: tuple[TapeRecord, ...]
    still_here: tuple[TapeRecord, ...]
    copies: tuple[CopyRecord, ...]
    final: Price
    """The price now that play times are known, never above the agreed ceiling."""
    paid_minor: int
    due_minor: int
    named: NamedCollector | None = None
    """Who was named beforehand, where that is who signed."""
    shown: str = ""
    """What somebody else than the customer showed, in words."""
    head: str = ""
    """The digest of the last line of history before, in hexadecimal; nothing in older records."""

    @property
    def returned(self) -> tuple[TapeRecord, ...]:
        """The tapes that went home."""
        return tuple(tape for tape in self.handed_back if tape.is_returned)

    @property
    def not_returned(self) -> tuple[TapeRecord, ...]:
        """The tapes that were lost here, signed for as settled."""
        return tuple(tape for tape in self.handed_back if not tape.is_returned)


@dataclass(frozen=True, slots=True)
class CallerMatch:
    """One answer to a caller."""

    job: Job
    spoken: str
    matched: str
    """What matched: ``number``, ``tape-code``, ``name``, ``phone`` or ``similar-name``."""
    asks: str = "no"
    """What the caller is asked before anything is said (see `core.services.after_ready.caller_check`)."""
    wishes: HandoverWishes = NO_WISHES
    tellings: tuple[Telling, ...] = ()
    """Every attempt to tell the customer, oldest first."""
    last_call: NotedCall | None = None
    notes: tuple[str, ...] = ()
    """What the clerk is to know, in sentences: the last call, the last telling, who may collect."""
