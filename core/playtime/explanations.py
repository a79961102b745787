"""What explains the minutes a tape played: the posterior over every way it may have come to them.

What nobody looked at is shared out over the explanations, by Bayes. Several tapes of which the same is known
are worked out together.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from core.catalogue.markings import Marking, play_minutes
from core.model.names import FormatName, Speed, TvSystem
from core.playtime import possibilities, starting_beliefs
from core.playtime.habits import ShopHabits, starting
from core.playtime.possibilities import Facts
from core.playtime.starting_beliefs import Counts, Group
from core.wording.editions import edition_cache

SURE = 1e-6
"""Parts of a tape below this are not counted (our choice: it changes the time only)."""
_READ_OFF = 0.5
"""Minutes by which a counter read at the bench may be off (an assumption)."""
_NARROW = 1e-4
"""What has one length only is given so much room, as a share, for minutes to fall into (our choice)."""
_SEEN = ("system", "tv", "speed")
"""Habits that can be read off a deck."""


@dataclass(frozen=True, slots=True)
class Played:
    """One finished capture: what was known before, and what the deck showed."""

    box: str
    """Names the box; tapes of one box share their habits."""
    known: Facts
    minutes: float
    speed: Speed | None = None
    recorded_as: FormatName | None = None
    tv: TvSystem | None = None

    @property
    def seen(self) -> Facts:
        """What is known now, as far as it explains the minutes."""
        return replace(
            self.known.unfilled,
            speed=self.speed or self.known.speed,
            recorded_as=self.recorded_as or self.known.recorded_as,
            tv=self.tv or self.known.tv,
        )


def counts_of(played: Sequence[Played], shop: ShopHabits) -> list[Counts]:
    """What each tape was, by group; parts of a tape where several explanations remain."""
    same_facts: dict[tuple[Facts, Facts], list[int]] = {}
    for place, tape in enumerate(played):
        same_facts.setdefault((tape.known, tape.seen), []).append(place)
    found: list[Counts] = [{}] * len(played)
    for (known, seen), places in same_facts.items():
        minutes = np.array([played[place].minutes for place in places])
        for place, counts in zip(places, _explained(known, seen, minutes, shop), strict=True):
            found[place] = counts
    return found


def counted(found: Iterable[Counts]) -> dict[Group, dict[str, float]]:
    """The counts of several tapes together."""
    total: dict[Group, dict[str, float]] = {}
    for counts in found:
        for group, names in counts.items():
            mine = total.setdefault(group, {})
            for name, count in names.items():
                mine[name] = mine.get(name, 0.0) + count
    return total


@dataclass(frozen=True, slots=True, eq=False)
class _Explanations:
    """Every way a tape may have come to its minutes: from ``begin`` to ``end``, with its prior weight."""

    begin: NDArray[np.float64]
    end: NDArray[np.float64]
    weight: NDArray[np.float64]
    names: Mapping[Group, Sequence[tuple[str, NDArray[np.bool_]]]]
    """For each habit, which ways go with which of its possibilities."""
    is_full: NDArray[np.bool_]


def _explained(known: Facts, seen: Facts, minutes: NDArray[np.float64], shop: ShopHabits) -> Iterable[Counts]:
    ways = _ways(known, seen, shop)
    off = np.maximum(_READ_OFF, 0.004 * minutes)[:, None]
    overlap = np.minimum(ways.end, minutes[:, None] + off) - np.maximum(ways.begin, minutes[:, None] - off)
    likely = ways.weight * np.maximum(overlap, 0.0) / (ways.end - ways.begin)
    total = likely.sum(axis=1, keepdims=True)
    shares = np.where(total > 0, likely / np.maximum(total, 1e-300), 0.0)
    # Minutes that nothing explains (a deck left running) tell only what somebody saw.
    unexplained = ways.weight / ways.weight.sum() if seen != known.unfilled else shares[0] * 0
    for n in range(len(minutes)):
        share, groups = shares[n], ways.names.items()
        if not total[n]:
            share = unexplained
            groups = {group: names for group, names in groups if group[0] in _SEEN}.items()
        yield {group: _named(names, share, ways, group) for group, names in groups}


def _named(
    names: Sequence[tuple[str, NDArray[np.bool_]]],
    share: NDArray[np.float64],
    ways: _Explanations,
    group: Group,
) -> dict[str, float]:
    # A tape that is not full says nothing about the length of its cassette.
    told = share * ways.is_full if group[0] == "length" else share
    return {name: count for name, here in names if (count := float(told[here].sum())) > SURE}


@edition_cache(maxsize=256)
def _ways(known: Facts, seen: Facts, shop: ShopHabits) -> _Explanations:
    rows: list[tuple[float, float, float, bool]] = []
    labels: list[dict[Group, str]] = []
    for weight, full, cassette, label in _recordings(known, seen, shop):
        lengths = starting_beliefs.length_group(cassette)
        for grade, (over, length_weight) in enumerate(possibilities.lengths(cassette, shop).options):
            fills = possibilities.fills(seen, shop)
            for n, ((begin, end), fill_weight) in enumerate(fills.options):
                whole = full * (1 + over)
                last = n == len(fills.options) - 1
                low = begin if begin < end else begin * (1 - _NARROW)
                rows.append((low * whole, end * whole, weight * length_weight * fill_weight, last))
                filled = {fills.group: str(n)} if fills.group else {}
                labels.append({**label, lengths: str(grade), **filled})
    begin, end, weights, is_full = np.array(rows).T
    return _Explanations(begin, end, weights, _masks(labels), is_full.astype(bool))


def _recordings(
    known: Facts, seen: Facts, shop: ShopHabits
) -> Iterable[tuple[float, float, Marking, dict[Group, str]]]:
    """(weight, minutes of the whole tape, the cassette, what it would be)."""
    shell = known.shell
    for system, system_weight in possibilities.systems(seen, shop).options:
        for tv, tv_weight in possibilities.tvs(seen, system, shop).options:
            for entry, speed_weight in possibilities.speeds(seen, system, tv, shop).options:
                label: dict[Group, str] = {}
                if known.recorded_as is None:
                    label[starting_beliefs.system_group(shell)] = system.name
                if known.tv is None:
                    label[starting_beliefs.tv_group(shell.marking(known.marking))] = tv.value
                if known.origin is None:
                    label[starting_beliefs.speed_group(system, tv)] = entry.speed.value
                for cassette, cassette_weight in possibilities.cassettes(seen, tv).options:
                    full = play_minutes(cassette.metres.value, entry.mm_s.value, shell.sides)
                    together = system_weight * tv_weight * speed_weight * cassette_weight
                    yield together, full, cassette, label


def _masks(labels: Sequence[Mapping[Group, str]]) -> dict[Group, list[tuple[str, NDArray[np.bool_]]]]:
    every = dict.fromkeys(group for label in labels for group in label)
    groups = [group for group in every if len(starting(group)) > 1]  # else there is nothing to learn
    found: dict[Group, list[tuple[str, NDArray[np.bool_]]]] = {}
    for group in groups:
        named = np.array([label.get(group, "") for label in labels])
        found[group] = [(str(name), named == name) for name in dict.fromkeys(named.tolist()) if name]
    return found
