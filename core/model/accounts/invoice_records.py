"""Invoices and credit notes: numbered without gaps, each kept as it was given. Money in minor units.

A credit note is an invoice of sums below zero in a series of its own (EN 16931 type codes 380 and 381).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from core.model.names import JobNumber


class Series(Enum):
    """Each is numbered by itself."""

    INVOICE = "invoice"
    CREDIT_NOTE = "credit-note"


@dataclass(frozen=True, slots=True)
class InvoicedLine:
    """What was charged for, by its code in the price book, without tax where taxes come on top."""

    code: str
    amount_minor: int


@dataclass(frozen=True, slots=True)
class InvoicedTax:
    """One tax: what it was charged on, and how much it is."""

    words: str
    percent: str
    base_minor: int
    amount_minor: int


@dataclass(frozen=True, slots=True)
class InvoicedSums:
    """Net + taxes + rounding = due."""

    currency: str
    lines: tuple[InvoicedLine, ...]
    taxes: tuple[InvoicedTax, ...]
    net_minor: int
    rounding_minor: int
    due_minor: int


@dataclass(frozen=True, slots=True)
class Invoice:
    """One invoice or credit note of an order."""

    series: Series
    number: int
    job: JobNumber
    sums: InvoicedSums
    at: datetime
    by: str
