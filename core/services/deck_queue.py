"""The queue before the decks: tapes not ready yet, each believed by what the shop has learned from its decks.

Every tape that finished playing was kept (`tape_facts.enter_capture`). The minutes read off a deck are kept
for good. Where a file was recorded, its own minutes are exact and count instead for as long as the file
stands; the speed and the system are always the deck's.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime

from sqlalchemy import exists, func, select

from core.model.names import JobNumber, TapeCode
from core.model.ranges import ZERO
from core.model.stations import Station
from core.playtime import learning, tape_minutes
from core.playtime.deck_readings import found
from core.playtime.evidence import Evidence, evidence_of
from core.playtime.explanations import Played
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import facts
from core.scheduling.queued_tapes import QueuedTape
from core.services import tape_facts
from core.services.copies import copying_time
from core.store import lookup
from core.store.tables import BoxOrderRow, CaptureRow, JobRow, RecordingRow, TapeRow
from core.store.unit import Unit

_UNFINISHED = tuple(each for each in Station if each.is_unfinished)


def waiting(unit: Unit) -> tuple[QueuedTape, ...]:
    """Tapes not ready yet, box by box: in the order they were put in, then in the order they came."""
    everywhere = select(TapeRow, JobRow.rush).join(JobRow, JobRow.id == TapeRow.job_id)
    rows = unit.session.execute(
        everywhere.where(TapeRow.station.in_(_UNFINISHED)).order_by(TapeRow.job_id, TapeRow.place)
    )
    shop, boxes = habits(unit), habits_of_boxes(unit)
    queued = _with_copies(
        [_queued(tape, rush, boxes.get(tape.job_id, shop)) for tape, rush in rows], copying_time.minutes(unit)
    )
    places = {number: place for place, number in enumerate(box_order(unit))}
    return tuple(sorted(queued, key=lambda tape: places.get(tape.job, len(places))))


def _with_copies(queue: Sequence[QueuedTape], minutes: Mapping[JobNumber, float]) -> list[QueuedTape]:
    """The queue with the time for copies that were not begun: a person's time before the last tape of each
    order that still needs the bench, as a quote reckons it (`turnaround.behind`)."""
    found = list(queue)
    last = {
        tape.job: place
        for place, tape in enumerate(queue)
        if tape.station.needs_the_bench and tape.plays and tape.minutes != ZERO
    }
    for number, place in last.items():
        found[place] = replace(found[place], copying_minutes=minutes.get(number, 0.0))
    return found


def box_order(unit: Unit) -> tuple[JobNumber, ...]:
    """The boxes somebody put in an order, first to last; those not named come after, as they came."""
    newest = select(BoxOrderRow).order_by(BoxOrderRow.id.desc()).limit(1)
    row = unit.session.scalars(newest).one_or_none()
    return () if row is None else tuple(JobNumber(number) for number in row.numbers)


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


def believe_anew(unit: Unit, row: TapeRow) -> None:
    """The minutes of a tape as they are believed by what a deck showed and what was measured of it."""
    if row.minutes != ZERO:
        draft = row.draft if row.shown is None else found(row.draft, row.shown)
        known = facts(draft, draft.tv, tape_facts.least_length(row))
        believed = habits_of_boxes(unit).get(row.job_id) or habits(unit)
        row.minutes = tape_minutes.belief_of(known, believed).range


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


def habits_of_order(unit: Unit, job_id: int) -> ShopHabits:
    """What is believed of the tapes of one order."""
    return habits_of_boxes(unit).get(job_id) or habits(unit)


def habits_of_tape(unit: Unit, code: TapeCode) -> ShopHabits:
    """What is believed of the tapes of the box that this one lies in."""
    row = lookup.tape_row(unit, code)
    return habits_of_order(unit, row.job_id)


def evidence(unit: Unit) -> tuple[Evidence, ...]:
    """What the shop believed at first, what it has seen, and what it believes now, habit by habit."""
    seen = played(unit)
    return evidence_of(seen, learning.learned(seen))


def _queued(row: TapeRow, rush: bool, habits: ShopHabits) -> QueuedTape:
    """One waiting tape, believed anew by what the shop and its box have shown since it came."""
    draft = row.draft if row.shown is None else found(row.draft, row.shown)
    known = facts(draft, None, tape_facts.least_length(row))
    still = row.station.is_repaired_on_the_way
    return QueuedTape(
        code=TapeCode(row.code),
        format=draft.format,
        recorded_as=draft.recorded_as,
        tv=draft.tv,
        speed=draft.speed,
        minutes=row.minutes if row.minutes == ZERO else tape_minutes.belief_of(known, habits).range,
        station=row.station,
        since=row.since,
        rush=rush,
        bench_minutes=row.verdict.bench_minutes if still else 0.0,
        known=known,
        habits=habits,
        deck=row.deck,
        rests_until=row.rests_until,
        plays=row.verdict.elsewhere is None,
    )
