"""The text to paste into a message or mail, in the shop's language, and links to programs that send it."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from core.model.handover_records import ToldHow
from core.model.names import JobNumber
from core.services import payments
from core.services.after_ready import opening_words, telling
from core.services.after_ready.telling import ToTell
from core.store import current_settings, lookup
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class TellingText:
    """What to send, and the link that opens the system's own program for it; nothing is ever sent by us."""

    subject: str
    body: str
    links: dict[ToldHow, str]
    """By way: ``tel:`` (RFC 3966), ``mailto:`` (RFC 6068), ``sms:`` (RFC 5724); only where there is one."""


def text(unit: Unit, number: JobNumber) -> TellingText:
    """The text for an order that is ready; Refused while not all of it may be collected."""
    due = telling.one(unit, number)
    subject = say("telling", "subject", number=str(due.job.number), shop=_shop(unit))
    body = "\n".join(_lines(unit, due))
    return TellingText(subject, body, _links(due, subject, body))


def _lines(unit: Unit, due: ToTell) -> list[str]:
    settings, now = current_settings.read(unit), current_settings.local(unit, unit.now)
    job = due.job
    waits = due.told_on is not None and bool(due.round)
    day = locale_figures.day(due.told_on) if due.told_on else ""
    lines = [
        say("telling", "text_hello", name=job.customer.name),
        "",
        say("telling", "text_waits" if waits else "text_ready", number=str(job.number), day=day),
    ]
    row = lookup.job_row(unit, job.number)
    owed = payments.price(unit, row).due.likely - job.paid_minor
    if owed > 0:
        lines.append(say("telling", "text_owed", money=locale_figures.money(owed, due.currency)))
    if due.storage_minor:
        lines.append(storage_words(due))
    lines += filter(None, [opening_words.next_opening(settings, now)])
    front = settings.front
    return [
        *lines,
        say("telling", "text_bring"),
        "",
        say("telling", "text_from", shop=front.name, phone=front.phone),
    ]


def storage_words(due: ToTell) -> str:
    """What keeping it has come to by the price book, deferring to the law; nothing where it costs nothing."""
    if not due.storage_minor:
        return ""
    money = locale_figures.money(due.storage_minor, due.currency)
    return say("telling", "storage", days=due.days_waiting, money=money)


def _shop(unit: Unit) -> str:
    return current_settings.read(unit).front.name


def _links(due: ToTell, subject: str, body: str) -> dict[ToldHow, str]:
    customer = due.job.customer
    links = {}
    if customer.phone and customer.phone.startswith("+"):
        links[ToldHow.PHONE] = f"tel:{customer.phone}"
        links[ToldHow.MESSAGE] = f"sms:{customer.phone}?body={quote(body)}"
    if customer.email:
        address, crlf = quote(customer.email, safe="@"), body.replace("\n", "\r\n")
        links[ToldHow.EMAIL] = f"mailto:{address}?subject={quote(subject)}&body={quote(crlf)}"
    return links
