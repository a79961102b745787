"""What finished captures teach a shop: counts laid beside what it believed at first, and nothing hidden.

A tape played tells its minutes, and its speed, system and TV system where somebody looked. What nobody
looked at is shared out over all that would explain the minutes. Several tapes of one box count for less
than as many boxes, by how alike the tapes of a box turned out to be.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import exp, lgamma, log

import numpy as np
from numpy.typing import NDArray

from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.model.names import FormatName, Speed, TvSystem
from core.playtime import habit_words, interval_calibration, possibilities, starting_beliefs
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.interval_calibration import Reach, Tails
from core.playtime.possibilities import Facts
from core.playtime.starting_beliefs import SHARED, Counts, Group, Weights
from core.playtime.tape_minutes import play_minutes, points_of

WINDOW = 600
"""Captures looked back on: habits of customers change with the years (an assumption)."""
_PASSES = 3
"""What is shared out settles within a few rounds."""
_FOLDS = 10
"""Parts in which boxes are set aside: a tape is believed of from nine tenths of the other boxes at least."""
_READ_OFF = 0.5
"""Minutes by which a counter read at the bench may be off (an assumption)."""
_SURE = 1e-6
_TOLD = ("speed", "system", "fill", "tv", "length")
"""Kinds of habit in the order in which they are told."""
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


@lru_cache(maxsize=8)
def learned(played: tuple[Played, ...]) -> ShopHabits:
    """What a shop believes after these captures, oldest first; the newest `WINDOW` count.

    Conjugate: each belief is (worth × what was believed at first + tapes found) ÷ their sum, see
    ``[worth]`` of the starting beliefs.
    """
    shop, recent = STARTING, played[-WINDOW:]
    if not recent:
        return shop
    worths: dict[str, Counts] = {}
    for _ in range(_PASSES):
        boxes = _by_box(recent, counts_of(recent, shop))
        alike = {kind: _agreement(kind, boxes.values(), shop) for kind in SHARED}
        worths = {box: _worth_of_box(found, alike) for box, found in boxes.items()}
        shop = ShopHabits(counted(worths.values()), alike)
    return replace(shop, tails=_tails(recent[-interval_calibration.NEWEST :], worths, shop.alike))


@lru_cache(maxsize=256)
def of_box(played: tuple[Played, ...], shop: ShopHabits) -> ShopHabits:
    """What is believed of the tapes still to come of a box of which these were played."""
    return shop.of_box(counted(counts_of(played, shop)))


def counts_of(played: Sequence[Played], shop: ShopHabits) -> list[Counts]:
    """What each tape was, by group; parts of a tape where several explanations remain."""
    alike: dict[tuple[Facts, Facts], list[int]] = {}
    for place, tape in enumerate(played):
        alike.setdefault((tape.known, tape.seen), []).append(place)
    found: list[Counts] = [{}] * len(played)
    for (known, seen), places in alike.items():
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


def evidence(played: tuple[Played, ...]) -> tuple[Evidence, ...]:
    """Every habit of which a tape was seen: speeds first, and of each kind the best known first."""
    recent = played[-WINDOW:]
    shop = learned(recent)
    seen = counted(counts_of(recent, shop))
    found = [_evidence(group, names, shop) for group, names in seen.items() if sum(names.values()) >= 0.5]
    return tuple(sorted(found, key=lambda each: (_TOLD.index(each.group[0]), -each.tapes, each.group)))


def unseen(seen: Iterable[Evidence]) -> tuple[Evidence, ...]:
    """The habits of the catalogue's formats of which nothing was seen yet: only the starting beliefs."""
    known = {each.group for each in seen}
    groups = dict.fromkeys(group for shell in catalogue().formats for group in _groups_of(shell))
    return tuple(
        _evidence(group, {}, STARTING)
        for group in groups
        if group not in known and len(starting_beliefs.starting(group)) > 1
    )


