"""What the shop believes about tapes nobody knows anything of, and what it has learned of them since.

The starting beliefs stand in ``resources/catalogue/habits.toml``. They are invented, and say so; the
shop's own captures outweigh them bit by bit, and every fact that is known replaces them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise
from math import sqrt
from statistics import NormalDist
from typing import Any

from core.catalogue.cassettes import Format, Marking
from core.catalogue.formats import catalogue
from core.model import resource_files
from core.model.names import FormatName, Origin, Speed, TvSystem
from core.playtime.interval_calibration import USUAL, Tails

Weights = Mapping[str, float]
Group = tuple[str, str]
"""What a habit is about and whose: ``("speed", "vhs-c-ntsc")``."""
Counts = Mapping[Group, Weights]
"""How many tapes of each group were found to be what."""

_TVS = tuple(f"-{tv.value}" for tv in TvSystem)
KINDS = ("system", "tv", "speed", "fill", "length")
_NORMAL = NormalDist()
_FAR = 8.0
LEAST = 1e-9
"""Hardly possible, yet not ruled out."""

SHARED = ("system", "tv", "speed", "fill")
"""Kinds of habit that the tapes of one box share; a cassette's length is its maker's."""


@dataclass(frozen=True, slots=True, eq=False)
class ShopHabits:
    """What one shop believes, or, with ``of``, what is believed of one box in it. Compared by identity."""

    seen: Counts = field(default_factory=dict)
    """Tapes found, by group; several of one box count for less than as many boxes."""
    alike: Mapping[str, float] = field(default_factory=dict)
    """By kind: how soon a box says more than the shop (see ``[alike]`` of the starting beliefs)."""
    of: ShopHabits | None = None
    fuller: tuple[float, float] = (0.0, 1.0)
    """Mean and variance of how much fuller the tapes of a box are than others, as a normal number."""
    tails: Tails = USUAL
    """Where the shop's ranges begin and end."""

    def of_box(self, counts: Counts) -> ShopHabits:
        """What is believed of the rest of a box of which ``counts`` are known."""
        mine = {group: found for group, found in counts.items() if group[0] in SHARED}
        return ShopHabits(mine, self.alike, self, self._fuller_box(mine), self.tails) if mine else self

    def weights(self, group: Group) -> dict[str, float]:
        """What is believed of a group, adding up to one."""
        if self.of is not None and group[0] == "fill":
            return self._fill_of_box(group)
        start = dict(starting(group)) if self.of is None else self.of.weights(group)
        found = self.seen.get(group)
        if not found:
            return start
        worth = _page()["worth"][group[0]] if self.of is None else self.of.pull(group)
        return _scaled({name: worth * start[name] + found.get(name, 0.0) for name in start})

    def agreement(self, kind: str) -> float:
        """The concentration of one kind: tapes of a box after which it says as much as the shop."""
        return self.alike.get(kind) or starting_agreement(kind)

    def pull(self, group: Group) -> float:
        """Concentration of one box's own habit around what is believed here.

        A box differs from others, and the shop itself may be mistaken: the variances add up. Tapes
        known of the box make it steadier.
        """
        if self.of is not None:
            return self.of.pull(group) + sum(self.seen.get(group, {}).values())
        mistaken = 1 / (1 + worth(group[0]) + sum(self.seen.get(group, {}).values()))
        own = 1 / (1 + self.agreement(group[0]))
        return 1 / (own + (1 - own) * mistaken) - 1

    def likeness(self, group: Group) -> float:
        """Correlation of how full two tapes of one box are, from 0 to 1."""
        return 1 / (1 + (self if self.of is None else self.of).pull(group))

    def bounds(self, group: Group) -> tuple[float, ...]:
        """Where one stretch of the tape ends and the next begins, on the scale of a normal number."""
        shares = tuple((self if self.of is None else self.of).weights(group).values())
        return _bounds(shares, _NORMAL)

    def bounds_of_box(self, group: Group, shares: tuple[float, ...]) -> tuple[float, ...]:
        """The same for shares of this box's own: its tapes divide over the stretches as they say."""
        return _bounds(shares, self._spread(group))

    def _fill_of_box(self, group: Group) -> dict[str, float]:
        """Normal numbers of the box's tapes, counted between the bounds."""
        spread = self._spread(group)
        reached = [0.0, *(spread.cdf(bound) for bound in self.bounds(group)), 1.0]
        return {str(n): reached[n + 1] - reached[n] for n in range(len(reached) - 1)}

    def _spread(self, group: Group) -> NormalDist:
        """The normal numbers of the tapes of this box."""
        alike, (mean, variance) = self.likeness(group), self.fuller
        return NormalDist(sqrt(alike) * mean, sqrt(alike * variance + 1 - alike))

    def _fuller_box(self, counts: Counts) -> tuple[float, float]:
        """Bayes for a normal number seen through its tapes: precisions add up."""
        precision, pulled = 1.0, 0.0
        for group, found in counts.items():
            if group[0] == "fill":
                alike, scores = self.likeness(group), self.scores(group)
                precision += sum(found.values()) * alike / (1 - alike)
                pulled += sqrt(alike) / (1 - alike) * sum(n * scores[name] for name, n in found.items())
        return pulled / precision, 1 / precision

    def scores(self, group: Group) -> dict[str, float]:
        """The mean of a normal number within each stretch, scaled to a variance of one."""
        inner = self.bounds(group)
        edges = (-_FAR, *inner, _FAR)
        shares = (self if self.of is None else self.of).weights(group)
        means = [
            (_NORMAL.pdf(low) - _NORMAL.pdf(high)) / max(_NORMAL.cdf(high) - _NORMAL.cdf(low), LEAST)
            for low, high in pairwise(edges)
        ]
        variance = sum(share * mean**2 for share, mean in zip(shares.values(), means, strict=True))
        return {name: mean / sqrt(variance) for name, mean in zip(shares, means, strict=True)}


