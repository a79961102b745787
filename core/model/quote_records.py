"""The quote of a box: charges, what the copies take up, questions, the whole quote."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from core.model.dispositions import Disposition
from core.model.inventory import Inventory, TapeLine
from core.model.money import NOTHING, MoneyRange
from core.model.price_terms import ChargeKind, InspectionFee, StorageFee, TaxAmount
from core.model.price_ways import PriceWay, WaysToAgree
from core.model.promise_records import Promise
from core.model.ranges import Range
from core.model.repair_records import Verdict

MANY_TAPES = 200
"""Tapes of its own from which a shop's ranges held as often as they say (derived: simulated shops)."""


@dataclass(frozen=True, slots=True)
class QuotedTape:
    """One cassette of the quote; ``line`` and ``n`` count from 1."""

    line: int
    n: int
    draft: TapeLine
    minutes: Range
    """Play time believed, in minutes; zero for a tape that cannot be played."""
    verdict: Verdict
    disposition: Disposition | None = None
    """What became of it, where that is known."""
    redone: tuple[str, ...] = ()
    """Codes of repairs done again at the shop's own cost: shown, and not charged."""


@dataclass(frozen=True, slots=True)
class Charge:
    """One line of the price. ``amount`` is net of tax; ``because`` says why it is there."""

    code: str
    text: str
    because: str
    quantity: str
    unit_minor: int
    amount: MoneyRange
    kind: ChargeKind | None = None
    """Which taxes it bears; None in records older than the question."""


@dataclass(frozen=True, slots=True)
class Price:
    """What it costs. In each column the charges add up to net, net + tax = gross, gross + rounding = due."""

    currency: str
    charges: tuple[Charge, ...]
    net: MoneyRange
    tax: MoneyRange
    gross: MoneyRange
    tax_words: str
    """e.g. ``sales tax 8.25%, added``; nothing where no tax is charged."""
    ceiling_minor: int
    """Gross; the shop asks before it goes beyond."""
    deposit_minor: int
    taxes: tuple[TaxAmount, ...] = ()
    """Each tax by itself; they add up to ``tax``. Nothing in records older than the breakdown."""
    rounding: MoneyRange = NOTHING
    """What the amount due is above (below 0: under) the total with tax, EN 16931 BT-114."""
    exempt: str = ""
    """Why no tax is charged: the reason, or the number of the certificate."""
    inspection_fee: InspectionFee | None = None
    """What is charged for a tape that is looked over and not copied; None where nothing is."""
    storage_fee: StorageFee | None = None
    """What is charged for an order nobody picks up; None where nothing is."""

    @property
    def told_taxes(self) -> tuple[TaxAmount, ...]:
        """Each tax as it is shown; one line where a record does not tell them apart, or says why none is."""
        if self.taxes or not (self.tax_words or self.tax.high):
            return self.taxes
        return (TaxAmount(self.tax_words, "", self.net, self.tax),)

    @property
    def is_rounded(self) -> bool:
        """Whether what is owed is another figure than the total, in any column."""
        return self.rounding != NOTHING

    @property
    def due(self) -> MoneyRange:
        """What the customer owes, rounded as the book says, before anything is paid (EN 16931 BT-115)."""
        return self.gross + self.rounding


@dataclass(frozen=True, slots=True)
class Copy:
    """One thing handed over besides the tapes: ``3 DVD-R discs``, ``1 USB stick, 64 GB``."""

    code: str
    """What the price book calls the piece: ``dvd-r``, ``usb-64``."""
    words: str
    count: Range
    """Pieces, whole numbers."""


@dataclass(frozen=True, slots=True)
class Storage:
    """What the copies take up. Gigabytes are decimal."""

    gigabytes: Range
    discs: Range
    copies: tuple[Copy, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """Something to ask the customer that would narrow the quote."""

    line: int
    text: str
    answers: tuple[Answer, ...]
    hours_off: float = 0.0
    """Hours by which the answer is expected to narrow the capture hours of the whole box (90 − 10 %)."""


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer and the line it leads to."""

    words: str
    means: str
    """What follows, e.g. ``about 60 minutes``."""
    draft: TapeLine


@dataclass(frozen=True, slots=True)
class Quote:
    """The whole quote of an inventory at one moment."""

    inventory: Inventory
    book: str
    made_at: datetime
    valid_until: date
    tapes: tuple[QuotedTape, ...]
    capture_hours: Range
    price: Price
    storage: Storage
    promise: Promise
    questions: tuple[Question, ...]
    warnings: tuple[str, ...]
    example_prices: bool = False
    """Whether the price book is an example nobody has made the shop's own."""
    ways: WaysToAgree | None = None
    """What each way to agree on a price comes to; None in records older than the choice."""

    own_tapes: int | None = None
    """Tapes of the shop's own that its ranges rest on; None in records that did not say."""

    without_rush: date | None = None
    """Of a rush order the day it would be ready by without rush; None: no rush, or no such day."""

    @property
    def tells_own_tapes(self) -> bool:
        """Whether the price is a range that a shop as new as this one should say more about."""
        is_new = self.own_tapes is not None and self.own_tapes < MANY_TAPES
        return is_new and not self.price.due.is_one_figure

    @property
    def needs_rush(self) -> bool:
        """Whether rush brings this order an earlier day that somebody needs."""
        plain, day, wanted = self.without_rush, self.promise.day, self.inventory.needed_by
        if not self.inventory.rush or plain is None or day is None:
            return self.inventory.rush
        return day < plain and (wanted is None or plain > wanted)

    @property
    def way(self) -> PriceWay:
        """How the price is agreed."""
        return self.inventory.way

    @property
    def flat_minor(self) -> int | None:
        """The one sum that was agreed for the box; None where its price goes by what it plays."""
        if self.way is not PriceWay.FLAT or self.ways is None or self.ways.flat is None:
            return None
        return self.ways.flat.minor
