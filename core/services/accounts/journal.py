"""The journal for an accountant: each invoice, payment and counted drawer as postings that add up to nothing.

Double entry as everywhere: an invoice moves its sum from income, taxes and rounding to what customers owe; a
payment moves it on to cash, card and so on; a drawer that holds more or less than it should moves the
difference. Which accounts of the chart these are is for the accountant and local law.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence

from core.model.accounts import payment_methods
from core.model.accounts.drawer_records import DrawerCount
from core.model.accounts.invoice_records import Invoice
from core.model.accounts.payment_methods import CASH
from core.model.accounts.posting_records import Account, Posting
from core.model.accounts.taking_records import Takings
from core.services.accounts import invoices
from core.wording import shop_clock
from core.wording.messages import say

CUSTOMERS, ROUNDING, SAFE, DIFFERENCE = "customers", "rounding", "safe", "difference"
HEADS = ("day", "document", "order", "account", "words", "currency", "debit_minor", "credit_minor")


def postings(found: Takings) -> tuple[Posting, ...]:
    """All postings of some days, by document."""
    return (
        *(each for one in found.invoices for each in _of_invoice(one)),
        *_of_payments(found),
        *(each for number, one in enumerate(found.counts, 1) for each in _of_count(one, number, found)),
    )


def written(found: Takings) -> str:
    """The postings as CSV (RFC 4180), sums in minor units; a text that a spreadsheet might take for a
    formula is quoted by a leading apostrophe."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(HEADS)
    writer.writerows(_row(each) for each in postings(found))
    return text.getvalue()


def _row(each: Posting) -> Sequence[str]:
    debit, credit = max(each.minor, 0), max(-each.minor, 0)
    said = (each.day.isoformat(), each.document, each.order, each.account, each.words, each.currency)
    return (*map(as_text, said), str(debit or ""), str(credit or ""))


def as_text(text: str) -> str:
    """OWASP, CSV Injection: a cell that begins with one of these may be carried out."""
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text


def _of_invoice(given: Invoice) -> Iterator[Posting]:
    sums, document = given.sums, f"{given.series.value} {given.number:06d}"

    def posted(account: Account, minor: int) -> Posting:
        day = shop_clock.day(given.at)
        return Posting(day, document, given.job, account, invoices.words(given), sums.currency, minor)

    yield posted(CUSTOMERS, sums.due_minor)
    taxed = sum(each.amount_minor for each in sums.taxes)
    lines = sum(each.amount_minor for each in sums.lines)
    for line in sums.lines:
        yield posted(f"income:{line.code}", -line.amount_minor)
    for tax in sums.taxes:
        yield posted(f"tax:{tax.percent}", -tax.amount_minor)
    if rest := sums.due_minor - lines - taxed:  # the total rounded, or tax inside the prices of the lines
        yield posted(ROUNDING, -rest)


def _of_payments(found: Takings) -> Iterator[Posting]:
    for number, line in enumerate(found.lines, 1):
        document = f"payment {line.day.isoformat()} {number}"
        account = ROUNDING if line.kind == payment_methods.ROUNDING else line.method
        words = say("accounts", "kind-words", kind=line.kind)
        for name, minor in ((account, line.minor), (CUSTOMERS, -line.minor)):
            yield Posting(line.day, document, line.order, name, words, found.currency, minor)


def _of_count(count: DrawerCount, number: int, found: Takings) -> Iterator[Posting]:
    document = f"drawer {count.day.isoformat()} {number}"
    words = say("accounts", "drawer-counted")
    moved = (
        *((CASH, count.difference_minor), (DIFFERENCE, -count.difference_minor)),
        *((SAFE, count.taken_out_minor), (CASH, -count.taken_out_minor)),
    )
    for account, minor in moved:
        if minor:
            yield Posting(count.day, document, "", account, words, found.currency, minor)
