"""Donor cassettes as stock: which shells, reels, lids and screws lie on the shelf, and where from."""

from __future__ import annotations

from sqlalchemy import Select, select

from core import customers, history
from core.errors import Refused, WrongInput
from core.formats import catalogue
from core.names import DonorPart, FormatName
from core.records import Donor
from core.tables import DonorRow
from core.unit import Unit

MOST_AT_ONCE = 1000
"""More parts in one entry are a slip of the finger (an assumption)."""


def add(unit: Unit, name: FormatName, part: DonorPart, count: int, *, came_from: str = "") -> Donor:
    """Puts ``count`` parts on the shelf.

    WrongInput for an unknown format or a count that cannot be.
    """
    words = catalogue().format(name).words
    if not 0 < count <= MOST_AT_ONCE:
        raise WrongInput("count", count, f"from 1 to {MOST_AT_ONCE} parts are accepted")
    source = customers.text("came from", came_from)
    row = unit.session.scalars(_of(name, part).where(DonorRow.came_from == source)).one_or_none()
    if row is None:
        row = DonorRow(format=name, part=part, came_from=source, count=0)
        unit.session.add(row)
    row.count += count
    said = f" from {source}" if source else ""
    _tell(unit, row, f"{count} × {words} {part.value} put on the shelf{said}")
    return _record(row)


def use(unit: Unit, name: FormatName, part: DonorPart) -> DonorRow:
    """Takes one part off the shelf, from the place that was filled first.

    A part fits cassettes of its own format only (trade: United Visual). Refused, with the way out, when
    there is none.
    """
    row = unit.session.scalars(_of(name, part).where(DonorRow.count > 0)).first()
    if row is None:
        words = catalogue().format(name).words
        raise Refused(
            f"No {words} {part.value} is left on the shelf. Put the donors on the shelf first "
            f"(donors --add {name} {part.value} N), or record that the part came from elsewhere."
        )
    row.count -= 1
    _tell(unit, row, f"one {part.value} taken off the shelf")
    return row


def put_back(unit: Unit, donor_id: int) -> None:
    """A part whose use was entered by mistake lies on the shelf again."""
    row = unit.session.get_one(DonorRow, donor_id)
    row.count += 1
    _tell(unit, row, f"one {row.part.value} put back on the shelf")


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


def _of(name: FormatName, part: DonorPart) -> Select[DonorRow]:
    return select(DonorRow).where(DonorRow.format == name, DonorRow.part == part).order_by(DonorRow.id)


def _record(row: DonorRow) -> Donor:
    return Donor(row.format, row.part, row.came_from, row.count)


def _tell(unit: Unit, row: DonorRow, words: str) -> None:
    unit.session.flush()
    history.append(unit, "donor", words, donor=row.id, left=row.count)
    unit.session.flush()
