"""Parts of a price that a book names and a record keeps: kinds of charges, taxes told apart, fees."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from core.model.money import MoneyRange


class ChargeKind(Enum):
    """What a charge is for, as far as tax law tells charges apart."""

    COPYING = "copying"
    """Copying with what belongs to it: quantity breaks, rush, the smallest order, the inspection fee."""
    REPAIR = "repair"
    GOODS = "goods"
    """Discs, sticks and disks that are sold; not copying onto the customer's own drive."""


class InspectionWay(Enum):
    """How often the inspection fee is charged."""

    PER_TAPE = "per-tape"
    PER_BOX = "per-box"


class StoragePeriod(Enum):
    """What the storage fee is charged for, once it is due: each day, or each week that has begun."""

    DAY = "day"
    WEEK = "week"


@dataclass(frozen=True, slots=True)
class InspectionFee:
    """Charged for tapes that are looked over and not copied; ``minor`` 0: none."""

    minor: int = 0
    way: InspectionWay = InspectionWay.PER_TAPE


@dataclass(frozen=True, slots=True)
class StorageFee:
    """Charged for an order nobody picks up within ``after_days`` of hearing it is ready; 0: none."""

    minor: int = 0
    per: StoragePeriod = StoragePeriod.DAY
    after_days: int = 30


@dataclass(frozen=True, slots=True)
class TaxAmount:
    """One tax of a price. ``base`` is what it is charged on, without any tax."""

    words: str
    """e.g. ``state tax 5%, added``."""
    percent: str
    base: MoneyRange
    amount: MoneyRange
