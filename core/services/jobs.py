"""The boxes of tapes: booked once, the quote kept word for word."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import UTC, date, datetime, timedelta
from operator import attrgetter
from typing import Any

from sqlalchemy import select

from core.catalogue import acclimatisation
from core.model import numbers, serialization
from core.model.accounts import payment_methods
from core.model.agreement_records import Consent
from core.model.errors import Refused, WrongInput
from core.model.inventory import MOST_TAPES, CustomerDraft, Inventory
from core.model.job_records import Customer, Job
from core.model.names import JobNumber
from core.model.quote_records import Price, Quote, QuotedTape
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import JournalEntry
from core.playtime import length_doubts
from core.services import customers, payments, promise_entries, tape_facts
from core.services.agreement import agreement_versions, ordered_copies
from core.services.own_shop import readiness
from core.store import current_settings, lookup, row_records
from core.store import history as chain
from core.store.steps import special_step, step
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit, allot
from core.wording import locale_figures
from core.wording.messages import say

ASKED: Mapping[str, Callable[[Any], object]] = {"quote": attrgetter("inventory"), "told": bool}
"""What of a booking its command is bound to: price and day are worked out anew at every attempt."""


@special_step(asks=ASKED)
def book(
    unit: Unit,
    quote: Quote,
    *,
    deposit_minor: int = 0,
    deposit_by: str | None = None,
    consent: Consent | None = None,
    told: Sequence[str] = (),
    sure: bool = False,
) -> Job:
    """Takes the box in: allots the next number, gives every tape its code, keeps the quote as agreed.

    ``consent`` says who agreed to the quote and how, where somebody wrote it down; ``told`` what the customer
    was told before. ``deposit_by``: one of `payment_methods.METHODS`.

    WrongInput without a customer or tapes, or for a deposit
    that is negative or above the ceiling; Refused when the quote has run out, NotSetUp before the shop has a
    name, hours, decks and prices of its own. Unconfirmed for a recorded share far beyond what the marking
    holds unless somebody is ``sure``.
    """
    readiness.check(unit)
    _check(unit, quote, deposit_minor)
    for line in quote.inventory.lines:
        tape_facts.confirm(length_doubts.of_fill(line), sure=sure)
    row = _job_row(unit, quote)
    unit.session.add(row)
    unit.session.flush()
    promise_entries.enter(unit, row, row.promise)
    agreement_versions.begin(unit, row, consent and agreement_versions.checked_consent(consent), told)
    _tell(unit, row)
    if deposit_minor:
        payments.enter(unit, row, payment_methods.DEPOSIT, deposit_minor, method=deposit_by)
    unit.session.flush()
    return row_records.job(row)


def get(unit: Unit, number: JobNumber) -> Job:
    """The job of a number as typed; WrongInput when it was mistyped or there is none."""
    return row_records.job(lookup.job_row(unit, number))


def open_jobs(unit: Unit) -> tuple[Job, ...]:
    """Jobs with a tape still in the shop, oldest first."""
    here = select(TapeRow.job_id).where(TapeRow.station.in_(lookup.IN_THE_SHOP))
    rows = unit.session.scalars(lookup.whole_jobs().where(JobRow.id.in_(here)).order_by(JobRow.id))
    return tuple(row_records.job(row) for row in rows)


def reprice(unit: Unit, number: JobNumber) -> Price:
    """The price as the job stands: minutes played where known, else the likely; never above the ceiling."""
    return payments.price(unit, lookup.job_row(unit, number))


@step
def correct_customer(
    unit: Unit, number: JobNumber, draft: CustomerDraft, *, seen: Customer | None = None
) -> Job:
    """Puts right who brought the box and how to reach them; it holds for all jobs of that customer.

    ``seen``: what the draft was typed over (see `customers.correct`). The history keeps what it was before.
    WrongInput without a name, or for words no paper could show.
    """
    row = lookup.job_row(unit, number)
    before = row_records.customer(row.customer)
    customers.correct(row.customer, draft, country=_country(unit), seen=seen)
    after = row_records.customer(row.customer)
    if after != before:
        words = "; ".join(_put_right(before, after))
        chain.append(
            unit,
            "customer-corrected",
            words,
            job=row.number,
            customer=row.customer_id,
            before=before,
            now=after,
        )
        unit.session.flush()
    return row_records.job(row)


@step
def correct_fields(
    unit: Unit,
    number: JobNumber,
    *,
    name: str | None = None,
    phone: str | None = None,
    email: str | None = None,
) -> Job:
    """`correct_customer` for the fields that are given; the others stay as they are at this moment."""
    known = row_records.customer(lookup.job_row(unit, number).customer)
    draft = CustomerDraft(name or known.name, phone or known.phone, email or known.email)
    return correct_customer(unit, number, draft)


def history(unit: Unit, number: JobNumber) -> tuple[JournalEntry, ...]:
    """What happened to a job and all its tapes, oldest first."""
    return chain.of_job(unit, JobNumber(lookup.job_row(unit, number).number))


def _put_right(before: Customer, after: Customer) -> Iterator[str]:
    """What was changed of a customer, one phrase each."""
    for what, was, now in (
        ("name", before.name, after.name),
        ("phone", before.phone, after.phone),
        ("email", before.email, after.email),
    ):
        if was != now:
            none = say("orders", "none")
            yield say("orders", "event_corrected", what=say("orders", what), was=was or none, now=now or none)


# --- booking -----------------------------------------------------------------------------


def _check(unit: Unit, quote: Quote, deposit_minor: int) -> None:
    if not 1 <= len(quote.tapes) <= MOST_TAPES:
        accepted = say("orders", "number_of_tapes", most=MOST_TAPES)
        raise WrongInput(say("orders", "tapes"), len(quote.tapes), accepted)
    if not 0 <= deposit_minor <= quote.price.ceiling_minor:
        accepted = say("orders", "deposit_bounds", most=quote.price.ceiling_minor)
        raise WrongInput(say("orders", "deposit"), deposit_minor, accepted)
    if _day(unit.now, quote) > quote.valid_until:
        raise Refused(say("orders", "quote_ran_out", day=locale_figures.day(quote.valid_until)))


def _day(moment: datetime, quote: Quote) -> date:
    """The day where the shop is: the quote was made on the shop's own clock."""
    return moment.astimezone(quote.made_at.tzinfo).date()


