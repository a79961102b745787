"""The rounding rule and the apportionment rule against the world outside."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.model.money import rounded, shared_out


@pytest.mark.parametrize(
    ("exact", "minor"),
    [("0.5", 1), ("1.5", 2), ("2.5", 3), ("-0.5", -1), ("-2.5", -3), ("2.4999999999", 2), ("-1.49", -1)],
)
def test_halves_go_away_from_zero(exact: str, minor: int) -> None:
    """Python documentation, module decimal: ROUND_HALF_UP rounds to nearest, ties going away from zero.

    0.5 and 2.5 tell it from the bankers' rule (0 and 2), -0.5 and -2.5 from "half towards plus infinity".
    """
    assert rounded(Decimal(exact)) == minor


def test_the_largest_remainder_example_of_ten_seats() -> None:
    """From memory: the largest remainder method with a Hare quota of 10,000 votes a seat.

    4.7, 1.6, 1.58, 1.2, 0.61, 0.31: seven seats at once, then one each for .7, .61 and .6.
    """
    assert shared_out(10, (47_000, 16_000, 15_800, 12_000, 6_100, 3_100)) == (5, 2, 1, 1, 1, 0)


def test_the_alabama_paradox_of_the_same_rule() -> None:
    """Shares 6 : 6 : 2 (arithmetic): 10 seats are 4.29, 4.29, 1.43; 11 are 4.71, 4.71, 1.57.

    The third part loses a seat when there is one more to give. A price is shared out once, so it may.
    """
    assert shared_out(10, (6, 6, 2)) == (4, 4, 2)
    assert shared_out(11, (6, 6, 2)) == (5, 5, 1)


@given(st.integers(0, 10**9), st.lists(st.integers(0, 10**6), min_size=1, max_size=30))
def test_parts_add_up_and_keep_within_one_of_their_quota(whole: int, shares: list[int]) -> None:
    """The quota rule: no part is a whole unit away from its exact share (a theorem for this method)."""
    parts = shared_out(whole, shares)
    assert sum(parts) == whole
    weight = sum(shares)
    if weight:
        assert all(
            abs(part * weight - whole * share) < weight for part, share in zip(parts, shares, strict=True)
        )


def test_a_discount_keeps_its_sign() -> None:
    assert shared_out(900, (600, 500, -100)) == (540, 450, -90)
    assert sum(shared_out(841, (600, 500, -100))) == 841
