"""Arithmetic of spans of time: joining them, taking them away from each other, meeting."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

Span = tuple[float, float]
"""Start and end in seconds; spans in a list are in order and do not overlap."""


def merged(spans: Iterable[Span], gap: float = 0.0) -> list[Span]:
    """The spans in order, those not further apart than ``gap`` joined."""
    joined: list[Span] = []
    for start, end in sorted(spans):
        if joined and start - joined[-1][1] <= gap:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return joined


def without(spans: Iterable[Span], others: Iterable[Span]) -> list[Span]:
    """What is left of the spans outside the others."""
    cuts = merged(others)
    return [piece for span in spans for piece in _outside(span, cuts)]


def both(spans: Iterable[Span], others: Iterable[Span]) -> list[Span]:
    """Where the spans and the others meet."""
    second = list(others)
    met = ((max(a, c), min(b, d)) for a, b in spans for c, d in second)
    return merged((start, end) for start, end in met if end > start)


def longer(spans: Iterable[Span], least: float) -> list[Span]:
    """The spans of at least ``least`` seconds; a hair less counts (float dust)."""
    return [(start, end) for start, end in spans if end - start >= least - 1e-6]


def total(spans: Iterable[Span]) -> float:
    """Seconds of all spans together."""
    return sum(end - start for start, end in spans)


def _outside(span: Span, cuts: Iterable[Span]) -> Iterator[Span]:
    start, end = span
    for cut_start, cut_end in cuts:
        if cut_end <= start or cut_start >= end:
            continue
        if cut_start > start:
            yield start, cut_start
        start = max(start, cut_end)
    if end > start:
        yield start, end
