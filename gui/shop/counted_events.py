"""What the shop has counted of what nobody planned, in sentences beside what it therefore reckons with."""

from __future__ import annotations

from core.scheduling import event_rates
from core.services.shop_overview import ShopView
from gui.toolkit.text import say

_ONE_IN_TEN = 1.2816


def failures(view: ShopView) -> str:
    """How often a deck fails, with what nine in ten such shops would hold to be possible."""
    counted, belief = view.counted, event_rates.failures(view.counted, view.fittings.expected)
    if not belief.events:
        return say("shop", "care_no_failures", hours=f"{counted.play_hours:.0f}")
    return say(
        "shop",
        "care_failure_one" if counted.failures == 1 else "care_failures_of",
        count=counted.failures,
        hours=f"{counted.play_hours:.0f}",
        between=f"{belief.between:.0f}",
        low=f"{belief.between_percentile(-_ONE_IN_TEN):.0f}",
        high=f"{belief.between_percentile(_ONE_IN_TEN):.0f}",
    )


def repairs(view: ShopView) -> str:
    """How long a deck is away."""
    counted, hours = view.counted, view.learned.hours_to_repair
    if not hours:
        return say("plans", "repairs_none")
    key = "repairs_one" if counted.repairs == 1 else "repairs_of"
    return say("plans", key, count=counted.repairs, hours=f"{hours:.0f}")


def rush(view: ShopView) -> str:
    """How many rush boxes come in a week; too few weeks tell nothing yet."""
    weeks = view.counted.weeks
    seen = say("plans", "in_weeks", boxes=_boxes(view), weeks=_some(round(weeks), "a_week", "weeks"))
    if weeks < event_rates.WEEKS_BEFORE_LEARNING:
        return f"{seen}{say('plans', 'too_few_weeks', weeks=f'{event_rates.WEEKS_BEFORE_LEARNING:g}')}"
    weekly = view.learned.rush_boxes_a_week
    if not round(weekly, 1):
        return f"{seen}{say('plans', 'rush_none')}"
    return f"{seen}{say('plans', 'rush_weekly', weekly=f'{weekly:.1f}')}"


def rush_tapes(view: ShopView) -> str:
    """How many tapes a rush box holds."""
    tapes = sum(month.tapes for month in view.counted.rush)
    seen = say("plans", "tapes_in_boxes", tapes=_some(tapes, "a_tape", "tapes"), boxes=_boxes(view))
    each = view.learned.tapes_in_a_rush_box
    return f"{seen}{say('plans', 'tapes_each', each=f'{each:.1f}')}" if each else f"{seen}."


def closures(view: ShopView) -> str:
    """On how many of its opening days the shop stayed shut."""
    counted, share = view.counted, view.learned.unplanned_closures
    days = _some(counted.opening_days, "an_opening_day", "opening_days")
    seen = say("plans", "shut_of", shut=counted.shut_days, days=days)
    if not share:
        return f"{seen}{say('plans', 'closures_none')}"
    return f"{seen}{say('plans', 'closures_share', share=f'{100 * share:.1f}')}"


def _boxes(view: ShopView) -> str:
    return _some(sum(month.boxes for month in view.counted.rush), "a_rush_box", "rush_boxes")


def _some(count: int, one: str, many: str) -> str:
    return say("plans", one) if count == 1 else say("plans", many, count=count)
