"""One figure of the house and the bound it is held to."""

from __future__ import annotations

import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil


@dataclass(frozen=True, slots=True)
class Figure:
    """What was measured, the most it may be (``None``: told only), and what it is made of, worst first."""

    key: str
    words: str
    value: float
    bound: float | None = None
    examples: tuple[str, ...] = ()

    @property
    def is_kept(self) -> bool:
        """Whether the bound holds; without one nothing can be broken."""
        return self.bound is None or self.value <= self.bound

    def line(self) -> str:
        """The figure beside its bound, then what it is made of."""
        bound = "" if self.bound is None else f"at most {self.bound:g}"
        mark = " " if self.is_kept else "✗"
        return "\n".join([f"{mark} {self.words:<58} {self.value:>7.4g}  {bound}", *self._examples()])

    def _examples(self) -> list[str]:
        return [f"      {example}" for example in self.examples]


def spread(lengths: Sequence[int]) -> tuple[float, int]:
    """The median and the 90th percentile by nearest rank: the least length that nine in ten do not exceed."""
    ranked = sorted(lengths)
    return statistics.median(ranked), ranked[ceil(0.9 * len(ranked)) - 1]


def longest(named: Sequence[tuple[int, str]], most: int = 3) -> tuple[str, ...]:
    """The longest few with their lengths."""
    ranked = sorted(named, key=lambda each: (-each[0], each[1]))
    return tuple(f"{length:>4}  {name}" for length, name in ranked[:most])
