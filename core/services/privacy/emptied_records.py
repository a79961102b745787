"""A customer's words taken out of every table and every line of history, in the transaction of one step."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from sqlalchemy import delete, select, update

from core.model import folding
from core.services import donors
from core.services.privacy import paper_places, shop_notes
from core.services.privacy.paper_places import PaperPlace
from core.services.privacy.shop_notes import NamedPerson
from core.store import columns, history, personal_columns, row_digests
from core.store.command_tables import CommandAnswerRow, CommandRow
from core.store.shop_files import erased_orders
from core.store.tables import CustomerRow, DraftRow, ErasureRow, EventRow, IncidentRow, JobRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say

EXPORTED = "customer-exported"
"""Of the lines of history that say where a customer's data were written to."""


@dataclass(frozen=True, slots=True)
class Emptied:
    """What stood in the records: orders that stay without a name, and files outside of the records."""

    orders: tuple[str, ...]
    photos: tuple[str, ...] = ()
    """Names in the shop's folder of photos."""
    exported: tuple[str, ...] = ()
    """Where the customer's data were written to at somebody's wish."""
    elsewhere: tuple[PaperPlace, ...] = ()
    """Where papers were written to apart from the shop's own folder."""


def empty(unit: Unit, customer: CustomerRow, jobs: Sequence[JobRow]) -> Emptied:
    """Empties what is kept of a customer, whose orders ``jobs`` are, and says so in the history."""
    numbers = tuple(job.number for job in jobs)
    found = Emptied(
        numbers,
        _photos(unit, [job.id for job in jobs]),
        _exported(unit, numbers),
        paper_places.of_orders(unit, numbers),
    )
    person = NamedPerson.of(customer.name, customer.digits)
    erasure = ErasureRow(customer_id=customer.id, is_open=True, at=unit.now, by=unit.who)
    unit.session.add(erasure)
    _throw_drafts_away(unit, customer)
    unit.session.flush()
    _forget_commands(unit)
    lines = _empty_lines(unit, numbers)
    _empty_rows(unit, customer.id, [job.id for job in jobs])
    more, shelf = shop_notes.take_out(unit, person, say("privacy", "erased-name"))
    lines += more
    donors.count_again(unit, shelf)
    unit.session.expire_all()
    erasure.is_open = False
    words = say("privacy", "event", n=len(numbers))
    history.append(unit, history.ERASED, words, customer=customer.id, orders=numbers, lines=lines)
    unit.memory.clear()
    columns.forget_records()
    return found


def empty_again(unit: Unit, orders: Collection[str]) -> Emptied:
    """Erases whoever one of these orders belongs to (marks of `erased_orders`), also while it is open: they
    were erased after these records were copied. Nothing for orders that are not there."""
    gone: list[Emptied] = []
    known = unit.session.execute(select(JobRow.number, JobRow.booked_at, JobRow.customer_id))
    theirs = {row.customer_id for row in known if erased_orders.mark(row.number, row.booked_at) in orders}
    for key in sorted(theirs):
        customer = unit.session.get_one(CustomerRow, key)
        if not is_emptied(unit, customer):
            gone.append(empty(unit, customer, orders_of(unit, customer)))
    return Emptied(
        tuple(order for each in gone for order in each.orders),
        tuple(photo for each in gone for photo in each.photos),
        tuple(file for each in gone for file in each.exported),
        tuple(dict.fromkeys(place for each in gone for place in each.elsewhere)),
    )


def orders_of(unit: Unit, customer: CustomerRow) -> tuple[JobRow, ...]:
    """The orders of a customer, oldest first."""
    theirs = select(JobRow).where(JobRow.customer_id == customer.id).order_by(JobRow.id)
    return tuple(unit.session.scalars(theirs))


def is_emptied(unit: Unit, customer: CustomerRow) -> bool:
    """Whether the customer was erased before."""
    found = select(ErasureRow.id).where(ErasureRow.customer_id == customer.id)
    return unit.session.scalars(found.limit(1)).first() is not None


def _photos(unit: Unit, jobs: Sequence[int]) -> tuple[str, ...]:
    asked = select(IncidentRow.photo).join(TapeRow, TapeRow.id == IncidentRow.tape_id)
    theirs = asked.where(TapeRow.job_id.in_(jobs), IncidentRow.photo.is_not(None))
    return tuple(name for name in unit.session.scalars(theirs.distinct()) if name)


def _exported(unit: Unit, numbers: Sequence[str]) -> tuple[str, ...]:
    told = select(EventRow.payload).where(EventRow.job.in_(numbers), EventRow.kind == EXPORTED)
    files = [str(history.payload_of(payload).get("file", "")) for payload in unit.session.scalars(told)]
    return tuple(dict.fromkeys(each for each in files if each))


def _throw_drafts_away(unit: Unit, customer: CustomerRow) -> None:
    for row in unit.session.scalars(select(DraftRow)):
        written = row.written
        is_theirs = customer.folded and customer.folded in folding.folded(written)
        if is_theirs or (customer.digits and customer.digits in folding.digits(written)):
            unit.session.delete(row)


def _forget_commands(unit: Unit) -> None:
    """No answer is given again, and nobody can try what an id was used for: both may tell of the customer."""
    unit.session.execute(delete(CommandAnswerRow))
    known = CommandRow.content.is_not(None)
    ids = unit.session.scalars(select(CommandRow.command).where(known)).all()
    forgotten = update(CommandRow).where(known).values(content=None, salt=row_digests.new_salt())
    unit.session.execute(forgotten.execution_options(synchronize_session=False))
    row_digests.mark(unit.session, "commands", ids)


def _empty_lines(unit: Unit, numbers: Sequence[str]) -> list[int]:
    """Takes words and salt from every line about these orders; gives the numbers of the lines."""
    mine = EventRow.job.in_(numbers) & EventRow.salt.is_not(None)
    lines = list(unit.session.scalars(select(EventRow.seq).where(mine).order_by(EventRow.seq)))
    words, payload = history.ERASED_WORDS
    emptied = update(EventRow).where(mine).values(words=words, payload=payload, salt=None)
    unit.session.execute(emptied.execution_options(synchronize_session=False))
    return lines


def _empty_rows(unit: Unit, customer: int, jobs: list[int]) -> None:
    """Every row of theirs without the person, under a new salt: the old digests tell nobody anything."""
    mark, session = say("privacy", "erased-name"), unit.session
    row = personal_columns.customer_row(session, customer)
    gone = personal_columns.without_person("customers", row, mark)
    personal_columns.change(session, "customers", customer, {**gone, "salt": row_digests.new_salt()})
    for name in row_digests.tables(session.connection()):
        for key, held in list(personal_columns.rows_of(session, name, jobs)):
            changed = personal_columns.without_person(name, held, mark)
            salt = {"salt": row_digests.new_salt()} if name == "jobs" else {}
            personal_columns.change(session, name, key, {**changed, **salt})
