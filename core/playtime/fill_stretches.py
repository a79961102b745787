"""Which stretches of a tape are recorded, where a share of it was told or read: each with its weight."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from core.model.errors import WrongInput
from core.wording.messages import say

LEAST = 1e-9
"""Hardly possible, yet not ruled out (our choice: Cromwell's rule, no probability of nothing)."""
Stretch = tuple[float, float]
"""Part of a tape, from share to share."""


def beyond(share: float, stretches: Mapping[Stretch, float]) -> Iterator[tuple[Stretch, float]]:
    """What is believed of a tape that is recorded up to the share at least: the rest is cut away."""
    for (begin, end), mass in stretches.items():
        if share < end:
            left = max(begin, share)
            yield (left, end), max(mass, LEAST) * (end - left) / (end - begin)


def around(
    share: float, off: float, edges: Sequence[float], believed: Sequence[float]
) -> Iterator[tuple[Stretch, float]]:
    """Around the share that was told or read, and there where the tapes of the shop mostly end (Bayes).

    ``off`` is how far the recording may end from it; ``believed`` are the weights of the stretches between
    ``edges`` that are not the full tape.
    """
    if not 0 < off <= 1:
        raise WrongInput("fill_off", off, say("playtime", "fill-off-accepted"))
    return _cut(share - off, share + off, edges, believed)


def _cut(
    begin: float, end: float, edges: Sequence[float], believed: Sequence[float]
) -> Iterator[tuple[Stretch, float]]:
    """A stretch cut where those that are believed in end, with weights; past the tape is at its end."""
    edges = (*edges[: len(believed)], 1.0)
    densities = [max(mass, LEAST) / (b - a) for mass, (a, b) in zip(believed, pairwise(edges), strict=True)]
    for density, (low, high) in zip(densities, pairwise(edges), strict=True):
        here, there = max(begin, low), min(end, high)
        if here < there:
            yield (here, there), density * (there - here)
    if end > 1:
        yield (1.0, 1.0), densities[-1] * (end - 1)
