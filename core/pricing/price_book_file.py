"""The shape of a price book's file, ``resources/pricebook/YEAR.toml``; a key without a default is needed."""

from datetime import date
from enum import Enum

# Annotations are not put off here: msgspec would have to evaluate each text of them at the first start.
from typing import Annotated, TypeAlias

from msgspec import Meta, Struct

from core.model.price_terms import ChargeKind, InspectionWay, StoragePeriod

Words: TypeAlias = Annotated[str, Meta(min_length=1, pattern=r"\S", description="not-empty")]
Amount: TypeAlias = Annotated[str, Meta(pattern=r"^\d{1,9}(\.\d+)?$", description="amount")]
"""Whole units of the currency."""
Percent: TypeAlias = Annotated[
    str, Meta(pattern=r"^(1000(\.0+)?|\d{1,3}(\.\d+)?)$", description="percent-1000")
]
PercentTo100: TypeAlias = Annotated[
    str, Meta(pattern=r"^(100(\.0+)?|\d{1,2}(\.\d+)?)$", description="percent-100")
]
TaxPercent: TypeAlias = Annotated[str, Meta(pattern=r"^\d{1,2}(\.\d+)?$", description="percent-99")]
TaxedKinds: TypeAlias = Annotated[tuple[ChargeKind, ...], Meta(min_length=1, description="taxed-kinds")]
EVERYTHING = tuple(ChargeKind)


class TaxMode(Enum):
    ON_TOP = "on-top"
    INSIDE = "inside"
    NONE = "none"


class RoundingMode(Enum):
    """To the nearest multiple of the step, halves away from zero, or to the next one below."""

    NEAREST = "nearest"
    DOWN = "down"


class Way(Enum):
    """How copying is charged."""

    PER_TAPE = "per-tape"
    PER_PERIOD = "per-period"
    PER_HOUR = "per-hour"
    PER_UNIT = "per-unit"
    """By what the thing is counted in: the foot of film, the picture, the minute."""


class PlayCharge(Enum):
    """What of its play time is charged for a tape that is done."""

    FULL = "full"
    """The minutes on record, or those believed while there are none."""
    PLAYED = "played"
    """The minutes on record and no more."""
    NONE = "none"


class Offered(Enum):
    """Whether flat prices are offered, as a row of prices writes it."""

    YES = "true"
    NO = "false"


class TaxEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """The first tax, with what holds for all of them: the mode and the remark."""

    mode: TaxMode
    percent: TaxPercent
    words: Words
    remark: Words
    on: TaxedKinds = EVERYTHING


class FurtherTaxEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """A tax beside the first, on the same charges before tax: never on top of another tax."""

    words: Words
    percent: TaxPercent
    on: TaxedKinds = EVERYTHING


class CaptureEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """``minutes`` are those of a started period, where it is charged by them; ``minimum`` is for a tape."""

    way: Way
    price: Amount
    minutes: Annotated[int, Meta(ge=1, le=600, description="from-1-to-600")] | None = None
    minimum: Amount | None = None


class RateEntry(Struct, frozen=True, forbid_unknown_fields=True):
    words: Words
    price: Amount


class PriceEntry(Struct, frozen=True, forbid_unknown_fields=True):
    price: Amount


class PercentEntry(Struct, frozen=True, forbid_unknown_fields=True):
    percent: Percent


class CancelEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """``price`` for calling a whole order off, ``percent`` of what the called-off work would have cost."""

    price: Amount = "0"
    percent: PercentTo100 = "0"


class DepositEntry(Struct, frozen=True, forbid_unknown_fields=True):
    percent: PercentTo100


class BreakEntry(Struct, frozen=True, forbid_unknown_fields=True):
    after: Annotated[int, Meta(ge=1, le=10_000, description="from-1-to-10000")]
    percent: PercentTo100


class RoundingEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """What is owed is a multiple of ``step`` in whole units of the currency; 0: as it is."""

    step: Amount = "0"
    mode: RoundingMode = RoundingMode.NEAREST


class InspectionFeeEntry(Struct, frozen=True, forbid_unknown_fields=True):
    price: Amount = "0"
    way: InspectionWay = InspectionWay.PER_TAPE


class StorageFeeEntry(Struct, frozen=True, forbid_unknown_fields=True):
    price: Amount = "0"
    per: StoragePeriod = StoragePeriod.DAY
    after_days: Annotated[int, Meta(ge=1, le=3650, description="from-1-to-3650")] = 30


class DispositionEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """What is charged for a tape that one thing became of."""

    play: PlayCharge
    repairs: bool = False
    inspection: bool = False


class FlatEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """Whether one sum for a box is offered, and what is added for the risk of it."""

    offered: bool = True
    margin_percent: PercentTo100 = "0"


class PriceBookFile(Struct, frozen=True, forbid_unknown_fields=True):
    """Everything a price is made from."""

    name: Words
    remark: Words
    invented: bool
    currency: Annotated[str, Meta(pattern=r"^[A-Z]{3}$", description="currency")]
    minor_digits: Annotated[int, Meta(ge=0, le=4, description="from-0-to-4")]
    valid_from: Annotated[date, Meta(description="a-day")]
    quote_valid_days: Annotated[int, Meta(ge=1, le=365, description="from-1-to-365")]
    tax: TaxEntry
    capture: dict[str, CaptureEntry]
    repair: dict[str, RateEntry]
    media: dict[str, RateEntry]
    rush: PercentEntry
    minimum: PriceEntry
    deposit: DepositEntry
    ceiling: PercentEntry
    cancel: CancelEntry = CancelEntry()
    quantity_break: tuple[BreakEntry, ...] = ()
    further_tax: tuple[FurtherTaxEntry, ...] = ()
    rounding: RoundingEntry = RoundingEntry()
    inspection_fee: InspectionFeeEntry = InspectionFeeEntry()
    storage_fee: StorageFeeEntry = StorageFeeEntry()
    dispositions: dict[str, DispositionEntry] = {}
    flat: FlatEntry = FlatEntry()
