"""What was seen without playing a tape, kept for good: the guided look-over and the packs in the window."""

from __future__ import annotations

from collections.abc import Iterable

from core.model.names import AnyFinding, TapeCode
from core.model.ranges import Range
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.playtime import length_doubts, pack_reading
from core.playtime.pack_reading import PackMeasurement
from core.services import repair_record, tape_facts, tapes
from core.store import history, lookup
from core.store.steps import step
from core.store.unit import Unit
from core.wording.locale_figures import percent_range
from core.wording.messages import say


@step
def look_over(
    unit: Unit, code: TapeCode, findings: Iterable[AnyFinding], *, looked: int, of: int, note: str = ""
) -> TapeRecord:
    """Ends a look-over of ``looked`` steps ``of`` all: every finding in one go, and the tape is looked over.

    A tape beyond that station stays where it is and takes the findings. Refused once handed back.
    """
    sentence = "event_looked_over_note" if note else "event_looked_over"
    said = say("tapes", sentence, looked=looked, of=of, note=note)
    row = lookup.tape_in_the_shop(unit, code)
    if row.station is Station.BOOKED_IN:
        return tapes.move(unit, code, Station.LOOKED_OVER, findings=findings, note=said)
    seen = tuple(findings)
    record = repair_record.find(unit, code, seen, note=said)
    if not seen:
        history.append_of_tape(unit, row, "looked-over", said)
    return record


@step
def pack_read(
    unit: Unit,
    code: TapeCode,
    *,
    to_come_mm: float | None,
    run_mm: float | None,
    marking: str | None = None,
    sure: bool = False,
) -> TapeRecord:
    """Notes in the tape's history what its packs told; the tape itself stays as it is.

    WrongInput for a radius that cannot be; Unconfirmed for one past the edge of the reel unless somebody is
    ``sure``; Refused where the geometry is not known or the tape has gone home.
    """
    row = lookup.tape_in_the_shop(unit, code)
    draft = row.draft
    found = pack_reading.read(
        draft.format,
        marking or draft.marking,
        to_come_mm=to_come_mm,
        run_mm=run_mm,
        speed=draft.speed,
        tv=draft.tv,
    )
    for reel in (found.to_come, found.run):
        if reel.was_read:
            tape_facts.confirm(length_doubts.of_pack(found.reels, reel.radius_mm), sure=sure)
    words = pack_words(found)
    told = {"pack_to_come_mm": to_come_mm, "pack_run_mm": run_mm, "share_run": found.share_run}
    history.append_of_tape(unit, row, "packs-read", words, **told)
    return tapes.get(unit, code)


def pack_words(found: PackMeasurement) -> str:
    """One reading as one line of history."""
    both = found.to_come.was_read and found.run.was_read
    words = say(
        "tapes",
        "event_packs",
        read="both" if both else "to_come" if found.to_come.was_read else "run",
        to_come=found.to_come.radius_mm,
        run=found.run.radius_mm,
        share=percent_range(found.share_run.low, found.share_run.high),
        minutes_run=_span(found.run.minutes),
        minutes_to_come=_span(found.to_come.minutes),
    )
    if found.fit is None or found.fit.agrees:
        return words
    return f"{words}; {say('tapes', 'event_packs_disagree', marking=found.reels.marking.name)}"


def _span(value: Range) -> str:
    low, high = round(value.low), round(value.high)
    return f"{high}" if low == high else say("tapes", "from_to", low=low, high=high)
