"""Wording of the window, and figures and dates as a person reads them."""

from __future__ import annotations

import re
import tomllib
from datetime import date, datetime, timedelta
from functools import cache, lru_cache
from zoneinfo import ZoneInfo

from babel.dates import format_date, format_datetime
from babel.numbers import format_currency, get_currency_precision

from core.model import resource_files
from core.model.money import MoneyRange
from core.model.ranges import Range
from core.promise import chances


@cache
def _wording(language: str, room: str) -> dict[str, str]:
    with resource_files.path("wording", language, f"{room}.toml").open("rb") as file:
        return tomllib.load(file)


def say(room: str, key: str, /, language: str = "en", **fill: object) -> str:
    """The sentence ``key`` of a room of the wording file, with its places filled in."""
    sentence = _wording(language, room)[key]
    return sentence.format(**fill) if fill else sentence


@lru_cache(maxsize=4096)
def money(minor: int, currency: str, language: str = "en_US") -> str:
    """``1250`` cents as ``$12.50``."""
    words = format_currency(minor / 10 ** get_currency_precision(currency), currency, locale=language)
    return words.replace("-", "−")


def money_range(amount: MoneyRange, currency: str) -> str:
    """One figure when the columns agree, else ``$120.00–$180.00``."""
    if amount.is_one_figure:
        return money(amount.likely, currency)
    between = " to " if amount.low < 0 else "–"
    return f"{money(amount.low, currency)}{between}{money(amount.high, currency)}"


def phone(number: str) -> str:
    """A stored number as a person in its country dials it; what is no full number stays as given."""
    import phonenumbers  # takes 20 ms to import, and only some screens show a number

    try:
        parsed = phonenumbers.parse(number)
    except phonenumbers.NumberParseException:
        return number
    return phonenumbers.format_number(parsed, phonenumbers.PhoneNumberFormat.NATIONAL)


def minutes_range(minutes: Range) -> str:
    """``62 min`` or ``40–124 min``."""
    low, high = round(minutes.low), round(minutes.high)
    return f"{high} min" if low == high else f"{low}–{high} min"


@lru_cache(maxsize=1024)
def day(when: date) -> str:
    """``Thursday 12 March``; promises reach weeks ahead, so no year is said."""
    return format_date(when, "EEEE d MMMM", locale="en")


@lru_cache(maxsize=1024)
def short_day(when: date) -> str:
    """``Thu 12 Mar``."""
    return format_date(when, "EEE d MMM", locale="en")


def moment(when: datetime, timezone: str) -> str:
    """``Thu 12 Mar, 14:05`` in the shop's time zone."""
    return format_datetime(when.astimezone(ZoneInfo(timezone)), "EEE d MMM, HH:mm", locale="en")


def time_of_day(when: datetime) -> str:
    """``14:05``, as the clock of ``when`` shows it."""
    return format_datetime(when, "HH:mm", locale="en")


def times_in_twenty(chance: float) -> str:
    """A chance as a customer counts: ``19 times in 20``; the same words as on paper and on the phone."""
    return chances.words(chance)


def unbroken(sentence: str) -> str:
    """The sentence with each count of twenty on one line: a lone 20 in the last line says nothing."""
    return re.sub(r"(\d+) times in 20", "\\1\u00a0times\u00a0in\u00a020", sentence)


def since(then: datetime, now: datetime) -> str:
    """Since when, in words: ``just now``, ``for 12 min``, ``for 3 h``, ``for 2 days``."""
    gone = max(now - then, timedelta())
    if gone < timedelta(minutes=1):
        return "just now"
    if gone < timedelta(hours=1):
        return f"for {int(gone.total_seconds() // 60)} min"
    if gone < timedelta(days=1):
        return f"for {int(gone.total_seconds() // 3600)} h"
    return "for 1 day" if gone.days == 1 else f"for {gone.days} days"
