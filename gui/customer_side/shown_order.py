"""Which page the Customer side shows: only what belongs to the order on the counter at the present moment."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from core.model.job_records import Job
from core.model.quote_records import Quote
from core.papers.booking.signing_sheet import SigningSheet
from core.papers.handover.pickup_sheet import PickupSheet

COUNTER, PICKUP = "counter", "pickup"


class Facing(Enum):
    """The pages."""

    GREETING = "greeting"
    QUOTE = "quote"
    BOOKED = "booked"
    WAYS = "ways"
    SIGNING = "signing"
    PICKUP = "pickup"


@dataclass(frozen=True, slots=True)
class ShownOrder:
    """All that is known of what the clerk does; who stands at the counter follows from the moment."""

    moment: str = COUNTER
    quote: Quote | None = None
    """Of the box that is counted at the Counter; None for an empty tray."""
    is_late: bool = False
    job: Job | None = None
    """Just booked there, until the next box is begun."""
    is_choosing: bool = False
    """Whether the ways to agree on the price are at hand."""
    sheet: SigningSheet | None = None
    """What is to be signed for that box."""
    pickup: PickupSheet | None = None
    """The order that is open at Pickup."""

    @property
    def facing(self) -> Facing:
        """The page to be shown.

        At Pickup somebody else may stand there: nothing of the Counter shows. At every other moment the box
        that is counted stays, as its owner does; a booked order, whose owner has left, does not.
        """
        if self.moment == PICKUP:
            return Facing.PICKUP if self.pickup is not None else Facing.GREETING
        if self.sheet is not None:
            return Facing.SIGNING
        if self.job is not None:
            return Facing.BOOKED if self.moment == COUNTER else Facing.GREETING
        if self.quote is None:
            return Facing.GREETING
        ways = self.quote.ways.offered if self.quote.ways is not None else ()
        return Facing.WAYS if self.is_choosing and len(ways) > 1 else Facing.QUOTE
