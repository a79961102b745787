"""When a deck is due: hours of running turned into time at so many hours a day."""

from __future__ import annotations

from dataclasses import dataclass

from core.wording.messages import say

_DAYS_A_YEAR = 365.25


@dataclass(frozen=True, slots=True)
class Service:
    """Something a deck needs again and again, after so many hours of running."""

    name: str
    hours: int

    @property
    def source(self) -> str:
        """Where the hours come from, with what kind of source it is."""
        return say("plans", f"source-{self.name}")


CLEAN = Service("clean", 500)
INSPECT = Service("inspect", 1000)
HEADS = Service("heads", 2000)
SERVICES = (CLEAN, INSPECT, HEADS)


def years_until(service_hours: float, hours_a_day: float) -> float:
    """Years until a deck that runs ``hours_a_day`` has run ``service_hours``."""
    return service_hours / hours_a_day / _DAYS_A_YEAR
