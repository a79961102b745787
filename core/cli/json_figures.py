"""Figures as JSON: ranges, money, days and times, rounded and named the same everywhere."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from typing import TYPE_CHECKING

from core.model.money import MoneyRange
from core.model.ranges import Range

if TYPE_CHECKING:
    pass


Json = Mapping[str, object]


_DECIMALS = 6
"""Enough for a micrometre in metres and a frame in minutes; keeps 0.1 + 0.2 out of sight."""


def span(belief: Range) -> Json:
    """A range of floats."""
    return {"low": rounded(belief.low), "likely": rounded(belief.likely), "high": rounded(belief.high)}


def money(amount: MoneyRange) -> Json:
    return {"low": amount.low, "likely": amount.likely, "high": amount.high}


def number_or_span(value: float | Range) -> object:
    return span(value) if isinstance(value, Range) else rounded(value)


def rounded(value: float) -> float:
    return round(float(value), _DECIMALS)


def day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def time(moment: datetime) -> str:
    return moment.isoformat(timespec="seconds")
