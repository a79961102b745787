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


CLEAN = Service("clean", 500, "path, drum, heads and belts: PALsite maintenance, Betamax (trade)")
INSPECT = Service("inspect", 1000, "in home use: LG service manual TL-AT130M (manufacturer)")
HEADS = Service("heads", 2000, "head or upper drum, if signs show: PALsite maintenance (trade)")
SERVICES = (CLEAN, INSPECT, HEADS)


def years_until(service_hours: float, hours_a_day: float) -> float:
    """Years until a deck that runs ``hours_a_day`` has run ``service_hours``."""
    return service_hours / hours_a_day / _DAYS_A_YEAR
