"""Frozen records that cross the borders: from the steps to the screens, the papers and the command line."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from core.model.inventory import Inventory, TapeLine
from core.model.money import MoneyRange
from core.model.names import (
    DonorPart,
    Finding,
    FormatName,
    JobNumber,
    Join,
    Look,
    Measure,
    Outcome,
    Section,
    TapeCode,
)
from core.model.ranges import Range
from core.model.stations import Station

# --- the quote ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Repair:
    """One action at the bench. ``code`` names its price in the price book."""

    code: str
    words: str
    minutes: Range


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


@dataclass(frozen=True, slots=True)
class QuotedTape:
    """One cassette of the quote; ``line`` and ``n`` count from 1."""

    line: int
    n: int
    draft: TapeLine
    minutes: Range
    """Play time believed, in minutes; zero for a tape that cannot be played."""
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Charge:
    """One line of the price. ``amount`` is net of tax; ``because`` says why it is there."""

    code: str
    text: str
    because: str
    quantity: str
    unit_minor: int
    amount: MoneyRange


@dataclass(frozen=True, slots=True)
class Price:
    """What it costs. In each column the charges add up to net, and net + tax = gross."""

    currency: str
    charges: tuple[Charge, ...]
    net: MoneyRange
    tax: MoneyRange
    gross: MoneyRange
    tax_words: str
    """e.g. ``sales tax 8.25 %, on top``."""
    ceiling_minor: int
    """Gross; the shop asks before it goes beyond."""
    deposit_minor: int


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
class Chance:
    """The model's chance that everything is ready by the close of ``day``."""

    day: date
    by: float


@dataclass(frozen=True, slots=True)
class Promise:
    """The date the shop offers. ``day`` is None when no date can be given; ``held_by`` then says why."""

    day: date | None
    stated: float
    p50: date | None
    p90: date | None
    held_by: tuple[str, ...]
    chances: tuple[Chance, ...]
    made_at: datetime
    footing: Footing | None = None
    """The shop it was made against; None for a promise made before that was kept."""


@dataclass(frozen=True, slots=True)
class Footing:
    """The shop as it stood when a date was said."""

    tapes_waiting: int
    decks: tuple[str, ...]
    """Those in service."""
    people: int
    hours_a_week: float


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


# --- the job -----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ShopFront:
    """What is printed at the head of every paper."""

    name: str
    address: tuple[str, ...]
    phone: str
    currency: str
    timezone: str
    """IANA name."""
    language: str = "en"


@dataclass(frozen=True, slots=True)
class Customer:
    name: str
    phone: str | None
    """E.164, or as given when it is no valid number."""
    email: str | None


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
class Tried:
    """One repair that was tried, and whether it held."""

    code: str
    """One of `core.catalogue.condition.REPAIRS`."""
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


@dataclass(frozen=True, slots=True)
class Happening:
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
    findings: tuple[Finding, ...]
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
    tried: tuple[Tried, ...] = ()
    """Repairs that were tried, in the order they were."""
    after_repair: AfterRepair | None = None
    label_astray: bool = False
    """A not-for-reuse label is still on the cassette though its splices were struck out."""
    rests_until: datetime | None = None
    """Until when a tape that came in cold rests (`core.catalogue.acclimatisation`)."""

    @property
    def joints(self) -> tuple[Splice, ...]:
        """The splices as they lie on the tape, from its head."""
        return tuple(sorted(self.splices, key=lambda each: each.at_minutes))

    @property
    def look_due(self) -> bool:
        """Whether it has to be looked over again before it may play."""
        return self.after_repair is not None and self.after_repair.look is not Look.OK


@dataclass(frozen=True, slots=True)
class CopyRecord:
    """One piece to hand over with the tapes."""

    id: int
    code: str
    words: str
    handed_back_at: datetime | None


@dataclass(frozen=True, slots=True)
class Payment:
    kind: str
    """``deposit``, ``balance`` or ``refund``."""
    minor: int
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Agreement:
    """What the customer said yes to after booking, and to whom of the shop."""

    at: datetime
    by: str
    who_agreed: str
    words: str
    ceiling_minor: int | None
    """The new ceiling, gross; None when the price was not the question."""


