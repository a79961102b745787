"""What the decks showed: every tape that finished playing, kept, and what the shop learns from them all.

The minutes read off a deck are kept for good. Where a file was recorded, its own minutes are exact and count
in their stead for as long as the file stands; the speed and the system are always the deck's.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import datetime

from sqlalchemy import exists, func, select

from core.model.errors import WrongInput
from core.model.names import TapeCode
from core.playtime import learning, tape_minutes
from core.playtime.deck_readings import Shown, found
from core.playtime.evidence import Evidence, evidence_of
from core.playtime.explanations import Played
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import facts
from core.store import lookup
from core.store.tables import CaptureRow, JobRow, RecordingRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say


def check(row: TapeRow, shown: Shown, minutes: float | None) -> None:
    """WrongInput for a speed, recording or TV system that this tape cannot have, or without the minutes."""
    if shown.is_nothing:
        return
    if minutes is None:
        raise WrongInput(
            say("steps", "what_deck_showed"), shown.words, say("steps", "told_together_minutes_played")
        )
    tape_minutes.check(found(row.draft, shown), None)


def enter(unit: Unit, row: TapeRow, minutes: float, shown: Shown) -> None:
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


def off_the_deck(unit: Unit, row: TapeRow) -> float | None:
    """The minutes somebody read off the deck when the tape had last played; None when nobody did."""
    newest = select(CaptureRow.minutes).where(CaptureRow.tape_id == row.id).order_by(CaptureRow.id.desc())
    return unit.session.scalars(newest.limit(1)).first()


def of_files(unit: Unit, row: TapeRow) -> float | None:
    """The minutes to be charged of the files that stand of a tape, to the hundredth; None without any."""
    standing = select(RecordingRow.report).where(
        RecordingRow.tape_id == row.id, RecordingRow.struck_at.is_(None)
    )
    minutes = sum(report.billable_minutes for report in unit.session.scalars(standing))
    return round(minutes, 2) or None


def played(unit: Unit) -> tuple[Played, ...]:
    """The newest captures of the shop, oldest first, one a tape; exact where a file was recorded."""
    newest = select(func.max(CaptureRow.id)).group_by(CaptureRow.tape_id)
    rows = unit.session.execute(
        select(CaptureRow, TapeRow.draft, TapeRow.job_id, TapeRow.played_minutes)
        .join(TapeRow, TapeRow.id == CaptureRow.tape_id)
        .where(CaptureRow.id.in_(newest))
        .order_by(CaptureRow.id.desc())
        .limit(learning.WINDOW)
    )
    found = [
        (row.at, Played(f"{job}", facts(draft), exact or row.minutes, row.speed, row.recorded_as, row.tv))
        for row, draft, job, exact in rows
    ]
    found += _told_by_files_alone(unit)
    found.reverse()
    found.sort(key=lambda pair: pair[0])
    return tuple(tape for _, tape in found)[-learning.WINDOW :]


def _told_by_files_alone(unit: Unit) -> list[tuple[datetime, Played]]:
    """Tapes whose minutes nobody read off the deck: what is known of them is the length of their files."""
    newest = (
        select(func.max(RecordingRow.id))
        .where(RecordingRow.struck_at.is_(None))
        .group_by(RecordingRow.tape_id)
    )
    rows = unit.session.execute(
        select(RecordingRow.at, TapeRow.draft, TapeRow.job_id, TapeRow.played_minutes)
        .join(TapeRow, TapeRow.id == RecordingRow.tape_id)
        .where(
            RecordingRow.id.in_(newest),
            TapeRow.played_minutes.is_not(None),
            ~exists().where(CaptureRow.tape_id == TapeRow.id),
        )
        .order_by(RecordingRow.id.desc())
        .limit(learning.WINDOW)
    )
    return [(at, Played(f"{job}", facts(draft), minutes)) for at, draft, job, minutes in rows if minutes]


def habits(unit: Unit) -> ShopHabits:
    """What the shop believes of its customers' tapes by now."""
    return learning.learned(played(unit))


def habits_of_boxes(unit: Unit) -> dict[int, ShopHabits]:
    """By job id: what is believed of boxes still in the shop of which a tape was played."""
    shop, boxes = habits(unit), defaultdict(list)
    here = set(
        unit.session.scalars(select(JobRow.id).join(TapeRow).where(TapeRow.station.in_(lookup.IN_THE_SHOP)))
    )
    for tape in played(unit):
        if int(tape.box) in here:
            boxes[int(tape.box)].append(tape)
    return {job: learning.of_box(tuple(tapes), shop) for job, tapes in boxes.items()}


def habits_of_tape(unit: Unit, code: TapeCode) -> ShopHabits:
    """What is believed of the tapes of the box that this one lies in."""
    row = lookup.tape_row(unit, code)
    return habits_of_boxes(unit).get(row.job_id) or habits(unit)


def evidence(unit: Unit) -> tuple[Evidence, ...]:
    """What the shop believed at first, what it has seen, and what it believes now, habit by habit."""
    found = played(unit)
    return evidence_of(found, learning.learned(found))
