"""A signature written as JSON: ``{"strokes": [[[x, y], ...], ...], "aspect": 3.0}``."""

from __future__ import annotations

from core.model import json_reader
from core.model.errors import AsWritten, WrongInput
from core.model.json_reader import Value
from core.model.signatures import Signature, Stroke
from core.wording.messages import say

MOST_POINTS = 20_000
"""A pen at 200 points a second signs for well below a minute."""
_ASPECTS = (0.2, 20.0)
_KEYS = ("strokes", "aspect")


def read(data: bytes, file: str, name: str) -> Signature:
    """The signature of ``name`` in ``data``; ``file`` names it in complaints. Raises `WrongInput`."""
    page = json_reader.read(data, file)
    members = page.members(_KEYS)
    if "strokes" not in members:
        page.missing("strokes", say("readers", "needed_list_strokes"))
    strokes = tuple(map(_stroke, members["strokes"].items(say("readers", "accepted_list_strokes"))))
    if sum(map(len, strokes)) > MOST_POINTS:
        found = AsWritten(say("readers", "more_points"))
        raise WrongInput(
            members["strokes"].place, found, say("readers", "most_points_accepted", most_points=MOST_POINTS)
        )
    aspect = members.get("aspect")
    return Signature(name, strokes) if aspect is None else Signature(name, strokes, _aspect(aspect))


def _stroke(value: Value) -> Stroke:
    points = tuple(map(_point, value.items(say("readers", "accepted_list_points_x"))))
    if not points:
        value.refuse(say("readers", "stroke_least_one_point"))
    return points


def _point(value: Value) -> tuple[float, float]:
    ends = [
        end.number(0, 1, say("readers", "accepted_number"))
        for end in value.items(say("readers", "accepted_point"))
    ]
    if len(ends) != 2:
        value.refuse(say("readers", "accepted_two_numbers_x"))
    return ends[0], ends[1]


def _aspect(value: Value) -> float:
    low, high = _ASPECTS
    return value.number(low, high, say("readers", "accepted_width_divided_height", low=low, high=high))
