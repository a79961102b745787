"""The tapes of one box drawn together: one family has one camera, one country, one way with a tape.

What a box does is a share of each possibility (so often EP, so often full) that nobody sees: drawn once a
scenario from a Dirichlet distribution around what the shop's customers do, then followed by every tape. What
was played of a box moves its shares, and so the tapes that are still to come.

What the shop's customers do is not seen either: it is drawn around what the shop believes, once a scenario
for all its boxes, so that a mistake about everybody does not average out over a queue.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from core.catalogue.cassettes import Format
from core.catalogue.markings import play_minutes
from core.model import common_random_numbers
from core.model.names import TvSystem
from core.model.ranges import Range
from core.playtime import possibilities, starting_beliefs
from core.playtime.beliefs import quantile_of
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.interval_calibration import NOMINAL, IntervalLevels
from core.playtime.possibilities import Choice, Facts
from core.playtime.starting_beliefs import Group
from core.wording.editions import edition_cache

T = TypeVar("T")
Minutes = NDArray[np.float64]
Places = NDArray[np.intp]
Accepted = NDArray[np.bool_]

_SYSTEM, _TV, _SPEED, _CASSETTE, _FILL, _WITHIN, _LENGTH = range(1, 8)
"""Each choice of a tape has numbers of its own (names only, our choice)."""
_FULLER = 8
"""Names the numbers of how full a box is (our choice)."""
_OF_SHOP = 1
"""Names the numbers that all boxes have in common (our choice)."""
_LEAST_SPREAD = 1e-6
"""A shop that is as good as sure of itself (our choice: it keeps a division by nothing away)."""
_SECOND = 10
"""Names the second of two numbers apart from the first (our choice)."""
_SALT = 1_000
"""Seeds of two choices lie so far apart (our choice)."""


@dataclass(frozen=True, slots=True)
class Box:
    """Whose tapes are drawn: ``key`` names the box's own numbers, ``habits`` what is believed of it."""

    key: int
    seed: int
    scenarios: int
    habits: ShopHabits = STARTING


def minutes_of_tapes(tapes: Sequence[Facts], keys: Sequence[int], box: Box) -> Minutes:
    """Minutes of every tape in every scenario, tapes of one box following its habits together.

    One row a tape, one column a scenario; ``keys`` name each tape's own numbers, so that a tape keeps them
    whatever lies beside it. The mean over scenarios is the belief of `tape_minutes` about each tape.
    """
    alike: dict[Facts, list[int]] = defaultdict(list)
    for place, known in enumerate(tapes):
        alike[known].append(place)
    found = np.empty((len(tapes), box.scenarios))
    for known, places in alike.items():
        found[places] = _lot(known, tuple(keys[place] for place in places), box)
    return found


def minutes_of_box(lots: Iterable[tuple[Facts, tuple[int, ...]]], box: Box) -> Minutes:
    """Minutes of all tapes together in every scenario; ``lots`` are tapes of which the same is known."""
    return sum((minutes_of_lot(known, keys, box) for known, keys in lots), np.zeros(box.scenarios))


@edition_cache(maxsize=1024)
def minutes_of_lot(known: Facts, keys: tuple[int, ...], box: Box) -> Minutes:
    """Minutes of tapes alike together in every scenario, remembered: an edit draws its own line anew.

    8 kB a lot; the largest box has 500.
    """
    total = _lot(known, keys, box).sum(axis=0)
    total.flags.writeable = False
    return np.asarray(total)


def range_of(minutes: Minutes, ends: IntervalLevels = NOMINAL) -> Range:
    """The 10th, 50th and 90th percentile of drawn minutes, the ends moved to where the shop's tapes lay.

    A box is believed too surely for the reason for which a tape is.
    """
    ordered = np.sort(minutes)
    return Range(*(quantile_of(ordered, p) for p in (ends.low, 0.5, ends.high)))


# --- one lot of tapes alike ----------------------------------------------------------------


@edition_cache(maxsize=64)
def _lot(known: Facts, keys: tuple[int, ...], box: Box) -> Minutes:
    full, length, stretch, least = _full(known, keys, box)
    share, longer = _share(known, keys, box), 1 + _over(keys, box, length, stretch)
    return np.asarray(np.maximum(full * share * longer, least * share))


def _full(known: Facts, keys: tuple[int, ...], box: Box) -> tuple[Minutes, Places, Minutes, Minutes]:
    """Minutes of the whole tape by the catalogue, the place of its length group, its stretch, the least."""
    shop = box.habits
    systems = possibilities.systems(known, shop)
    system = _picked(systems, _SYSTEM, keys, box)
    full = np.zeros((len(keys), box.scenarios))
    length, stretch, least = np.zeros(full.shape, dtype=np.intp), np.ones(full.shape), np.zeros(full.shape)
    for place, (recording, _) in enumerate(systems.options):
        choice = possibilities.tvs(known, recording, shop)
        tv = _picked(choice, _TV, keys, box)
        for which, (tv_system, _) in enumerate(choice.options):
            here = (system == place) & (tv == which)
            minutes, group, times, measured = _one_way(known, recording, tv_system, keys, box)
            full = np.where(here, minutes, full)
            length = np.where(here, group, length)
            stretch = np.where(here, times, stretch)
            least = np.where(here, measured, least)
    return full, length, stretch, least


