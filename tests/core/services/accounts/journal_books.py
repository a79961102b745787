"""The books worked out from the journal's CSV alone: imports nothing of the program."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field


@dataclass(slots=True)
class JournalBooks:
    """Sums in minor units, by account, and by document the sum that should be nothing."""

    accounts: Counter[str] = field(default_factory=Counter)
    documents: Counter[str] = field(default_factory=Counter)
    owed: Counter[str] = field(default_factory=Counter)
    """By order what the customer owes."""

    def taxes(self) -> dict[str, int]:
        return {name[4:]: -minor for name, minor in self.accounts.items() if name.startswith("tax:")}

    def income(self) -> int:
        return -sum(minor for name, minor in self.accounts.items() if name.startswith("income:"))


def read(text: str) -> JournalBooks:
    books = JournalBooks()
    for document, order, account, minor in _rows(text):
        books.accounts[account] += minor
        books.documents[document] += minor
        if account == "customers":
            books.owed[order] += minor
    return books


def _rows(text: str) -> Iterator[tuple[str, str, str, int]]:
    for row in csv.DictReader(io.StringIO(text, newline="")):
        minor = int(row["debit_minor"] or 0) - int(row["credit_minor"] or 0)
        yield row["document"], row["order"], row["account"], minor
