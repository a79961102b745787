"""Takings by method, invoices and taxes of some days: the books of a day, a month, a year."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from sqlalchemy import select

from core.model.accounts import payment_methods
from core.model.accounts.invoice_records import Invoice, InvoicedTax
from core.model.accounts.payment_methods import METHODS, UNTOLD
from core.model.accounts.taking_records import TakenByMethod, TakenLine, Takings
from core.model.errors import WrongInput
from core.model.names import JobNumber
from core.services.accounts import drawer, invoices
from core.store import current_settings
from core.store.tables import JobRow, PaymentRow
from core.store.unit import Unit
from core.wording.messages import say


def of_days(unit: Unit, first: date, last: date) -> Takings:
    """The books from ``first`` to ``last``, days of the shop. WrongInput where ``last`` comes before."""
    if last < first:
        raise WrongInput(say("accounts", "last-day"), last.isoformat(), say("accounts", "not-before"))
    span = _span(unit, first, last)
    lines = _lines(unit, span)
    given = invoices.between(unit, *span)
    return Takings(
        first,
        last,
        drawer.currency(unit),
        tuple(_by_method(lines)),
        sum(each.minor for each in lines if each.kind == payment_methods.ROUNDING),
        lines,
        given,
        _taxes(given),
        _turnover(given),
        drawer.counts(unit, first, last),
    )


def month(day: date) -> tuple[date, date]:
    """First and last day of its month."""
    first = day.replace(day=1)
    return first, (first + timedelta(days=31)).replace(day=1) - timedelta(days=1)


def year(day: date) -> tuple[date, date]:
    """First and last day of its year."""
    return date(day.year, 1, 1), date(day.year, 12, 31)


Span = tuple[datetime, datetime]


def _span(unit: Unit, first: date, last: date) -> Span:
    zone = ZoneInfo(current_settings.read(unit).front.timezone)
    begins = datetime.combine(first, time(), zone)
    return begins, datetime.combine(last + timedelta(days=1), time(), zone)


def _lines(unit: Unit, span: Span) -> tuple[TakenLine, ...]:
    asked = select(PaymentRow, JobRow.number).join(JobRow, JobRow.id == PaymentRow.job_id)
    within = asked.where(PaymentRow.at >= span[0], PaymentRow.at < span[1]).order_by(PaymentRow.id)
    zone = span[0].tzinfo
    return tuple(
        TakenLine(
            JobNumber(number),
            row.kind,
            row.method or UNTOLD,
            row.minor,
            row.at.astimezone(zone).date(),
            row.by,
        )
        for row, number in unit.session.execute(within)
    )


def _by_method(lines: Sequence[TakenLine]) -> Iterable[TakenByMethod]:
    money = [each for each in lines if each.kind != payment_methods.ROUNDING]
    for method in (*METHODS, UNTOLD):
        sums = [each.minor for each in money if each.method == method]
        if sums:
            came, went = sum(each for each in sums if each > 0), -sum(each for each in sums if each < 0)
            yield TakenByMethod(method, came, went, len(sums))


def _taxes(given: Sequence[Invoice]) -> tuple[InvoicedTax, ...]:
    bases: Counter[tuple[str, str]] = Counter()
    amounts: Counter[tuple[str, str]] = Counter()
    for tax in (each for one in given for each in one.sums.taxes):
        bases[tax.words, tax.percent] += tax.base_minor
        amounts[tax.words, tax.percent] += tax.amount_minor
    return tuple(InvoicedTax(*of, bases[of], minor) for of, minor in amounts.items())


def _turnover(given: Sequence[Invoice]) -> tuple[tuple[str, int], ...]:
    found: Counter[str] = Counter()
    for line in (each for one in given for each in one.sums.lines):
        found[line.code] += line.amount_minor
    return tuple(found.most_common())
