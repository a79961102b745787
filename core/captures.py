"""What the decks showed: every tape that finished playing, kept, and what the shop learns from them all."""

from __future__ import annotations

from collections import defaultdict

from sqlalchemy import func, select

from core import learning, playtime, shelf
from core.errors import WrongInput
from core.habits import ShopHabits
from core.learning import Evidence, Played
from core.names import TapeCode
from core.possibilities import facts
from core.shown import Shown, found
from core.tables import CaptureRow, JobRow, TapeRow
from core.unit import Unit


def check(row: TapeRow, shown: Shown, minutes: float | None) -> None:
    """WrongInput for a speed, recording or TV system that this tape cannot have, or without the minutes."""
    if shown.is_nothing:
        return
    if minutes is None:
        raise WrongInput("what the deck showed", shown.words, "it is told together with the minutes played")
    playtime.check(found(row.draft, shown), None)


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


def played(unit: Unit) -> tuple[Played, ...]:
    """The newest captures of the shop, oldest first, one a tape."""
    newest = select(func.max(CaptureRow.id)).group_by(CaptureRow.tape_id)
    rows = unit.session.execute(
        select(CaptureRow, TapeRow.draft, TapeRow.job_id)
        .join(TapeRow, TapeRow.id == CaptureRow.tape_id)
        .where(CaptureRow.id.in_(newest))
        .order_by(CaptureRow.id.desc())
        .limit(learning.WINDOW)
    )
    newest_first = [
        Played(f"{job}", facts(draft), row.minutes, row.speed, row.recorded_as, row.tv)
        for row, draft, job in rows
    ]
    return tuple(reversed(newest_first))


def habits(unit: Unit) -> ShopHabits:
    """What the shop believes of its customers' tapes by now."""
    return learning.learned(played(unit))


def habits_of_boxes(unit: Unit) -> dict[int, ShopHabits]:
    """By job id: what is believed of boxes still in the shop of which a tape was played."""
    shop, boxes = habits(unit), defaultdict(list)
    here = set(
        unit.session.scalars(select(JobRow.id).join(TapeRow).where(TapeRow.station.in_(shelf.IN_THE_SHOP)))
    )
    for tape in played(unit):
        if int(tape.box) in here:
            boxes[int(tape.box)].append(tape)
    return {job: learning.of_box(tuple(tapes), shop) for job, tapes in boxes.items()}


def habits_of_tape(unit: Unit, code: TapeCode) -> ShopHabits:
    """What is believed of the tapes of the box that this one lies in."""
    row = shelf.tape_row(unit, code)
    return habits_of_boxes(unit).get(row.job_id) or habits(unit)


def evidence(unit: Unit) -> tuple[Evidence, ...]:
    """What the shop believed at first, what it has seen, and what it believes now, habit by habit."""
    return learning.evidence(played(unit))