def _job_row(unit: Unit, quote: Quote) -> JobRow:
    draft = quote.inventory.customer
    if draft is None:
        raise WrongInput(say("orders", "customer"), None, say("orders", "needs_a_name"))
    sequence = allot(unit, "job")
    number = numbers.job_number(sequence)
    return JobRow(
        id=sequence,
        number=number,
        command=unit.command,
        customer=customers.enrol(unit, draft, country=_country(unit)),
        booked_at=unit.now,
        booked_by=unit.who,
        rush=quote.inventory.rush,
        quote=quote,
        promise=quote.promise,
        tapes=[
            _tape_row(unit, quote.inventory, tape, number, place) for place, tape in enumerate(quote.tapes, 1)
        ],
        copies=list(ordered_copies.rows(quote.storage, quote.inventory.deliver)),
    )


def _country(unit: Unit) -> str:
    return current_settings.read(unit).country


def _tape_row(unit: Unit, inventory: Inventory, tape: QuotedTape, number: JobNumber, place: int) -> TapeRow:
    return TapeRow(
        code=numbers.tape_code(number, place),
        place=place,
        line=tape.line,
        n=tape.n,
        draft=tape.draft,
        station=Station.BOOKED_IN,
        since=unit.now,
        findings=tape.draft.findings,
        verdict=tape.verdict,
        minutes=tape.minutes,
        rests_until=_rests_until(unit, inventory),
    )


def _rests_until(unit: Unit, inventory: Inventory) -> datetime | None:
    hours_of_rest = acclimatisation.hours_to_rest(inventory.cold)
    return unit.now.astimezone(UTC) + timedelta(hours=hours_of_rest) if hours_of_rest else None


def _tell(unit: Unit, row: JobRow) -> None:
    quote = row.quote
    chain.append(
        unit,
        "booked",
        say("orders", "event_booked", count=len(row.tapes)),
        job=row.number,
        quote_sha256=chain.fingerprint(serialization.dumps(quote)),
        promise=quote.promise.day,
        ceiling=quote.price.ceiling_minor,
        number=1,
        version_sha256=row_records.fingerprint(row.agreement[0]),
    )
    for tape in row.tapes:
        found = ", ".join(spoken(each) for each in tape.findings) or "none"
        cold = "yes" if tape.rests_until else "no"
        chain.append(
            unit,
            "tape-booked-in",
            say("orders", "event_tape_booked", cold=cold, findings=found),
            job=row.number,
            tape=tape.code,
            station=tape.station,
            findings=tape.findings,
            rests_until=tape.rests_until,
        )
