"""How a shop says things on paper: its language, its money, its days, its clock."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from babel import Locale
from babel.dates import format_date, format_time
from babel.numbers import format_currency, format_decimal, get_currency_precision

from core.model.money import MoneyRange
from core.model.names import FormatName
from core.model.ranges import Range
from core.model.records import Promise, ShopFront
from core.papers.paper_wording import sentences
from core.promise.chances import times_in_twenty


@dataclass(frozen=True, slots=True)
class Voice:
    """Says figures, days and sentences for one shop front. Papers never look at a clock."""

    front: ShopFront
    locale: Locale
    wording: Mapping[str, str]

    def say(self, name: str, /, **blanks: object) -> str:
        """The sentence called ``name`` with its blanks filled."""
        return self.wording[name].format(**blanks)

    def count(self, name: str, number: int, /, **blanks: object) -> str:
        """The sentence in the grammatical number that ``number`` asks for."""
        plural = f"{name}.{self.locale.plural_form(number)}"
        chosen = plural if plural in self.wording else f"{name}.other"
        return self.say(chosen, n=self.number(number), **blanks)

    @staticmethod
    def capital(text: str) -> str:
        """A phrase that begins a line, with a capital."""
        return text[:1].upper() + text[1:]

    @staticmethod
    def sentence(text: str) -> str:
        """A phrase as a sentence of its own."""
        return Voice.capital(text) + ("" if text.endswith((".", "!", "?")) else ".")

    def number(self, value: float, digits: int = 0) -> str:
        return self._plain(format_decimal(value, f"#,##0.{'0' * digits}", locale=self.locale))

    def money(self, minor: int, currency: str | None = None) -> str:
        """Minor units of ``currency``, or of the shop's own, as the shop writes them."""
        code = currency or self.front.currency
        amount = Decimal(minor).scaleb(-get_currency_precision(code))
        written = format_currency(amount, code, locale=self.locale)
        return self._plain(written).replace("-", "\N{MINUS SIGN}")

    def money_range(self, amount: MoneyRange, currency: str) -> str:
        """One figure, or from and to."""
        if amount.is_one_figure:
            return self.money(amount.likely, currency)
        return self.say(
            "figures.between", low=self.money(amount.low, currency), high=self.money(amount.high, currency)
        )

    def weekday(self, day: date) -> str:
        """``Thursday 12 March``."""
        return self._plain(format_date(day, self.wording["figures.weekday"], locale=self.locale))

    def full_day(self, day: date) -> str:
        """``Thursday 12 March 2026``."""
        return self._plain(format_date(day, self.wording["figures.full_day"], locale=self.locale))

    def short_day(self, day: date) -> str:
        """``12 Mar``."""
        return self._plain(format_date(day, self.wording["figures.short_day"], locale=self.locale))

    def local(self, moment: datetime) -> datetime:
        """The moment on the shop's own clock."""
        return moment.astimezone(ZoneInfo(self.front.timezone))

    def day_of(self, moment: datetime) -> str:
        return self.full_day(self.local(moment).date())

    def clock(self, moment: datetime) -> str:
        """The time of day as the shop's language writes it."""
        return self._plain(format_time(self.local(moment), "short", locale=self.locale))

    def length(self, minutes: float) -> str:
        """``45 min``, ``2 h``, ``2 h 5 min``."""
        hours, rest = divmod(round(minutes), 60)
        parts = [self.say("figures.hours", n=hours)] if hours else []
        if rest or not hours:
            parts.append(self.say("figures.minutes", n=rest))
        return " ".join(parts)

    def length_range(self, minutes: Range) -> str:
        """``60–120 min`` in whole minutes; nothing for a tape that cannot be played."""
        low, high = round(minutes.low), round(minutes.high)
        if high == 0:
            return "–"
        return f"{low}–{high}" if low != high else f"{low}"

    def format(self, name: FormatName) -> str:
        """The format as people call it; a name without words is printed as it is."""
        return self.wording.get(f"formats.{name}", name)

    def promised(self, promise: Promise) -> str:
        """``Thursday 12 March``, or that no day can be named."""
        return self.weekday(promise.day) if promise.day else self.say("promise.no_day")

    def chance(self, promise: Promise) -> str:
        """``19 times in 20``: rounded down, and never a certainty."""
        return self.say("promise.chance", n=times_in_twenty(promise.stated))

    @staticmethod
    def _plain(text: str) -> str:
        # Babel's narrow space is missing from many fonts, and from most people's searches.
        return text.replace("\u202f", "\u00a0")


def voice(front: ShopFront) -> Voice:
    """The voice of a shop front."""
    return Voice(front, Locale.parse(front.language.replace("-", "_")), sentences(front.language))
