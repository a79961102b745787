"""What was tried on a tape besides splicing it, with which part, whether it held; and the look afterwards."""

from __future__ import annotations

from core.catalogue import condition, findings
from core.model import entered_text
from core.model.errors import Refused, WrongInput
from core.model.names import AnyFinding, DonorPart, Look, TapeCode
from core.model.spoken_names import spoken
from core.model.tape_records import TapeRecord
from core.services import donors, tape_facts
from core.store import history, lookup, permissions, row_records
from core.store.steps import step
from core.store.tables import RepairRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.locale_figures import tape_code
from core.wording.messages import say

FITTED = {
    "shell-swap": (DonorPart.SHELL, DonorPart.SCREWS),
    "reel-swap": (DonorPart.REEL,),
    "lid-swap": (DonorPart.LID, DonorPart.SHELL),
}
"""Parts a repair may take from a donor; the other repairs take none."""


@step
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
    row = lookup.tape_in_the_shop(unit, code)
    _check(repair, succeeded, part, from_elsewhere)
    taken = donors.use(unit, row.draft.format, part) if part and from_elsewhere is None else None
    came_from = (
        taken.came_from
        if taken
        else entered_text.line(say("repair_record", "came_from"), from_elsewhere or "")
    )
    settled = _settled_by(row, repair) if succeeded else ()
    row.repairs.append(
        RepairRow(
            code=repair,
            succeeded=succeeded,
            part=part,
            donor_id=taken.id if taken else None,
            came_from=came_from,
            note=entered_text.line(say("repair_record", "note"), note),
            settled=settled,
            by=unit.who,
            at=unit.now,
        )
    )
    row.settled += settled
    if succeeded and repair not in tape_facts.ONLY_LOOKS:
        tape_facts.ask_for_look(unit, row)
    _tell(unit, row, "repair-tried", words(row, row.repairs[-1]))
    return row_records.tape(row)


@step
def strike(unit: Unit, code: TapeCode, *, because: str) -> TapeRecord:
    """Strikes out the last repair of a tape, entered by mistake; its part goes back on the shelf.

    The entry stays readable; what it had settled is open again. Refused when there is none.
    """
    row = lookup.tape_in_the_shop(unit, code)
    said = entered_text.reason(say("repair_record", "why_strike_repair"), because)
    standing = [each for each in row.repairs if each.struck_at is None]
    if not standing:
        raise Refused(say("repair_record", "no_repair_to_strike", code=tape_code(row.code)))
    last = standing[-1]
    permissions.check_strike(unit, last.by)
    last.struck_at, last.struck_by, last.struck_because = unit.now, unit.who, said
    row.settled = tuple(each for each in row.settled if each not in last.settled)
    if last.donor_id is not None:
        donors.put_back(unit, last.donor_id)
    tape_facts.forget_look(row)
    _tell(
        unit,
        row,
        "repair-struck-out",
        say("repair_record", "event_repair_struck", repair=words(row, last), reason=said),
    )
    return row_records.tape(row)


@step
def look(unit: Unit, code: TapeCode, verdict: Look, *, note: str = "") -> TapeRecord:
    """Keeps that somebody looked a repaired tape over: it may go on, or has to be done again.

    Refused for a tape on which nothing was repaired.
    """
    row = lookup.tape_in_the_shop(unit, code)
    if row.repaired_at is None:
        raise Refused(say("repair_record", "nothing_to_look_at", code=tape_code(row.code)))
    tape_facts.see(unit, row, verdict)
    said = entered_text.line(say("repair_record", "note"), note)
    line = say("repair_record", "event_look", verdict=verdict.value, note=said, given=len(said))
    history.append_of_tape(unit, row, "looked-after-repair", line)
    return row_records.tape(row)


def words(tape: TapeRow, row: RepairRow) -> str:
    """``move the reels into a donor shell: done, with a shell of a flea-market T-120; screws were gone``."""
    return say(
        "repair_record",
        "event_repair",
        repair=condition.repair(row.code, tape.draft.format).words,
        how="held" if row.succeeded else "failed",
        part=spoken(row.part) if row.part else "none",
        where=row.came_from,
        whence=len(row.came_from) if row.part else 0,
        note=row.note,
        given=len(row.note),
    )


def _check(repair: str, succeeded: bool, part: DonorPart | None, from_elsewhere: str | None) -> None:
    if repair not in findings.repair_codes():
        names = ", ".join(condition.repairs_offered())
        raise WrongInput(
            say("repair_record", "repair"), repair, say("repair_record", "accepted", names=names)
        )
    if repair == "splice" and succeeded:
        raise Refused(say("repair_record", "record_as_splice"))
    fits = FITTED.get(repair, ())
    if part is not None and part not in fits:
        parts = locale_figures.listed([each.value for each in fits], "or")
        sentence = "takes_parts" if fits else "takes_no_part"
        accepted = say("repair_record", sentence, repair=repair, parts=parts)
        raise WrongInput(say("repair_record", "part"), part.value, accepted)
    if from_elsewhere is not None and part is None:
        raise WrongInput(
            say("repair_record", "came_from"), from_elsewhere, say("repair_record", "with_a_part")
        )


def _settled_by(row: TapeRow, repair: str) -> tuple[AnyFinding, ...]:
    """Open findings all of whose repairs are done with this one."""
    done = {each.code for each in row.repairs if each.succeeded and each.struck_at is None} | {repair}
    return tuple(
        each
        for each in row.findings
        if each not in row.settled and (needed := condition.repairs_of(each)) and done.issuperset(needed)
    )


def _tell(unit: Unit, row: TapeRow, kind: str, said: str) -> None:
    unit.session.flush()
    history.append_of_tape(unit, row, kind, said, tried=row_records.trials(row))
