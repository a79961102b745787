"""Tapes going back to their owner: counted one by one, signed for, spliced ones marked."""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import select

from core.model import entered_text, numbers, serialization
from core.model.errors import Refused, WrongInput
from core.model.job_records import Pickup
from core.model.names import CommandId, JobNumber, TapeCode
from core.model.quote_records import Price
from core.model.signatures import Signature
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.services import payments
from core.store import current_settings, history, lookup, row_records
from core.store.tables import CopyRow, HandedBackRow, JobRow, PickupRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say


def hand_back(
    unit: Unit,
    number: JobNumber,
    *,
    codes: Sequence[TapeCode] | None,
    copies: Sequence[int] | None,
    signature: Signature,
    paid_minor: int = 0,
    command: CommandId,
) -> Pickup:
    """Hands tapes and copies back and keeps who signed, what was paid and what is still due.

    ``codes`` None: every tape that is ready to go. ``copies`` (ids) None: all pieces not yet handed over, at
    the first pickup and when no tape stays behind. The same command again returns what it did the first time.
    Refused for a tape not ready, of another job, handed back already, or spliced and not marked.
    """
    if (done := _done_by(unit, command)) is not None:
        return done
    row = lookup.job_row(unit, number)
    signed = _checked(signature)
    going = _ready(unit, row) if codes is None else [_chosen(unit, row, code) for code in _once(codes)]
    for tape in going:
        _check_marked(tape)
    pieces = _all_copies(unit, row, going) if copies is None else [_piece(row, each) for each in set(copies)]
    if not going and not pieces:
        raise Refused(say("steps", "nothing_job_chosen_handed", number=row.number))
    _let_go(unit, going, pieces)
    return _keep(unit, row, command, signed, going, pieces, paid_minor)


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
        say("steps", "tape_carries_reuse_label", code=tape.code)
        for tape in handed.handed_back
        if tape.label_astray
    )


# --- what goes ---------------------------------------------------------------------------


def _done_by(unit: Unit, command: CommandId) -> Pickup | None:
    return unit.session.scalars(select(PickupRow.record).where(PickupRow.command == command)).one_or_none()


def _checked(signature: Signature) -> Signature:
    name = entered_text.line("signed by", signature.name)
    if not name:
        raise WrongInput(say("steps", "signed"), signature.name, say("steps", "name_person_who_takes"))
    if not all(0 <= x <= 1 and 0 <= y <= 1 for stroke in signature.strokes for x, y in stroke):
        raise WrongInput("signature", say("steps", "stroke_off_pad"), say("steps", "points_accepted"))
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
        raise Refused(say("steps", "all_tapes_job_gone", number=row.number, when=_when(unit, row.tapes[-1])))
    where = ", ".join(f"{tape.code} is {spoken(tape.station)}" for tape in staying[:5])
    raise Refused(
        say("steps", "tape_job_ready_go", number=row.number, where=where, value="…" if staying[5:] else "")
    )


def _chosen(unit: Unit, row: JobRow, code: TapeCode) -> TapeRow:
    tape = next((each for each in row.tapes if each.code == code), None)
    if tape is None:
        other = lookup.tape_row(unit, code)
        raise Refused(
            say("steps", "tape_job_but_job", code=other.code, number=row.number, job_of=numbers.job_of(code))
        )
    if not tape.station.is_in_the_shop:
        raise Refused(say("steps", "tape_handed_back_before", code=code, when=_when(unit, tape)))
    if not tape.station.may_go_home:
        ready = ", ".join(spoken(each) for each in Station if each.may_go_home)
        raise Refused(say("steps", "tape_tape_goes_back", code=code, words=spoken(tape.station), ready=ready))
    return tape


def _check_marked(tape: TapeRow) -> None:
    if tape.not_for_reuse and tape.marked_at is None:
        raise Refused(say("steps", "tape_spliced_reuse_label", code=tape.code, code_2=tape.code))


