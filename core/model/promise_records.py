"""The date the shop offers, its chances day by day, and the shop it was made against."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime

from core.model.names import JobNumber
from core.model.own_shop.opening_records import OpeningHours


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
    basis: PromiseBasis | None = field(default=None, metadata={"key": "footing"})
    """The shop it was made against; None for a promise made before that was kept."""


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
