"""A signature written as JSON: ``{"strokes": [[[x, y], ...], ...], "aspect": 3.0}``."""

from __future__ import annotations

from core.model import json_reader
from core.model.errors import WrongInput
from core.model.json_reader import AsWritten, Value
from core.model.pickup_records import Signature, Stroke

MOST_POINTS = 20_000
"""A pen at 200 points a second signs for well below a minute."""
_ASPECTS = (0.2, 20.0)
_KEYS = ("strokes", "aspect")


def read(data: bytes, file: str, name: str) -> Signature:
    """The signature of ``name`` in ``data``; ``file`` names it in complaints. Raises `WrongInput`."""
    page = json_reader.read(data, file)
    members = page.members(_KEYS)
    if "strokes" not in members:
        page.missing("strokes", "needed: a list of strokes")
    strokes = tuple(map(_stroke, members["strokes"].items("accepted: a list of strokes")))
    if sum(map(len, strokes)) > MOST_POINTS:
        found = AsWritten("more points")
        raise WrongInput(members["strokes"].place, found, f"at most {MOST_POINTS} points are accepted")
    aspect = members.get("aspect")
    return Signature(name, strokes) if aspect is None else Signature(name, strokes, _aspect(aspect))


def _stroke(value: Value) -> Stroke:
    points = tuple(map(_point, value.items("accepted: a list of points [x, y]")))
    if not points:
        value.refuse("a stroke has at least one point")
    return points


def _point(value: Value) -> tuple[float, float]:
    ends = [end.number(0, 1, "accepted: a number from 0 to 1") for end in value.items("accepted: [x, y]")]
    if len(ends) != 2:
        value.refuse("accepted: two numbers [x, y]")
    return ends[0], ends[1]


def _aspect(value: Value) -> float:
    low, high = _ASPECTS
    return value.number(low, high, f"accepted: width divided by height, from {low:g} to {high:g}")
