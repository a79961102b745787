"""The signature on paper: the strokes of the pen, scaled without distortion."""

from __future__ import annotations

from core.model.signatures import Signature, Stroke
from core.papers.typesetting.page import Pen, Point, Rectangle

_NIB = 1.3
"""Width of the pen in points."""


def draw(pen: Pen, box: Rectangle, signature: Signature) -> None:
    """The strokes as large as ``box`` allows, kept in the proportions of the pad they were made on."""
    fitted = _fitted(box, signature.aspect)
    pen.lines([_placed(stroke, fitted) for stroke in signature.strokes if stroke], _NIB)


def _fitted(box: Rectangle, aspect: float) -> Rectangle:
    """The largest box of ``aspect`` at the left edge of ``box``, in the middle of its height."""
    x, y, width, height = box
    wide = min(width, height * aspect)
    high = wide / aspect
    return x, y + (height - high) / 2, wide, high


def _placed(stroke: Stroke, box: Rectangle) -> tuple[Point, ...]:
    """Points on the paper; a tap of the pen becomes a stroke of no length, which round ends show as a dot."""
    x, y, width, height = box
    points = tuple((x + _inside(u) * width, y + _inside(v) * height) for u, v in stroke)
    return points if len(points) > 1 else points * 2


def _inside(share: float) -> float:
    """A pen that slid over the edge stays on the edge."""
    return min(max(share, 0.0), 1.0)
