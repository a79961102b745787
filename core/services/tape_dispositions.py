"""What becomes of a tape: settled by the one who says so, opened again with the reason."""

from __future__ import annotations

from datetime import datetime

from core.catalogue import moves
from core.model import entered_text
from core.model.dispositions import Disposition
from core.model.errors import Refused, WrongInput
from core.model.incident_records import IncidentKind
from core.model.names import TapeCode
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import incidents, promise_entries, tape_facts, tapes
from core.services.checking import file_checking
from core.store import history, lookup, permissions, row_records
from core.store.steps import step
from core.store.tables import TapeRow
from core.store.unit import Unit
from core.wording.locale_figures import tape_code
from core.wording.messages import say


@step
def settle(
    unit: Unit,
    code: TapeCode,
    disposition: Disposition,
    *,
    note: str = "",
    tell: bool = False,
    happened: datetime | None = None,
) -> TapeRecord:
    """Settles what became of a tape and puts it where such a tape waits to be picked up, or to be told about.

    ``tell``: the note is for the customer; else it is for us, and never spoken or printed. A tape lost or
    damaged needs the note: it opens an incident, for the owner and the insurer; ``happened`` says when.
    Refused for a copied tape without minutes or a file that is signed off, and for one that is settled
    otherwise (see `reopen`).
    """
    row = lookup.tape_in_the_shop(unit, code)
    tapes.check_is_in_the_agreement(row)
    said = entered_text.line(say("tapes", "note"), note)
    _check(unit, row, disposition)
    if disposition.needs_incident:
        _open_incident(unit, row, disposition, said, happened)
        said = ""
    elif happened is not None:
        raise WrongInput(say("incidents", "when"), happened.isoformat(), say("incidents", "when-lost"))
    row.disposition, before = disposition, row.station
    _stand(unit, row, moves.place_of(tape_facts.standing(row), disposition))
    row.note, row.note_is_told = said, tell and bool(said)
    words = say("dispositions", "event-settled", disposition=spoken(disposition), note=said, given=len(said))
    history.append_of_tape(unit, row, "settled", words, note_is_told=row.note_is_told)
    promise_entries.note_finish(unit, row, before)
    unit.session.flush()
    return row_records.tape(row)


@step
def reopen(unit: Unit, code: TapeCode, *, because: str) -> TapeRecord:
    """Takes back what a tape was settled as; it goes back to the shop's work, and the history keeps why.

    Refused for a tape that is not settled; WrongInput without a reason.
    """
    row = lookup.tape_in_the_shop(unit, code)
    tapes.check_is_in_the_agreement(row)
    reason = entered_text.reason(say("dispositions", "why-reopen"), because)
    settled = row_records.disposition(row)
    if settled is None:
        raise Refused(say("dispositions", "not-settled", code=tape_code(row.code)))
    permissions.check_strike(unit, history.last_by(unit, row.code, ("settled", "moved")) or unit.who)
    if settled.needs_incident:
        incidents.enter(unit, row, IncidentKind.FOUND, reason)
    row.disposition = None
    _stand(unit, row, _back_at(row))
    row.note, row.note_is_told = "", False
    words = say("dispositions", "event-reopened", disposition=spoken(settled), reason=reason)
    history.append_of_tape(unit, row, "reopened", words)
    return row_records.tape(row)


def _check(unit: Unit, row: TapeRow, disposition: Disposition) -> None:
    settled, code = row_records.disposition(row), tape_code(row.code)
    if settled is disposition:
        raise Refused(say("dispositions", "settled-so", code=code, disposition=spoken(settled)))
    if settled is not None and not settled.follows_a_move:
        raise Refused(say("dispositions", "settled-otherwise", code=code, disposition=spoken(settled)))
    if disposition.is_copied and not row_records.is_recorded(row):
        raise Refused(say("dispositions", "nothing-copied", code=code, disposition=spoken(disposition)))
    if disposition.is_copied:
        file_checking.check_may_be_ready(unit, row)


def _open_incident(
    unit: Unit, row: TapeRow, disposition: Disposition, said: str, happened: datetime | None
) -> None:
    if not said:
        raise WrongInput(say("tapes", "note"), said, say("incidents", "say-what-happened"))
    incidents.enter(unit, row, IncidentKind(disposition.value), said, happened)


def _stand(unit: Unit, row: TapeRow, there: Station) -> None:
    row.station, row.since, row.deck, row.rests_until = there, unit.now, None, None


def _back_at(row: TapeRow) -> Station:
    """A tape that has played is checked again, another looked over; what harms others stays apart."""
    if row.station is Station.KEPT_APART:
        return row.station
    return Station.LOOKED_OVER if row.played_minutes is None else Station.BEING_CHECKED
