"""Cash rounded as a country has it, against its published table."""

from __future__ import annotations

import pytest

from core.services.accounts import cash_rounding

CANADA = ((100, 100), (101, 100), (102, 100), (103, 105), (104, 105), (105, 105), (106, 105), (107, 105))
"""Government of Canada, *Eliminating the penny* (2012), rounding guideline: 1, 2 down; 3, 4 up; 6, 7 down;
8, 9 up (from memory)."""


@pytest.mark.parametrize(("minor", "paid"), [*CANADA, (108, 110), (109, 110), (110, 110)])
def test_canada_rounds_cash_to_five_cents(minor: int, paid: int) -> None:
    assert cash_rounding.payable(minor, "CAD") == paid


@pytest.mark.parametrize(("currency", "step"), [("USD", 1), ("EUR", 1), ("CHF", 5), ("SEK", 100), ("JPY", 1)])
def test_the_smallest_coin_of_other_currencies(currency: str, step: int) -> None:
    """CHF 5 Rappen, SEK whole kronor: Unicode CLDR; EUR has cents (national practice differs), USD cents."""
    assert cash_rounding.step(currency) == step


def test_only_what_no_coin_can_pay_is_left_as_rounding() -> None:
    assert cash_rounding.is_unpayable(2, 1_000, "CAD")
    assert cash_rounding.is_unpayable(-2, 1_005, "CAD")
    assert not cash_rounding.is_unpayable(3, 1_000, "CAD")
    assert not cash_rounding.is_unpayable(2, 1_001, "CAD")
    assert not cash_rounding.is_unpayable(0, 1_000, "CAD")
    assert not cash_rounding.is_unpayable(2, 1_000, "USD")
