"""Money that changed hands: a line for every payment, never altered; a mistake gets another line."""

from __future__ import annotations

from core.model import money
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import JobNumber
from core.services import customers
from core.store import history, lookup, row_records
from core.store.tables import JobRow, PaymentRow
from core.store.unit import Unit
from core.wording.messages import say

KINDS = ("deposit", "balance", "refund")
MOST_MINOR = 100_000_000
"""A million of the usual currency: anything above is a slip of the finger."""


def take(unit: Unit, number: JobNumber, minor: int, *, kind: str = "balance", note: str = "") -> Job:
    """Takes ``minor`` (more than zero) for a job. WrongInput for another kind or amount."""
    if kind not in KINDS[:2]:
        raise WrongInput("payment", kind, say("steps", "accepted", kinds=", ".join(KINDS[:2])))
    row = lookup.job_row(unit, number)
    enter(unit, row, kind, _checked(minor), note)
    unit.session.flush()
    return row_records.job(row)


def refund(unit: Unit, number: JobNumber, minor: int, *, note: str) -> Job:
    """Gives ``minor`` (more than zero) back; ``note`` says why.

    Refused beyond what was paid; WrongInput without a reason or for another amount.
    """
    row = lookup.job_row(unit, number)
    paid = sum(each.minor for each in row.payments)
    if _checked(minor) > paid:
        was_paid = money.spelled(paid, row.quote.price.currency)
        raise Refused(say("steps", "only_paid_job_more", was_paid=was_paid, number=row.number))
    if not customers.text("why", note):
        raise WrongInput("why", note, say("steps", "say_why_money_given"))
    enter(unit, row, "refund", -minor, note)
    unit.session.flush()
    return row_records.job(row)


def enter(unit: Unit, row: JobRow, kind: str, minor: int, note: str = "") -> None:
    """Adds one line to a job at hand; a refund is negative."""
    said = customers.text("note", note)
    row.payments.append(PaymentRow(kind=kind, minor=minor, at=unit.now, by=unit.who))
    currency = row.quote.price.currency
    words = f"{kind} of {money.spelled(abs(minor), currency)}" + (f": {said}" if said else "")
    history.append(unit, "paid", words, job=row.number, minor=minor, payment=kind)


def _checked(minor: int) -> int:
    if not 0 < minor <= MOST_MINOR:
        raise WrongInput("amount", minor, say("steps", "minor_units_accepted", most_minor=MOST_MINOR))
    return minor
