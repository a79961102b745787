"""The tapes of a booked order made those of an inventory written anew: added, left out, described anew."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from datetime import timedelta

from core.catalogue import acclimatisation, condition
from core.model import numbers
from core.model.inventory import Inventory, TapeLine
from core.model.names import JobNumber, Outcome, TapeCode
from core.model.ranges import ZERO, Range
from core.model.repair_records import Elsewhere
from core.model.stations import Station
from core.playtime import possibilities, tape_minutes
from core.pricing.tape_matching import KnownTape, MatchedTape, matched
from core.scheduling import partner_choice
from core.services import deck_queue
from core.services.agreement import agreement_versions, left_out
from core.store import current_settings, history, lookup
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say


def change(unit: Unit, row: JobRow, box: Inventory, codes: Sequence[tuple[TapeCode, ...]], said: str) -> None:
    """Makes the tapes of an order at hand those of ``box``; ``codes`` as in `tape_matching.matched`.

    Refused where a tape would be left out that was copied or is home.
    """
    standing = lookup.standing_tapes(row)
    told = {_told(each) for each in standing}
    lines = [as_booked(line, box, told) for line in box.lines]
    known = [KnownTape(TapeCode(each.code), _told(each), each.line, _progress(each)) for each in standing]
    made = matched(known, lines, codes)
    kept = {each.code for each in made}
    leaves = [each for each in standing if each.code not in kept]
    left_out.check(leaves)
    left_out.leave_out(unit, row, leaves, agreement_versions.current(row).number + 1, said)
    by_code = {each.code: each for each in standing}
    for tape in made:
        if tape.code is None:
            _add(unit, row, box, tape)
        else:
            _describe(unit, by_code[tape.code], tape)
    unit.session.flush()


def as_booked(line: TapeLine, box: Inventory, told: Collection[TapeLine]) -> TapeLine:
    """As `possibilities.out_of_box`; what was booked in the box's system before that was asked stays so."""
    as_box = replace(line, tv=box.tv_of(line), box_tv=None)
    return as_box if replace(as_box, count=1) in told else possibilities.out_of_box(line, box.tv)


def _told(tape: TapeRow) -> TapeLine:
    return replace(tape.draft, count=1)


def _progress(tape: TapeRow) -> int:
    """How far a tape got: what was copied or repaired is kept before what nobody has touched."""
    if not tape.station.is_in_the_shop:
        return 100
    work = 50 * (tape.played_minutes is not None) + 20 * bool(tape.splices or tape.repairs)
    return work + list(Station).index(tape.station)


def _add(unit: Unit, row: JobRow, box: Inventory, made: MatchedTape) -> None:
    place = max(each.place for each in row.tapes) + 1
    draft, elsewhere = made.draft, _elsewhere(unit, made.draft)
    verdict = condition.verdict(draft.findings, draft.format, elsewhere)
    hours = acclimatisation.hours_to_rest(box.cold)
    tape = TapeRow(
        code=numbers.tape_code(JobNumber(row.number), place),
        place=place,
        line=made.line,
        n=made.n,
        draft=draft,
        station=Station.BOOKED_IN,
        since=unit.now,
        findings=draft.findings,
        verdict=verdict,
        minutes=_minutes(unit, row, draft, verdict.outcome),
        rests_until=unit.now + timedelta(hours=hours) if hours else None,
    )
    row.tapes.append(tape)
    unit.session.flush()
    history.append_of_tape(
        unit, tape, "tape-booked-in", say("agreement", "event_added"), rests_until=tape.rests_until
    )


def _describe(unit: Unit, tape: TapeRow, made: MatchedTape) -> None:
    was, now = _told(tape), made.draft
    tape.line, tape.n, tape.draft = made.line, made.n, now
    if was == now:
        return
    taken_back = tuple(each for each in was.findings if each not in now.findings)
    added = tuple(each for each in now.findings if each not in tape.findings)
    tape.findings = tuple(each for each in tape.findings if each not in taken_back) + added
    tape.settled = tuple(each for each in tape.settled if each not in (*taken_back, *added))
    tape.verdict = condition.verdict(tape.findings, now.format, _elsewhere(unit, now))
    if replace(was, label="", findings=()) != replace(now, label="", findings=()) or not tape.minutes.high:
        tape.minutes = _minutes(unit, tape.job, now, tape.verdict.outcome)
    history.append_of_tape(unit, tape, "described-anew", say("agreement", "event_described"))


def _elsewhere(unit: Unit, draft: TapeLine) -> Elsewhere | None:
    settings = current_settings.read(unit)
    return partner_choice.elsewhere(settings.decks, settings.partners, draft)


def _minutes(unit: Unit, row: JobRow, draft: TapeLine, outcome: Outcome) -> Range:
    if outcome is Outcome.CANNOT:
        return ZERO
    habits = deck_queue.habits_of_boxes(unit).get(row.id) or deck_queue.habits(unit)
    return tape_minutes.belief(draft, draft.tv, habits).range
