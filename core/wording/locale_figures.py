"""Days, times of day, numbers, amounts, phone numbers and lists as the reader's locale writes them.

One function for each, over Babel (CLDR) and phonenumbers; ``locale`` is that of the process unless a paper
names another. Narrow no-break spaces become plain no-break spaces, which all fonts have and a search finds.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date, datetime, time
from decimal import Decimal
from functools import lru_cache
from typing import Literal
from zoneinfo import ZoneInfo

from babel import Locale
from babel.dates import format_date, format_time, get_datetime_format
from babel.lists import format_list
from babel.numbers import format_currency, format_percent, get_currency_precision

from core.wording.locale_numbers import decimal, printable
from core.wording.messages import current, say, speech

_MINUS = "\N{MINUS SIGN}"

# --- days and times ----------------------------------------------------------------------


def day(when: date, locale: str | None = None) -> str:
    """``Thursday, March 12``; promises reach weeks ahead, so no year is said."""
    return _day(when.toordinal(), "EEEE", "MMMM", _locale(locale))


def short_day(when: date, locale: str | None = None) -> str:
    """``Thu, Mar 12``."""
    return _day(when.toordinal(), "", "", _locale(locale))


def full_day(when: date, locale: str | None = None) -> str:
    """``Thursday, March 12, 2026``."""
    return printable(format_date(when, "full", locale=_locale(locale)))


def day_of_month(when: date, locale: str | None = None) -> str:
    """``Mar 12``."""
    name = _locale(locale)
    return printable(format_date(when, str(Locale.parse(name).datetime_skeletons["MMMd"]), locale=name))


def short_month(when: date, locale: str | None = None) -> str:
    """``Mar``, as it stands in a date."""
    return str(Locale.parse(_locale(locale)).months["format"]["abbreviated"][when.month])


def weekday(when: date, locale: str | None = None) -> str:
    """``Thursday``, standing alone."""
    return str(Locale.parse(_locale(locale)).days["stand-alone"]["wide"][when.weekday()])


def time_of_day(when: datetime | time, locale: str | None = None) -> str:
    """``2:05 PM`` or ``14:05``, as the clock of ``when`` shows it."""
    shown = when.timetz().replace(tzinfo=None) if isinstance(when, datetime) else when
    return _time(shown, _locale(locale))


def hour_of_day(when: datetime, locale: str | None = None) -> str:
    """``9a`` where the clock of the locale has twelve hours, else ``9``: short, for the axis of a drawing."""
    name = _locale(locale)
    has_twelve_hours = "a" in str(Locale.parse(name).time_formats["short"].pattern)
    return printable(format_time(when.time(), "haaaaa" if has_twelve_hours else "H", locale=name))


def dates_by_length(when: date, locale: str | None = None) -> tuple[str, ...]:
    """``Thu, Mar 12``, ``12 Thu`` and ``Thu``: for where there may be no room for the first."""
    name = _locale(locale)
    shorter = (str(Locale.parse(name).datetime_skeletons["Ed"]), "ccc")
    return (short_day(when, name), *(printable(format_date(when, form, locale=name)) for form in shorter))


def moment(when: datetime, timezone: str, locale: str | None = None) -> str:
    """``Thu, Mar 12, 2:05 PM`` in the time zone named."""
    here = when.astimezone(ZoneInfo(timezone))
    glue = str(get_datetime_format("medium", locale=_locale(locale))).replace("'", "")
    return glue.format(time_of_day(here, locale), short_day(here.date(), locale))


def dated_moment(when: datetime, locale: str | None = None) -> str:
    """``Mar 12, 2026, 2:05 PM``, as the clock of ``when`` shows it: for lists that may reach over years."""
    name = _locale(locale)
    glue = str(get_datetime_format("medium", locale=name)).replace("'", "")
    return glue.format(time_of_day(when, locale), printable(format_date(when, "medium", locale=name)))


@lru_cache(maxsize=4096)
def _day(ordinal: int, weekday_width: str, month_width: str, locale: str) -> str:
    pattern = _day_pattern(weekday_width, month_width, locale)
    return printable(format_date(date.fromordinal(ordinal), pattern, locale=locale))


@lru_cache(maxsize=64)
def _day_pattern(weekday_width: str, month_width: str, locale: str) -> str:
    """The locale's pattern for weekday, day and month; its fields widened as UTS 35 matches skeletons."""
    known = Locale.parse(locale).datetime_skeletons
    wanted = ("MMMMEEEEd", "MMMMEd", "MMMEd") if month_width else ("MMMEd",)
    pattern = str(next(known[skeleton] for skeleton in wanted if skeleton in known))
    if not weekday_width:
        return pattern
    return "".join(
        piece if piece.startswith("'") else _widened(piece, weekday_width, month_width)
        for piece in re.split(r"('[^']*')", pattern)
    )


def _widened(piece: str, weekday_width: str, month_width: str) -> str:
    named = re.sub(r"([Ec])\1*", lambda field: field[1] * len(weekday_width), piece)
    return re.sub(r"([ML])\1{2,}", lambda field: field[1] * len(month_width), named)


@lru_cache(maxsize=4096)
def _time(when: time, locale: str) -> str:
    return printable(format_time(when, "short", locale=locale))