def _when(unit: Unit, tape: TapeRow) -> str:
    taken = (
        select(PickupRow)
        .join(HandedBackRow, HandedBackRow.pickup_id == PickupRow.id)
        .where(HandedBackRow.tape_id == tape.id)
    )
    pickup = unit.session.scalars(taken).one()
    at = current_settings.local(unit, pickup.at)
    return say(
        "steps",
        "signed_handed_over",
        signed_by=pickup.signed_by,
        at=f"{at:%Y-%m-%d}",
        at_2=f"{at:%H:%M}",
        by=pickup.by,
    )


def _all_copies(unit: Unit, row: JobRow, going: Sequence[TapeRow]) -> list[CopyRow]:
    """The copies go with the first tapes, and whatever is left goes with the last."""
    staying = [tape for tape in row.tapes if tape.station.is_in_the_shop and tape not in going]
    is_first = not unit.session.scalars(select(PickupRow.id).where(PickupRow.job_id == row.id)).first()
    if staying and not is_first:
        return []
    return [piece for piece in row.copies if piece.handed_back_at is None]


def _piece(row: JobRow, wanted: int) -> CopyRow:
    piece = next((each for each in row.copies if each.id == wanted), None)
    if piece is None:
        raise WrongInput("copy", wanted, f"job {row.number} has {_ids(row)}")
    if piece.handed_back_at is not None:
        raise Refused(
            say(
                "steps",
                "copy_handed_over",
                words=piece.words,
                wanted=wanted,
                handed_back_at=f"{piece.handed_back_at:%Y-%m-%d}",
            )
        )
    return piece


def _ids(row: JobRow) -> str:
    return (
        say("steps", "copies_2", copies=", ".join(str(each.id) for each in row.copies))
        if row.copies
        else say("steps", "copies")
    )


# --- keeping it --------------------------------------------------------------------------


def _let_go(unit: Unit, going: Sequence[TapeRow], pieces: Sequence[CopyRow]) -> None:
    for tape in going:
        tape.returned_from, tape.station, tape.since = tape.station, Station.HANDED_BACK, unit.now
    for piece in pieces:
        piece.handed_back_at = unit.now


def _keep(
    unit: Unit,
    row: JobRow,
    command: CommandId,
    signature: Signature,
    going: Sequence[TapeRow],
    pieces: Sequence[CopyRow],
    paid_minor: int,
) -> Pickup:
    price = payments.price(unit, row)
    _pay(unit, row, price, paid_minor)
    record = Pickup(
        job=row_records.job(row),
        at=unit.now,
        by=unit.who,
        signature=signature,
        handed_back=tuple(row_records.tape(tape) for tape in going),
        still_here=tuple(row_records.tape(tape) for tape in row.tapes if tape.station.is_in_the_shop),
        copies=tuple(row_records.copy(piece) for piece in pieces),
        final=price,
        paid_minor=paid_minor,
        due_minor=price.gross.likely - sum(each.minor for each in row.payments),
    )
    kept = PickupRow(
        command=command,
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
    _tell(unit, row, record, command)
    return record


def _pay(unit: Unit, row: JobRow, price: Price, minor: int) -> None:
    due = price.gross.likely - sum(each.minor for each in row.payments)
    if not 0 <= minor <= max(0, due):
        raise WrongInput("paid", minor, say("steps", "minor_units_still_due", due=max(0, due)))
    if minor:
        payments.enter(unit, row, "balance", minor)


def _tell(unit: Unit, row: JobRow, record: Pickup, command: CommandId) -> None:
    for tape in record.handed_back:
        history.append(
            unit,
            "handed back",
            say("steps", "handed_back", name=record.signature.name),
            job=row.number,
            tape=tape.code,
            station=tape.station,
            not_for_reuse=tape.not_for_reuse,
            marked=tape.marked_at is not None,
        )
    history.append(
        unit,
        "pickup",
        say(
            "steps",
            "tapes_copies_handed",
            count=len(record.handed_back),
            count_2=len(record.copies),
            name=record.signature.name,
        ),
        job=row.number,
        final=record.final.gross.likely,
        due=record.due_minor,
        command=command,
        record_sha256=history.fingerprint(serialization.dumps(record)),
    )
