"""How a shop says things on paper: its language, its money, its days, its clock."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from core.catalogue import containers
from core.catalogue.formats import catalogue
from core.model import accents
from core.model.money import MoneyRange
from core.model.names import AnyFinding, FormatName
from core.model.own_shop.settings_records import ShopFront
from core.model.promise_records import Promise
from core.model.ranges import Range
from core.model.spoken_names import spoken
from core.promise.chances import words
from core.wording import locale_figures, messages, own_words


@dataclass(frozen=True, slots=True)
class Voice:
    """Says figures, days and sentences for one shop front. Papers never look at a clock."""

    front: ShopFront

    @property
    def language(self) -> str:
        """The tag of the language the paper is written in."""
        return self.front.language

    @property
    def speech(self) -> messages.Speech:
        """The language with the shop's own sentences as they were then: a reprint says what was printed."""
        return messages.speech(self.language)._replace(own=own_words.of(self.language, self.front.words))

    @property
    def locale(self) -> str:
        """The locale of its figures, as Babel names it."""
        return messages.speech(self.language).locale

    @property
    def accent(self) -> str:
        """The shop's color, as ``#RRGGBB``."""
        return accents.of(self.front.accent).light

    @property
    def whereabouts(self) -> tuple[str, ...]:
        """Address, phone, e-mail and tax number, each a line; what the shop has not stated is left out."""
        front = self.front
        number = self.say("tax-number", number=front.tax_number) if front.tax_number else ""
        return tuple(line for line in (*front.address, front.phone, front.email, number) if line)

    def say(self, name: str, /, **blanks: object) -> str:
        """The sentence called ``name`` with its blanks filled."""
        return messages.say("paper", name, language=self.speech, **blanks)

    def count(self, name: str, number: int, /, **blanks: object) -> str:
        """The sentence in the grammatical number that ``number`` asks for."""
        return self.say(name, n=number, **blanks)

    @staticmethod
    def capital(text: str) -> str:
        """A phrase that begins a line, with a capital."""
        return text[:1].upper() + text[1:]

    @staticmethod
    def sentence(text: str) -> str:
        """A phrase as a sentence of its own."""
        return Voice.capital(text) + ("" if text.endswith((".", "!", "?")) else ".")

    def number(self, value: float, digits: int = 0) -> str:
        """With just so many digits behind the point."""
        return locale_figures.figure(value, self.locale, digits)

    def money(self, minor: int, currency: str | None = None) -> str:
        """Minor units of ``currency``, or of the shop's own, as the shop writes them."""
        return locale_figures.money(minor, currency or self.front.currency, self.locale)

    def money_range(self, amount: MoneyRange, currency: str) -> str:
        """One figure, or from and to."""
        if amount.is_one_figure:
            return self.money(amount.likely, currency)
        return self.say(
            "figures-between", low=self.money(amount.low, currency), high=self.money(amount.high, currency)
        )

    def weekday(self, day: date) -> str:
        """``Thursday, March 12``."""
        return locale_figures.day(day, self.locale)

    def full_day(self, day: date) -> str:
        """``Thursday, March 12, 2026``."""
        return locale_figures.full_day(day, self.locale)

    def short_day(self, day: date) -> str:
        """``Mar 12``."""
        return locale_figures.day_of_month(day, self.locale)

    def local(self, moment: datetime) -> datetime:
        """The moment on the shop's own clock."""
        return moment.astimezone(ZoneInfo(self.front.timezone))

    def day_of(self, moment: datetime) -> str:
        """The day of a moment on the shop's own clock, with its year."""
        return self.full_day(self.local(moment).date())

    def clock(self, moment: datetime) -> str:
        """The time of day as the shop's language writes it."""
        return locale_figures.time_of_day(self.local(moment), self.locale)

    def length(self, minutes: float) -> str:
        """``45 min``, ``2 h``, ``2 h 5 min``."""
        return locale_figures.duration(minutes, self.language)

    def play_time(self, minutes: float) -> str:
        """``28:05``, ``1:58:24``."""
        return locale_figures.play_time(minutes, self.language)

    def length_range(self, minutes: Range) -> str:
        """``60–120 min`` in whole minutes; nothing for a tape that cannot be played."""
        low, high = round(minutes.low), round(minutes.high)
        if high == 0:
            return "–"
        return f"{low}–{high}" if low != high else f"{low}"

    def minutes_range(self, minutes: Range) -> str:
        """``60–120 min``."""
        count = self.length_range(minutes)
        return messages.say("figures", "minutes", language=self.language, n=count)

    def format(self, name: FormatName) -> str:
        """The format as people call it; a name the catalogue does not have is printed as it is."""
        if messages.knows("formats", f"name-{name}", self.language):
            return messages.say("formats", f"name-{name}", language=self.language)
        for key, words_then, _ in self.front.format_names:
            if key == name:
                return words_then
        known = catalogue()
        return known.format(name).words if name in known.names else name

    def finding(self, finding: AnyFinding) -> str:
        """What is wrong with a tape; a finding of the shop's own as it was called then."""
        return dict(self.front.finding_names).get(finding.value) or spoken(finding, self.language)

    def things(self, sentence: str, names: Iterable[FormatName], /, **blanks: object) -> str:
        """The sentence about things of these formats: about tapes, reels, boxes, discs, or all sorts."""
        own = {key: container for key, _, container in self.front.format_names}
        kind = containers.together(names, own)
        return self.say(containers.sentence("paper", sentence, kind), **blanks)

    def promised(self, promise: Promise) -> str:
        """``Thursday 12 March``, or that no day can be named."""
        return self.weekday(promise.day) if promise.day else self.say("promise-no_day")

    def chance(self, promise: Promise) -> str:
        """``19 chances in 20 …``: rounded down, and never a certainty."""
        return self.say("promise-chance", chance=words(promise.stated, self.language))


def voice(front: ShopFront) -> Voice:
    """The voice of a shop front."""
    return Voice(front)
