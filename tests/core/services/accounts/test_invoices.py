"""Invoices without gaps, credit notes for what became less, and a journal that adds up."""

from __future__ import annotations

from datetime import date

import pytest

from core.model.accounts.invoice_records import Series
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import Finding
from core.model.stations import Station
from core.services import jobs, payments
from core.services.accounts import drawer, invoices, invoicing, journal, takings
from core.store.unit import Unit
from tests.core.services.accounts import journal_books
from tests.support.booked import Desk, line

TODAY = date(2026, 3, 3)


def gone_home(desk: Desk, method: str = "cash") -> Job:
    """An order that is paid and handed back; its deposit was paid by card."""
    job = desk.book(line(count=2))
    desk.shop.run(payments.take, job.number, 500, kind="deposit", method="card")
    for tape in job.tapes:
        desk.bring_to(tape, Station.READY)
    due = desk.shop.ask(_due, job.number)
    desk.hand_back(job, paid_minor=due, paid_by=method)
    return desk.shop.ask(jobs.get, job.number)


def _due(unit: Unit, number: str) -> int:
    from core.store import lookup

    row = lookup.job_row(unit, number)
    return payments.price(unit, row).due.likely - sum(each.minor for each in row.payments)


def test_an_order_that_is_gone_and_paid_was_invoiced_once(desk: Desk) -> None:
    job = gone_home(desk)
    (given,) = desk.shop.ask(invoices.of_order, job.number)
    assert (given.series, given.number, given.sums.due_minor) == (Series.INVOICE, 1, job.paid_minor)
    with pytest.raises(Refused, match="nothing to invoice"):
        desk.shop.run(invoicing.give, job.number)
    assert desk.shop.verify() == ()


def test_what_costs_less_afterwards_is_credited_and_the_two_say_what_holds(desk: Desk) -> None:
    job = desk.book(line(count=2), line(findings=[Finding.SNAPPED]))
    before = desk.shop.run(invoicing.give, job.number)
    desk.shop.run(_left_out, job)
    after = desk.shop.run(invoicing.give, job.number)
    assert (before.series, after.series, after.number) == (Series.INVOICE, Series.CREDIT_NOTE, 1)
    price = desk.shop.ask(_price, job.number)
    assert before.sums.due_minor + after.sums.due_minor == price
    assert after.sums.due_minor < 0
    desk.book(line())
    third = desk.shop.run(invoicing.give, desk.book(line()).number)
    assert third.number == 2


def _price(unit: Unit, number: str) -> int:
    from core.store import lookup

    return payments.price(unit, lookup.job_row(unit, number)).due.likely


def _left_out(unit: Unit, job: Job) -> None:
    from core.model.agreement_records import Consent
    from core.services.agreement import cancellations

    cancellations.cancel(unit, job.number, [job.tapes[2].code], reason="no", consent=Consent("Ada Fenwick"))


def test_the_journal_alone_gives_the_same_books(desk: Desk) -> None:
    """Double entry: each document adds up to nothing. Worked out by `journal_books`, which knows no rule."""
    desk.shop.run(drawer.count_float, 10_000)
    first, second = gone_home(desk), gone_home(desk, "card")
    desk.shop.run(payments.take, desk.book().number, 300, method="transfer")
    desk.shop.run(payments.refund, first.number, 100, note="for the wait", method="cash")
    cash = desk.shop.ask(drawer.now).expected_minor
    desk.shop.run(drawer.close_day, cash - 20, taken_out_minor=5_000, note="20 short")
    found = desk.shop.ask(takings.of_days, TODAY, TODAY)
    books = journal_books.read(journal.written(found))
    assert set(books.documents.values()) == {0}
    assert books.owed[first.number] == 100  # what went back is owed again
    assert books.owed[second.number] == 0
    assert books.accounts["cash"] + 10_000 == cash - 20 - 5_000
    assert books.accounts["safe"] == 5_000
    assert books.income() == found.net_minor
    assert books.taxes() == {each.percent: each.amount_minor for each in found.taxes}
    assert sum(books.accounts[each.method] for each in found.by_method) == found.taken_minor - 20 - 5_000
    assert {each.method for each in found.by_method} == {"cash", "card", "transfer"}


def test_days_out_of_order_are_refused(desk: Desk) -> None:
    with pytest.raises(WrongInput, match="last day"):
        desk.shop.ask(takings.of_days, TODAY, date(2026, 3, 2))


def test_a_month_and_a_year_are_whole() -> None:
    assert takings.month(date(2028, 2, 11)) == (date(2028, 2, 1), date(2028, 2, 29))
    assert takings.month(date(2026, 12, 31)) == (date(2026, 12, 1), date(2026, 12, 31))
    assert takings.year(TODAY) == (date(2026, 1, 1), date(2026, 12, 31))


def test_a_cell_that_a_spreadsheet_might_carry_out_stays_text() -> None:
    """OWASP, CSV Injection (https://owasp.org/www-community/attacks/CSV_Injection)."""
    assert journal.as_text("=1+2") == "'=1+2"
    assert journal.as_text("deposit") == "deposit"
