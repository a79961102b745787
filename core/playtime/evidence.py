"""The learning as its owner may see it: each habit as believed at first, as seen, and as believed now."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.model.names import TvSystem
from core.playtime import habit_words, starting_beliefs
from core.playtime.explanations import Played, counted, counts_of
from core.playtime.habits import STARTING, ShopHabits, starting
from core.playtime.starting_beliefs import Group, Weights
from core.wording.messages import say

_TOLD = ("speed", "system", "fill", "tv", "length")
"""Kinds of habit in the order in which they are told."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """One habit: what was believed at first, what was seen since, what is believed now."""

    group: Group
    whose: str
    """``VHS-C, NTSC``."""
    about: str
    """``recording speed``."""
    at_first: tuple[tuple[str, float], ...]
    """(possibility, share), in the order of the starting beliefs."""
    seen: tuple[tuple[str, float], ...]
    """(possibility, tapes); parts of a tape where nobody looked and the minutes allow several."""
    now: tuple[tuple[str, float], ...]
    tapes: int
    sentence: str
    """``31 of your last 40 VHS-C (NTSC) were EP.``"""


def evidence_of(played: tuple[Played, ...], shop: ShopHabits) -> tuple[Evidence, ...]:
    """Every habit of which a tape was seen: speeds first, and of each kind the best known first.

    ``shop`` is what was learned from the captures ``played``. Tapes from before customers changed are left
    out: nothing rests on them any more.
    """
    seen = counted(counts_of(played[-shop.captures :], shop))
    found = [_evidence(group, names, shop) for group, names in seen.items() if sum(names.values()) >= 0.5]
    return tuple(sorted(found, key=lambda each: (_TOLD.index(each.group[0]), -each.tapes, each.group)))


def unseen(seen: Iterable[Evidence]) -> tuple[Evidence, ...]:
    """The habits of the catalogue's formats of which nothing was seen yet: only the starting beliefs."""
    known = {each.group for each in seen}
    groups = dict.fromkeys(group for shell in catalogue().formats for group in _groups_of(shell))
    return tuple(
        _evidence(group, {}, STARTING) for group in groups if group not in known and len(starting(group)) > 1
    )


def _groups_of(shell: Format) -> Iterable[Group]:
    yield starting_beliefs.system_group(shell)
    if shell.has_own_system:
        yield from (starting_beliefs.speed_group(shell, tv) for tv in TvSystem if shell.speeds_in(tv))
    if shell.habits.fill != starting_beliefs.WHOLE:
        yield starting_beliefs.fill_group(shell)


def _evidence(group: Group, seen: Weights, shop: ShopHabits) -> Evidence:
    start, now = starting(group), shop.weights(group)
    whose, about = habit_words.whose(group), habit_words.about(group[0])
    tapes = round(sum(seen.values()))
    words = habit_words.possibilities_of(group)
    counts = _in_words(words, seen)
    often, count = max(counts, key=lambda pair: pair[1])
    key = "seen" if tapes else "unseen"
    sentence = say("habits", key, count=round(count), tapes=tapes, whose=whose, what=often)
    return Evidence(
        group, whose, about, _in_words(words, start), counts, _in_words(words, now), tapes, sentence
    )


def _in_words(words: Mapping[str, str], weights: Weights) -> tuple[tuple[str, float], ...]:
    """Weights under the words a person uses, several names of one word added up."""
    found: dict[str, float] = {}
    for name, said in words.items():
        found[said] = found.get(said, 0.0) + weights.get(name, 0.0)
    return tuple(found.items())
