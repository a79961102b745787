"""Wording of the window, and figures and dates as a person reads them."""

from __future__ import annotations

import re

from core.model.money import MoneyRange
from core.model.ranges import Range
from core.promise import chances
from core.wording import locale_figures
from core.wording.locale_figures import (
    day,
    moment,
    money,
    phone,
    sentence_case,
    short_day,
    short_month,
    since,
    time_of_day,
)
from core.wording.messages import say

__all__ = [
    "day",
    "minutes_range",
    "moment",
    "money",
    "money_range",
    "phone",
    "say",
    "sentence_case",
    "short_day",
    "short_month",
    "since",
    "time_of_day",
    "times_in_twenty",
    "unbroken",
]


def money_range(amount: MoneyRange, currency: str) -> str:
    """One figure when the columns agree, else ``$120.00–$180.00``."""
    if amount.is_one_figure:
        return money(amount.likely, currency)
    return locale_figures.money_range(amount.low, amount.high, currency)


def minutes_range(minutes: Range) -> str:
    """``62 min`` or ``40–124 min``."""
    return locale_figures.minutes_range(minutes.low, minutes.high)


def times_in_twenty(chance: float) -> str:
    """A chance as a customer counts: ``19 chances in 20``; the same words as on paper and on the phone."""
    return chances.words(chance)


def unbroken(sentence: str) -> str:
    """The sentence with each count of twenty on one line: a lone 20 in the last line says nothing."""
    return re.sub(r"(\d+) chances in 20", "\\1\u00a0chances\u00a0in\u00a020", sentence)