def _bounds(shares: tuple[float, ...], spread: NormalDist) -> tuple[float, ...]:
    reached = [min(max(sum(shares[: n + 1]), LEAST), 1 - LEAST) for n in range(len(shares) - 1)]
    return tuple(spread.inv_cdf(share) for share in reached)


STARTING = ShopHabits()
"""A shop that has captured nothing yet."""


@cache
def _page() -> Mapping[str, Any]:
    return tomllib.loads(resource_files.path("catalogue", "habits.toml").read_text(encoding="utf-8"))


def source() -> str:
    """Where these beliefs come from, as a clerk may read it."""
    return f"{_page()['source']} ({_page()['mark']})"


def worth(kind: str) -> float:
    """The captures that weigh as much as the starting belief."""
    return float(_page()["worth"][kind])


def agreements(kind: str) -> tuple[tuple[float, float], ...]:
    """(concentration, weight) before any box was seen."""
    page = _page()["alike"]
    return tuple(zip(page["candidates"], page[kind], strict=True))


@cache
def starting_agreement(kind: str) -> float:
    """The concentration that stands for all candidates: theirs of the mean likeness 1 ÷ (1 + c)."""
    return agreement_of(agreements(kind))


def agreement_of(candidates: tuple[tuple[float, float], ...]) -> float:
    """One concentration for several: that of their mean likeness, which is what widens a sum of tapes."""
    total = sum(weight for _, weight in candidates)
    likeness = sum(weight / (1 + value) for value, weight in candidates) / total
    return 1 / likeness - 1


# --- each kind of habit: its group and what it starts from ---------------------------------


@cache
def starting(group: Group) -> Weights:
    """What a new shop believes of a group, adding up to one."""
    kind, name = group
    if kind == "speed":
        name, _, ending = name.rpartition("-") if name.endswith(_TVS) else (name, "", "")
        return _scaled(_speed_base(catalogue().format(name), TvSystem(ending) if ending else None))
    if kind == "system":
        return _scaled(_system_base(catalogue().format(name)))
    if kind == "fill":
        return _scaled(_places(_page()["fill"][_page()["fill_of"][catalogue().format(name).family]]))
    if kind == "length":
        return _scaled(_places([weight for _, weight in _page()["length"][name]["over"]]))
    return _scaled(_page()["tv"][name])


def tv_group(marking: Marking | None) -> Group:
    nominal = marking.nominal_tv if marking is not None else None
    return "tv", nominal.value if nominal else "any"


def system_group(shell: Format) -> Group:
    return "system", shell.name


def _system_base(shell: Format) -> Weights:
    """The recordings that may be in the shell; its own only, unless labels mislead."""
    own: Weights = _page()["systems"].get(shell.name) or {shell.systems[0]: 1.0}
    return {system: own[system] for system in shell.systems if system in own}


def speed_group(system: Format, tv: TvSystem) -> Group:
    """By format and TV system, or by format where speed does not depend on it."""
    name = alike(system)
    depends = any(entry.tv is not None for entry in system.tape_speeds)
    return "speed", f"{name}-{tv.value}" if depends else name


def _speed_base(system: Format, tv: TvSystem | None) -> Weights:
    pages = _page()["speeds"]
    weights: Weights = _first(pages, system, tv) or pages["usual"]
    found = {speed.value: weights.get(speed.value, 0.0) for speed in system.speeds_in(tv)}
    return found if any(found.values()) else dict.fromkeys(found, 1.0)


def fill_group(shell: Format) -> Group:
    return "fill", alike(shell)


@cache
def fill_edges() -> tuple[float, ...]:
    """Where the stretches of the recorded share begin and end; the last one is the full tape."""
    return tuple(float(edge) for edge in _page()["fill"]["edges"])


def told_fill_off(share: float) -> float:
    """How far the recorded share may lie from the one that was told."""
    told = _page()["told"]
    return float(told["off"] * min(1.0, share / told["below"]))


