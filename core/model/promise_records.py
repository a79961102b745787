"""The date the shop offers, its chances day by day, and the shop it was made against."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime

from core.model.names import JobNumber
from core.model.own_shop.opening_records import OpeningHours

USUAL_WIDTH = 0.3
"""`Recalibrated.width` of an order of which that was not kept (the median of lived shop years)."""


@dataclass(frozen=True, slots=True)
class Chance:
    """The chance that everything is ready by the close of ``day``."""

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
    basis: PromiseBasis | None = field(default=None, metadata={"key": "footing"})
    """The shop it was made against; None for a promise made before that was kept."""
    recalibrated: Recalibrated | None = None
    """How its curve was moved from that of the plan; None for a promise made before that was kept."""


@dataclass(frozen=True, slots=True)
class Recalibrated:
    """How far the curve of one promise was moved from that of the plan, and what it was about.

    The lead stated at the normal score ``z`` is exp(``middle``) times that of the plan at the score
    ``z`` + ``later`` + ``spread`` · z.
    """

    tapes: int
    rush: bool
    middle: float = 0.0
    spread: float = 0.0
    later: float = 0.0
    width: float | None = None
    """How unsure the plan was: by how much the logarithm of its lead grows with the score. None for a promise
    made before that was kept: its lead was multiplied by exp(``middle`` + ``spread`` · z)."""

    def at(self, z: float) -> float:
        """The logarithm of the factor at a normal score, were the plan's leads log-normal."""
        width = 1.0 if self.width is None else self.width
        return self.middle + width * (self.later + self.spread * z)


@dataclass(frozen=True, slots=True)
class Seen:
    """The sizes of the orders learned from: logarithms to base 2, from the least to the most."""

    least: float = 0.0
    middle: float = 0.0
    most: float = 0.0

    def off(self, value: float) -> float:
        """How far a value is from the middle; what lies beyond all that was seen counts as the last of it."""
        return min(max(value, self.least), self.most) - self.middle


@dataclass(frozen=True, slots=True)
class Recalibration:
    """The map from the plan's curve to the one that is stated, learned from the shop's own promises.

    Logarithms of factors on the lead, and normal scores; nothing learned is a plan left as it is
    (`core.promise.recalibration`).
    """

    middle: float = 0.0
    """For a typical order, however unsure its plan."""
    spread: float = 0.0
    """More scores for each score above the median."""
    size: float = 0.0
    """More for an order of twice as many tapes; never negative: a tape more makes no date earlier."""
    rush: float = 0.0
    """More for a rush order; never positive: rush makes no date later."""
    sizes: Seen = Seen()
    promises: int = 0
    """So many judged promises showed it."""
    later: float = 0.0
    """Scores: the more, the less sure a plan is of itself."""
    width: float = USUAL_WIDTH
    """Of the plan of a typical order (see `Recalibrated.width`)."""


AS_PLANNED = Recalibration()
"""Nothing learned yet: what is stated is what the plan says."""


@dataclass(frozen=True, slots=True)
class PersonBasis:
    """Somebody of the bench as they stood when a date was said."""

    name: str
    hours: tuple[OpeningHours, ...] | None
    """Their own hours as far as the shop was open; None: whenever it was."""
    hours_a_week: float
    can: frozenset[str]
    """Values of `Skill`."""


@dataclass(frozen=True, slots=True)
class PromiseBasis:
    """The shop as it stood when a date was said."""

    tapes_waiting: int
    decks: tuple[str, ...]
    """Those in service."""
    people: int
    hours_a_week: float
    staff: tuple[PersonBasis, ...] | None = None
    """Those of the bench who were entered by name; None for a promise made before that was kept."""


@dataclass(frozen=True, slots=True)
class PushedPromise:
    """One promise that a rush box would make less likely."""

    number: JobNumber
    day: date
    was: float
    """The chance of keeping it now."""
    will: float
    """The chance with the rush box ahead of it."""
