"""Tapes going back to their owner: counted one by one, signed for, spliced ones marked."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import select

from core.model import entered_text, numbers, serialization
from core.model.accounts import payment_methods
from core.model.agreement_records import AgreedHow, Consent
from core.model.errors import Refused, WrongInput
from core.model.job_records import Pickup
from core.model.names import JobNumber, TapeCode
from core.model.quote_records import Price
from core.model.signatures import Signature
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import payments
from core.services.accounts import cash_rounding, settling
from core.services.after_ready import collectors
from core.services.after_ready.collectors import Collected
from core.services.copies import handing_over
from core.store import current_settings, history, lookup, row_records
from core.store.steps import step
from core.store.tables import CopyRow, HandedBackRow, JobRow, PickupRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.locale_figures import tape_code
from core.wording.messages import say

_NAMED = 5
"""How many of the tapes that keep a pickup waiting are named."""


@step
def hand_back(
    unit: Unit,
    number: JobNumber,
    *,
    codes: Sequence[TapeCode] | None,
    copies: Sequence[int] | None,
    signature: Signature,
    paid_minor: int = 0,
    paid_by: str | None = None,
    shown: str | None = None,
    partly: bool = False,
) -> Pickup:
    """Hands tapes and copies back and keeps who signed, what was paid and what is still due.

    ``codes`` None: every tape that is ready to go. ``copies`` (ids) None: every copy that is made and checked
    and holds all it should. ``shown``: what somebody else than the customer showed; None: nobody asked (see
    `collectors.check`). ``paid_by``: one of `payment_methods.METHODS`. ``partly``: a copy
    may go with some of the tapes; the receipt says which, and the rest is made as another one.
    Refused for a tape not ready, of another job, handed back already, or spliced and not marked, and for a
    copy that is not made, not checked, or not whole (see `copies.handing_over`).
    """
    row = lookup.job_row(unit, number)
    signed = _checked(signature)
    collected = collectors.check(unit, row, signed.name, shown)
    going = _ready(unit, row) if codes is None else [_chosen(unit, row, code) for code in _once(codes)]
    for tape in going:
        _check_accounted(tape)
        _check_marked(tape)
    if copies is None:
        pieces = handing_over.all_that_may_go(unit, row, going)
    else:
        pieces = [handing_over.chosen(unit, row, each, going, partly=partly) for each in sorted(set(copies))]
    if not going and not pieces:
        raise Refused(say("handing_back", "nothing_chosen", number=row.number))
    _let_go(unit, going)
    handing_over.let_go(unit, row, pieces)
    return _keep(unit, row, signed, collected, going, pieces, (paid_minor, paid_by))


def latest(unit: Unit, number: JobNumber) -> Pickup | None:
    """The last pickup of a job, as it was signed; None when there was none."""
    found = of_job(unit, number)
    return found[-1] if found else None


def of_job(unit: Unit, number: JobNumber) -> tuple[Pickup, ...]:
    """Every pickup of a job, oldest first, as signed."""
    job = lookup.job_row(unit, number)
    rows = unit.session.scalars(select(PickupRow).where(PickupRow.job_id == job.id).order_by(PickupRow.id))
    return tuple(row.record for row in rows)


def labels_astray(handed: Pickup) -> tuple[str, ...]:
    """A sentence for each tape that went with a not-for-reuse label which no longer belongs on it."""
    return tuple(
        say("handing_back", "label_astray", code=tape_code(tape.code))
        for tape in handed.handed_back
        if tape.label_astray
    )


# --- what goes ---------------------------------------------------------------------------


def _checked(signature: Signature) -> Signature:
    name = entered_text.line(say("handing_back", "signed_by"), signature.name)
    if not name:
        raise WrongInput(
            say("handing_back", "signed_by"), signature.name, say("handing_back", "needs_signer")
        )
    if not all(0 <= x <= 1 and 0 <= y <= 1 for stroke in signature.strokes for x, y in stroke):
        raise WrongInput(
            say("handing_back", "signature"),
            say("handing_back", "stroke_off_pad"),
            say("handing_back", "points"),
        )
    return Signature(name, signature.strokes, signature.aspect)


def _once(codes: Sequence[TapeCode]) -> list[TapeCode]:
    return list(dict.fromkeys(numbers.read_tape_code(code) for code in codes))


def _ready(unit: Unit, row: JobRow) -> list[TapeRow]:
    """Every tape that can go; Refused with the reason when there is none."""
    going = [tape for tape in row.tapes if tape.station.may_go_home]
    if going:
        return going
    staying = [tape for tape in row.tapes if tape.station.is_in_the_shop]
    if not staying:
        raise Refused(say("handing_back", "all_gone", number=row.number, when=_when(unit, row.tapes[-1])))
    where = [
        say("handing_back", "tape_is_at", code=tape_code(each.code), station=spoken(each.station))
        for each in staying[:_NAMED]
    ]
    raise Refused(
        say(
            "handing_back",
            "none_ready",
            number=row.number,
            tapes=locale_figures.listed(where, "unit"),
            more=len(staying[_NAMED:]),
        )
    )


def _chosen(unit: Unit, row: JobRow, code: TapeCode) -> TapeRow:
    tape = next((each for each in row.tapes if each.code == code), None)
    if tape is None:
        other = lookup.tape_row(unit, code)
        raise Refused(
            say(
                "handing_back",
                "other_order",
                code=tape_code(other.code),
                number=row.number,
                other=numbers.job_of(code),
            )
        )
    if tape.station is Station.HANDED_BACK:
        raise Refused(say("handing_back", "gone_already", code=tape_code(code), when=_when(unit, tape)))
    if not tape.station.may_go_home:
        ready = locale_figures.listed([spoken(each) for each in Station if each.may_go_home], "or")
        at = spoken(tape.station)
        raise Refused(say("handing_back", "not_ready", code=tape_code(code), station=at, ready=ready))
    return tape


def _check_accounted(tape: TapeRow) -> None:
    """Refused where a receipt could not say what became of the tape."""
    if tape.station is Station.READY and row_records.disposition(tape) is None:
        raise Refused(say("handing_back", "not_accounted", code=tape_code(tape.code), typed=tape.code))


def _check_marked(tape: TapeRow) -> None:
    if tape.not_for_reuse and tape.marked_at is None:
        raise Refused(say("handing_back", "needs_label", code=tape_code(tape.code), typed=tape.code))


def _when(unit: Unit, tape: TapeRow) -> str:
    taken = (
        select(PickupRow)
        .join(HandedBackRow, HandedBackRow.pickup_id == PickupRow.id)
        .where(HandedBackRow.tape_id == tape.id)
    )
    pickup = unit.session.scalars(taken).one()
    at = current_settings.local(unit, pickup.at)
    return say(
        "handing_back",
        "when_signed",
        who=pickup.signed_by,
        day=locale_figures.day(at.date()),
        time=locale_figures.time_of_day(at),
        by=pickup.by,
    )


# --- keeping it --------------------------------------------------------------------------


def _let_go(unit: Unit, going: Sequence[TapeRow]) -> None:
    for tape in going:
        tape.returned_from, tape.station, tape.since = tape.station, Station.HANDED_BACK, unit.now
        tape.disposition = row_records.disposition(tape)


def _keep(
    unit: Unit,
    row: JobRow,
    signature: Signature,
    collected: Collected,
    going: Sequence[TapeRow],
    pieces: Sequence[CopyRow],
    paid: tuple[int, str | None],
) -> Pickup:
    price = payments.price(unit, row)
    _pay(unit, row, price, *paid)
    record = Pickup(
        job=row_records.job(row),
        at=unit.now,
        by=unit.who,
        signature=signature,
        handed_back=tuple(row_records.tape(tape) for tape in going),
        still_here=tuple(row_records.tape(tape) for tape in row.tapes if tape.station.is_in_the_shop),
        copies=tuple(row_records.copy(piece) for piece in pieces),
        final=price,
        paid_minor=paid[0],
        due_minor=price.due.likely - sum(each.minor for each in row.payments),
        named=collected.named,
        shown=collected.shown,
        head=history.head(unit),
    )
    kept = PickupRow(
        command=unit.command,
        job_id=row.id,
        at=unit.now,
        by=unit.who,
        signed_by=signature.name,
        strokes=signature.strokes,
        record=record,
    )
    unit.session.add(kept)
    unit.session.flush()
    unit.session.add_all([HandedBackRow(tape_id=tape.id, pickup_id=kept.id) for tape in going])
    settling.settle(unit, row, price, Consent(signature.name, AgreedHow.SIGNATURE, signature.strokes))
    _tell(unit, row, record)
    return record


def _pay(unit: Unit, row: JobRow, price: Price, minor: int, method: str | None) -> None:
    is_cash = method == payment_methods.CASH
    due = price.due.likely - sum(each.minor for each in row.payments)
    most = max(0, due, cash_rounding.payable(due, price.currency) if is_cash else 0)
    if not 0 <= minor <= most:
        raise WrongInput(say("handing_back", "paid"), minor, say("handing_back", "paid_bounds", due=most))
    if minor:
        payments.enter(unit, row, payment_methods.BALANCE, minor, method=method)
        if is_cash:
            payments.round_off(unit, row, price.due.likely)


def _event_of(tape: TapeRecord) -> str:
    return "event_tape" if tape.is_returned else "event_not_returned"


def _tell(unit: Unit, row: JobRow, record: Pickup) -> None:
    for tape in record.handed_back:
        history.append(
            unit,
            "handed-back",
            say("handing_back", _event_of(tape), name=record.signature.name),
            job=row.number,
            tape=tape.code,
            station=tape.station,
            not_for_reuse=tape.not_for_reuse,
            marked=tape.marked_at is not None,
            disposition=tape.disposition,
        )
    history.append(
        unit,
        "pickup",
        say(
            "handing_back",
            "event_pickup",
            tapes=len(record.handed_back),
            copies=len(record.copies),
            name=record.signature.name,
        ),
        job=row.number,
        shown=record.shown,
        final=record.final.due.likely,
        due=record.due_minor,
        command=unit.command,
        record_sha256=history.fingerprint(serialization.dumps(record)),
    )
