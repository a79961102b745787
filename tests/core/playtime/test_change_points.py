"""When customers bring other tapes than before, what was learned before counts for less, and it is told."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest

from core.model.names import FormatName, Speed, TvSystem
from core.playtime import change_points, learning
from core.playtime.explanations import Played
from core.playtime.habits import STARTING
from core.playtime.possibilities import Facts
from core.playtime.starting_beliefs import Counts, Group, Weights

COMPACT = Facts(FormatName("vhs-c"), "TC-30", tv=TvSystem.NTSC)
SPEEDS = ("speed", "vhs-c-ntsc")


def prior(group: Group) -> Weights:
    assert group == SPEEDS
    return {"sp": 4.5, "ep": 1.5}


def boxes(speeds: Sequence[str]) -> list[Counts]:
    return [{SPEEDS: {speed: 1.0}} for speed in speeds]


def played(speeds: Sequence[str], first: int = 0) -> tuple[Played, ...]:
    """Boxes of one tape each."""
    return tuple(
        Played(f"{n}", COMPACT, 80.0 if speed == "ep" else 25.0, Speed(speed))
        for n, speed in enumerate(speeds, first)
    )


def by_enumeration(speeds: Sequence[str]) -> np.ndarray:
    """The same by summing over every way in which customers may have changed, one after the other."""
    total = np.zeros(len(speeds))
    for ways in range(2 ** (len(speeds) - 1)):
        likely, since, counts = 1.0, 0, dict(prior(SPEEDS))
        for place, speed in enumerate(speeds):
            if place:
                changes = bool(ways >> (place - 1) & 1)
                likely *= change_points.HAZARD if changes else 1 - change_points.HAZARD
                if changes:
                    since, counts = place, dict(prior(SPEEDS))
            likely *= counts[speed] / sum(counts.values())
            counts[speed] += 1
        total[since:] += likely
    return total / total[-1]


@pytest.mark.parametrize("speeds", ["sp sp sp ep ep ep ep ep", "ep sp ep sp ep sp", "sp"])
def test_a_box_counts_for_the_probability_that_nothing_changed_since(speeds: str) -> None:
    """Against all 2ⁿ⁻¹ segmentations, weighed by Bayes."""
    found = change_points.runs(boxes(speeds.split()), prior).of_boxes
    assert found == pytest.approx(by_enumeration(speeds.split()), abs=0.01)


def test_what_came_before_a_change_hardly_counts() -> None:
    runs = change_points.runs(boxes(["sp"] * 40 + ["ep"] * 12), prior)
    assert runs.of_boxes[30] < 0.05
    assert runs.of_boxes[39] < 0.3, "a change a box later is as good an explanation, but for one box"
    assert runs.of_boxes[-1] == pytest.approx(1)
    assert runs.begin == 40


@pytest.mark.parametrize("speeds", [["sp", "sp", "ep"] * 20, ["sp"] * 40 + ["ep"] * 2 + ["sp"] * 10])
def test_no_change_is_told_where_there_is_none(speeds: list[str]) -> None:
    """Neither where tapes are mixed all along, nor after one odd household."""
    assert change_points.runs(boxes(speeds), prior).begin is None


def test_a_shop_believes_its_new_customers_and_says_since_when() -> None:
    shop = learning.learned((*played(["sp"] * 60), *played(["ep"] * 15, first=60)))
    assert shop.weights(SPEEDS)["ep"] > 0.7
    assert shop.change is not None
    assert shop.change.tapes == shop.captures == 15


def test_a_shop_without_a_change_counts_all_its_tapes() -> None:
    mixed = ["sp", "ep", "sp", "sp"] * 20
    shop = learning.learned(played(mixed))
    assert shop.change is None
    assert shop.captures == 80
    assert sum(shop.seen[SPEEDS].values()) > 78
    assert STARTING.change is None
