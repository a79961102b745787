"""The scenarios of a box on the counter: hours, price and date are drawn from the same numbers."""

from __future__ import annotations

from functools import lru_cache

from core.model import common_random_numbers
from core.playtime.box_habits import Box
from core.playtime.habits import ShopHabits

SCENARIOS = 1000
"""The 90th percentile of hours is then known to one point in a hundred (derived: √(0.9 × 0.1 ÷ 1,000))."""


@lru_cache(maxsize=8)
def of(habits: ShopHabits, scenarios: int = SCENARIOS) -> Box:
    """What a box that has no number yet is drawn from."""
    return Box(common_random_numbers.key("box"), common_random_numbers.SEED, scenarios, habits)