@dataclass(frozen=True, slots=True)
class Job:
    """A booked box of tapes."""

    number: JobNumber
    customer: Customer
    booked_at: datetime
    booked_by: str
    rush: bool
    quote: Quote
    """As it was agreed."""
    promise: Promise
    """As it stands now."""
    tapes: tuple[TapeRecord, ...]
    copies: tuple[CopyRecord, ...]
    payments: tuple[Payment, ...]
    agreements: tuple[Agreement, ...] = ()

    @property
    def paid_minor(self) -> int:
        return sum(payment.minor for payment in self.payments)

    @property
    def ceiling_minor(self) -> int:
        """Gross: what was last agreed not to be exceeded without asking."""
        raised = [each.ceiling_minor for each in self.agreements if each.ceiling_minor is not None]
        return raised[-1] if raised else self.quote.price.ceiling_minor

    @property
    def is_open(self) -> bool:
        """Whether any tape is still in the shop."""
        return any(tape.station is not Station.HANDED_BACK for tape in self.tapes)


@dataclass(frozen=True, slots=True)
class Found:
    """One answer to a caller."""

    job: Job
    spoken: str
    matched: str
    """What matched: ``number``, ``tape code``, ``name``, ``phone`` or ``a similar name``."""


Stroke = tuple[tuple[float, float], ...]
"""Points of one pen stroke, x and y from 0 to 1 of the pad's width and height, y downwards."""


@dataclass(frozen=True, slots=True)
class Signature:
    """Who signed, and the strokes of the pen (none when only the name was taken)."""

    name: str
    strokes: tuple[Stroke, ...] = ()
    aspect: float = 3.0
    """Width of the pad divided by its height."""


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


# --- the shop ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Deck:
    """A playback machine: which recordings it plays, in which TV systems, at which speeds."""

    name: str
    plays: frozenset[FormatName]
    tv: frozenset[str]
    speeds: frozenset[str]
    in_service: bool = True


@dataclass(frozen=True, slots=True)
class Opening:
    """Open from ``start`` to ``end`` (minutes after midnight) on ``weekday`` (0 = Monday)."""

    weekday: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Outage:
    """A deck that is out of service by plan, from the first day to the last."""

    deck: str
    begins: date
    ends: date


@dataclass(frozen=True, slots=True)
class Expected:
    """What happens to a shop though nobody can say when. Zero: not reckoned with."""

    hours_between_failures: float = 0.0
    """Playing hours of one deck, on average."""
    hours_to_repair: float = 0.0
    """Real hours until a failed deck is back, on average."""
    rush_boxes_a_week: float = 0.0
    tapes_in_a_rush_box: float = 0.0
    """On average."""
    unplanned_closures: float = 0.0
    """Share of the opening days on which the shop stays shut after all."""
    overrun: float = 1.0
    """How many times as long as planned boxes took lately; learned, never stated (see `late_correction`)."""
    awaited: frozenset[str] = frozenset()
    """Decks that broke down and are to come back; seen, never stated (see `core.scheduling.breakdowns`)."""
    brought: tuple[tuple[FormatName, int], ...] = ()
    """Tapes of each format among those that came in last; counted, never stated (see `initial_state`)."""


@dataclass(frozen=True, slots=True)
class ShopSettings:
    """What the shop works with: decks, hours and the people at the bench."""

    front: ShopFront
    decks: tuple[Deck, ...]
    openings: tuple[Opening, ...]
    holiday_country: str | None
    holiday_region: str | None
    closed_days: frozenset[date]
    past_closing_minutes: int
    """How long a tape may go on playing after the door is shut."""
    people: int
    confidence: float
    """The chance at which a date is promised, e.g. 0.9."""
    outages: tuple[Outage, ...] = ()
    expected: Expected = Expected()


@dataclass(frozen=True, slots=True)
class Rate:
    """One price of the price book, in minor units before rounding."""

    code: str
    words: str
    minor: Decimal
