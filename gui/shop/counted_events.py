"""What the shop has counted of what nobody planned, in sentences beside what it therefore expects."""

from __future__ import annotations

from core.scheduling import event_rates
from core.services.shop_overview import ShopView
from core.wording.locale_figures import figure
from gui.toolkit.text import say

_ONE_IN_TEN = 1.2816


def failures(view: ShopView) -> str:
    """How often a deck fails, with what nine in ten such shops would hold to be possible."""
    counted, belief = view.counted, event_rates.failures(view.counted, view.settings.expected)
    if not belief.events:
        return say("shop", "care_no_failures", hours=f"{counted.play_hours:.0f}")
    return say(
        "shop",
        {0: "care_failure_none", 1: "care_failure_one"}.get(counted.failures, "care_failures_of"),
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
    return say("plans", "repairs_of", count=counted.repairs, hours=f"{hours:.0f}")


def rush(view: ShopView) -> str:
    """How many rush orders come in a week; too few weeks tell nothing yet."""
    weeks, weekly = view.counted.weeks, view.learned.rush_boxes_a_week
    least = event_rates.WEEKS_BEFORE_LEARNING
    stage = "early" if weeks < least else "some" if round(weekly, 1) else "none"
    return say(
        "plans",
        "rush_counted",
        boxes=_rush_boxes(view),
        weeks=round(weeks),
        stage=stage,
        least=f"{least:g}",
        weekly=figure(weekly, digits=1),
    )


def rush_tapes(view: ShopView) -> str:
    """How many tapes a rush order holds."""
    tapes = sum(month.tapes for month in view.counted.rush)
    each = view.learned.tapes_in_a_rush_box
    return say(
        "plans",
        "rush_tapes_counted",
        tapes=tapes,
        boxes=_rush_boxes(view),
        stage="some" if each else "none",
        each=figure(each, digits=1),
    ).rstrip()


def closures(view: ShopView) -> str:
    """On how many of its opening days the shop was closed without notice."""
    counted, share = view.counted, view.learned.unplanned_closures
    return say(
        "plans",
        "closures_counted",
        shut=counted.shut_days,
        days=counted.opening_days,
        stage="some" if share else "none",
        share=figure(100 * share, digits=1),
    )


def _rush_boxes(view: ShopView) -> int:
    return sum(month.boxes for month in view.counted.rush)
