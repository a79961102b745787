"""Postings of the journal as an accountant takes them over: each moves money from one account to another."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TypeAlias

Account: TypeAlias = str
"""``cash`` and other methods, ``customers``, ``income:CODE``, ``tax:PERCENT``, ``rounding``, ``safe``."""


@dataclass(frozen=True, slots=True)
class Posting:
    """One line. Minor units, above 0: debit; below 0: credit. The lines of a document add up to 0."""

    day: date
    document: str
    """``invoice 12``, ``payment 40``, ``drawer 3``."""
    order: str
    account: Account
    words: str
    currency: str
    minor: int
