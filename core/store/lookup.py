"""Where a job or a tape is found in the shop's books, by what a person types or scans."""

from __future__ import annotations

from sqlalchemy import Select, Text, bindparam, inspect, or_, select, type_coerce
from sqlalchemy.orm import joinedload, selectinload

from core.model import numbers
from core.model.errors import Refused, WrongInput
from core.model.names import TapeCode
from core.model.stations import Station
from core.store.copy_tables import CopyRow
from core.store.engines import SHOWN
from core.store.job_tables import JobRow
from core.store.shop_tables import ErasureRow
from core.store.tape_tables import DonorRow, RepairRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

IN_THE_SHOP = tuple(station for station in Station if station.is_in_the_shop)
"""Stations of tapes still in the shop's care."""


def where(unit: Unit) -> str:
    """The file of the shop's books, or the address of their server."""
    engine = unit.session.get_bind().engine
    return str(engine.get_execution_options().get(SHOWN) or engine.url.database)


def job_row(unit: Unit, number: str) -> JobRow:
    """The job of a number as typed; WrongInput when it was mistyped or there is none.

    Refused to a step where the customer was erased.
    """
    wanted = numbers.read_job_number(number)
    _check_is_kept(unit, wanted)
    row = unit.session.scalars(_NUMBERED, {"wanted": wanted}).one_or_none()
    if row is None:
        raise WrongInput(say("records", "order_number"), wanted, say("records", "no_such_order"))
    return row


def tape_row(unit: Unit, code: str) -> TapeRow:
    """The tape of a code as scanned; WrongInput when mistyped or there is none. Refused as `job_row` is."""
    wanted = numbers.read_tape_code(code)
    _check_is_kept(unit, wanted)
    row = unit.session.scalars(_CODED, {"wanted": wanted}).one_or_none()
    if row is None:
        raise _no_such_tape(wanted)
    return row


def tape_of_order(unit: Unit, code: str) -> TapeRow:
    """As `tape_row`, with its order read whole: for a step that asks for `order_of` the tape as well."""
    wanted = numbers.read_tape_code(code)
    _check_is_kept(unit, wanted)
    whole = unit.session.scalars(_OF_CODE, {"wanted": wanted}).one_or_none()
    if whole is None:
        raise _no_such_tape(wanted)
    row = next(each for each in whole.tapes if each.code == wanted)
    assert row.job is whole  # kept by its tape from here on, for as long as the tape is
    return row


def _check_is_kept(unit: Unit, code: str) -> None:
    """Refused to a step where the customer was erased: a name would come back with whatever is entered.

    Before anything is written: what a server takes back stays in its files for a while. An order that is open
    all the same, in records older than the erasure, can still be given back.
    """
    kept: set[str] = unit.session.info.setdefault("orders_of_somebody", set())
    number = code[:6]
    if unit.command and number not in kept:
        if unit.session.scalars(_ERASED, {"wanted": number}).first() is not None:
            raise Refused(say("records", "order_erased", number=number))
        kept.add(number)


def _no_such_tape(code: str) -> WrongInput:
    return WrongInput(say("records", "tape_code"), code, say("records", "no_such_tape"))


def tape_in_the_shop(unit: Unit, code: TapeCode) -> TapeRow:
    """The tape of a code; Refused once it was handed back, WrongInput when there is none."""
    row = tape_row(unit, code)
    if row.station is Station.HANDED_BACK:
        day = locale_figures.day(row.since.date())
        raise Refused(say("tapes", "gone_home", code=locale_figures.tape_code(row.code), day=day))
    return row


def order_of(unit: Unit, tape: TapeRow) -> JobRow:
    """The order of a tape at hand, read whole: left to itself each of its tapes is read one by one."""
    if "job" in inspect(tape).dict:
        return tape.job
    whole = unit.session.scalars(_OF_ID, {"wanted": tape.job_id}).one()
    assert tape.job is whole  # kept by its tape from here on, for as long as the tape is
    return whole


