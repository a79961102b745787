"""Whose tapes they are: kept once per person, with a phone number that can be called."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import func, select

from core.model import entered_text, folding
from core.model.errors import Conflict, WrongInput
from core.model.inventory import CustomerDraft
from core.model.job_records import Customer
from core.store import current_settings, merged_fields, search
from core.store.merged_fields import FieldClash
from core.store.tables import CustomerRow, JobRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

LEAST_LETTERS = 3
"""Fewer would mean nearly everybody."""


@dataclass(frozen=True, slots=True)
class KnownCustomer:
    """Somebody who has been here; ``orders`` counts them."""

    name: str
    phone: str | None
    orders: int


def recalled(unit: Unit, name: str, phone: str) -> tuple[KnownCustomer, ...]:
    """Who may be meant by what is typed so far, the likeliest first; never who is typed in full already.

    A number is looked for by its digits, a name as `search.jobs` does. Each person is told once; two with one
    number are two. In full: name and number are so typed that `enrol` would find this person.
    """
    found = [*_ids(unit, phone), *_ids(unit, name)]
    if not found:
        return ()
    count = select(JobRow.customer_id, func.count()).group_by(JobRow.customer_id)
    counts = count.where(JobRow.customer_id.in_(select(JobRow.customer_id).where(JobRow.id.in_(found))))
    orders = {row[0]: row[1] for row in unit.session.execute(counts)}
    theirs = select(JobRow.id, CustomerRow).join(CustomerRow, CustomerRow.id == JobRow.customer_id)
    rows = {row[0]: row[1] for row in unit.session.execute(theirs.where(JobRow.id.in_(found)))}
    people = {rows[job].id: rows[job] for job in found}
    typed = (folding.folded(name), dialled(phone, current_settings.read(unit).country))
    return tuple(
        KnownCustomer(row.name, row.phone, orders[key])
        for key, row in people.items()
        if (row.folded, row.phone) != typed
    )


def _ids(unit: Unit, text: str) -> list[int]:
    return [job for job, _ in search.jobs(unit, text)] if len(text.strip()) >= LEAST_LETTERS else []


def enrol(unit: Unit, draft: CustomerDraft, *, country: str = "US") -> CustomerRow:
    """The customer's row: the one that has this name and phone already, else a new one.

    ``country`` (ISO 3166) is where a phone number without a country code belongs.
    """
    name = _name(draft)
    phone = dialled(draft.phone, country)
    email = entered_text.line(say("orders", "email"), draft.email or "") or None
    row = _known(unit, name, phone)
    if row is None:
        row = CustomerRow(
            name=name,
            folded=folding.folded(name),
            phone=phone,
            digits=folding.digits(phone or ""),
            email=email,
            since=unit.now,
        )
        unit.session.add(row)
    elif email is not None:
        row.email = email
    return row


def correct(
    row: CustomerRow, draft: CustomerDraft, *, country: str = "US", seen: Customer | None = None
) -> None:
    """Puts name, phone and e-mail of a customer right; the same rules as when they were first given.

    ``seen``: the details that the draft was typed over; what somebody else changed since stays. Conflict,
    with both, where both changed the same.
    """
    wanted = Customer(
        _name(draft),
        dialled(draft.phone, country),
        entered_text.line(say("orders", "email"), draft.email or "") or None,
    )
    if seen is not None:
        now = Customer(row.name, row.phone, row.email)
        wanted, clashes = merged_fields.merge(seen, wanted, now)
        if clashes:
            told = locale_figures.listed([_told(each) for each in clashes], "unit")
            raise Conflict(say("orders", "customer_changed_meanwhile", fields=told))
    row.name, row.folded = wanted.name, folding.folded(wanted.name)
    row.phone, row.digits = wanted.phone, folding.digits(wanted.phone or "")
    row.email = wanted.email


def dialled(phone: str | None, country: str) -> str | None:
    """E.164 for a number that can exist, else as it was given: a clerk may know better than a table."""
    given = entered_text.line(say("orders", "phone"), phone or "")
    if not given:
        return None
    import phonenumbers

    try:
        number = phonenumbers.parse(given, country)
    except phonenumbers.NumberParseException:
        return given
    if not phonenumbers.is_possible_number(number) or number.extension:
        return given
    return phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)


def as_dialled(phone: str, country: str) -> str:
    """A stored number as it is dialed from ``country`` (ISO 3166), to be typed over; as stored where that
    would be read as another number."""
    shown = locale_figures.phone(phone, country)
    return shown if dialled(shown, country) == phone else phone


def _told(clash: FieldClash) -> str:
    """``phone: now (303) 555-0188, yours (303) 555-0177``."""
    none = say("orders", "none")
    what = say("orders", clash.field)
    return say("orders", "field_clash", what=what, now=clash.now or none, yours=clash.wanted or none)


def _name(draft: CustomerDraft) -> str:
    name = entered_text.line(say("orders", "customer_name"), draft.name)
    if not name:
        raise WrongInput(say("orders", "customer_name"), draft.name, say("orders", "needs_a_name"))
    return name


def _known(unit: Unit, name: str, phone: str | None) -> CustomerRow | None:
    """Somebody is the same person only when both name and phone agree; a name alone is not enough."""
    if phone is None:
        return None
    digits = folding.digits(phone)
    same = select(CustomerRow).where(
        CustomerRow.folded == folding.folded(name), CustomerRow.digits == digits, CustomerRow.phone == phone
    )
    return unit.session.scalars(same.order_by(CustomerRow.id)).first()
