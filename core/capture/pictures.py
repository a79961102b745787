"""Watches pictures go by: where they are black, a deck's blue, or stand still.

Only one picture in some is looked at; when what is seen changes between two of them, the pictures in
between are searched, so that ends are exact to the frame while most frames are never even scaled down.

A quiet room before a tripod is not a picture that stands still: the noise of camera and tape is drawn anew
in every picture. Only where nothing moves is that noise looked for, in pairs of neighbours at full size.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from core.capture import thresholds as at
from core.capture.time_spans import Span

Small = NDArray[np.float32]
"""Rows × columns × red, green, blue; 0 to 255."""
Luma = NDArray[np.uint8]
"""Rows × columns of brightness at full size; 0 to 255."""
Grain = NDArray[np.float32]
"""Brightness at full size as rows of blocks × rows in a block × columns of blocks × columns in a block."""


class Picture:
    """One picture of the file: from when to when it shows, scaled down when first looked at."""

    def __init__(
        self, start: float, end: float, scale_down: Callable[[], Small], luma: Callable[[], Luma]
    ) -> None:
        self.start = start
        self.end = end
        self._scale_down = scale_down
        self._full_size = luma
        self._change: float | None = None

    @cached_property
    def small(self) -> Small:
        return self._scale_down()

    @cached_property
    def blocks(self) -> Small:
        """Mean luma of each block (weights: ITU-R BT.601)."""
        luma = _luma(self.small)
        rows, columns = luma.shape[0] // at.BLOCK, luma.shape[1] // at.BLOCK
        blocks: Small = luma.reshape(rows, at.BLOCK, columns, at.BLOCK).mean(axis=(1, 3))
        return blocks

    @cached_property
    def is_black(self) -> bool:
        luma = _luma(self.small)
        return bool(luma.mean() < at.BLACK_MEAN and np.quantile(luma, 0.98) < at.BLACK_BRIGHTEST)

    @cached_property
    def is_blue(self) -> bool:
        red, green, blue = (self.small[..., channel] for channel in range(3))
        plain = (
            (blue >= at.BLUE_LEAST) & (red <= blue * at.BLUE_RED_MOST) & (green <= blue * at.BLUE_GREEN_MOST)
        )
        return bool(plain.mean() >= at.BLUE_SHARE and blue[plain].std() <= at.BLUE_EVEN)

    @cached_property
    def grain(self) -> Grain:
        """Brightness at full size in a quarter of all blocks: one of each two across and down."""
        luma, step, side = self._full_size(), 2 * at.GRAIN_BLOCK, at.GRAIN_BLOCK
        rows, columns = luma.shape[0] // step, luma.shape[1] // step
        blocks = luma[: rows * step, : columns * step].reshape(rows, step, columns, step)
        return blocks[:, :side, :, :side].astype(np.float32)

    def is_like(self, other: Picture) -> bool:
        """Whether nothing moved between the two."""
        return bool(np.abs(self.blocks - other.blocks).max() <= at.FROZEN_MOST)

    def repeats(self, before: Picture) -> bool:
        """Whether it shows the very noise of the picture before it, always the same one."""
        if self._change is None:
            self._change = _change(before.grain, self.grain)
        return self._change <= at.HELD_MOST


class PictureWatch:
    """Is shown every picture in order; holds on to those of two sampling steps, never more."""

    def __init__(self) -> None:
        self.black: list[Span] = []
        self.blue: list[Span] = []
        self.frozen: list[Span] = []
        self.end = 0.0
        self._sample: Picture | None = None
        self._before: list[Picture] = []
        """Pictures after the sample before the last, up to the last sample."""
        self._since: list[Picture] = []
        """Pictures after the last sample."""
        self._begun: dict[str, float] = {}
        self._anchor: Picture | None = None
        """The picture that stands still, while one does."""

    def show(self, picture: Picture) -> None:
        """The next picture of the file."""
        self.end = max(self.end, picture.end)
        self._since.append(picture)
        if self._sample is None or picture.start - self._sample.start >= at.SAMPLE_SECONDS - 1e-6:
            self._look(picture)

    def finish(self) -> None:
        """No more pictures: whatever is going on ends with the file."""
        if self._since:
            self._look(self._since[-1])
        for name, start in self._begun.items():
            self._spans(name).append((start, self.end))
        self._begun.clear()
        self._before, self._since = [], []

    def _look(self, picture: Picture) -> None:
        self._see("black", lambda one: one.is_black)
        self._see("blue", lambda one: one.is_blue)
        if self._sample is not None:
            self._compare(self._sample, picture)
        self._sample = picture
        self._before, self._since = self._since, []

    def _see(self, name: str, holds: Callable[[Picture], bool]) -> None:
        """Begin or end a stretch that is seen from a picture by itself."""
        if holds(self._since[-1]) != (name in self._begun):
            self._turn(name, first_of(self._since, holds, holds(self._since[-1])).start)

    def _compare(self, last: Picture, picture: Picture) -> None:
        """Begin or end a stretch in which the picture stands still."""
        anchor, two_steps = self._anchor or last, [*self._before, *self._since]
        same = picture.is_like(anchor) and is_held(two_steps)
        if same and self._anchor is None:
            self._anchor = last
            alike = first_of(two_steps, picture.is_like, True)
            self._turn("frozen", first_held(two_steps[two_steps.index(alike) :]).start)
        elif not same and self._anchor is not None:
            moved = first_of(self._since, anchor.is_like, False).start
            self._turn("frozen", min(moved, first_woken(two_steps).start))
            self._anchor = None

    def _turn(self, name: str, when: float) -> None:
        start = self._begun.pop(name, None)
        if start is None:
            self._begun[name] = when
        else:
            self._spans(name).append((start, when))

    def _spans(self, name: str) -> list[Span]:
        return {"black": self.black, "blue": self.blue, "frozen": self.frozen}[name]


def first_of(pictures: Sequence[Picture], holds: Callable[[Picture], bool], value: bool) -> Picture:
    """The first picture from which on ``holds`` is ``value``, as the last one is; found by halving."""
    low, high = 0, len(pictures) - 1
    while low < high:
        middle = (low + high) // 2
        if holds(pictures[middle]) == value:
            high = middle
        else:
            low = middle + 1
    return pictures[high]


def is_held(pictures: Sequence[Picture]) -> bool:
    """Whether enough pictures repeat the one before them; a held one is redrawn with every key picture."""
    repeats = _repeats(pictures)
    return sum(repeats) >= at.HELD_SHARE * len(repeats)


def first_held(pictures: Sequence[Picture]) -> Picture:
    """The first picture that is repeated; the first of all where none is."""
    repeats = _repeats(pictures)
    return pictures[repeats.index(True)] if any(repeats) else pictures[0]


def first_woken(pictures: Sequence[Picture]) -> Picture:
    """The first picture from which on none repeats another; the last of all where it does."""
    repeats = _repeats(pictures)
    awake = repeats[::-1].index(True) if any(repeats) else len(repeats)
    return pictures[min(len(pictures) - awake, len(pictures) - 1)]


def _repeats(pictures: Sequence[Picture]) -> list[bool]:
    return [now.repeats(before) for before, now in pairwise(pictures)]


def _change(before: Grain, now: Grain) -> float:
    """What differs within a block, as its spread, averaged over the blocks."""
    change = now - before
    variance = (change**2).mean(axis=(1, 3)) - change.mean(axis=(1, 3)) ** 2
    return float(np.sqrt(variance.clip(min=0)).mean())


def _luma(small: Small) -> Small:
    weights = np.array([0.299, 0.587, 0.114], dtype=np.float32)
    luma: Small = small @ weights
    return luma
