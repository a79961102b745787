"""The grid and the type sizes that every screen is laid out by, and how they grow with the window."""

from __future__ import annotations

UNIT = 8
"""The grid: every gap and height is a multiple of it, in device-independent pixels, before it has grown."""

SMALL, BODY, LEAD, GREAT = 10.5, 12.0, 16.0, 24.0
"""The four type sizes, in points, before they have grown."""

_WIDE, _HIGH = 1440, 800
"""A window of this size is filled as it is; of what a larger one has more, grid and type get their share."""
_MOST = 3 * UNIT


class Length:
    """A length that is kept beyond the moment it is asked for: so many units of the grid, as it is now."""

    now = UNIT
    """The grid as it is worn now, in device-independent pixels; `theme.grow` sets it."""

    def __init__(self, units: float) -> None:
        self._units = units

    @property
    def px(self) -> int:
        """In whole pixels."""
        return round(self._units * Length.now)

    @property
    def exact(self) -> float:
        """In pixels and parts of them, for what is drawn."""
        return self._units * Length.now


def unit_for(width: int, height: int) -> int:
    """The grid of a window of this size: whole device-independent pixels, so that lines stay sharp."""
    grown = min(UNIT * width // _WIDE, UNIT * height // _HIGH)
    return min(max(UNIT, grown), _MOST)


def scaled(pixels: float) -> int:
    """So many pixels of the grid as it was drawn up, on the grid as it is now."""
    return round(pixels * Length.now / UNIT)
