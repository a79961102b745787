"""What one shop believes about its tapes: the starting beliefs and what its captures have taught since."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from math import sqrt
from statistics import NormalDist

from core.catalogue.cassettes import Format, Marking
from core.model.names import FormatName, Origin, Speed, TvSystem
from core.playtime import starting_beliefs
from core.playtime.interval_calibration import USUAL, Tails
from core.playtime.starting_beliefs import LEAST, SHARED, Counts, Group

_NORMAL = NormalDist()
_FAR = 8.0
"""Standard deviations beyond which a normal number counts as impossible."""


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
        start = dict(starting_beliefs.starting(group)) if self.of is None else self.of.weights(group)
        found = self.seen.get(group)
        if not found:
            return start
        worth = starting_beliefs.worth(group[0]) if self.of is None else self.of.pull(group)
        return starting_beliefs.scaled({name: worth * start[name] + found.get(name, 0.0) for name in start})

    def agreement(self, kind: str) -> float:
        """The concentration of one kind: tapes of a box after which it says as much as the shop."""
        return self.alike.get(kind) or starting_beliefs.starting_concentration(kind)

    def pull(self, group: Group) -> float:
        """Concentration of one box's own habit around what is believed here.

        A box differs from others, and the shop itself may be mistaken: the variances add up. Tapes
        known of the box make it steadier.
        """
        if self.of is not None:
            return self.of.pull(group) + sum(self.seen.get(group, {}).values())
        mistaken = 1 / (1 + starting_beliefs.worth(group[0]) + sum(self.seen.get(group, {}).values()))
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


def tv_weights(marking: Marking | None, shop: ShopHabits = STARTING) -> dict[TvSystem, float]:
    """How likely each TV system is, given the marking when it was made for one of them."""
    found = shop.weights(starting_beliefs.tv_group(marking))
    return {tv: found[tv.value] for tv in TvSystem}


def system_weights(shell: Format, shop: ShopHabits = STARTING) -> dict[FormatName, float]:
    """How likely each recording is that fits the shell."""
    found = shop.weights(starting_beliefs.system_group(shell))
    return {FormatName(name): weight for name, weight in found.items()}


def speed_weights(
    system: Format, tv: TvSystem, shop: ShopHabits = STARTING, origin: Origin | None = None
) -> dict[Speed, float]:
    """How likely each recording speed is."""
    found = starting_beliefs.of_origin(shop.weights(starting_beliefs.speed_group(system, tv)), system, origin)
    return {Speed(name): weight for name, weight in found.items()}
