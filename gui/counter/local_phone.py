"""A phone number said as neighbors say it: without the area code, which is that of the shop."""

from __future__ import annotations

_PLAN = ("US", "CA")
"""Where numbers have three digits of an area and seven within it (North American Numbering Plan), as far as
seven alone are still said there (common practice, no source)."""
_WITHIN_AREA, _NATIONAL = 7, 10


def with_area_code(typed: str, of_shop: str, country: str) -> str:
    """The number with the shop's area code where it has none; else as typed.

    ``country`` (ISO 3166) is where the shop is.
    """
    digits, shops = _digits(typed), _digits(of_shop)
    national = shops[1:] if len(shops) == 1 + _NATIONAL and shops.startswith("1") else shops
    if country not in _PLAN or len(digits) != _WITHIN_AREA or len(national) != _NATIONAL:
        return typed
    return f"({national[:3]}) {digits[:3]}-{digits[3:]}"


def _digits(text: str) -> str:
    return "".join(sign for sign in text if sign.isdecimal())