def _one_way(
    known: Facts, recording: Format, tv: TvSystem, keys: tuple[int, ...], box: Box
) -> tuple[Minutes, Places, Minutes, Minutes]:
    speeds = possibilities.speeds(known, recording, tv, box.habits)
    cassettes = possibilities.cassettes(known, tv)
    sides = known.shell.sides
    lengths = [cassette.metres.value for cassette, _ in cassettes.options]
    table = np.array(
        [[play_minutes(metres, entry.mm_s.value, sides) for metres in lengths] for entry, _ in speeds.options]
    )
    which = _picked(cassettes, _CASSETTE, keys, box)
    names = starting_beliefs.length_names()
    groups = [names.index(starting_beliefs.length_group(cassette)[1]) for cassette, _ in cassettes.options]
    times = np.array([starting_beliefs.stretch(cassette) for cassette, _ in cassettes.options])
    pace = _picked(speeds, _SPEED, keys, box)
    measured = np.array(
        [play_minutes(known.least.metres, entry.mm_s.value, sides) for entry, _ in speeds.options]
    )
    least = np.maximum(measured, known.least.minutes)[pace]
    return table[pace, which], np.array(groups, dtype=np.intp)[which], times[which], least


def _share(known: Facts, keys: tuple[int, ...], box: Box) -> Minutes:
    fills = possibilities.fills(known, box.habits)
    edges = np.array([stretch for stretch, _ in fills.options])
    if fills.group is None:
        picked = _picked(fills, _FILL, keys, box)
    else:
        picked = _fullness(fills.group, tuple(weight for _, weight in fills.options), keys, box)
    begin, end = edges[picked, 0], edges[picked, 1]
    if (begin == end).all():
        return np.asarray(begin, dtype=np.float64)
    return np.asarray(begin + (end - begin) * _uniforms(_WITHIN, keys, box))


def _fullness(group: Group, weights: tuple[float, ...], keys: tuple[int, ...], box: Box) -> Places:
    """Which stretch each tape is recorded up to: a normal number, part of it the box's."""
    alike, (mean, variance) = box.habits.correlation(group), box.habits.fullness
    of_shop = box.habits.shop_share(group)
    all_boxes, this_box = (_normals(_FULLER, (key,), box) for key in (_OF_SHOP, box.key))
    shared = mean + np.sqrt(variance) * (np.sqrt(of_shop) * all_boxes + np.sqrt(1 - of_shop) * this_box)
    own = _normals(_FILL, keys, box)
    together = np.sqrt(alike) * shared + np.sqrt(1 - alike) * own
    places = np.searchsorted(np.array(box.habits.box_cutpoints(group, weights)), together, side="right")
    return np.asarray(places, dtype=np.intp)


def _over(keys: tuple[int, ...], box: Box, length: Places, stretch: Minutes) -> Minutes:
    over = np.zeros(length.shape)
    for place, name in enumerate(starting_beliefs.length_names()):
        here = length == place
        if here.any():
            lengths = possibilities.lengths_of(("length", name), box.habits)
            longer = np.array([share for share, _ in lengths.options])[_picked(lengths, _LENGTH, keys, box)]
            over = np.where(here, longer, over)
    return np.where(over > 0, over * stretch, over)


# --- choices -------------------------------------------------------------------------------


def _picked(choice: Choice[T], salt: int, keys: tuple[int, ...], box: Box) -> Places:
    """Which option each tape takes in each scenario."""
    if len(choice.options) == 1:
        return np.zeros((len(keys), box.scenarios), dtype=np.intp)
    uniform = _uniforms(salt, keys, box)
    weights = tuple(weight for _, weight in choice.options)
    if choice.group is None:
        return np.searchsorted(np.cumsum(weights)[:-1], uniform, side="right")
    habits, group = box.habits, choice.group
    spread = habits.prior_concentration(group) * choice.mass, habits.box_concentration(group) * choice.mass
    bounds = _habit(group, weights, spread, box)
    return np.asarray((uniform[:, None, :] >= bounds[None, :, :]).sum(axis=1), dtype=np.intp)


@lru_cache(maxsize=128)
def _uniform_of_tapes(salted: int, keys: tuple[int, ...], scenarios: int) -> Minutes:
    """Remembered for the lines drawn last: 8 kB a tape each, and their sums stay in `minutes_of_lot`."""
    return common_random_numbers.uniforms(salted, keys, scenarios)