def read_fill_off() -> float:
    """How far the recorded share may lie from one that was measured, where the measuring does not say."""
    return float(_page()["read"]["off"])


def length_group(is_shortest: bool) -> Group:
    return "length", "marking" if is_shortest else "published"


@cache
def length_over(group: Group) -> tuple[float, ...]:
    """How much longer the cassette is, as shares of the catalogue's length, shortest first."""
    return tuple(float(over) for over, _ in _page()["length"][group[1]]["over"])


def length_source(group: Group) -> str:
    page = _page()["length"][group[1]]
    return f"{page['source']} ({page['mark']})"


ABOUT = {
    "system": "what was recorded",
    "tv": "TV system",
    "speed": "recording speed",
    "fill": "how full",
    "length": "length of the cassette",
}
"""Kinds of habit in words."""


def whose(group: Group) -> str:
    """Whose habit it is: ``VHS-C (NTSC)``."""
    kind, name = group
    if kind == "length":
        return (
            "full cassettes of unpublished length" if name == "marking" else "full cassettes of known length"
        )
    if kind == "tv":
        return "tapes marked for no TV system" if name == "any" else f"tapes marked for {name.upper()}"
    bare, _, ending = name.rpartition("-") if name.endswith(_TVS) else (name, "", "")
    words = catalogue().format(bare).words
    return f"{words} ({ending.upper()})" if ending else words


def possibilities_of(group: Group) -> dict[str, str]:
    """The possibilities of a group, each in words; several may share their words."""
    kind = group[0]
    names = starting(group)
    if kind == "speed":
        return {name: Speed(name).words for name in names}
    if kind == "system":
        return {name: catalogue().format(name).words for name in names}
    if kind == "fill":
        middles = [(a + b) / 2 for a, b in pairwise(fill_edges())]
        said = ["less than half full" if m < 0.42 else "half full or more" for m in middles[:-1]]
        return dict(zip(names, (*said, "full to the end"), strict=True))
    if kind == "length":
        overs = length_over(group)
        return {
            name: f"{100 * over:g} % longer" if over else "no longer"
            for name, over in zip(names, overs, strict=True)
        }
    return {name: name.upper() for name in names}


def camera_share(system: Format) -> float:
    """Tapes of the format that a camcorder made; 0 where nobody needs to ask."""
    return float(_page()["camera"].get(system.name, {}).get("share", 0.0))


def of_origin(weights: Weights, system: Format, origin: Origin | None) -> dict[str, float]:
    """Speeds of the tapes of one origin, given those of all: both origins together make up the whole."""
    share = camera_share(system)
    if origin is None or not share:
        return dict(weights)
    camera: Weights = _page()["camera"][system.name]["speeds"]
    fitting = _scaled({name: camera.get(name, 0.0) + LEAST for name in weights})
    if origin is Origin.CAMERA:
        return fitting
    return _scaled({name: max(LEAST, whole - share * fitting[name]) for name, whole in weights.items()})


# --- what the shelf asks -------------------------------------------------------------------


def tv_weights(marking: Marking | None, shop: ShopHabits = STARTING) -> dict[TvSystem, float]:
    """How likely each TV system is, given the marking when it was made for one of them."""
    found = shop.weights(tv_group(marking))
    return {tv: found[tv.value] for tv in TvSystem}


def system_weights(shell: Format, shop: ShopHabits = STARTING) -> dict[FormatName, float]:
    """How likely each recording is that fits the shell."""
    found = shop.weights(system_group(shell))
    return {FormatName(name): weight for name, weight in found.items()}


def speed_weights(
    system: Format, tv: TvSystem, shop: ShopHabits = STARTING, origin: Origin | None = None
) -> dict[Speed, float]:
    """How likely each recording speed is."""
    found = of_origin(shop.weights(speed_group(system, tv)), system, origin)
    return {Speed(name): weight for name, weight in found.items()}


def marking_weights(shell: Format, tv: TvSystem) -> dict[str, float]:
    """The usual cassettes of a format in one TV system."""
    return dict(_first(_page()["usual"], shell, tv) or {entry.name: 1.0 for entry in shell.markings})


def alike(entry: Format) -> str:
    """The name under which a format's habits are kept: a better grade of tape is used alike."""
    return {"s-vhs-c": "vhs-c"}.get(entry.name, entry.name)


def _first(pages: Mapping[str, Weights], entry: Format, tv: TvSystem | None) -> Weights | None:
    """The table of the format itself, else of the format it resembles, else of its family."""
    for name in (alike(entry), entry.family):
        for key in (f"{name}-{tv.value}" if tv else name, name):
            if key in pages:
                return pages[key]
    return None


def _places(weights: Sequence[float]) -> Weights:
    return {str(n): weight for n, weight in enumerate(weights)}


def _scaled(weights: Weights) -> dict[str, float]:
    total = sum(weights.values())
    return {name: weight / total for name, weight in weights.items()}
