"""What is stated of a date, from what the plan says of it: the plan's curve, moved as promises turned out.

A plan knows the shop's decks, hours and queue; it does not know lunch, a slow week or a repair that drags on.
The shop's own promises do. So each lead of the plan is multiplied by a factor, which is learned from the
promises whose day is over (`core.promise.recalibration_fit`) and is 1 until there are any. The moved curve is
the only one there is: day, chance, dots and what is under review are all read off it. A date that was given
stays.
"""

from __future__ import annotations

from functools import lru_cache
from math import exp, log, log2
from statistics import NormalDist

import numpy as np

from core.model.promise_records import USUAL_WIDTH, Recalibrated, Recalibration
from core.promise import shop_minutes
from core.scheduling.opening_calendar import Calendar, Minutes
from core.wording import locale_figures
from core.wording.messages import say

MOST = 3.0
"""A date is never set more than three times as far off: then the model is to be mended, not recalibrated."""
LEAST = 0.5
"""And never less than half as far off (both are assumptions)."""
NARROWEST, WIDEST = 0.05, 1.0
"""Of plans: those that are surer of themselves learn and say no more than that (assumptions)."""
_LEAST_LEAD = 1.0
"""Shop minutes, so that there is a logarithm."""
_NEVER = 1e12
TYPICAL = 0.9
"""The chance at which it is told in words by how much dates are moved: that of most promises."""
WORTH_A_WORD = 0.05
"""A date moved by less than a twentieth is not explained (an assumption)."""
_NORMAL = NormalDist()


def of_order(
    learned: Recalibration, tapes: int, rush: bool = False, width: float | None = None
) -> Recalibrated:
    """What is learned, for one order; ``width`` of its plan, None: that of a typical one."""
    middle = learned.middle
    middle += learned.size * learned.sizes.off(log2(max(tapes, 1)))
    middle += learned.rush * rush
    width = learned.width if width is None else width
    return Recalibrated(tapes, rush, round(middle, 6), learned.spread, learned.later, round(width, 4))


def width_of(at: Minutes, calendar: Calendar, now: float) -> float:
    """How unsure a plan with these finish times is: the logarithm of its lead at `TYPICAL` over that at even
    odds, divided by the scores between."""
    if not len(at) or not len(calendar.opens):
        return USUAL_WIDTH
    places = (np.array([0.5, TYPICAL]) * len(at)).astype(int)
    ends = shop_minutes.passed(calendar, np.append(np.partition(at, places)[places], now))
    even, most = np.maximum(ends[:2] - ends[2], _LEAST_LEAD)
    if not np.isfinite(most):
        return WIDEST
    return float(np.clip(log(most / even) / score(TYPICAL), NARROWEST, WIDEST))


def moved(at: Minutes, order: Recalibrated, calendar: Calendar, now: float) -> Minutes:
    """Finish times of the scenarios, each as much further off as its place among them asks for.

    The places keep their order, so a chance still grows with the day, and an order that is done later than
    another at every chance still is, where its factors are no smaller.
    """
    if not (order.middle or order.spread or order.later) or not len(at) or not len(calendar.opens):
        return at
    begun = float(shop_minutes.passed(calendar, np.array([now]))[0])
    rising = np.argsort(at, kind="stable")
    leads = shop_minutes.passed(calendar, at[rising]) - begun
    stretched = np.maximum.accumulate(moved_leads(order, np.maximum(leads, 0.0)))
    found = np.empty_like(at)
    found[rising] = np.where(leads > 0, shop_minutes.when_passed(calendar, begun + stretched), at[rising])
    return found


def moved_leads(order: Recalibrated, leads: Minutes) -> Minutes:
    """Leads of equally likely scenarios, rising, each that of another score; at most `MOST` times as long.

    Past the last scenario they go on as those of an order of usual width. Which score it is does not hang on
    the leads, so an order done later at every chance still is.
    """
    z = scores(len(leads))
    wanted = z + order.later + order.spread * z
    told = np.log(np.clip(leads, _LEAST_LEAD, _NEVER))
    found = np.interp(wanted, z, told) + USUAL_WIDTH * np.maximum(wanted - z[-1], 0.0) + order.middle
    return np.asarray(np.clip(np.exp(found), LEAST * leads, MOST * leads))


@lru_cache(maxsize=16)
def scores(count: int) -> Minutes:
    """The normal scores of so many scenarios in rising order: of (n − 1/2) ÷ count."""
    return np.array([_NORMAL.inv_cdf((n + 0.5) / count) for n in range(count)])


def score(chance: float) -> float:
    """The normal score of a chance; of the last half per cent at either end, that of its beginning."""
    return _NORMAL.inv_cdf(min(max(chance, 0.005), 0.995))


def typical_factor(order: Recalibrated) -> float:
    """How many times as far off a date of this order is set, at the chance of most promises."""
    return min(max(exp(order.at(score(TYPICAL))), LEAST), MOST)


def typical(learned: Recalibration) -> float:
    """How many times as far off as planned the date of a typical order is set."""
    return typical_factor(of_order(learned, round(2**learned.sizes.middle)))


def explained(learned: Recalibration) -> str:
    """What is learned, to the owner in one sentence: by how much dates are moved, and those of big orders."""
    if not learned.promises:
        return say("dates", "moved_none")
    big = round(2**learned.sizes.most)
    usual, more = (round(100 * each) for each in (typical(learned), typical_factor(of_order(learned, big))))
    if more == usual:
        return say("dates", "moved", n=learned.promises, percent=usual)
    return say("dates", "moved_by_size", n=learned.promises, percent=usual, big=big, more=more)


def why_later(order: Recalibrated) -> tuple[str, ...]:
    """That orders run late and dates are set further off, where it is worth a word."""
    more = typical_factor(order) - 1
    return (say("dates", "runs_late", percent=locale_figures.percent(more)),) if more >= WORTH_A_WORD else ()
