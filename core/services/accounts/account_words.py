"""The books in words, as window and command line tell them alike."""

from __future__ import annotations

from core.model.accounts import payment_methods
from core.model.accounts.drawer_records import DrawerNow
from core.model.accounts.invoice_records import Invoice, InvoicedTax
from core.model.accounts.taking_records import TakenByMethod
from core.services.accounts import invoices
from core.wording.locale_figures import money
from core.wording.messages import say


def now(found: DrawerNow, currency: str) -> str:
    """What should be in the drawer, and how it came to be."""
    return say(
        "accounts",
        "told-now",
        expected=money(found.expected_minor, currency),
        left=money(found.left_minor, currency),
        came=money(found.cash_in_minor, currency),
        went=money(found.cash_out_minor, currency),
    )


def taken(found: TakenByMethod, currency: str) -> str:
    """``Cash: $42.00 in 1 payment``."""
    method, total = payment_methods.words(found.method), money(found.sum_minor, currency)
    return say("accounts", "told-taken", method=method, sum=total, n=found.payments)


def invoiced(due_minor: int, net_minor: int, currency: str) -> str:
    """All that was invoiced, with and without tax."""
    return say("accounts", "told-invoiced", due=money(due_minor, currency), net=money(net_minor, currency))


def tax(found: InvoicedTax, currency: str) -> str:
    """One tax on what it is charged on."""
    amount, base = money(found.amount_minor, currency), money(found.base_minor, currency)
    return say("accounts", "told-tax", words=found.words, amount=amount, base=base)


def invoice(given: Invoice) -> str:
    """``Invoice 000012 of order 000018: $93.15``."""
    due = money(given.sums.due_minor, given.sums.currency)
    return say("accounts", "told-invoice", invoice=invoices.words(given), order=str(given.job), due=due)
