"""Files one after the other on pieces of one size."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from core.model.ranges import Range, exactly
from core.pricing import whole_pieces

sizes = st.lists(st.floats(0, 30), max_size=12)


def test_a_file_that_does_not_fit_the_rest_begins_the_next_piece() -> None:
    assert whole_pieces.in_order([3, 3, 3], 5) == 3
    assert whole_pieces.in_order([2, 3, 3, 2], 5) == 2


def test_a_file_longer_than_a_piece_is_cut_and_its_last_part_is_shared() -> None:
    assert whole_pieces.in_order([12, 3], 5) == 3
    assert whole_pieces.in_order([12, 4], 5) == 4


def test_nothing_takes_no_piece() -> None:
    assert whole_pieces.in_order([], 5) == whole_pieces.in_order([0, 0], 5) == 0


@given(sizes)
def test_never_fewer_pieces_than_the_volume_and_never_more_than_twice_as_many(files: list[float]) -> None:
    count = whole_pieces.in_order(files, 5)

    assert count >= math.ceil(sum(files) / 5 - 1e-6)
    assert count <= 2 * math.ceil(sum(files) / 5) + 1


@given(sizes, sizes)
def test_longer_files_never_take_fewer_pieces(files: list[float], more: list[float]) -> None:
    longer = [file + extra for file, extra in zip(files, more, strict=False)]

    assert whole_pieces.in_order(files[: len(longer)], 5) <= whole_pieces.in_order(longer, 5)


def test_the_columns_are_those_of_the_whole() -> None:
    assert whole_pieces.columns_in_order([Range(1, 2, 4)] * 4, exactly(8), 5) == exactly(2)
