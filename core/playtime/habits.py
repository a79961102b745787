"""What one shop believes about its tapes: the starting beliefs and what its captures have taught since."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise
from math import sqrt
from statistics import NormalDist

from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.model.frozen_mapping import FrozenMapping
from core.model.names import TvSystem
from core.playtime import starting_beliefs
from core.playtime.fill_stretches import LEAST
from core.playtime.interval_calibration import NOMINAL, IntervalLevels
from core.playtime.mean_calibration import UNTAUGHT, MeanCalibration
from core.playtime.starting_beliefs import SHARED, Counts, Group, Weights, scaled
from core.wording.editions import edition_cache

_NORMAL = NormalDist()
_TV_ENDINGS = tuple(f"-{tv.value}" for tv in TvSystem)
_FAR = 8.0
"""Standard deviations beyond which a normal number counts as impossible (derived: one in 10¹⁵)."""


@dataclass(frozen=True, slots=True)
class NoticedChange:
    """Since when customers have brought other tapes, so that those before hardly count."""

    tapes: int
    """Tapes played since."""


@dataclass(frozen=True, slots=True)
class ShopHabits:
    """The posterior of one shop, or, with ``prior``, of one box in that shop. Equal and hashed by content."""

    seen: Counts = field(default_factory=dict)
    """Effective number of tapes found, by group; several of one box count for less than as many boxes."""
    concentrations: Mapping[str, float] = field(default_factory=dict)
    """By kind, the learned concentration parameter of the box prior (``[alike]`` of the starting beliefs)."""
    prior: ShopHabits | None = None
    """For a box: the habits of its shop."""
    fullness: tuple[float, float] = (0.0, 1.0)
    """Posterior mean and variance of the latent normal number that the fullness of a box's tapes shares."""
    levels: IntervalLevels = NOMINAL
    """The calibrated levels at which the shop's ranges begin and end."""
    mean: MeanCalibration = UNTAUGHT
    """What the means of beliefs are off, for sums of many boxes."""
    captures: int = 0
    """Tapes of the shop's own that it has learned from."""
    worths: Mapping[str, float] = field(default_factory=dict)
    """By kind, the learned worth of the starting belief (``[worth]`` of the starting beliefs)."""
    change: NoticedChange | None = None
    """The newest change in what customers bring that is sure."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "seen", FrozenMapping(self.seen))
        object.__setattr__(self, "concentrations", FrozenMapping(self.concentrations))
        object.__setattr__(self, "worths", FrozenMapping(self.worths))

    @property
    def _of_shop(self) -> ShopHabits:
        return self if self.prior is None else self.prior

    def of_box(self, counts: Counts) -> ShopHabits:
        """What is believed of the rest of a box of which ``counts`` are known."""
        mine = {group: found for group, found in counts.items() if group[0] in SHARED}
        if not mine:
            return self
        fullness = self._fullness_posterior(mine)
        return replace(self, seen=mine, prior=self, fullness=fullness)

    def weights(self, group: Group) -> dict[str, float]:
        """The posterior shares of a group's possibilities, adding up to one."""
        if self.prior is not None and group[0] == "fill":
            return self._fill_of_box(group)
        start = dict(starting(group)) if self.prior is None else self.prior.weights(group)
        found = self.seen.get(group)
        if not found:
            return start
        worth = self.prior.prior_concentration(group) if self.prior else self.worth(group[0])
        return scaled({name: worth * start[name] + found.get(name, 0.0) for name in start})

    def worth(self, kind: str) -> float:
        """The tapes that weigh as much as the starting belief."""
        return self.worths.get(kind) or starting_beliefs.worth(kind)

    def concentration(self, kind: str) -> float:
        """The concentration parameter of the box prior: tapes that weigh as much as the shop's belief."""
        return self.concentrations.get(kind) or starting_beliefs.starting_concentration(kind)

    def box_concentration(self, group: Group) -> float:
        """The concentration parameter of a box's shares around what its shop really does, were that known."""
        found = 0.0 if self.prior is None else sum(self.seen.get(group, {}).values())
        return self._of_shop.concentration(group[0]) + found

    def prior_concentration(self, group: Group) -> float:
        """The concentration parameter of a box's shares around the shares believed here.

        The variance between boxes and that of the shop's own posterior add up; tapes known of the box
        raise the parameter.
        """
        if self.prior is not None:
            return self.prior.prior_concentration(group) + sum(self.seen.get(group, {}).values())
        mistaken, own = self._mistaken(group), 1 / (1 + self.concentration(group[0]))
        return 1 / (own + (1 - own) * mistaken) - 1

    def correlation(self, group: Group) -> float:
        """The correlation of how full two tapes of one box are, from 0 to 1."""
        return 1 / (1 + self._of_shop.prior_concentration(group))

    def shop_share(self, group: Group) -> float:
        """The share of the variance of a box's latent normal number that is the shop's."""
        own = 1 / (1 + self._of_shop.concentration(group[0]))
        of_shop = 1 - own * (1 - self._mistaken(group)) / self.correlation(group)
        variance = self.fullness[1]
        return of_shop * variance / (of_shop * variance + 1 - of_shop)

    def cutpoints(self, group: Group) -> tuple[float, ...]:
        """The cutpoints of the latent normal number between the stretches of the recorded share."""
        shares = tuple(self._of_shop.weights(group).values())
        return _bounds(shares, _NORMAL)

    def box_cutpoints(self, group: Group, shares: tuple[float, ...]) -> tuple[float, ...]:
        """The cutpoints at which this box's tapes divide over the stretches as ``shares`` say."""
        return _bounds(shares, self._spread(group))

    def _mistaken(self, group: Group) -> float:
        """The variance of the shop's posterior, as a share of that of one tape."""
        seen = self._of_shop.seen.get(group, {})
        return 1 / (1 + self._of_shop.worth(group[0]) + sum(seen.values()))

    def _fill_of_box(self, group: Group) -> dict[str, float]:
        """The posterior shares of the stretches: the box's normal distribution between the cutpoints."""
        spread = self._spread(group)
        reached = [0.0, *(spread.cdf(bound) for bound in self.cutpoints(group)), 1.0]
        return {str(n): reached[n + 1] - reached[n] for n in range(len(reached) - 1)}

    def _spread(self, group: Group) -> NormalDist:
        """The posterior predictive distribution of the latent normal number of one tape of this box."""
        alike, (mean, variance) = self.correlation(group), self.fullness
        return NormalDist(sqrt(alike) * mean, sqrt(alike * variance + 1 - alike))

    def _fullness_posterior(self, counts: Counts) -> tuple[float, float]:
        """Mean and variance of the box's latent number given its tapes: precisions add up."""
        precision, pulled = 1.0, 0.0
        for group, found in counts.items():
            if group[0] == "fill":
                alike, scores = self.correlation(group), self.normal_scores(group)
                precision += sum(found.values()) * alike / (1 - alike)
                pulled += sqrt(alike) / (1 - alike) * sum(n * scores[name] for name, n in found.items())
        return pulled / precision, 1 / precision

    def normal_scores(self, group: Group) -> dict[str, float]:
        """The mean of the latent normal number within each stretch, scaled to a variance of one."""
        inner = self.cutpoints(group)
        edges = (-_FAR, *inner, _FAR)
        shares = self._of_shop.weights(group)
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


@edition_cache(maxsize=1024)
def starting(group: Group) -> Weights:
    """What a new shop believes of a group, adding up to one."""
    kind, name = group
    if kind == "speed":
        return scaled(starting_beliefs.speed_weights(*format_and_tv(name)))
    if kind == "system":
        return scaled(starting_beliefs.system_weights(catalogue().format(name)))
    if kind == "fill":
        return scaled(starting_beliefs.fill_weights(catalogue().format(name)))
    if kind == "length":
        return scaled(starting_beliefs.length_weights(name))
    return scaled(starting_beliefs.tv_weights(name))


def format_and_tv(name: str) -> tuple[Format, TvSystem | None]:
    """The format and the TV system that a group of speeds is named after."""
    if name.endswith(_TV_ENDINGS):
        name, _, ending = name.rpartition("-")
        return catalogue().format(name), TvSystem(ending)
    return catalogue().format(name), None
