"""Decks that fail while they play, in some scenarios, and the tape that must be played again.

Failures come with playing time, at random: exponential, as is usual where nothing better is known
(Hopp and Spearman, Factory Physics, ch. 8, from memory). The repair takes real hours, exponential too.
A tape fails at most once in a scenario; the second time it plays through (twice is rare enough).

A deck that is out because it broke comes back, in each scenario at another time. How long it has been out
makes no difference to an exponential repair; but `event_rates` counts the hours of a deck that is still out,
so the longer it is away, the later it is expected.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from core.model import common_random_numbers
from core.model.common_random_numbers import Draws
from core.model.own_shop.settings_records import ShopSettings
from core.wording.messages import say

_A_BOX = 60
"""Tapes for which the draws are remembered (our choice: it changes the time taken only)."""
_FINE = 2.0**20
"""What is left of a moment at this scale is as good as a random number of its own (our choice)."""


@dataclass(frozen=True, slots=True)
class Breakdowns:
    """Mean minutes: of play ``between`` failures, and of a ``repair``."""

    between: float
    repair: float


def fails_after(breakdowns: Breakdowns, keys: Sequence[int], seed: int, scenarios: int) -> Draws:
    """Minutes of play after which the deck would fail under each tape, one row a tape."""
    if len(keys) > _A_BOX:
        return _drawn(breakdowns.between, tuple(keys), seed, scenarios)
    return _drawn_for_a_box(breakdowns.between, tuple(keys), seed, scenarios).copy()


def _drawn(between: float, keys: tuple[int, ...], seed: int, scenarios: int) -> Draws:
    uniform = common_random_numbers.uniforms(seed, keys, scenarios)
    return np.asarray(-np.log1p(-uniform) * between)


_drawn_for_a_box = lru_cache(maxsize=8)(_drawn)
"""A box that is typed asks for the same tapes at every key; 8 kB a tape."""


def repair_after(played: Draws, mean: float) -> Draws:
    """Minutes a repair takes, told by the very moment of the failure."""
    return np.asarray(-np.log1p(-((played * _FINE) % 1.0)) * mean)


def awaiting(settings: ShopSettings, broken: Collection[str]) -> ShopSettings:
    """The shop with the decks named ``broken``, where they are out of service, as decks that come back."""
    back = frozenset(deck.name for deck in settings.decks if not deck.in_service and deck.name in broken)
    if not back:
        return settings
    decks = tuple(replace(deck, in_service=deck.in_service or deck.name in back) for deck in settings.decks)
    return replace(settings, decks=decks, expected=replace(settings.expected, awaited=back))


def awaited(settings: ShopSettings) -> dict[int, str]:
    """What is to be said of each deck that comes back, by its place."""
    hours = settings.expected.hours_to_repair
    return {
        place: say("dates", "deck_away", deck=deck.name, hours=round(max(hours, 2)))
        for place, deck in enumerate(settings.decks)
        if deck.name in settings.expected.awaited
    }


def back_after(deck: str, mean: float, seed: int, scenarios: int) -> Draws:
    """Minutes until a deck that broke is back, one a scenario: exponential, ``mean`` on average."""
    uniform = common_random_numbers.uniforms(seed, [common_random_numbers.key("back", deck)], scenarios)[0]
    return np.asarray(-np.log1p(-uniform) * mean)
