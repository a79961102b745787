"""When a deck is due: hours of running turned into time at so many hours a day."""

from __future__ import annotations

CLEAN_EVERY_H = 500
"""Path, drum, heads and belts: PALsite maintenance, Betamax (trade)."""
INSPECT_EVERY_H = 1000
"""Inspection in home use: LG service manual TL-AT130M (manufacturer)."""
HEADS_EVERY_H = 2000
"""Head or upper drum, if signs show: PALsite maintenance (trade)."""

_DAYS_A_YEAR = 365.25


def years_until(service_hours: float, hours_a_day: float) -> float:
    """Years until a deck that runs ``hours_a_day`` has run ``service_hours``."""
    return service_hours / hours_a_day / _DAYS_A_YEAR