def _uniforms(salt: int, keys: tuple[int, ...], box: Box) -> Minutes:
    return _uniform_of_tapes(box.seed + salt * _SALT, keys, box.scenarios)


def _normals(salt: int, keys: tuple[int, ...], box: Box) -> Minutes:
    """Standard normal numbers, two uniform ones each (Box and Muller 1958)."""
    radius = np.sqrt(-2 * np.log(_safe(_uniforms(salt, keys, box))))
    return np.asarray(radius * np.cos(2 * np.pi * _uniforms(salt + _SECOND, keys, box)))


@lru_cache(maxsize=128)
def _habit(group: Group, weights: tuple[float, ...], spread: tuple[float, float], box: Box) -> Minutes:
    """Where one option ends and the next begins for this box, in each scenario: 8 kB an option.

    ``spread``: the concentration parameters of a box's shares around ``weights``, and around what the shop's
    customers do. By the law of total variance the shop's lie around the weights with what is left.
    """
    # A household that is slow on one format is slow on another: all their speeds share the numbers.
    named = group[0] if group[0] == "speed" else group
    whole, within = (1 / (1 + pull) for pull in spread)
    mistaken = max((whole - within) / (1 - within), _LEAST_SPREAD)
    of_shop = _of_shop(
        named, tuple((1 / mistaken - 1) * weight for weight in weights), box.seed, box.scenarios
    )
    shares = dirichlet(spread[1] * of_shop, common_random_numbers.key(box.key, named), box.seed)
    return np.asarray(np.cumsum(shares, axis=0)[:-1])


@lru_cache(maxsize=512)
def _of_shop(named: object, shape: tuple[float, ...], seed: int, scenarios: int) -> Minutes:
    """What the shop's customers do, in each scenario, the same for all its boxes."""
    around = np.repeat(np.array(shape)[:, None], scenarios, axis=1)
    return dirichlet(around, common_random_numbers.key(_OF_SHOP, named), seed)


def dirichlet(shape: Minutes, key: int, seed: int) -> Minutes:
    """Shares that add up to one in each scenario (column), drawn around ``shape``, one row a share.

    Each share is a gamma number of its own, so that a change in one leaves the others' numbers alone; the
    last one has the same numbers however many lie before it.
    """
    names = (*range(len(shape) - 1), "last")
    logs = np.stack(
        [
            _log_gamma(each, common_random_numbers.key(key, n), seed)
            for n, each in zip(names, shape, strict=True)
        ]
    )
    raised = np.exp(logs - logs.max(axis=0))
    return np.asarray(raised / raised.sum(axis=0))


_TRIES = 6
"""A try fails in fewer than one of twenty scenarios, so six fail in none of ten million (derived)."""
_LAST = 3 * _TRIES
"""The place of the number after those of all tries, three each (by definition)."""
_LEAST_SHAPE = 1e-6
"""Keeps a logarithm of nothing away (our choice)."""


def _log_gamma(shape: Minutes, key: int, seed: int) -> Minutes:
    """Logarithms of gamma numbers, by the squeeze of Marsaglia and Tsang 2000 (from memory) with a fixed
    number of tries; below a shape of one, of the shape above it times a power of a uniform number."""
    shape = np.maximum(shape, _LEAST_SHAPE)
    d = shape + (shape < 1) - 1 / 3
    found, left = np.empty(len(shape)), np.arange(len(shape))
    for each in range(_TRIES):
        log, accepted = _one_try(d[left], each, key, seed, left)
        if each == 0:
            found[:] = log
        found[left[accepted]] = log[accepted]
        left = left[~accepted]
        if not len(left):
            break
    (last,) = _safe(common_random_numbers.uniforms(seed, [common_random_numbers.key(key, _LAST)], len(shape)))
    return np.asarray(np.where(shape < 1, found + np.log(last) / shape, found))


def _one_try(d: Minutes, each: int, key: int, seed: int, scenarios: Places) -> tuple[Minutes, Accepted]:
    """What this try gives in these scenarios, and where it is taken."""
    names = [common_random_numbers.key(key, each + n * _TRIES) for n in range(3)]
    radius, angle, even = common_random_numbers.uniforms_at(seed, names, scenarios)
    c = 1 / np.sqrt(9 * d)
    normal = np.sqrt(-2 * np.log(_safe(radius))) * np.cos(2 * np.pi * angle)
    cube = np.maximum(1 + c * normal, 1e-12) ** 3
    squeeze = normal**2 / 2 + d * (1 - cube + np.log(cube))
    return np.log(d * cube), (c * normal > -1) & (np.log(_safe(even)) < squeeze)


def _safe(uniform: Minutes) -> Minutes:
    """Above zero, so that there is a logarithm."""
    return np.asarray(np.maximum(uniform, 2.0**-53))