def _groups_of(shell: Format) -> Iterable[Group]:
    yield starting_beliefs.system_group(shell)
    if shell.has_own_system:
        yield from (starting_beliefs.speed_group(shell, tv) for tv in TvSystem if shell.speeds_in(tv))
    yield starting_beliefs.fill_group(shell)


def _evidence(group: Group, seen: Weights, shop: ShopHabits) -> Evidence:
    start, now = starting_beliefs.starting(group), shop.weights(group)
    whose, about = habit_words.whose(group), habit_words.ABOUT[group[0]]
    tapes = round(sum(seen.values()))
    words = habit_words.possibilities_of(group)
    counts = _in_words(words, seen)
    often, count = max(counts, key=lambda pair: pair[1])
    sentence = f"{count:.0f} of your last {tapes} {whose} were {often}."
    if not tapes:
        sentence = f"No {whose} has been played yet."
    return Evidence(
        group, whose, about, _in_words(words, start), counts, _in_words(words, now), tapes, sentence
    )


def _in_words(words: Mapping[str, str], weights: Weights) -> tuple[tuple[str, float], ...]:
    """Weights under the words a person uses, several names of one word added up."""
    found: dict[str, float] = {}
    for name, said in words.items():
        found[said] = found.get(said, 0.0) + weights.get(name, 0.0)
    return tuple(found.items())


# --- what explains the minutes of one tape -------------------------------------------------


@dataclass(frozen=True, slots=True, eq=False)
class _Ways:
    """Every way a tape may have come to its minutes: from ``begin`` to ``end``, with a weight."""

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
    names: Sequence[tuple[str, NDArray[np.bool_]]], share: NDArray[np.float64], ways: _Ways, group: Group
) -> dict[str, float]:
    # A tape that is not full says nothing about the length of its cassette.
    told = share * ways.is_full if group[0] == "length" else share
    return {name: count for name, here in names if (count := float(told[here].sum())) > _SURE}


@lru_cache(maxsize=256)
def _ways(known: Facts, seen: Facts, shop: ShopHabits) -> _Ways:
    rows: list[tuple[float, float, float, bool]] = []
    labels: list[dict[Group, str]] = []
    for weight, full, is_shortest, label in _recordings(known, seen, shop):
        lengths = starting_beliefs.length_group(is_shortest)
        for grade, (over, length_weight) in enumerate(possibilities.lengths(is_shortest, shop).options):
            fills = possibilities.fills(seen, shop).options
            for n, ((begin, end), fill_weight) in enumerate(fills):
                whole = full * (1 + over)
                last = n == len(fills) - 1
                rows.append((begin * whole, end * whole, weight * length_weight * fill_weight, last))
                labels.append(
                    {**label, lengths: str(grade), starting_beliefs.fill_group(known.shell): str(n)}
                )
    begin, end, weights, is_full = np.array(rows).T
    return _Ways(begin, end, weights, _masks(labels), is_full.astype(bool))


def _recordings(
    known: Facts, seen: Facts, shop: ShopHabits
) -> Iterable[tuple[float, float, bool, dict[Group, str]]]:
    """(weight, minutes of the whole tape, whether only its marking is known, what it would be)."""
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
                    yield together, full, cassette.is_shortest, label


def _masks(labels: Sequence[Mapping[Group, str]]) -> dict[Group, list[tuple[str, NDArray[np.bool_]]]]:
    every = dict.fromkeys(group for label in labels for group in label)
    groups = [
        group for group in every if len(starting_beliefs.starting(group)) > 1
    ]  # else there is nothing to learn
    found: dict[Group, list[tuple[str, NDArray[np.bool_]]]] = {}
    for group in groups:
        named = np.array([label.get(group, "") for label in labels])
        found[group] = [(str(name), named == name) for name in dict.fromkeys(named.tolist()) if name]
    return found


# --- how far ranges must reach -------------------------------------------------------------


