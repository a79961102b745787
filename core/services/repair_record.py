"""The repair record: splices with what they cost, marks on cassettes, findings seen and findings settled."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import isfinite

from core.catalogue import condition, moves
from core.model.errors import Refused, WrongInput
from core.model.inventory import TapeLine
from core.model.names import Finding, Join, Measure, Section, TapeCode
from core.model.ranges import Range
from core.model.repair_records import Splice
from core.model.tape_records import TapeRecord
from core.playtime import cuts, places, tape_minutes
from core.playtime.beliefs import as_range
from core.playtime.places import Place
from core.services import customers, entries, repair_attempts, tapes
from core.store import row_records
from core.store.tables import SpliceRow, TapeRow
from core.store.unit import Unit

LONGEST_CUT_CM = 1000.0
"""More than ten metres is no repair any more but a slip of the finger (an assumption)."""


def splice(
    unit: Unit,
    code: TapeCode,
    *,
    at_minutes: float | None = None,
    at_metres: float | None = None,
    cut_cm: float,
    joined_with: Join,
    section: Section | None = None,
) -> TapeRecord:
    """Records a joint so far from the head, in minutes of play time or in metres, ``cut_cm`` cut away.

    The tape becomes not for reuse wherever the joint is. ``section`` None: `places.section` decides.
    WrongInput for a place beyond the end of the tape or a length that cannot be; Refused once handed back.
    """
    row = entries.in_the_shop(unit, code)
    place = _place(row.draft, at_minutes, at_metres)
    where = places.section(row.draft, place, joined_with, section)
    _check_cut(row, cut_cm)
    row.splices.append(_joint(unit, row.draft, place, where, cut_cm, joined_with))
    row.not_for_reuse, row.astray_since = True, None
    row.settled += moves.needing_splice(tapes.open_findings(row))
    repair_attempts.ask_for_look(unit, row)
    inside = " in the clear leader" if where is Section.LEADER else ""
    said = f"spliced at {place.words}{inside}, {cut_cm:g} cm cut away, joined with {joined_with.words}"
    entries.tell(unit, row, "spliced", said, splices=_splices(row))
    return row_records.tape(row)


def undo_splice(unit: Unit, code: TapeCode, *, because: str, which: Splice | None = None) -> TapeRecord:
    """Strikes out a splice entered by mistake, the last one unless ``which`` says; it stays readable.

    When no splice is left the tape is free again; a label that was put on has to come off (`take_label_off`).
    Refused when there is none.
    """
    row = entries.in_the_shop(unit, code)
    reason = entries.reason("why the splice is struck out", because)
    standing = [each for each in row.splices if each.struck_at is None]
    struck = _to_strike(row, standing, which)
    struck.struck_at, struck.struck_by, struck.struck_because = unit.now, unit.who, reason
    said = f"splice at {_measured(struck)} struck out: {reason}"
    if len(standing) == 1:
        said += _free_again(unit, row)
    repair_attempts.forget_look(row)
    entries.tell(unit, row, "splice struck out", said, splices=_splices(row))
    return row_records.tape(row)


def take_label_off(unit: Unit, code: TapeCode) -> TapeRecord:
    """Confirms that a label which no longer belongs on a cassette is off it. Refused where none is astray."""
    row = entries.in_the_shop(unit, code)
    if row.astray_since is None:
        raise Refused(f"Tape {row.code} carries no label that has to come off.")
    row.astray_since = None
    entries.tell(unit, row, "label off", "the not-for-reuse label was taken off the cassette")
    return row_records.tape(row)


def mark(unit: Unit, code: TapeCode) -> TapeRecord:
    """Confirms that the not-for-reuse label is on the cassette. Refused for a tape that needs none."""
    row = entries.in_the_shop(unit, code)
    if not row.not_for_reuse:
        raise Refused(f"Tape {row.code} has no splice, so it needs no mark. Record the splice first.")
    if row.marked_at is None:
        row.marked_at = unit.now
        entries.tell(unit, row, "marked", "the not-for-reuse label is on the cassette")
    return row_records.tape(row)


def find(unit: Unit, code: TapeCode, findings: Iterable[Finding], *, note: str = "") -> TapeRecord:
    """Adds what was seen on a tape, wherever it is; what the shop expects of it is judged anew."""
    row = entries.in_the_shop(unit, code)
    seen = tapes.add_findings(row, findings)
    said = customers.text("note", note)
    if seen:
        words = f"seen: {', '.join(each.words for each in seen)}" + (f"; {said}" if said else "")
        entries.tell(unit, row, "found", words)
    return row_records.tape(row)


def clear_finding(unit: Unit, code: TapeCode, finding: Finding, note: str) -> TapeRecord:
    """Takes a finding off a tape: wrong, or over (mould cleaned, rights shown); ``note`` says why."""
    row = entries.in_the_shop(unit, code)
    reason = entries.reason("why the finding is cleared", note)
    if finding not in row.findings:
        raise Refused(f"Tape {row.code} has no finding “{finding.words}” to clear.")
    row.findings = tuple(each for each in row.findings if each is not finding)
    row.settled = tuple(each for each in row.settled if each is not finding)
    row.verdict = condition.verdict(row.findings, row.draft.format)
    entries.tell(unit, row, "cleared", f"no longer {finding.words}: {reason}")
    return row_records.tape(row)


def _place(line: TapeLine, minutes: float | None, metres: float | None) -> Place:
    if (minutes is None) is (metres is None):
        found = "neither" if minutes is None else "both"
        raise WrongInput("place of the splice", found, "either minutes or metres from the head are accepted")
    return (
        places.after_metres(line, metres or 0.0) if minutes is None else places.after_minutes(line, minutes)
    )


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


def _unless_exact(figure: Range) -> Range | None:
    return None if figure.low == figure.high else figure


def _to_strike(row: TapeRow, standing: Sequence[SpliceRow], which: Splice | None) -> SpliceRow:
    found = [each for each in standing if which is None or row_records.splice(each) == which]
    if found:
        return found[-1]
    if which is None or not standing:
        raise Refused(f"Tape {row.code} has no splice that could be struck out.")
    raise Refused(f"That splice of tape {row.code} was struck out already. Take the tape in hand again.")


def _free_again(unit: Unit, row: TapeRow) -> str:
    """No splice is left on a tape at hand; what the history says of its label."""
    was_marked = row.marked_at is not None
    row.not_for_reuse, row.marked_at = False, None
    reopened = moves.needing_splice(row.findings)
    row.settled = tuple(each for each in row.settled if each not in reopened)
    if not was_marked:
        return ""
    row.astray_since = unit.now
    return "; the not-for-reuse label has to come off the cassette"


def _measured(row: SpliceRow) -> str:
    if row.measured is Measure.METRES and row.at_metres is not None:
        return f"{row.at_metres:g} metres"
    return f"{row.at_minutes:g} minutes"


def _check_cut(row: TapeRow, cut_cm: float) -> None:
    metres = as_range(tape_minutes.belief(row.draft, row.draft.tv).metres).high
    most = min(metres * 100, LONGEST_CUT_CM)
    if not isfinite(cut_cm) or not 0 <= cut_cm <= most:
        raise WrongInput("centimetres cut away", cut_cm, f"from 0 to {most:.0f} is accepted")


def _splices(row: TapeRow) -> tuple[Splice, ...]:
    return row_records.tape(row).splices