def whole_jobs() -> Select[JobRow]:
    """Jobs with all that belongs to them, in as few readings as there are kinds of things on the counter.

    Few tapes have splices or repairs and few copies many steps: they come with them, in the same reading.
    """
    return select(JobRow).options(
        joinedload(JobRow.customer),
        selectinload(JobRow.tapes).options(joinedload(TapeRow.splices), joinedload(TapeRow.repairs)),
        selectinload(JobRow.copies).joinedload(CopyRow.steps),
        selectinload(JobRow.payments),
        selectinload(JobRow.agreement),
    )


def whole_tapes() -> Select[TapeRow]:
    """Tapes with their splices and repairs."""
    return select(TapeRow).options(selectinload(TapeRow.splices), selectinload(TapeRow.repairs))


_NUMBERED = whole_jobs().where(JobRow.number == bindparam("wanted"))
_OF_ID = whole_jobs().where(JobRow.id == bindparam("wanted"))
_OF_CODE = whole_jobs().where(
    JobRow.id == select(TapeRow.job_id).where(TapeRow.code == bindparam("wanted")).scalar_subquery()
)
_ERASED = (
    select(ErasureRow.id)
    .join(JobRow, JobRow.customer_id == ErasureRow.customer_id)
    .where(JobRow.number == bindparam("wanted"))
    .where(~select(TapeRow.id).where(TapeRow.job_id == JobRow.id, TapeRow.station.in_(IN_THE_SHOP)).exists())
    .limit(1)
)
_CODED = whole_tapes().where(TapeRow.code == bindparam("wanted"))
"""Built once: nearly every step begins with one of them."""


def is_booked(unit: Unit, name: str) -> bool:
    """Whether a tape was ever booked under a format of this name, or a donor of it lies on the shelf.

    ``name`` is a key of letters, digits and hyphens: none of them is a wildcard of LIKE.
    """
    drafted = type_coerce(TapeRow.draft, Text)
    named = or_(*(drafted.like(f'%"{key}":"{name}"%') for key in ("format", "recorded_as")))
    booked = unit.session.scalar(select(TapeRow.id).where(named).limit(1))
    return (
        booked is not None
        or unit.session.scalar(select(DonorRow.id).where(DonorRow.format == name)) is not None
    )


def is_found(unit: Unit, name: str) -> bool:
    """Whether a finding of this key was ever booked or seen on a tape, taken back since or not."""
    drafted, found = type_coerce(TapeRow.draft, Text), type_coerce(TapeRow.findings, Text)
    named = or_(drafted.like(f'%"{name}"%'), found.like(f'%"{name}"%'))
    rows = unit.session.execute(select(TapeRow.draft, TapeRow.findings).where(named))
    return any(name in (*draft.findings, *findings) for draft, findings in rows)


def is_repaired_by(unit: Unit, name: str) -> bool:
    """Whether a repair of this code was ever tried on a tape, or is to be done on one."""
    tried = unit.session.scalar(select(RepairRow.id).where(RepairRow.code == name).limit(1))
    planned = type_coerce(TapeRow.verdict, Text).like(f'%"code":"{name}"%')
    return tried is not None or unit.session.scalar(select(TapeRow.id).where(planned).limit(1)) is not None


def is_copied_onto(unit: Unit, name: str) -> bool:
    """Whether copies were ever ordered on a medium of this code."""
    return unit.session.scalar(select(CopyRow.id).where(CopyRow.code == name).limit(1)) is not None


def standing_tapes(row: JobRow) -> list[TapeRow]:
    """The tapes of an order that no version of its agreement left out."""
    return [each for each in row.tapes if each.left_out_in is None]


def standing_copies(row: JobRow) -> list[CopyRow]:
    """The copies of an order that no version of its agreement left out."""
    return [each for each in row.copies if each.left_out_in is None]
