"""The ways in which shop and customer can agree on a price, and what each would come to for one box."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from core.model.money import MoneyRange


class PriceWay(Enum):
    """How the price of a box is agreed."""

    BY_PLAY = "by-play"
    """By what the tapes play: a range, and a ceiling above which the shop asks."""
    FLAT = "flat"
    """One sum for the box, whatever it plays."""
    PLAY_FIRST = "play-first"
    """The tapes are looked through first; the customer then picks which are copied, by what they play."""


@dataclass(frozen=True, slots=True)
class FlatTerms:
    """Whether the shop offers flat prices, and what it adds for carrying the risk."""

    offered: bool = True
    margin_percent: str = "0"


@dataclass(frozen=True, slots=True)
class FlatRisk:
    """What a flat sum risks for the shop, of one box; for the owner, never for the customer. Minor units.

    A gain is the flat sum less what the box would have cost by what it plays; below 0 it is a loss.
    """

    expected_minor: float
    """Mean of what the box costs by what it plays."""
    deviation_minor: float
    """Standard deviation of the same."""
    dearer: float
    """Chance that the box costs more than the flat sum."""
    worst_gain_minor: int
    """One box in ten gains no more than this."""
    best_gain_minor: int
    """One box in ten gains at least this."""
    margin_percent: str = "0"


@dataclass(frozen=True, slots=True)
class FlatOffer:
    """One sum for the box, tax and rounding in it."""

    minor: int
    risk: FlatRisk | None = None
    """None where whoever asks may not see it."""


@dataclass(frozen=True, slots=True)
class LookFirstOffer:
    """Played first, then chosen."""

    fee_minor: int
    """What is owed where none of the tapes is copied, tax and rounding in it."""
    due: MoneyRange
    """From the fee alone, where nothing is copied, to all tapes copied."""


@dataclass(frozen=True, slots=True)
class WaysToAgree:
    """What one box comes to, way by way; None: the shop does not offer that way for this box."""

    by_play: MoneyRange
    """What is owed, tax and rounding in it."""
    ceiling_minor: int
    flat: FlatOffer | None = None
    look_first: LookFirstOffer | None = None

    @property
    def offered(self) -> tuple[PriceWay, ...]:
        """The ways a customer can choose from, always in the same order."""
        there = (True, self.flat is not None, self.look_first is not None)
        return tuple(way for way, offered in zip(PriceWay, there, strict=True) if offered)
