"""The repair record: splices with what they cost, marks on cassettes, findings seen and findings settled."""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite

from core import condition, customers, cuts, history, moves, playtime, recorded, shelf, tapes
from core.beliefs import as_range
from core.errors import Refused, WrongInput
from core.names import Finding, Join, TapeCode
from core.records import Splice, TapeRecord
from core.stations import Station
from core.tables import SpliceRow, TapeRow
from core.unit import Unit

LONGEST_CUT_CM = 1000.0
"""More than ten metres is no repair any more but a slip of the finger (an assumption)."""


def splice(unit: Unit, code: TapeCode, *, at_minutes: float, cut_cm: float, joined_with: Join) -> TapeRecord:
    """Records a join ``at_minutes`` of play time from the head, ``cut_cm`` cut away: not for reuse.

    WrongInput for a place beyond the end of the tape or a length that cannot be; Refused once handed back.
    """
    row = _in_the_shop(unit, code)
    _check_place(row, at_minutes)
    _check_cut(row, cut_cm)
    draft = row.draft
    lost = cuts.cut(draft.recorded_as or draft.format, draft.speed, draft.tv, cut_cm)
    row.splices.append(
        SpliceRow(
            at_minutes=at_minutes,
            cut_cm=cut_cm,
            joined_with=joined_with,
            seconds_removed=lost.seconds_removed,
            seconds_disturbed=lost.seconds_disturbed,
            by=unit.who,
            at=unit.now,
        )
    )
    row.not_for_reuse = True
    row.settled += moves.needing_splice(tapes.open_findings(row))
    words = f"spliced at {at_minutes:g} minutes, {cut_cm:g} cm cut away, joined with {joined_with.words}"
    _tell(unit, row, "spliced", words, splices=_splices(row))
    return recorded.tape(row)


def undo_splice(unit: Unit, code: TapeCode, *, because: str) -> TapeRecord:
    """Strikes out the last splice of a tape, which was entered by mistake; it stays readable in the books.

    When no splice is left the tape is free again and its label is to come off. Refused when there is none.
    """
    row = _in_the_shop(unit, code)
    reason = _reason("why the splice is struck out", because)
    standing = [each for each in row.splices if each.struck_at is None]
    if not standing:
        raise Refused(f"Tape {row.code} has no splice that could be struck out.")
    standing[-1].struck_at, standing[-1].struck_because = unit.now, reason
    if len(standing) == 1:
        row.not_for_reuse, row.marked_at = False, None
        reopened = moves.needing_splice(row.findings)
        row.settled = tuple(each for each in row.settled if each not in reopened)
    words = f"splice at {standing[-1].at_minutes:g} minutes struck out: {reason}"
    _tell(unit, row, "splice struck out", words, splices=_splices(row))
    return recorded.tape(row)


def mark(unit: Unit, code: TapeCode) -> TapeRecord:
    """Confirms that the not-for-reuse label is on the cassette. Refused for a tape that needs none."""
    row = _in_the_shop(unit, code)
    if not row.not_for_reuse:
        raise Refused(f"Tape {row.code} has no splice, so it needs no mark. Record the splice first.")
    if row.marked_at is None:
        row.marked_at = unit.now
        _tell(unit, row, "marked", "the not-for-reuse label is on the cassette")
    return recorded.tape(row)


def find(unit: Unit, code: TapeCode, findings: Iterable[Finding], *, note: str = "") -> TapeRecord:
    """Adds what was seen on a tape, wherever it is; what the shop expects of it is judged anew."""
    row = _in_the_shop(unit, code)
    seen = tapes.add_findings(row, findings)
    said = customers.text("note", note)
    if seen:
        words = f"seen: {', '.join(each.words for each in seen)}" + (f"; {said}" if said else "")
        _tell(unit, row, "found", words)
    return recorded.tape(row)


def clear_finding(unit: Unit, code: TapeCode, finding: Finding, note: str) -> TapeRecord:
    """Takes a finding off a tape: wrong, or over (mould cleaned, rights shown); ``note`` says why."""
    row = _in_the_shop(unit, code)
    reason = _reason("why the finding is cleared", note)
    if finding not in row.findings:
        raise Refused(f"Tape {row.code} has no finding “{finding.words}” to clear.")
    row.findings = tuple(each for each in row.findings if each is not finding)
    row.settled = tuple(each for each in row.settled if each is not finding)
    row.verdict = condition.verdict(row.findings, row.draft.format)
    _tell(unit, row, "cleared", f"no longer {finding.words}: {reason}")
    return recorded.tape(row)


def _in_the_shop(unit: Unit, code: TapeCode) -> TapeRow:
    row = shelf.tape_row(unit, code)
    if row.station is Station.HANDED_BACK:
        raise Refused(f"Tape {row.code} was handed back on {row.since:%Y-%m-%d}; nothing can be added to it.")
    return row


def _check_place(row: TapeRow, at_minutes: float) -> None:
    longest = playtime.belief(row.draft, row.draft.tv).longest
    if not 0 <= at_minutes <= longest:
        raise WrongInput(
            "minutes from the head", at_minutes, f"this tape runs from 0 to {longest:.0f} minutes"
        )


def _check_cut(row: TapeRow, cut_cm: float) -> None:
    metres = as_range(playtime.belief(row.draft, row.draft.tv).metres).high
    most = min(metres * 100, LONGEST_CUT_CM)
    if not isfinite(cut_cm) or not 0 <= cut_cm <= most:
        raise WrongInput("centimetres cut away", cut_cm, f"from 0 to {most:.0f} is accepted")


def _reason(place: str, given: str) -> str:
    reason = customers.text(place, given)
    if not reason:
        raise WrongInput(place, given, "a few words are needed")
    return reason


def _splices(row: TapeRow) -> tuple[Splice, ...]:
    return recorded.tape(row).splices


def _tell(unit: Unit, row: TapeRow, kind: str, words: str, **more: object) -> None:
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
        **more,
    )
    unit.session.flush()
