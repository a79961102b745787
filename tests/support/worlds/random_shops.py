"""Random shops with a queue and a box on the counter, and the same with one thing changed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from itertools import pairwise

from hypothesis import strategies as st

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Expected, Person, ShopSettings
from core.model.promise_records import Promise
from core.model.quote_records import QuotedTape
from core.model.ranges import Range
from core.promise import turnaround
from core.promise.stated_dates import chance_by
from core.scheduling.queued_tapes import QueuedTape
from tests.support.shops import PLAYS, TUESDAY, deck, fittings, queued, quoted, repaired

FORMATS = ("vhs", "hi8", "minidv")
MORNINGS = tuple(OpeningHours(day, 9 * 60, 13 * 60) for day in range(7))
STAFF = (
    (),
    (),
    (Person("Ada", hours=MORNINGS), Person("Ben")),
    (Person("Ada", can=frozenset({"load", "check"})), Person("Ben", hours=MORNINGS)),
)
"""Mostly nobody by name; mornings only, and somebody who does not splice."""
KINDS = (("vhs",), ("hi8",), ("minidv",), ("vhs", "minidv"))


@dataclass(frozen=True, slots=True)
class Asked:
    """A shop, what waits in it and the box on the counter."""

    settings: ShopSettings
    queue: tuple[QueuedTape, ...]
    tapes: tuple[QuotedTape, ...]
    rush: bool = False

    def answer(self) -> Promise:
        """The date, with nothing remembered from another question."""
        load = turnaround.load(self.settings, self.queue, TUESDAY + timedelta(hours=1))
        return turnaround.promise(load, self.tapes, self.rush)


def minutes() -> st.SearchStrategy[Range]:
    """Minutes known, nearly known, or hardly known at all."""
    return st.sampled_from((Range(30, 30, 30), Range(50, 60, 70), Range(20, 62, 180), Range(90, 120, 361)))


@st.composite
def shops(draw: st.DrawFn) -> ShopSettings:
    """One to five decks, one to three people, hours of their own, breakdowns and rush boxes or none."""
    kinds = draw(st.lists(st.sampled_from(KINDS), min_size=1, max_size=5))
    end = draw(st.sampled_from((13 * 60, 17 * 60, 20 * 60)))
    openings = tuple(OpeningHours(day, 9 * 60, end) for day in range(draw(st.integers(3, 6))))
    expected = draw(st.sampled_from((Expected(), Expected(200, 48, 1, 3, 0.02))))
    return fittings(
        *(deck(f"D{n}", *plays) for n, plays in enumerate(kinds)),
        openings=openings,
        people=draw(st.integers(1, 3)),
        staff=draw(st.sampled_from(STAFF)),
        past_closing_minutes=draw(st.sampled_from((0, 60, 240))),
        expected=expected,
        confidence=draw(st.sampled_from((0.8, 0.9, 0.95))),
    )


@st.composite
def asked(draw: st.DrawFn) -> Asked:
    """A question about a box that the shop can play, with up to thirty tapes before it."""
    settings = draw(shops())
    playable = sorted({name for each in settings.decks for name in each.plays})
    tape = st.tuples(st.sampled_from(playable), minutes(), st.booleans())
    waiting = draw(st.lists(tape, max_size=30))
    queue = tuple(
        queued(n % 900, name, length, rush=hurried and n % 5 == 0, job=1 + n // 4)
        for n, (name, length, hurried) in enumerate(waiting)
    )
    box = draw(st.lists(tape, min_size=1, max_size=12))
    return Asked(settings, queue, tuple(_quoted(n, *each) for n, each in enumerate(box, 1)))


def _quoted(n: int, name: str, length: Range, broken: bool) -> QuotedTape:
    return quoted(n, 1, name, length, verdict=repaired("splice") if broken else PLAYS)


def with_a_tape_more(one: Asked) -> Asked:
    """The last tape of the box twice."""
    last = one.tapes[-1]
    return replace(one, tapes=(*one.tapes, replace(last, line=last.line + 1)))


def with_a_deck_more(one: Asked) -> Asked:
    """Another deck like the first that plays something of the box."""
    wanted = {tape.draft.format for tape in one.tapes}
    first = next(each for each in one.settings.decks if each.plays & wanted)
    decks = (*one.settings.decks, replace(first, name="another"))
    return replace(one, settings=replace(one.settings, decks=decks))


def with_an_hour_more(one: Asked) -> Asked:
    """Every day an hour longer."""
    openings = tuple(replace(each, end=each.end + 60) for each in one.settings.openings)
    return replace(one, settings=replace(one.settings, openings=openings))


def with_rush(one: Asked) -> Asked:
    """As a rush box."""
    return replace(one, rush=True)


@dataclass(frozen=True, slots=True)
class Change:
    """One thing changed that can only make a box later, or only sooner."""

    words: str
    make: Callable[[Asked], Asked]
    is_later: bool

    def behaves(self, was: Promise, now: Promise) -> bool:
        """Whether the date did not move the wrong way."""
        before, after = (was, now) if self.is_later else (now, was)
        return after.day is None or (before.day is not None and before.day <= after.day)

    def anomaly(self, was: Promise, now: Promise) -> float:
        """By how much the chance of a day moved the wrong way at most."""
        before, after = (was, now) if self.is_later else (now, was)
        if not before.chances or not after.chances:
            return 0.0
        first = max(each.chances[0].day for each in (before, after))
        days = {chance.day for each in (before, after) for chance in each.chances if chance.day >= first}
        return max((chance_by(after, day) - chance_by(before, day) for day in days), default=0.0)


CHANGES = (
    Change("a tape more", with_a_tape_more, is_later=True),
    Change("rush", with_rush, is_later=False),
    Change("a deck more", with_a_deck_more, is_later=False),
    Change("an hour more a day", with_an_hour_more, is_later=False),
)


def falls(promise: Promise) -> Iterator[float]:
    """By how much the chance falls from one day to the next, where it does."""
    chances: Sequence[float] = [each.by for each in promise.chances]
    yield from (was - now for was, now in pairwise(chances) if now < was)