# --- numbers and amounts -----------------------------------------------------------------


def figure(value: float, locale: str | None = None, digits: int | None = None) -> str:
    """A number with the locale's signs; ``digits`` after the point, or as many as it has, three at most."""
    return decimal(value, _locale(locale), digits)


def percent(share: float, locale: str | None = None) -> str:
    """``78%`` or ``78 %``, in whole percent."""
    return printable(format_percent(round(share, 2), locale=_locale(locale)))


def percent_range(low: float, high: float, locale: str | None = None) -> str:
    """``47–53%``, or one figure when both agree."""
    first, last = figure(round(100 * low), locale), percent(high, locale)
    return last if percent(low, locale) == last else between(first, last)


def money(minor: int, currency: str, locale: str | None = None) -> str:
    """Minor units of an ISO 4217 currency: ``1250`` of USD as ``$12.50``."""
    return _money(minor, currency, _locale(locale))


def money_range(low: int, high: int, currency: str, locale: str | None = None) -> str:
    """One amount when both agree, else ``$120.00–$180.00``."""
    if low == high:
        return money(low, currency, locale)
    return between(money(low, currency, locale), money(high, currency, locale))


def between(low: str, high: str, language: str | None = None) -> str:
    """``40–124``; words instead of the dash where a minus sign stands beside it."""
    key = "between" if low.startswith(_MINUS) else "range"
    return say("figures", key, language=language, low=low, high=high)


@lru_cache(maxsize=4096)
def _money(minor: int, currency: str, locale: str) -> str:
    amount = Decimal(minor).scaleb(-get_currency_precision(currency))
    return printable(format_currency(amount, currency, locale=locale)).replace("-", _MINUS)


# --- durations ---------------------------------------------------------------------------


def duration(minutes: float, language: str | None = None) -> str:
    """``45 min``, ``2 h``, ``2 h 5 min``."""
    hours, rest = divmod(round(minutes), 60)
    parts = [say("figures", "hours", language=language, n=hours)] if hours else []
    if rest or not hours:
        parts.append(say("figures", "minutes", language=language, n=rest))
    return " ".join(parts)


def play_time(minutes: float, language: str | None = None) -> str:
    """``28:05``, ``1:58:24``: to the second, as decks and players show it."""
    whole, seconds = divmod(round(minutes * 60), 60)
    hours, rest = divmod(whole, 60)
    if not hours:
        return say("figures", "clock", language=language, minutes=str(rest), seconds=f"{seconds:02d}")
    written = {"hours": str(hours), "minutes": f"{rest:02d}", "seconds": f"{seconds:02d}"}
    return say("figures", "clock-hours", language=language, **written)


def minutes_range(low: float, high: float, language: str | None = None) -> str:
    """``62 min`` or ``40–124 min``, in whole minutes."""
    locale = None if language is None else speech(language).locale
    first, last = figure(round(low), locale), figure(round(high), locale)
    said = first if first == last else between(first, last, language)
    return say("figures", "minutes", language=language, n=said)


def since(then: datetime, now: datetime) -> str:
    """Since when, in words: ``just now``, ``for 12 min``, ``for 3 h``, ``for 2 days``."""
    seconds = max((now - then).total_seconds(), 0.0)
    for key, unit in (("since_days", 86400), ("since_hours", 3600), ("since_minutes", 60)):
        if seconds >= unit:
            return say("figures", key, n=int(seconds // unit))
    return say("figures", "since_now")


def span(first: date, last: date) -> str:
    """``on Thursday, November 26``, or ``from Thursday, November 26 to Friday, November 27``."""
    if first == last:
        return say("figures", "on_day", day=day(first))
    return say("figures", "from_day_to_day", first=day(first), last=day(last))


# --- lists, phone numbers, codes ---------------------------------------------------------


def listed(
    items: Sequence[str], style: Literal["standard", "or", "unit"] = "standard", locale: str | None = None
) -> str:
    """``mold``, ``mold and a scratch``, ``mold, a scratch, and a crease``."""
    return format_list(items, style=style, locale=_locale(locale))


def phone(number: str, country: str | None = None) -> str:
    """A stored number as it is dialed in its own country; from abroad when ``country`` is another one.

    ``number`` in E.164; what is no full number stays as given. ``country`` as ISO 3166 (``US``).
    """
    import phonenumbers  # takes 20 ms to import, and only some screens show a number

    try:
        parsed = phonenumbers.parse(number)
    except phonenumbers.NumberParseException:
        return number
    abroad = country is not None and parsed.country_code != phonenumbers.country_code_for_region(country)
    form = phonenumbers.PhoneNumberFormat.INTERNATIONAL if abroad else phonenumbers.PhoneNumberFormat.NATIONAL
    return phonenumbers.format_number(parsed, form)


def sentence_case(words: str) -> str:
    """The words with a large letter first and all others as they are: German nouns keep theirs."""
    return words[:1].upper() + words[1:]


def tape_code(code: str) -> str:
    """The ten digits of a tape in groups that are read aloud: order, place, check digit: ``000018 001 4``."""
    return f"{code[:6]} {code[6:9]} {code[9:]}" if len(code) == 10 and code.isdigit() else code


def _locale(locale: str | None) -> str:
    return current().locale if locale is None else locale.replace("-", "_")
