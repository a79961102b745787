"""The repair record: splices with what they cost, marks on cassettes, findings seen and findings settled."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import isfinite

from core.catalogue import condition, moves
from core.model import entered_text
from core.model.deck_showing import NOTHING
from core.model.errors import Refused, WrongInput
from core.model.inventory import TapeLine
from core.model.names import AnyFinding, Join, Look, Measure, Section, TapeCode
from core.model.ranges import Range
from core.model.repair_records import Splice
from core.model.spoken_names import spoken
from core.model.tape_records import TapeRecord
from core.playtime import cuts, length_doubts, places, tape_minutes
from core.playtime.beliefs import as_range
from core.playtime.length_doubts import LengthDoubt
from core.playtime.places import Place
from core.services import deck_queue, tape_facts
from core.services.agreement import ceiling_watch
from core.store import history, lookup, permissions, row_records
from core.store.steps import step
from core.store.tables import SpliceRow, TapeRow
from core.store.unit import Unit
from core.wording.locale_figures import tape_code
from core.wording.messages import say

LONGEST_CUT_CM = 1000.0
"""More than ten metres is no repair any more but a slip of the finger (an assumption)."""


@step
def splice(
    unit: Unit,
    code: TapeCode,
    *,
    at_minutes: float | None = None,
    at_metres: float | None = None,
    cut_cm: float,
    joined_with: Join,
    section: Section | None = None,
    redone: bool | None = None,
    sure: bool = False,
) -> TapeRecord:
    """Records a joint so far from the head, in minutes of play time or in metres, ``cut_cm`` cut away.

    A tape becomes not for reuse wherever the joint is; film is made to be spliced. ``section`` None:
    `places.section` decides. ``redone``: it was made again because the one before was bad, at the shop's own
    cost; None: it was where a look after a splice said so (*Decisions*). Refused without one.
    WrongInput for a place or a length that cannot be; Unconfirmed for a place far beyond the end of the tape
    unless somebody is ``sure``; Refused once handed back.
    """
    row = lookup.tape_in_the_shop(unit, code)
    place = _place(row.draft, at_minutes, at_metres)
    doubt = _doubt(row, place)
    tape_facts.confirm(doubt, sure=sure)
    where = places.section(row.draft, place, joined_with, section)
    _check_cut(row, cut_cm)
    before = ceiling_watch.before_step(unit, row)
    joint = _joint(unit, row.draft, place, where, cut_cm, joined_with)
    joint.redone = _is_redone(row, redone)
    row.splices.append(joint)
    if doubt is not None:
        deck_queue.believe_anew(unit, row)
    if condition.splice_ends_reuse(row.draft.format):
        row.not_for_reuse, row.astray_since = True, None
    row.settled += moves.needing_splice(tape_facts.open_findings(row))
    tape_facts.ask_for_look(unit, row)
    said = say(
        "repair_record",
        "event_splice_redone" if joint.redone else "event_spliced",
        where="leader" if where is Section.LEADER else "program",
        place=place.words,
        cm=cut_cm,
        **{"with": spoken(joined_with)},
    )
    history.append_of_tape(unit, row, "spliced", said, splices=_splices(row))
    ceiling_watch.follow(unit, row, before)
    return row_records.tape(row)


@step
def undo_splice(
    unit: Unit, code: TapeCode, *, because: str, which: Splice | None = None, nth: int | None = None
) -> TapeRecord:
    """Strikes out a splice entered by mistake, the last one unless ``which`` or ``nth`` says.

    It stays readable.

    When no splice is left the tape is free again; a label that was put on has to come off (`take_label_off`).
    Refused when there is none.
    """
    row = lookup.tape_in_the_shop(unit, code)
    reason = entered_text.reason(say("repair_record", "why_strike_splice"), because)
    standing = [each for each in row.splices if each.struck_at is None]
    struck = _to_strike(row, standing, which if nth is None else _nth(row, nth))
    permissions.check_strike(unit, struck.by)
    struck.struck_at, struck.struck_by, struck.struck_because = unit.now, unit.who, reason
    must_come_off = len(standing) == 1 and _free_again(unit, row)
    sentence = "event_splice_struck_label" if must_come_off else "event_splice_struck"
    said = say("repair_record", sentence, place=_measured(struck), reason=reason)
    tape_facts.forget_look(row)
    if _was_doubted(row, struck):
        deck_queue.believe_anew(unit, row)
    history.append_of_tape(unit, row, "splice-struck-out", said, splices=_splices(row))
    ceiling_watch.release(unit, row.job)
    return row_records.tape(row)


@step
def take_label_off(unit: Unit, code: TapeCode) -> TapeRecord:
    """Confirms that a label which no longer belongs on a cassette is off it. Refused where none is astray."""
    row = lookup.tape_in_the_shop(unit, code)
    if row.astray_since is None:
        raise Refused(say("repair_record", "no_label_to_take_off", code=tape_code(row.code)))
    row.astray_since = None
    history.append_of_tape(unit, row, "label-off", say("repair_record", "event_label_off"))
    return row_records.tape(row)


@step
def mark(unit: Unit, code: TapeCode) -> TapeRecord:
    """Confirms that the not-for-reuse label is on the cassette. Refused for a tape that needs none."""
    row = lookup.tape_in_the_shop(unit, code)
    if not row.not_for_reuse:
        raise Refused(say("repair_record", "needs_no_label", code=tape_code(row.code)))
    if row.marked_at is None:
        row.marked_at = unit.now
        history.append_of_tape(unit, row, "marked", say("repair_record", "event_label_on"))
    return row_records.tape(row)


@step
def find(unit: Unit, code: TapeCode, findings: Iterable[AnyFinding], *, note: str = "") -> TapeRecord:
    """Adds what was seen on a tape, wherever it is; what the shop expects of it is judged anew."""
    row = lookup.tape_in_the_shop(unit, code)
    before = ceiling_watch.before_step(unit, row)
    seen = tape_facts.add_findings(row, findings)
    said = entered_text.line(say("repair_record", "note"), note)
    if seen:
        found = ", ".join(spoken(each) for each in seen)
        words = say("repair_record", "event_found", findings=found, note=said, given=len(said))
        history.append_of_tape(unit, row, "found", words)
        ceiling_watch.follow(unit, row, before)
    return row_records.tape(row)


@step
def clear_finding(unit: Unit, code: TapeCode, finding: AnyFinding, note: str) -> TapeRecord:
    """Takes a finding off a tape: wrong, or over (mould cleaned, rights shown); ``note`` says why."""
    row = lookup.tape_in_the_shop(unit, code)
    reason = entered_text.reason(say("repair_record", "why_clear"), note)
    if finding not in row.findings:
        raise Refused(
            say("repair_record", "no_such_finding", code=tape_code(row.code), finding=spoken(finding))
        )
    row.findings = tuple(each for each in row.findings if each != finding)
    row.settled = tuple(each for each in row.settled if each != finding)
    row.verdict = condition.verdict(row.findings, row.draft.format, row.verdict.elsewhere)
    history.append_of_tape(
        unit, row, "cleared", say("repair_record", "event_cleared", finding=spoken(finding), reason=reason)
    )
    ceiling_watch.release(unit, row.job)
    return row_records.tape(row)


def _place(line: TapeLine, minutes: float | None, metres: float | None) -> Place:
    if (minutes is None) is (metres is None):
        found = "neither" if minutes is None else "both"
        raise WrongInput(
            say("repair_record", "splice_place"), found, say("repair_record", "minutes_or_metres")
        )
    return (
        places.after_metres(line, metres or 0.0) if minutes is None else places.after_minutes(line, minutes)
    )


def _was_doubted(row: TapeRow, joint: SpliceRow) -> bool:
    """Whether a splice lay beyond what the sources of its tape say."""
    if joint.measured is Measure.METRES and joint.at_metres is not None:
        return length_doubts.of_metres(row.draft, joint.at_metres) is not None
    return length_doubts.of_minutes(row.draft, joint.at_minutes, row.shown or NOTHING) is not None


def _doubt(row: TapeRow, place: Place) -> LengthDoubt | None:
    if place.measured is Measure.METRES:
        return length_doubts.of_metres(row.draft, place.metres.likely)
    return length_doubts.of_minutes(row.draft, place.minutes.likely, row.shown or NOTHING)


def _joint(
    unit: Unit, line: TapeLine, place: Place, where: Section, cut_cm: float, joined_with: Join
) -> SpliceRow:
    lost = cuts.joint(line, cut_cm, where)
    reckoned = place.metres if place.measured is Measure.MINUTES else place.minutes
    return SpliceRow(
        at_minutes=place.minutes.likely,
        at_metres=place.metres.likely,
        measured=place.measured,
        reckoned=_unless_exact(reckoned),
        section=where,
        cut_cm=cut_cm,
        joined_with=joined_with,
        seconds_removed=lost.seconds_removed,
        seconds_disturbed=lost.seconds_disturbed,
        removed=_unless_exact(lost.removed),
        disturbed=_unless_exact(lost.disturbed),
        by=unit.who,
        at=unit.now,
    )


def _is_redone(row: TapeRow, said: bool | None) -> bool:
    """Whether a splice is made again: as it was said, else where the last look told so."""
    stands = any(each.struck_at is None for each in row.splices)
    if said and not stands:
        raise Refused(say("repair_record", "nothing_to_redo", code=tape_code(row.code)))
    return stands and row.look is Look.AGAIN if said is None else said


def _unless_exact(figure: Range) -> Range | None:
    return None if figure.low == figure.high else figure


def _nth(row: TapeRow, nth: int) -> Splice:
    """The first, second … of the splices that stand; WrongInput where there are fewer."""
    splices = _splices(row)
    if not 0 < nth <= len(splices):
        accepted = say("repair_record", "nth_accepted", count=len(splices))
        raise WrongInput(say("repair_record", "nth"), nth, accepted)
    return splices[nth - 1]


def _to_strike(row: TapeRow, standing: Sequence[SpliceRow], which: Splice | None) -> SpliceRow:
    found = [each for each in standing if which is None or row_records.splice(each) == which]
    if found:
        return found[-1]
    if which is None or not standing:
        raise Refused(say("repair_record", "no_splice_to_strike", code=tape_code(row.code)))
    raise Refused(say("repair_record", "splice_struck_already", code=tape_code(row.code)))


def _free_again(unit: Unit, row: TapeRow) -> bool:
    """No splice is left on a tape at hand; whether its label has to come off."""
    was_marked = row.marked_at is not None
    row.not_for_reuse, row.marked_at = False, None
    reopened = moves.needing_splice(row.findings)
    row.settled = tuple(each for each in row.settled if each not in reopened)
    if was_marked:
        row.astray_since = unit.now
    return was_marked


def _measured(row: SpliceRow) -> str:
    if row.measured is Measure.METRES and row.at_metres is not None:
        return say("repair_record", "at_metres", figure=row.at_metres)
    return say("repair_record", "at_minutes", figure=row.at_minutes)


def _check_cut(row: TapeRow, cut_cm: float) -> None:
    metres = as_range(tape_minutes.belief(row.draft, row.draft.tv).metres).high
    most = min(metres * 100, LONGEST_CUT_CM)
    if not isfinite(cut_cm) or not 0 <= cut_cm <= most:
        raise WrongInput(
            say("repair_record", "cut_length"), cut_cm, say("repair_record", "cut_bounds", most=round(most))
        )


def _splices(row: TapeRow) -> tuple[Splice, ...]:
    return row_records.tape(row).splices
