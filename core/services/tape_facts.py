"""What is known of a tape at hand: its findings, what the deck showed, the look after a repair."""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite

from sqlalchemy import select

from core.catalogue import condition, moves
from core.model.deck_showing import NOTHING, Shown
from core.model.errors import Unconfirmed, WrongInput
from core.model.names import AnyFinding, Look, TapeCode
from core.playtime import length_doubts, measured_lengths, tape_minutes
from core.playtime.deck_readings import found
from core.playtime.length_doubts import LengthDoubt
from core.playtime.measured_lengths import LeastLength
from core.store import row_records
from core.store.tables import CaptureRow, RecordingRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say

ONLY_LOOKS = frozenset({"inspect-sound"})
"""After these repairs nothing about the tape has changed, so there is nothing to be looked over again."""


def add_findings(row: TapeRow, findings: Iterable[AnyFinding]) -> tuple[AnyFinding, ...]:
    """Adds what was seen to a tape at hand and judges it anew; seen again after a repair, it is open."""
    seen = tuple(dict.fromkeys(findings))
    row.settled = tuple(each for each in row.settled if each not in seen)
    known = row.findings + tuple(each for each in seen if each not in row.findings)
    if known != row.findings:
        row.findings = known
        row.verdict = condition.verdict(known, row.draft.format, row.verdict.elsewhere)
    return seen


def open_findings(row: TapeRow) -> tuple[AnyFinding, ...]:
    """Findings nobody has dealt with yet."""
    return tuple(each for each in row.findings if each not in row.settled)


def standing(row: TapeRow, seen: tuple[AnyFinding, ...] = ()) -> moves.Standing:
    """What the moves of a tape at hand depend on."""
    found = open_findings(row)
    settled = row_records.disposition(row)
    return moves.Standing(TapeCode(row.code), row.draft.format, row.station, found, seen, row.look, settled)


def take_minutes(row: TapeRow, minutes: float | None, *, sure: bool = True) -> None:
    """Keeps the minutes a tape at hand played, when they are known; WrongInput for what are no minutes.

    More than the tape can hold is kept and told; Unconfirmed for far more unless somebody is ``sure``.
    """
    if minutes is None:
        return
    if not isfinite(minutes) or minutes <= 0:
        raise WrongInput(say("tapes", "minutes_played"), minutes, say("tapes", "minutes_above_0"))
    confirm(length_doubts.of_minutes(row.draft, minutes, row.shown or NOTHING), sure=sure)
    row.played_minutes = minutes


def confirm(doubt: LengthDoubt | None, *, sure: bool) -> None:
    """Unconfirmed for what was measured far beyond the end of a tape, unless somebody is ``sure``."""
    if doubt is not None and doubt.asks and not sure:
        raise Unconfirmed(say("lengths", "far", doubt=doubt.words))


def least_length(row: TapeRow) -> LeastLength:
    """What was measured of a tape says of its length."""
    standing = (row_records.splice(each) for each in row.splices if each.struck_at is None)
    return measured_lengths.least(standing, row.played_minutes)


def with_shown_before(row: TapeRow, shown: Shown, minutes: float | None) -> Shown:
    """What the deck showed of a tape that has played, with what somebody saw while it played; it is kept."""
    if minutes is None:
        return shown
    whole = shown if row.shown is None else shown.over(row.shown)
    if not whole.is_nothing:
        row.shown = whole
    return whole


def check_capture(row: TapeRow, shown: Shown, minutes: float | None) -> None:
    """WrongInput for a speed, recording or TV system that this tape cannot have, or without the minutes."""
    if shown.is_nothing:
        return
    if minutes is None:
        raise WrongInput(say("tapes", "what_deck_showed"), shown.words, say("tapes", "with_minutes"))
    tape_minutes.check(found(row.draft, shown), None)


def enter_capture(unit: Unit, row: TapeRow, minutes: float, shown: Shown) -> None:
    """Keeps one finished capture. A tape played again has another; the last one counts."""
    unit.session.add(
        CaptureRow(
            tape_id=row.id,
            minutes=minutes,
            speed=shown.speed,
            recorded_as=shown.recorded_as,
            tv=shown.tv,
            at=unit.now,
            by=unit.who,
        )
    )


def minutes_off_deck(unit: Unit, row: TapeRow) -> float | None:
    """The minutes somebody read off the deck when the tape had last played; None when nobody did."""
    newest = select(CaptureRow.minutes).where(CaptureRow.tape_id == row.id).order_by(CaptureRow.id.desc())
    return unit.session.scalars(newest.limit(1)).first()


def minutes_of_files(unit: Unit, row: TapeRow) -> float | None:
    """The minutes to be charged of the files that stand of a tape, to the hundredth; None without any."""
    standing = select(RecordingRow.report).where(
        RecordingRow.tape_id == row.id, RecordingRow.struck_at.is_(None)
    )
    minutes = sum(report.billable_minutes for report in unit.session.scalars(standing))
    return round(minutes, 2) or None


def confirm_by_move(unit: Unit, row: TapeRow) -> bool:
    """Whoever clears a tape for the deck says by it that its repair was looked at; whether one was due."""
    if row.repaired_at is None or row.look is not None:
        return False
    see(unit, row, Look.OK)
    return True


def ask_for_look(unit: Unit, row: TapeRow) -> None:
    """The tape at hand was repaired just now: what was seen before no longer counts."""
    row.repaired_at = unit.now
    row.look = row.looked_at = row.looked_by = None


def forget_look(row: TapeRow) -> None:
    """Nothing is left to be looked at when the last repair and the last splice of a tape are struck out."""
    held = any(
        each.succeeded and each.code not in ONLY_LOOKS and each.struck_at is None for each in row.repairs
    )
    if not held and all(each.struck_at is not None for each in row.splices):
        row.repaired_at = row.look = row.looked_at = row.looked_by = None


def see(unit: Unit, row: TapeRow, verdict: Look) -> None:
    """Keeps what the look after a repair told, and who looked when."""
    row.look, row.looked_at, row.looked_by = verdict, unit.now, unit.who
