"""Where drawn cassettes lie: all inside the room, none on another, at one scale, as large as they fit."""

from __future__ import annotations

from itertools import combinations

import pytest

from gui.customer_side.tape_arrangement import LARGEST_SCALE, Arrangement, EqualTapes, arrange

VHS = EqualTapes(6, 188.0, 104.0, 110.0, 40.0)
"""The sizes in millimetres are those of the catalogue."""
HI8 = EqualTapes(4, 95.0, 62.5, 90.0, 40.0)
MINIDV = EqualTapes(3, 66.0, 48.0, 130.0, 60.0)
BOX = (VHS, HI8, MINIDV)
ROOM = (500.0, 400.0)


def arranged(groups: tuple[EqualTapes, ...], width: float, height: float) -> Arrangement:
    found = arrange(groups, width, height, at_least=0.2)
    assert found is not None
    return found


def boxes(found: Arrangement, groups: tuple[EqualTapes, ...]) -> list[tuple[float, float, float, float]]:
    """Left, top, right and bottom of every cassette, and of every group's words."""
    laid = []
    for placed, group in zip(found.placed, groups, strict=True):
        wide, deep = group.width_mm * found.scale, group.depth_mm * found.scale
        laid += [(left, top, left + wide, top + deep) for left, top in placed.shells]
        left, top = placed.words
        laid.append((left, top, left + group.words_width, top + group.words_height))
    return laid


@pytest.mark.parametrize("room", [ROOM, (300.0, 700.0), (900.0, 150.0), (2000.0, 1500.0)])
def test_everything_is_inside_the_room_and_nothing_lies_on_another(room: tuple[float, float]) -> None:
    found = arranged(BOX, *room)
    laid = boxes(found, BOX)
    assert len(laid) == 6 + 4 + 3 + 3
    for left, top, right, bottom in laid:
        assert 0 <= left <= right <= room[0] + 1e-6
        assert 0 <= top <= bottom <= room[1] + 1e-6
    for one, other in combinations(laid, 2):
        apart = one[2] <= other[0] + 1e-6 or other[2] <= one[0] + 1e-6
        assert apart or one[3] <= other[1] + 1e-6 or other[3] <= one[1] + 1e-6


def test_the_room_taken_is_what_holds_everything() -> None:
    found = arranged(BOX, *ROOM)
    laid = boxes(found, BOX)
    assert max(right for _, _, right, _ in laid) == pytest.approx(found.width)
    assert max(bottom for _, _, _, bottom in laid) <= found.height + 1e-6


def test_more_room_never_makes_them_smaller() -> None:
    scales = [arranged(BOX, 500.0, height).scale for height in range(200, 900, 20)]
    assert scales == sorted(scales)
    assert scales[0] < scales[-1]


def test_one_cassette_in_a_large_room_is_no_larger_than_in_the_hand() -> None:
    one = EqualTapes(1, 188.0, 104.0, 110.0, 40.0)
    assert arranged((one,), 5000.0, 5000.0).scale == LARGEST_SCALE


def test_equal_cassettes_are_spread_evenly_over_their_lines() -> None:
    (placed,) = arranged((HI8,), 2.5 * 95.0 * LARGEST_SCALE, 5000.0).placed
    lines = [top for _, top in placed.shells]
    assert [lines.count(top) for top in sorted(set(lines))] == [2, 2]


def test_what_does_not_fit_even_small_is_not_arranged() -> None:
    assert arrange(BOX, 500.0, 60.0, at_least=0.2) is None
    assert arrange(BOX, 100.0, 2000.0, at_least=0.2) is None, "the words alone are wider"


def test_no_tapes_take_no_room() -> None:
    assert arranged((), *ROOM).placed == ()
