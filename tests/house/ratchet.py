"""The bounds that the house does not keep yet, each with the figure it must not get worse than.

A figure that is told without a bound may stand here as well: then it can only fall. They stand in
``ratchet.toml``. A change that betters a figure lowers it there, and the line goes
once the bound is kept.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from tests.house.figures import Figure

FILE = Path(__file__).with_suffix(".toml")


def held_to(figure: Figure, reached: Mapping[str, float]) -> float | None:
    """What the figure may be at most today: its bound, or what was reached while that is worse."""
    if figure.bound is None:
        return reached.get(figure.key)
    return max(figure.bound, reached.get(figure.key, figure.bound))


def reached() -> Mapping[str, float]:
    """The figures in the file, by the key of the figure."""
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


def slack(figures: Sequence[Figure]) -> Iterator[str]:
    """A sentence for every figure in the file that has become better since it was written there."""
    known = reached()
    for figure in figures:
        if figure.value < known.get(figure.key, figure.value):
            kept = figure.bound is not None and figure.is_kept
            todo = "take the line out" if kept else f"lower it to {figure.value:.4g}"
            yield f"{FILE.name}: {figure.key} is better than {known[figure.key]:g} now: {todo}."
