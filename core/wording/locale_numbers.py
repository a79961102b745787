"""Numbers as a locale writes them: below the sentences, which write the numbers in their blanks by it."""

from __future__ import annotations

from functools import lru_cache

from babel.numbers import format_decimal


@lru_cache(maxsize=4096)
def decimal(value: float, locale: str, digits: int | None = None) -> str:
    """``1,250.5``; ``digits`` after the point, or as many as it has, at most three. ``locale``: ``en_US``."""
    pattern = "#,##0.###" if digits is None else f"#,##0.{'0' * digits}"
    return printable(format_decimal(value, pattern, locale=locale))


def printable(text: str) -> str:
    """Narrow no-break spaces become plain ones, which all fonts have and a search finds."""
    return text.replace("\u202f", "\u00a0")
