"""When a deck is due: hours of running turned into time at so many hours a day."""

from __future__ import annotations

from dataclasses import dataclass

_DAYS_A_YEAR = 365.25


@dataclass(frozen=True, slots=True)
class Service:
    """Something a deck needs again and again, after so many hours of running."""

    name: str
    hours: int
    source: str
    """With what kind of source it is."""


CLEAN = Service("clean", 500, "PALsite maintenance, Betamax (trade)")
INSPECT = Service("inspect", 1000, "LG service manual TL-AT130M, home use (manufacturer)")
HEADS = Service("heads", 2000, "PALsite maintenance (trade)")
SERVICES = (CLEAN, INSPECT, HEADS)


def years_until(service_hours: float, hours_a_day: float) -> float:
    """Years until a deck that runs ``hours_a_day`` has run ``service_hours``."""
    return service_hours / hours_a_day / _DAYS_A_YEAR
