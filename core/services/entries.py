"""What entries of the repair record have in common: a tape in the shop, a reason, a line of history."""

from __future__ import annotations

from core.model.errors import Refused, WrongInput
from core.model.names import TapeCode
from core.model.stations import Station
from core.services import customers
from core.store import history, lookup
from core.store.tables import TapeRow
from core.store.unit import Unit
from core.wording.messages import say


def in_the_shop(unit: Unit, code: TapeCode) -> TapeRow:
    """The tape of a code; Refused once it was handed back, WrongInput when there is none."""
    row = lookup.tape_row(unit, code)
    if row.station is Station.HANDED_BACK:
        raise Refused(say("steps", "tape_handed_back_nothing", code=row.code, since=f"{row.since:%Y-%m-%d}"))
    return row


def reason(place: str, given: str) -> str:
    """A reason in a few words; WrongInput when none was given."""
    said = customers.text(place, given)
    if not said:
        raise WrongInput(place, given, say("steps", "few_words_needed"))
    return said


def tell(unit: Unit, row: TapeRow, kind: str, words: str, **more: object) -> None:
    """One line of the tape's history with what the checks compare, and everything written to the database."""
    history.append(
        unit,
        kind,
        words,
        job=row.code[:6],
        tape=row.code,
        station=row.station,
        findings=row.findings,
        settled=row.settled,
        not_for_reuse=row.not_for_reuse,
        marked=row.marked_at is not None,
        look=row.look,
        label_astray=row.astray_since is not None,
        **more,
    )
    unit.session.flush()
