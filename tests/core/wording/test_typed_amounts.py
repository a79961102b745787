"""What a person types as an amount is read as the locale writes it, or not at all; never guessed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.wording import typed_amounts
from core.wording.typed_amounts import decimals, is_currency, minor_of, typed_amount

# ISO 4217 (the list of current currency codes, column "minor unit"); from memory, and by CLDR's own table.
ISO_4217 = {
    "USD": 2, "EUR": 2, "GBP": 2, "CAD": 2, "AUD": 2, "CHF": 2, "MXN": 2, "SEK": 2, "PLN": 2, "BRL": 2,
    "JPY": 0, "KRW": 0, "CLP": 0, "VND": 0, "ISK": 0, "XAF": 0, "PYG": 0,
    "KWD": 3, "BHD": 3, "OMR": 3, "JOD": 3, "TND": 3,
}  # fmt: skip


@pytest.mark.parametrize(("code", "places"), ISO_4217.items())
def test_a_currency_has_the_decimals_of_the_standard(code: str, places: int) -> None:
    assert is_currency(code)
    assert decimals(code) == places


def test_three_letters_that_name_no_money_are_no_currency() -> None:
    assert not is_currency("ABC")
    assert not is_currency("usd")


@pytest.mark.parametrize(
    ("typed", "currency", "locale", "minor"),
    [
        ("93.15", "USD", "en_US", 9315),
        ("93,15", "USD", "en_US", None),  # was once read as 9,315.00
        ("93,15", "EUR", "de_DE", 9315),
        ("93.15", "EUR", "de_DE", None),
        ("1.234", "EUR", "de_DE", 123400),
        ("1,234.50", "USD", "en_US", 123450),
        ("12,34.50", "USD", "en_US", None),
        ("1 234,50", "EUR", "fr_FR", 123450),
        ("1'234.50", "CHF", "de_CH", 123450),
        ("$5", "USD", "en_US", 500),
        ("5 €", "EUR", "de_DE", 500),
        ("USD 7.25", "USD", "en_US", 725),
        ("950", "JPY", "ja_JP", 950),
        ("9.5", "JPY", "ja_JP", None),
        ("1.234", "KWD", "en_US", 1234),
        ("93.155", "USD", "en_US", None),
        ("-5", "USD", "en_US", None),
        ("1e5", "USD", "en_US", None),
        ("", "USD", "en_US", None),
        ("abc", "USD", "en_US", None),
        ("٣", "USD", "en_US", None),
        ("9999999999", "USD", "en_US", None),
    ],
)
def test_an_amount_is_read_as_its_locale_writes_it_or_refused(
    typed: str, currency: str, locale: str, minor: int | None
) -> None:
    assert minor_of(typed, currency, locale) == minor


@given(
    minor=st.integers(0, 10**8),
    currency=st.sampled_from(sorted(ISO_4217)),
    locale=st.sampled_from(["en_US", "en_GB", "de_DE", "fr_FR", "es_ES", "de_CH", "ja_JP", "pl_PL"]),
)
def test_what_a_field_shows_is_read_back_as_the_same_amount(minor: int, currency: str, locale: str) -> None:
    assert minor_of(typed_amount(minor, currency, locale), currency, locale) == minor


def test_the_example_of_a_sentence_is_itself_an_amount() -> None:
    for currency in ISO_4217:
        for locale in ("en_US", "de_DE", "fr_FR"):
            assert minor_of(typed_amounts.example(currency, locale), currency, locale) is not None
