"""Tapes lost or damaged in the shop: what happened, who was told, how it was settled, line by line for good.

What stands here is for the owner of the tape and the insurer; nothing of it is ever read out to a caller.
"""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import select

from core.catalogue import moves
from core.model import entered_text, serialization
from core.model.dispositions import Disposition
from core.model.errors import Refused, WrongInput
from core.model.incident_records import (
    Incident,
    IncidentKind,
    IncidentLine,
    IncidentStep,
    OpenIncident,
)
from core.model.job_records import Job
from core.model.names import JobNumber, TapeCode
from core.model.own_shop.settings_records import ShopFront
from core.model.stations import Station
from core.services import incident_photos, promise_entries, tape_facts
from core.services.incident_photos import Photo
from core.store import current_settings, history, lookup, row_records
from core.store.steps import special_step, step
from core.store.tables import IncidentRow, TapeRow
from core.store.unit import Unit
from core.wording.locale_figures import tape_code
from core.wording.messages import say

_RELEASES = {
    IncidentKind.TOLD: (Disposition.DAMAGED,),
    IncidentKind.SETTLED: (Disposition.LOST, Disposition.DAMAGED),
}
"""Lines after which the order may be finished: a damaged tape goes home once its owner was told."""


def of_tape(unit: Unit, code: TapeCode) -> Incident | None:
    """Everything written down about a tape lost or damaged; None where nothing is."""
    return of_row(unit, lookup.tape_row(unit, code))


def of_row(unit: Unit, row: TapeRow) -> Incident | None:
    """The same, of a tape at hand."""
    lines = select(IncidentRow).where(IncidentRow.tape_id == row.id).order_by(IncidentRow.id)
    found = tuple(row_records.incident_line(each) for each in unit.session.scalars(lines))
    return Incident(TapeCode(row.code), found) if found else None


def open_ones(unit: Unit) -> tuple[OpenIncident, ...]:
    """Incidents neither settled with the owner nor over: whom nobody has told yet first, then by age."""
    lines: dict[int, list[IncidentLine]] = {}
    for each in unit.session.scalars(select(IncidentRow).order_by(IncidentRow.id)):
        lines.setdefault(each.tape_id, []).append(row_records.incident_line(each))
    rows = unit.session.scalars(select(TapeRow).where(TapeRow.id.in_(lines)))
    found = (_opened(row, Incident(TapeCode(row.code), tuple(lines[row.id]))) for row in rows)
    still_open = [each for each in found if each.incident.is_open]
    return tuple(sorted(still_open, key=_urgency))


def _urgency(each: OpenIncident) -> tuple[bool, datetime, TapeCode]:
    return each.next is not IncidentStep.TELL, each.happened, each.incident.tape


def report(unit: Unit, code: TapeCode) -> tuple[Job, Incident, ShopFront]:
    """What the report of a tape is made of: its order, everything written down, the shop's head of today.

    Refused where nothing is written down.
    """
    row = _with_incident(unit, code)
    return row_records.job(row.job), _known(unit, row), current_settings.read(unit).front


@step
def add(
    unit: Unit, code: TapeCode, kind: IncidentKind, words: str, *, moment: datetime | None = None
) -> Incident:
    """Adds a line to the incident of a tape: more about it, the owner was told, or how it was settled.

    Refused where none is on record (`tape_dispositions.settle` opens one); WrongInput without words, or for a
    moment to come.
    """
    if kind not in (IncidentKind.ADDED, IncidentKind.TOLD, IncidentKind.SETTLED):
        raise WrongInput(say("incidents", "line"), kind.value, say("incidents", "lines-accepted"))
    row = _with_incident(unit, code)
    enter(unit, row, kind, entered_text.reason(say("incidents", "words"), words), moment)
    _release(unit, row, kind)
    return _known(unit, row)


@step
def attach(unit: Unit, code: TapeCode, photo: Photo, words: str = "") -> Incident:
    """Attaches a photo that lies among the shop's photos already. Refused where no incident is on record."""
    row = _with_incident(unit, code)
    said = entered_text.line(say("incidents", "words"), words)
    enter(unit, row, IncidentKind.PHOTO, said, photo=photo)
    return _known(unit, row)


@special_step(asks={"path": str})
def attach_file(unit: Unit, code: TapeCode, path: Path) -> Incident:
    """Copies a photo among the shop's own and attaches it; Refused and WrongInput as `attach`."""
    _with_incident(unit, code)
    return attach(unit, code, incident_photos.keep(path, incident_photos.beside(lookup.where(unit))))


def enter(
    unit: Unit,
    row: TapeRow,
    kind: IncidentKind,
    words: str,
    moment: datetime | None = None,
    *,
    photo: Photo | None = None,
) -> None:
    """Writes one line about a tape at hand, and that it was written into the history."""
    line = IncidentRow(
        tape_id=row.id,
        kind=kind,
        words=words,
        moment=None if moment is None else _past(unit, moment),
        photo=photo.name if photo else None,
        sha256=photo.sha256 if photo else None,
        at=unit.now.astimezone(UTC),
        by=unit.who,
    )
    unit.session.add(line)
    unit.session.flush()
    written = serialization.dumps(row_records.incident_line(line))
    told = say("incidents", f"event-{kind.value}", words=words, photo=line.photo or "")
    history.append_of_tape(
        unit, row, "incident", told, incident=line.id, line_sha256=history.fingerprint(written)
    )


def _opened(row: TapeRow, incident: Incident) -> OpenIncident:
    job, owner = row.job, row.job.customer
    return OpenIncident(incident, JobNumber(job.number), row_records.tape(row), owner.name, owner.phone)


def _past(unit: Unit, moment: datetime) -> datetime:
    if moment > unit.now:
        raise WrongInput(say("incidents", "when"), moment.isoformat(), say("incidents", "not-to-come"))
    return moment.astimezone(UTC)


def _with_incident(unit: Unit, code: TapeCode) -> TapeRow:
    row = lookup.tape_row(unit, code)
    if of_row(unit, row) is None:
        raise Refused(say("incidents", "none", code=tape_code(row.code), typed=row.code))
    return row


def _known(unit: Unit, row: TapeRow) -> Incident:
    found = of_row(unit, row)
    if found is None:
        raise AssertionError("a line was just written")
    return found


def _release(unit: Unit, row: TapeRow, kind: IncidentKind) -> None:
    """Lets the order be finished: the tape need not wait for its owner's answer any more."""
    if row.disposition not in _RELEASES.get(kind, ()) or row.station is not Station.ASKING_THE_CUSTOMER:
        return
    before, is_lost = row.station, row.disposition is Disposition.LOST
    as_if = Disposition.CANNOT_BE_PLAYED if is_lost else Disposition.NOT_WANTED
    row.station, row.since = moves.place_of(tape_facts.standing(row), as_if), unit.now
    history.append_of_tape(unit, row, "settled", say("incidents", "event-released"))
    promise_entries.note_finish(unit, row, before)
