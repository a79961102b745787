"""What was tried on a tape besides splicing it, with which part, whether it held; and the look afterwards."""

from __future__ import annotations

from core.catalogue import condition
from core.model.errors import Refused, WrongInput
from core.model.names import DonorPart, Finding, Look, TapeCode
from core.model.tape_records import TapeRecord
from core.services import customers, donors, entries
from core.store import row_records
from core.store.tables import RepairRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say

FITTED = {
    "shell-swap": (DonorPart.SHELL, DonorPart.SCREWS),
    "reel-swap": (DonorPart.REEL,),
    "lid-swap": (DonorPart.LID, DonorPart.SHELL),
}
"""Parts a repair may take from a donor; the other repairs take none."""

_ONLY_LOOKS = frozenset({"inspect-sound"})
"""After these nothing about the tape has changed, so there is nothing to be looked over again."""


def record(
    unit: Unit,
    code: TapeCode,
    repair: str,
    *,
    succeeded: bool,
    part: DonorPart | None = None,
    from_elsewhere: str | None = None,
    note: str = "",
) -> TapeRecord:
    """Keeps one repair that was tried; one that held settles its findings and asks for another look.

    ``part`` is taken off the shelf unless ``from_elsewhere`` says where it came from. Refused when the shelf
    is empty, and for a splice that held: that is recorded as the splice itself. WrongInput for a repair
    that is none, or a part it cannot use.
    """
    row = entries.in_the_shop(unit, code)
    _check(repair, succeeded, part, from_elsewhere)
    taken = donors.use(unit, row.draft.format, part) if part and from_elsewhere is None else None
    came_from = taken.came_from if taken else customers.text("came from", from_elsewhere or "")
    settled = _settled_by(row, repair) if succeeded else ()
    row.repairs.append(
        RepairRow(
            code=repair,
            succeeded=succeeded,
            part=part,
            donor_id=taken.id if taken else None,
            came_from=came_from,
            note=customers.text("note", note),
            settled=settled,
            by=unit.who,
            at=unit.now,
        )
    )
    row.settled += settled
    if succeeded and repair not in _ONLY_LOOKS:
        ask_for_look(unit, row)
    _tell(unit, row, "repair tried", words(row, row.repairs[-1]))
    return row_records.tape(row)


def strike(unit: Unit, code: TapeCode, *, because: str) -> TapeRecord:
    """Strikes out the last repair of a tape, entered by mistake; its part goes back on the shelf.

    The entry stays readable; what it had settled is open again. Refused when there is none.
    """
    row = entries.in_the_shop(unit, code)
    said = entries.reason(say("steps", "why_repair_struck_out"), because)
    standing = [each for each in row.repairs if each.struck_at is None]
    if not standing:
        raise Refused(say("steps", "tape_repair_could_struck", code=row.code))
    last = standing[-1]
    last.struck_at, last.struck_by, last.struck_because = unit.now, unit.who, said
    row.settled = tuple(each for each in row.settled if each not in last.settled)
    if last.donor_id is not None:
        donors.put_back(unit, last.donor_id)
    forget_look(row)
    _tell(
        unit,
        row,
        "repair struck out",
        say("steps", "struck_out", words=words(row, last), said=said),
    )
    return row_records.tape(row)


def look(unit: Unit, code: TapeCode, verdict: Look, *, note: str = "") -> TapeRecord:
    """Keeps that somebody looked a repaired tape over: it may go on, or has to be done again.

    Refused for a tape on which nothing was repaired.
    """
    row = entries.in_the_shop(unit, code)
    if row.repaired_at is None:
        raise Refused(say("steps", "tape_had_repair_nothing", code=row.code))
    _see(unit, row, verdict)
    told = say("steps", "may_go") if verdict is Look.OK else say("steps", "done_again")
    said = customers.text("note", note)
    line = say("steps", "looked_after_repair", told=told) + (f"; {said}" if said else "")
    entries.tell(unit, row, "looked after repair", line)
    return row_records.tape(row)


def confirm_by_move(unit: Unit, row: TapeRow) -> bool:
    """Whoever clears a tape for the deck says by it that its repair was looked at; whether one was due."""
    if row.repaired_at is None or row.look is not None:
        return False
    _see(unit, row, Look.OK)
    return True


def ask_for_look(unit: Unit, row: TapeRow) -> None:
    """The tape at hand was repaired just now: what was seen before no longer counts."""
    row.repaired_at = unit.now
    row.look = row.looked_at = row.looked_by = None


def forget_look(row: TapeRow) -> None:
    """Nothing is left to be looked at when the last repair and the last splice of a tape are struck out."""
    held = any(
        each.succeeded and each.code not in _ONLY_LOOKS and each.struck_at is None for each in row.repairs
    )
    if not held and all(each.struck_at is not None for each in row.splices):
        row.repaired_at = row.look = row.looked_at = row.looked_by = None


def words(tape: TapeRow, row: RepairRow) -> str:
    """``move the reels into a donor shell: done, with a shell of a flea-market T-120; screws were gone``."""
    said = condition.repair(row.code, tape.draft.format).words
    said += ": done" if row.succeeded else ": failed"
    if row.part:
        said += say("steps", "donor_s", value=row.part.value) + (
            f" from {row.came_from}" if row.came_from else ""
        )
    return said + (f"; {row.note}" if row.note else "")


def _see(unit: Unit, row: TapeRow, verdict: Look) -> None:
    row.look, row.looked_at, row.looked_by = verdict, unit.now, unit.who


def _check(repair: str, succeeded: bool, part: DonorPart | None, from_elsewhere: str | None) -> None:
    if repair not in condition.REPAIRS:
        raise WrongInput("repair", repair, say("steps", "accepted_2", repairs=", ".join(condition.REPAIRS)))
    if repair == "splice" and succeeded:
        raise Refused(say("steps", "splice_held_recorded_place"))
    fits = FITTED.get(repair, ())
    if part is not None and part not in fits:
        accepted = ", ".join(each.value for each in fits) or say("steps", "part")
        raise WrongInput("part", part.value, f"{repair} takes {accepted}")
    if from_elsewhere is not None and part is None:
        raise WrongInput(say("steps", "came"), from_elsewhere, say("steps", "told_together_part_fitted"))


def _settled_by(row: TapeRow, repair: str) -> tuple[Finding, ...]:
    """Open findings all of whose repairs are done with this one."""
    done = {each.code for each in row.repairs if each.succeeded and each.struck_at is None} | {repair}
    return tuple(
        each
        for each in row.findings
        if each not in row.settled and (needed := condition.repairs_of(each)) and done.issuperset(needed)
    )


def _tell(unit: Unit, row: TapeRow, kind: str, said: str) -> None:
    unit.session.flush()
    entries.tell(unit, row, kind, said, tried=row_records.trials(row))
