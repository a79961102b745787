"""Takes a customer out of the records for good; what the books need stays, and everything stays verifiable.

Names, numbers, signatures, labels and notes go from the tables, from the lines of history and from drafts;
the orders stay with their sums, minutes and dates. The history says who erased and when, not whom. A line
that was emptied keeps its digest: words go into it only by way of a salted digest, whose salt goes with them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import delete, select, text, update

from core.model import folding
from core.model.errors import Refused, Unavailable, WrongInput
from core.model.own_shop.settings_records import Permission
from core.services import incident_photos, payments
from core.store import history, permissions, personal_columns, row_digests, row_records, search
from core.store.audits import row_audit
from core.store.command_tables import CommandAnswerRow, CommandRow
from core.store.tables import CustomerRow, DraftRow, ErasureRow, EventRow, IncidentRow, JobRow, TapeRow
from core.store.unit import Unit
from core.wording.locale_figures import listed
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop


@dataclass(frozen=True, slots=True)
class Erased:
    """What an erasure took out: the orders that stay without a name, the files that went."""

    orders: tuple[str, ...]
    photos: tuple[str, ...]
    files: tuple[Path, ...] = ()
    """Papers and photos that were removed."""


@dataclass(frozen=True, slots=True)
class Meant:
    """Who would be erased, with which orders."""

    name: str
    orders: tuple[str, ...]


def would_erase(unit: Unit, who: str) -> Meant:
    """Who `erase` would take out; refused as that would be."""
    permissions.check(unit, Permission.ERASE)
    customer = meant(unit, who)
    jobs = _jobs(unit, customer)
    _check_done(unit, jobs)
    return Meant(customer.name, tuple(job.number for job in jobs))


def erase(shop: Shop, who: str, papers: Sequence[Path] = ()) -> Erased:
    """Erases the one customer that ``who`` names (order number, phone or whole name), with their papers.

    The places the records leave free are overwritten as well. NotPermitted without the right; Refused while
    an order of theirs is open or unpaid, or where the records do not agree with their history; WrongInput
    unless exactly one customer is meant. Unavailable when only the overwriting or the papers failed.
    """
    done = shop.run(erase_rows, who)
    shop.scrub()
    photos = [incident_photos.beside(shop.where) / name for name in done.photos]
    kept = [path for folder in papers for number in done.orders for path in folder.glob(f"*-{number}*")]
    return Erased(done.orders, done.photos, tuple(_removed([*photos, *sorted(kept)])))


def erase_rows(unit: Unit, who: str) -> Erased:
    """`erase`, as far as the tables and the history go."""
    permissions.check(unit, Permission.ERASE)
    customer = meant(unit, who)
    jobs = _jobs(unit, customer)
    if _is_erased(unit, customer):
        return Erased(tuple(job.number for job in jobs), ())
    _check_done(unit, jobs)
    if wrong := next(iter(row_audit.differences(unit)), None):
        raise Refused(say("privacy", "not-sound", problem=wrong))
    photos = _photos(unit, [job.id for job in jobs])
    numbers = tuple(job.number for job in jobs)
    erasure = ErasureRow(customer_id=customer.id, is_open=True, at=unit.now, by=unit.who)
    unit.session.add(erasure)
    _throw_drafts_away(unit, customer)
    unit.session.flush()
    _forget_commands(unit)
    lines = _empty_lines(unit, numbers)
    _empty_rows(unit, customer.id, [job.id for job in jobs])
    unit.session.expire_all()
    erasure.is_open = False
    words = say("privacy", "event", n=len(numbers))
    history.append(unit, history.ERASED, words, customer=customer.id, orders=numbers, lines=lines)
    unit.memory.clear()
    return Erased(numbers, photos)


def meant(unit: Unit, who: str) -> CustomerRow:
    """The one customer of an order number, a phone number or a whole name; WrongInput for none or several."""
    found = [job for job, matched in search.jobs(unit, who) if matched != "similar-name"]
    asked = select(CustomerRow).join(JobRow, JobRow.customer_id == CustomerRow.id).where(JobRow.id.in_(found))
    people = list(unit.session.scalars(asked.distinct().order_by(CustomerRow.id)))
    whole = [each for each in people if each.folded == folding.folded(who)] or people
    if len(whole) != 1:
        raise WrongInput(say("privacy", "customer"), who, say("privacy", "one-customer", n=len(whole)))
    return whole[0]


def _jobs(unit: Unit, customer: CustomerRow) -> tuple[JobRow, ...]:
    theirs = select(JobRow).where(JobRow.customer_id == customer.id).order_by(JobRow.id)
    return tuple(unit.session.scalars(theirs))


def _check_done(unit: Unit, jobs: Sequence[JobRow]) -> None:
    """Refused while a tape is here or money is owed: then the name is needed."""
    records = [(row, row_records.job(row)) for row in jobs]
    open_ones = [job.number for _, job in records if job.is_open]
    if open_ones:
        raise Refused(say("privacy", "still-open", orders=listed(open_ones), n=len(open_ones)))
    owing = [job.number for row, job in records if payments.price(unit, row).due.likely > job.paid_minor]
    if owing:
        raise Refused(say("privacy", "still-owing", orders=listed(owing), n=len(owing)))


def _photos(unit: Unit, jobs: Sequence[int]) -> tuple[str, ...]:
    asked = select(IncidentRow.photo).join(TapeRow, TapeRow.id == IncidentRow.tape_id)
    theirs = asked.where(TapeRow.job_id.in_(jobs), IncidentRow.photo.is_not(None))
    return tuple(name for name in unit.session.scalars(theirs.distinct()) if name)


def _throw_drafts_away(unit: Unit, customer: CustomerRow) -> None:
    for row in unit.session.scalars(select(DraftRow)):
        written = row.written
        is_theirs = customer.folded and customer.folded in folding.folded(written)
        if is_theirs or (customer.digits and customer.digits in folding.digits(written)):
            unit.session.delete(row)


def _is_erased(unit: Unit, customer: CustomerRow) -> bool:
    found = select(ErasureRow.id).where(ErasureRow.customer_id == customer.id)
    return unit.session.scalars(found.limit(1)).first() is not None


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
    (row,) = session.execute(text("SELECT * FROM customers WHERE id = :id"), {"id": customer}).mappings()
    gone = personal_columns.without_person("customers", dict(row), mark)
    personal_columns.change(session, "customers", customer, {**gone, "salt": row_digests.new_salt()})
    for name in row_digests.tables(session.connection()):
        for key, held in list(personal_columns.rows_of(session, name, jobs)):
            changed = personal_columns.without_person(name, held, mark)
            salt = {"salt": row_digests.new_salt()} if name == "jobs" else {}
            personal_columns.change(session, name, key, {**changed, **salt})


def _removed(paths: Sequence[Path]) -> list[Path]:
    """The files that were there and are gone; Unavailable, naming the first one that stays."""
    there = [path for path in paths if path.is_file()]
    for path in there:
        try:
            path.unlink()
        except OSError as error:
            raise Unavailable(say("privacy", "paper-stays", path=path, why=error.strerror or "")) from error
    return there