def _tails(newest: Sequence[Played], worths: Mapping[str, Counts], alike: Weights) -> Tails:
    """Each tape beside what other boxes would have told of it; its own box would tell too much."""
    if len(newest) < interval_calibration.ENOUGH:
        return interval_calibration.USUAL
    fold = {box: n % _FOLDS for n, box in enumerate(worths)}
    found: list[Reach] = []
    for aside in range(_FOLDS):
        alike_known: dict[Facts, list[tuple[str, float]]] = {}
        for tape in newest:
            if fold[tape.box] == aside:
                alike_known.setdefault(tape.known, []).append((tape.box, tape.minutes))
        others = ShopHabits(counted(worth for box, worth in worths.items() if fold[box] != aside), alike)
        for known, tapes in alike_known.items():
            found += interval_calibration.reaches(points_of(known, others), tapes)
    return interval_calibration.of(found)


# --- boxes ---------------------------------------------------------------------------------


def _by_box(played: Sequence[Played], counts: Sequence[Counts]) -> dict[str, Counts]:
    boxes: dict[str, list[Counts]] = {}
    for tape, found in zip(played, counts, strict=True):
        boxes.setdefault(tape.box, []).append(found)
    return {box: counted(found) for box, found in boxes.items()}


def _worth_of_box(box: Counts, alike: Weights) -> Counts:
    """The counts of a box, scaled to the tapes of strangers that would tell as much."""
    return {group: _scaled_down(names, alike.get(group[0])) for group, names in box.items()}


def _scaled_down(names: Weights, agreement: float | None) -> Weights:
    tapes = sum(names.values())
    if agreement is None or tapes <= 1:
        return names
    return {name: count * (1 + agreement) / (agreement + tapes) for name, count in names.items()}


def _agreement(kind: str, boxes: Iterable[Counts], shop: ShopHabits) -> float:
    """How alike the tapes of a box are: the candidates, weighed by how well they explain the boxes."""
    chance = _log_chance_of_fill if kind == "fill" else _log_chance_of_shares
    several = [
        (group, names)
        for box in boxes
        for group, names in box.items()
        if group[0] == kind and sum(names.values()) > 1
    ]
    candidates = starting_beliefs.concentrations(kind)
    told = _as_told(kind, several, shop)
    chances = [sum(chance(found, start, value) for found, start in told) for value, _ in candidates]
    best = max(chances)
    return starting_beliefs.mean_concentration(
        tuple(
            (value, weight * exp(each - best))
            for (value, weight), each in zip(candidates, chances, strict=True)
        )
    )


def _as_told(
    kind: str, several: Sequence[tuple[Group, Weights]], shop: ShopHabits
) -> list[tuple[tuple[float, ...], tuple[float, ...]]]:
    """For each box its tapes by possibility, and what to lay them against: shares, or normal scores."""
    against = {group: shop.scores(group) if kind == "fill" else shop.weights(group) for group, _ in several}
    return [
        (tuple(names.get(name, 0.0) for name in against[group]), tuple(against[group].values()))
        for group, names in several
    ]


def _log_chance_of_fill(found: Sequence[float], scores: Sequence[float], agreement: float) -> float:
    """Of normal numbers that share a correlation of 1 ÷ (1 + agreement), up to what does not depend on it."""
    tapes, alike = sum(found), 1 / (1 + agreement)
    mean = sum(n * score for n, score in zip(found, scores, strict=True)) / tapes
    within = sum(n * (score - mean) ** 2 for n, score in zip(found, scores, strict=True))
    between = 1 + (tapes - 1) * alike
    return -0.5 * (
        (tapes - 1) * log(1 - alike) + log(between) + within / (1 - alike) + tapes * mean**2 / between
    )


def _log_chance_of_shares(found: Sequence[float], start: Sequence[float], agreement: float) -> float:
    """Of these counts in one box, up to what does not depend on the agreement (Dirichlet–multinomial)."""
    likely = lgamma(agreement) - lgamma(agreement + sum(found))
    for count, share in zip(found, start, strict=True):
        if count > _SURE:
            shape = max(agreement * share, _SURE)
            likely += lgamma(shape + count) - lgamma(shape)
    return likely
