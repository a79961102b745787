"""Donor cassettes as stock: which shells, reels, lids and screws lie on the shelf, and where from."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Select, select

from core.catalogue import condition
from core.catalogue.formats import catalogue
from core.model import entered_text
from core.model.errors import Refused, WrongInput
from core.model.names import DonorPart, FormatName, TapeCode
from core.model.repair_records import Donor
from core.model.spoken_names import spoken
from core.model.tape_records import JournalEntry
from core.store import history
from core.store.steps import step
from core.store.tables import DonorRow, EventRow, RepairRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say

MOST_AT_ONCE = 1000
"""More parts in one entry are a slip of the finger (an assumption)."""

MOST_TOLD = 20
"""Lines of its history that the shelf tells."""


@dataclass(frozen=True, slots=True)
class UsedPart:
    """One part that went into a tape."""

    tape: TapeCode
    repair: str
    """What was done with it, in words."""
    held: bool
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class DonorPlace:
    """One place on the shelf, which may be empty by now, and what became of its parts."""

    donor: Donor
    used: tuple[UsedPart, ...]


@dataclass(frozen=True, slots=True)
class DonorStock:
    """Everything the shelf holds or held, and what last happened to it, newest first."""

    places: tuple[DonorPlace, ...]
    lately: tuple[JournalEntry, ...]


@step
def add(unit: Unit, name: FormatName, part: DonorPart, count: int, *, came_from: str = "") -> Donor:
    """Puts ``count`` parts on the shelf.

    WrongInput for an unknown format or a count that cannot be.
    """
    catalogue().format(name)  # WrongInput for an unknown one
    if not 0 < count <= MOST_AT_ONCE:
        raise WrongInput(
            say("donors", "place_count"), count, say("donors", "count_to_add", most=MOST_AT_ONCE)
        )
    source = entered_text.line(say("donors", "place_came_from"), came_from)
    row = unit.session.scalars(_of(name, part).where(DonorRow.came_from == source)).one_or_none()
    if row is None:
        row = DonorRow(format=name, part=part, came_from=source, count=0)
        unit.session.add(row)
    row.count += count
    _tell(unit, row, _about(row, "event_put", count=count, where=source, whence=len(source)))
    return _record(row)


def use(unit: Unit, name: FormatName, part: DonorPart) -> DonorRow:
    """Takes one part off the shelf, from the place that was filled first.

    A part fits cassettes of its own format only (trade: United Visual). Refused, with the way out, when
    there is none.
    """
    row = unit.session.scalars(_of(name, part).where(DonorRow.count > 0)).first()
    if row is None:
        raise Refused(
            say(
                "donors",
                "none_left_to_use",
                format=catalogue().format(name).words,
                part=spoken(part),
                typed_format=name,
                typed_part=spoken(part),
            )
        )
    row.count -= 1
    _tell(unit, row, _about(row, "event_used"))
    return row


def put_back(unit: Unit, donor_id: int) -> None:
    """A part whose use was entered by mistake lies on the shelf again."""
    row = unit.session.get_one(DonorRow, donor_id)
    row.count += 1
    _tell(unit, row, _about(row, "event_put_back"))


@step
def correct(
    unit: Unit, name: FormatName, part: DonorPart, count: int, *, came_from: str, because: str
) -> Donor:
    """Says how many parts really lie at a place; the difference is an entry with its reason.

    WrongInput without a reason or for a count that cannot be; Refused where nothing of the kind was ever put,
    or as many lie there already.
    """
    said = entered_text.reason(say("donors", "why_correct"), because)
    if not 0 <= count <= MOST_AT_ONCE:
        raise WrongInput(say("donors", "place_count"), count, say("donors", "count_there", most=MOST_AT_ONCE))
    source = entered_text.line(say("donors", "place_came_from"), came_from)
    row = unit.session.scalars(_of(name, part).where(DonorRow.came_from == source)).one_or_none()
    if row is None:
        words = catalogue().format(name).words
        raise Refused(say("donors", "never_there", format=words, part=spoken(part)))
    if row.count == count:
        raise Refused(_about(row, "counted_already", count=count))
    before, row.count = row.count, count
    told = {"count": count, "before": before, "reason": said}
    _tell(unit, row, _about(row, "event_corrected", where=source, whence=len(source), **told))
    return _record(row)


def shelf(unit: Unit) -> DonorStock:
    """The whole shelf by format and part, with the tapes its parts went into."""
    used: dict[int, list[UsedPart]] = {}
    rows = unit.session.execute(
        select(RepairRow, TapeRow.code, TapeRow.draft)
        .join(TapeRow, TapeRow.id == RepairRow.tape_id)
        .where(RepairRow.donor_id.is_not(None), RepairRow.struck_at.is_(None))
        .order_by(RepairRow.id)
    )
    for row, code, draft in rows:
        words = condition.repair(row.code, draft.format).words
        used.setdefault(row.donor_id or 0, []).append(
            UsedPart(TapeCode(code), words, row.succeeded, row.by, row.at)
        )
    places = unit.session.scalars(select(DonorRow).order_by(DonorRow.format, DonorRow.part, DonorRow.id))
    told = (
        select(EventRow).where(EventRow.kind == history.DONOR).order_by(EventRow.seq.desc()).limit(MOST_TOLD)
    )
    return DonorStock(
        tuple(DonorPlace(_record(row), tuple(used.get(row.id, ()))) for row in places),
        history.happenings(unit.session.scalars(told)),
    )


def stock(unit: Unit) -> tuple[Donor, ...]:
    """Every place on the shelf that holds a part, by format and part."""
    rows = unit.session.scalars(
        select(DonorRow).where(DonorRow.count > 0).order_by(DonorRow.format, DonorRow.part, DonorRow.id)
    )
    return tuple(_record(row) for row in rows)


def fitting(unit: Unit, name: FormatName) -> dict[DonorPart, int]:
    """How many parts of each kind there are for cassettes of one format."""
    left = dict.fromkeys(DonorPart, 0)
    for each in stock(unit):
        if each.format == name:
            left[each.part] += each.count
    return left


def count_again(unit: Unit, places: Collection[int]) -> None:
    """Says anew what lies in these places of the shelf, whose lines of history were emptied."""
    for key in sorted(places):
        row = unit.session.get_one(DonorRow, key)
        _tell(unit, row, _about(row, "event_left", left=row.count))


def _of(name: FormatName, part: DonorPart) -> Select[DonorRow]:
    return select(DonorRow).where(DonorRow.format == name, DonorRow.part == part).order_by(DonorRow.id)


def _record(row: DonorRow) -> Donor:
    return Donor(row.format, row.part, row.came_from, row.count)


def _about(row: DonorRow, sentence: str, **blanks: Any) -> str:
    """One sentence about the parts of a place on the shelf."""
    format_words = catalogue().format(row.format).words
    return say("donors", sentence, format=format_words, part=spoken(row.part), **blanks)


def _tell(unit: Unit, row: DonorRow, words: str) -> None:
    unit.session.flush()
    history.append(unit, history.DONOR, words, donor=row.id, left=row.count)
    unit.session.flush()
