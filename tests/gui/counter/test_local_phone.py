"""Numbers said without their area code (North American Numbering Plan: three digits of it, seven more)."""

from __future__ import annotations

import phonenumbers
import pytest

from gui.counter.local_phone import with_area_code

SHOP = "(303) 555-0100"


@pytest.mark.parametrize("shop", [SHOP, "+13035550100", "1-303-555-0100"])
@pytest.mark.parametrize("typed", ["5550142", "555-0142", "555 0142"])
def test_seven_digits_get_the_area_code_of_the_shop(typed: str, shop: str) -> None:
    whole = phonenumbers.parse(with_area_code(typed, shop, "US"), "US")
    assert phonenumbers.format_number(whole, phonenumbers.PhoneNumberFormat.E164) == "+13035550142"


@pytest.mark.parametrize(
    ("typed", "shop", "country"),
    [
        ("6075550101", SHOP, "US"),
        ("0142", SHOP, "US"),
        ("5550142", "", "US"),
        ("5550142", "+49 30 5550100", "DE"),
        ("+5550142", SHOP, "DE"),
        ("", SHOP, "US"),
    ],
)
def test_any_other_number_stays_as_it_was_typed(typed: str, shop: str, country: str) -> None:
    assert with_area_code(typed, shop, country) == typed
