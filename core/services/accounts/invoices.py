"""Invoices and credit notes, in series without gaps: each says what changed since the one before.

What an order costs is invoiced once the last of it is handed over, or when somebody asks. What it costs less
afterwards is credited, what it costs more is invoiced; nothing that was given is ever altered.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import datetime

from sqlalchemy import func, select

from core.model.accounts.invoice_records import (
    Invoice,
    InvoicedLine,
    InvoicedSums,
    InvoicedTax,
    Series,
)
from core.model.names import JobNumber
from core.model.quote_records import Price
from core.store import history, lookup
from core.store.tables import InvoiceRow, JobRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

KIND = "invoice"
"""Of the lines of history about invoices and credit notes."""


def issue(unit: Unit, row: JobRow, price: Price) -> Invoice | None:
    """The next invoice or credit note of an order that costs ``price`` by now; None where nothing changed."""
    changed = difference(sums(price), [each.sums for each in _rows(unit, row.id)])
    if is_nothing(changed):
        return None
    series = Series.CREDIT_NOTE if changed.due_minor < 0 else Series.INVOICE
    words = say("accounts", "event-invoice", series=series.value, money=_money(changed))
    # With its line the numbers are ours until the step is stored: nobody else takes the same.
    history.append(unit, KIND, words, job=row.number, series=series, sums=changed)
    kept = InvoiceRow(
        series=series, number=_next(unit, series), job_id=row.id, sums=changed, at=unit.now, by=unit.who
    )
    unit.session.add(kept)
    unit.session.flush()
    return _record(kept, row.number)


def of_order(unit: Unit, number: JobNumber) -> tuple[Invoice, ...]:
    """The invoices and credit notes of an order, oldest first."""
    row = lookup.job_row(unit, number)
    return tuple(_record(each, row.number) for each in _rows(unit, row.id))


def between(unit: Unit, begins: datetime, ends: datetime) -> tuple[Invoice, ...]:
    """Those given from one moment on and before another, oldest first."""
    asked = select(InvoiceRow, JobRow.number).join(JobRow, JobRow.id == InvoiceRow.job_id)
    within = asked.where(InvoiceRow.at >= begins, InvoiceRow.at < ends)
    found = unit.session.execute(within.order_by(InvoiceRow.id))
    return tuple(_record(row, number) for row, number in found)


def sums(price: Price) -> InvoicedSums:
    """What a bill says: the likely column, which is the only one once all play times are known."""
    exempt = say("accounts", "exempt") if price.exempt else ""  # the reason may name somebody
    taxes = tuple(
        InvoicedTax(exempt or each.words, each.percent, each.base.likely, each.amount.likely)
        for each in price.told_taxes
    )
    lines: Counter[str] = Counter()
    for each in price.charges:
        lines[each.code] += each.amount.likely
    return InvoicedSums(
        price.currency,
        tuple(InvoicedLine(code, minor) for code, minor in lines.items() if minor),
        taxes,
        price.net.likely,
        price.rounding.likely,
        price.due.likely,
    )


def difference(now: InvoicedSums, given: Sequence[InvoicedSums]) -> InvoicedSums:
    """What is to be added to all that was given, so that it says what holds now."""
    lines = Counter({each.code: each.amount_minor for each in now.lines})
    bases = Counter({(each.words, each.percent): each.base_minor for each in now.taxes})
    taxes = Counter({(each.words, each.percent): each.amount_minor for each in now.taxes})
    for one in given:
        lines.subtract({each.code: each.amount_minor for each in one.lines})
        bases.subtract({(each.words, each.percent): each.base_minor for each in one.taxes})
        taxes.subtract({(each.words, each.percent): each.amount_minor for each in one.taxes})
    return InvoicedSums(
        now.currency,
        tuple(InvoicedLine(code, minor) for code, minor in lines.items() if minor),
        tuple(InvoicedTax(*of, bases[of], minor) for of, minor in taxes.items() if minor or bases[of]),
        now.net_minor - sum(each.net_minor for each in given),
        now.rounding_minor - sum(each.rounding_minor for each in given),
        now.due_minor - sum(each.due_minor for each in given),
    )


def is_nothing(changed: InvoicedSums) -> bool:
    """Whether no sum changed."""
    return not (changed.lines or changed.taxes or changed.net_minor or changed.due_minor)


def words(given: Invoice) -> str:
    """``Invoice 000012``, ``Credit note 000003``."""
    return say("accounts", "invoice-words", series=given.series.value, number=f"{given.number:06d}")


def _money(found: InvoicedSums) -> str:
    return locale_figures.money(abs(found.due_minor), found.currency)


def _next(unit: Unit, series: Series) -> int:
    newest = select(func.coalesce(func.max(InvoiceRow.number), 0)).where(InvoiceRow.series == series)
    return unit.session.scalars(newest).one() + 1


def _rows(unit: Unit, job: int) -> Iterable[InvoiceRow]:
    return unit.session.scalars(select(InvoiceRow).where(InvoiceRow.job_id == job).order_by(InvoiceRow.id))


def _record(row: InvoiceRow, number: str) -> Invoice:
    return Invoice(row.series, row.number, JobNumber(number), row.sums, row.at, row.by)
