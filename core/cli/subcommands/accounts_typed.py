"""The books, typed: payments, the counted drawer, invoices, takings of some days, the journal."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any

from core.cli import json_quotes
from core.cli.invocation import Invocation, Reply
from core.model import private_files, regular_files
from core.model.accounts.drawer_records import DrawerCount, DrawerNow
from core.model.accounts.invoice_records import Invoice, InvoicedTax
from core.model.accounts.taking_records import Takings
from core.model.errors import Unavailable
from core.model.names import JobNumber
from core.services import payments
from core.services.accounts import account_words, drawer, invoices, invoicing, journal, takings
from core.store import current_settings
from core.wording import locale_figures
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop


def pay(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        job = call.run(
            shop,
            payments.take,
            JobNumber(asked.number),
            asked.minor,
            kind=asked.kind,
            note=asked.note,
            method=asked.by,
        )
    left = locale_figures.money(job.paid_minor, job.quote.price.currency)
    return Reply({"number": job.number, "paid_minor": job.paid_minor}, say("cli", "paid_far", left=left))


def count_drawer(call: Invocation) -> Reply:
    """``drawer``: what should be in it; with ``--float`` or ``--close`` a count."""
    asked = call.asked
    with call.open() as shop:
        currency = shop.ask(drawer.currency)
        if asked.float is not None:
            return _counted(call.run(shop, drawer.count_float, asked.float, note=asked.note), currency)
        if asked.close is not None:
            closed = call.run(
                shop, drawer.close_day, asked.close, taken_out_minor=asked.taken_out, note=asked.note
            )
            return _counted(closed, currency)
        return _now(shop.ask(drawer.now), currency)


def give_invoice(call: Invocation) -> Reply:
    with call.open() as shop:
        given = call.run(shop, invoicing.give, JobNumber(call.asked.number))
    return Reply(_invoice(given), account_words.invoice(given))


def list_invoices(call: Invocation) -> Reply:
    with call.open() as shop:
        found = shop.ask(invoices.of_order, JobNumber(call.asked.number))
    return Reply(
        {"invoices": [_invoice(each) for each in found]}, "\n".join(map(account_words.invoice, found))
    )


def tell_takings(call: Invocation) -> Reply:
    with call.open() as shop:
        found = shop.ask(takings.of_days, *_span(call, shop))
    return Reply(_takings(found), "\n".join(_lines(found)))


def write_journal(call: Invocation) -> Reply:
    with call.open() as shop:
        found = shop.ask(takings.of_days, *_span(call, shop))
    text, posted = journal.written(found), len(journal.postings(found))
    if call.asked.file == "-":
        return Reply({"postings": posted}, text)
    path = regular_files.expanded(call.asked.file).absolute()
    try:
        private_files.write(path, text.encode())
    except OSError as failure:
        raise Unavailable(f"{path.name}: {failure.strerror}") from failure
    document = {"file": str(path), "postings": posted}
    return Reply(document, say("accounts", "told-journal", n=posted, file=str(path)))


def _span(call: Invocation, shop: Shop) -> tuple[date, date]:
    asked = call.asked
    first = asked.day or shop.ask(current_settings.local, call.clock()).date()
    if asked.year:
        return takings.year(first)
    return takings.month(first) if asked.month else (first, asked.to or first)


def _counted(count: DrawerCount, currency: str) -> Reply:
    def money(minor: int) -> str:
        return locale_figures.money(minor, currency)

    said = say(
        "accounts",
        "told-count",
        counted=money(count.counted_minor),
        expected=money(count.expected_minor),
        difference=count.difference_minor,
        amount=money(abs(count.difference_minor)),
        is_short="yes" if count.difference_minor < 0 else "no",
    )
    if count.taken_out_minor:
        out = say("accounts", "told-out", left=money(count.left_minor), out=money(count.taken_out_minor))
        said = f"{said}\n{out}"
    return Reply({"currency": currency, **_count(count)}, said)


def _now(found: DrawerNow, currency: str) -> Reply:
    document = {
        "currency": currency,
        "expected_minor": found.expected_minor,
        "left_minor": found.left_minor,
        "cash_in_minor": found.cash_in_minor,
        "cash_out_minor": found.cash_out_minor,
        "last": None if found.last is None else _count(found.last),
    }
    return Reply(document, account_words.now(found, currency))


def _count(count: DrawerCount) -> dict[str, Any]:
    return {
        "closes": count.closes,
        "day": count.day.isoformat(),
        "counted_minor": count.counted_minor,
        "expected_minor": count.expected_minor,
        "difference_minor": count.difference_minor,
        "taken_out_minor": count.taken_out_minor,
        "left_minor": count.left_minor,
        "note": count.note,
        "at": json_quotes.time(count.at),
        "by": count.by,
    }


def _invoice(given: Invoice) -> dict[str, Any]:
    sums = given.sums
    return {
        "series": given.series.value,
        "number": given.number,
        "order": given.job,
        "currency": sums.currency,
        "lines": [{"code": each.code, "amount_minor": each.amount_minor} for each in sums.lines],
        "taxes": [_tax(each) for each in sums.taxes],
        "net_minor": sums.net_minor,
        "rounding_minor": sums.rounding_minor,
        "due_minor": sums.due_minor,
        "at": json_quotes.time(given.at),
        "by": given.by,
    }


def _tax(found: InvoicedTax) -> dict[str, Any]:
    return {
        "text": found.words,
        "percent": found.percent,
        "base_minor": found.base_minor,
        "amount_minor": found.amount_minor,
    }


def _takings(found: Takings) -> dict[str, Any]:
    return {
        "first": found.first.isoformat(),
        "last": found.last.isoformat(),
        "currency": found.currency,
        "taken_minor": found.taken_minor,
        "by_method": [
            {
                "method": each.method,
                "came_minor": each.came_minor,
                "went_minor": each.went_minor,
                "payments": each.payments,
            }
            for each in found.by_method
        ],
        "rounding_minor": found.rounding_minor,
        "invoiced_minor": found.due_minor,
        "net_minor": found.net_minor,
        "taxes": [_tax(each) for each in found.taxes],
        "turnover": [{"code": code, "net_minor": minor} for code, minor in found.turnover],
        "invoices": [_invoice(each) for each in found.invoices],
        "drawer": [_count(each) for each in found.counts],
    }


def _lines(found: Takings) -> Iterator[str]:
    span = locale_figures.span(found.first, found.last)
    if found.by_method:
        yield say(
            "accounts", "told-sum", span=span, sum=locale_figures.money(found.taken_minor, found.currency)
        )
    else:
        yield say("accounts", "told-none", span=span)
    for each in found.by_method:
        yield account_words.taken(each, found.currency)
    if found.invoices:
        yield account_words.invoiced(found.due_minor, found.net_minor, found.currency)
    for tax in found.taxes:
        yield account_words.tax(tax, found.currency)
