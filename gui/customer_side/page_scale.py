"""How large everything on the Customer side is: type, gaps and drawings grow with the screen together."""

from __future__ import annotations

from PySide6.QtCore import QSize

from gui.toolkit import sizes, theme

_LANDSCAPE = (1024.0, 576.0)
"""Width and height, in device-independent pixels, at which type is as large as at the Counter."""
_PORTRAIT = (600.0, 1000.0)
STEPS = (1.0, 0.92, 0.85, 0.78, 0.72)
"""Shares of the full size that are tried in turn where not everything fits; after the last, pages turn."""
LEAST = 0.8
"""Smaller than at the Counter only in a window that is smaller than any screen."""


def is_upright(size: QSize) -> bool:
    """Whether a window stands upright, so that its parts lie one below the other."""
    return size.height() > size.width()


def full_scale(size: QSize) -> float:
    """The factor on the four type sizes that fills a screen of this size."""
    wide, high = _PORTRAIT if is_upright(size) else _LANDSCAPE
    return max(LEAST, min(size.width() / wide, size.height() / high))


def smaller_scales(scale: float) -> tuple[float, ...]:
    """``scale`` and what is tried after it, largest first."""
    return tuple(scale * step for step in STEPS)


def plain(size: float) -> float:
    """A size for what draws on the grid that the clerk's window wears now: here another one is worn."""
    return size * sizes.UNIT / theme.UNIT


def unit(scale: float) -> float:
    """One step of the grid, in pixels."""
    return sizes.UNIT * scale
