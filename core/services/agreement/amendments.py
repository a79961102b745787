"""A booked order opened again: tapes added, left out or described anew, copies, wish, rush and customer
changed.

A code is on its cassette and never changes; a new cassette gets the next one. What is added is priced from
the price book of the order, as all of it. The ceiling moves by as much as the estimate does, unless another
one was agreed. What was found at the bench stays found.
"""

from __future__ import annotations

from dataclasses import replace

from core.model.agreement_records import AgreementKind, Consent
from core.model.errors import Refused, WrongInput
from core.model.inventory import MOST_TAPES, Inventory
from core.model.names import JobNumber, TapeCode
from core.pricing.amendment_records import Amended, Amendment, OpenedOrder
from core.services import customers, deck_queue, payments, promise_entries, promises
from core.services.agreement import (
    agreement_versions,
    ceiling_watch,
    ordered_copies,
    standing_quote,
    tape_changes,
)
from core.services.agreement.agreement_versions import NewVersion
from core.store import current_settings, history, lookup, row_records
from core.store.steps import step
from core.store.tables import JobRow
from core.store.unit import Unit
from core.wording.locale_figures import tape_code
from core.wording.messages import say


def opened(unit: Unit, number: JobNumber) -> OpenedOrder:
    """An order to be changed. Refused when all of it is home or was called off."""
    row = lookup.job_row(unit, number)
    _check_open(row)
    version = agreement_versions.of_row(row)[-1]
    lines: list[list[TapeCode]] = [[] for _ in version.inventory.lines]
    for code, tape in zip(version.codes, version.quote.tapes, strict=True):
        lines[tape.line - 1].append(code)
    return OpenedOrder(row_records.job(row), version, tuple(map(tuple, lines)))


def tried(unit: Unit, number: JobNumber, wanted: Amendment) -> Amended:
    """`amend` as it would be if somebody agreed; for a transaction that is taken back."""
    who = lookup.job_row(unit, number).customer.name
    return amend(unit, number, wanted, reason=say("agreement", "trial"), consent=Consent(who))


@step
def amend(
    unit: Unit,
    number: JobNumber,
    wanted: Amendment,
    *,
    reason: str,
    consent: Consent,
    based_on: int | None = None,
) -> Amended:
    """Describes a booked order anew, as the next version of its agreement.

    Refused when all of it is home or was called off, and where a tape would be left out that was copied or is
    home; WrongInput without a reason or who agreed, or for a code of another order.
    """
    row = lookup.job_row(unit, number)
    said, consent = agreement_versions.checked_reason(reason), agreement_versions.checked_consent(consent)
    agreement_versions.check_newest(row, based_on)
    _check(unit, row, wanted)
    was = _estimate(unit, row)
    questions = ceiling_watch.open_questions(unit, row)
    tape_changes.change(unit, row, wanted.inventory, wanted.codes, said)
    changed = _change_customer(unit, row, wanted.inventory)
    row.rush = wanted.inventory.rush
    before = row_records.quote(row).inventory.customer
    inventory = replace(wanted.inventory, customer=wanted.inventory.customer if changed else before)
    exempt = inventory.tax_exempt or row_records.job(row).tax_exempt
    quote = standing_quote.of(unit, row, inventory, exempt=exempt)
    storage = ordered_copies.change(unit, row, inventory.deliver, quote.tapes)
    promise = promises.as_it_looks(unit, row)
    promise_entries.enter(unit, row, promise, said, consent.who)
    row.promise = promise
    quote = standing_quote.of(unit, row, inventory, storage, exempt)
    held = agreement_versions.current(row).ceiling_minor
    ceiling = wanted.ceiling_minor
    draft = NewVersion(
        AgreementKind.REVISED,
        said,
        consent,
        quote=quote,
        codes=standing_quote.codes(row),
        ceiling_minor=max(0, held + quote.price.ceiling_minor - was) if ceiling is None else ceiling,
        promise=promise,
        tax_exempt=None if exempt == row_records.job(row).tax_exempt else exempt,
    )
    agreement_versions.enter(unit, row, draft)
    ceiling_watch.send_on(unit, row, questions)
    ceiling_watch.keep_asking(unit, row)
    unit.session.flush()
    return _amended(row)


def _amended(row: JobRow) -> Amended:
    *_, before, now = agreement_versions.of_row(row)
    return Amended(row_records.job(row), now, before)


def _estimate(unit: Unit, row: JobRow) -> int:
    """What the ceiling of the order would be if it were quoted now."""
    habits = deck_queue.habits_of_order(unit, row.id)
    return payments.price_of(
        unit, row, lookup.standing_tapes(row), ceiling_minor=None, habits=habits
    ).ceiling_minor


def _check_open(row: JobRow) -> None:
    if not any(each.station.is_in_the_shop for each in lookup.standing_tapes(row)):
        raise Refused(say("agreement", "nothing_to_amend", number=row.number))


def _check(unit: Unit, row: JobRow, wanted: Amendment) -> None:
    _check_open(row)
    count = sum(line.count for line in wanted.inventory.lines)
    if not 1 <= count <= MOST_TAPES:
        raise WrongInput(say("orders", "tapes"), count, say("orders", "number_of_tapes", most=MOST_TAPES))
    standing = {each.code for each in lookup.standing_tapes(row)}
    for line, codes in zip(wanted.inventory.lines, wanted.codes, strict=False):
        for code in codes:
            if code not in standing:
                raise Refused(say("agreement", "not_of_order", code=tape_code(code), number=row.number))
        if len(codes) > line.count:
            raise WrongInput(
                say("records", "tape_code"), len(codes), say("agreement", "codes_fit", n=line.count)
            )
    if wanted.ceiling_minor is not None and not 0 <= wanted.ceiling_minor <= payments.MOST_MINOR:
        raise WrongInput(say("orders", "ceiling"), wanted.ceiling_minor, say("orders", "amount_not_negative"))


def _change_customer(unit: Unit, row: JobRow, box: Inventory) -> bool:
    """Whether the order goes to another person; `jobs.correct_customer` puts a slip of the pen right."""
    if box.customer is None:
        return False
    before, country = row.customer, current_settings.read(unit).country
    row.customer = customers.enrol(unit, box.customer, country=country)
    if row.customer is before:
        return False
    words = say("agreement", "event_customer", was=before.name, now=row.customer.name)
    history.append(unit, "customer-changed", words, job=row.number)
    return True
