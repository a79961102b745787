"""What leads at the bench is the next right step: never refused, and it leads to the end of the line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from itertools import combinations

import pytest

from core.catalogue import condition, moves, next_steps
from core.catalogue.next_steps import Around, Doing, NextStep
from core.model.dispositions import Disposition
from core.model.names import AnyFinding, Finding, FormatName, Join, Look, Outcome
from core.model.repair_records import AfterRepair, RepairAttempt, Splice
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import repair_attempts, repair_record, tape_dispositions, tapes
from tests.support import beginnings
from tests.support.booked import MORNING, Desk, line

VHS = FormatName("vhs")
FOUND = tuple(each for each in condition.possible(VHS) if isinstance(each, Finding))
NOW = Around(MORNING, files=0, is_over=False)
JOINT = Splice(5.0, 1.0, Join.TAPE, 1.0, 2.0, "Kim", MORNING)
SWAPPED = RepairAttempt("shell-swap", "", True, None, "", "", "Kim", MORNING + timedelta(minutes=5))
_SECOND = {Finding.SNAPPED, Finding.SHELL_BROKEN, Finding.MOULD, Finding.CRUSHED, Finding.LID_DAMAGED}


begun_file = beginnings.begun_file(lambda records: records.allow(records.book(line())))


@pytest.fixture
def tape(file_desk: Desk) -> TapeRecord:
    return file_desk.shop.ask(tapes.at_work)[0]


def as_found(tape: TapeRecord, *found: AnyFinding, **changes: object) -> TapeRecord:
    judged = condition.verdict(found, tape.format)
    return replace(tape, findings=found, verdict=judged, **changes)  # type: ignore[arg-type]


def histories(tape: TapeRecord) -> Iterator[TapeRecord]:
    """A tape as nothing, or something, was repaired on it, and as somebody has looked at it since."""
    yield tape
    settled = tuple(moves.needing_splice(tape.findings))
    spliced = replace(tape, splices=(JOINT,), settled=settled, not_for_reuse=True)
    swapped = replace(spliced, tried=(SWAPPED,))
    for repaired in (spliced, swapped):
        for look in (None, *Look):
            yield replace(repaired, after_repair=AfterRepair(MORNING, look))


def check(tape: TapeRecord, step: NextStep) -> None:
    """Refused where the step would be."""
    look = tape.after_repair.look if tape.after_repair else None
    if step.doing is Doing.MOVE:
        assert step.station is not None
        standing = moves.Standing(tape.code, tape.format, tape.station, tape.open_findings, look=look)
        moves.check(standing, step.station)
        assert not (step.station.is_for_a_deck and tape.after_repair is not None and look is None)
        assert step.station is not Station.READY or tape.played_minutes is not None
        assert tape.station is not Station.READY, "a ready tape is never sent back"
    if step.doing is Doing.GOOD_AFTER_REPAIR:
        assert tape.after_repair is not None
        assert look is None


@pytest.mark.parametrize("station", [each for each in Station if each is not Station.HANDED_BACK])
def test_at_every_station_with_whatever_was_found_and_repaired_it_is_not_refused(
    tape: TapeRecord, station: Station
) -> None:
    pairs = (pair for pair in combinations(FOUND, 2) if _SECOND & set(pair))
    for found in [(), *((each,) for each in FOUND), *pairs]:
        for one in histories(as_found(tape, *found, station=station)):
            for minutes in (None, 60.0):
                recorded = replace(one, played_minutes=minutes)
                step = next_steps.next_step(recorded, NOW)
                if step is not None:
                    check(recorded, step)


def test_nothing_leads_away_from_ready_but_the_label(tape: TapeRecord) -> None:
    ready = replace(tape, station=Station.READY, played_minutes=60.0)
    assert next_steps.next_step(ready, NOW) is None
    label = next_steps.next_step(replace(ready, not_for_reuse=True), NOW)
    assert label == NextStep(Doing.LABEL_ON)


def test_a_tape_left_out_of_the_agreement_only_goes_home(tape: TapeRecord) -> None:
    assert next_steps.next_step(replace(tape, left_out_in=2), NOW) is None


def test_a_cold_tape_waits_for_its_warmth(tape: TapeRecord) -> None:
    cold = replace(tape, station=Station.CLEARED_TO_PLAY, rests_until=MORNING + timedelta(hours=1))
    assert next_steps.next_step(cold, NOW) is None
    assert next_steps.next_step(cold, replace(NOW, now=MORNING + timedelta(hours=2))) is not None


def test_the_customer_is_called_before_a_tape_goes_on_that_costs_more_than_agreed(tape: TapeRecord) -> None:
    asking = replace(tape, station=Station.ASKING_THE_CUSTOMER)
    assert next_steps.next_step(asking, replace(NOW, is_over=True)) == NextStep(Doing.CALL)
    assert next_steps.next_step(asking, replace(NOW, is_over=None)) is None, "nobody has said yet"


def test_a_copy_is_signed_off_before_its_tape_is_ready(tape: TapeRecord) -> None:
    checked = replace(tape, station=Station.BEING_CHECKED, played_minutes=60.0)
    assert next_steps.next_step(checked, replace(NOW, files=1)) == NextStep(Doing.SIGN_OFF)
    assert next_steps.next_step(checked, replace(NOW, wants_file=True)) == NextStep(Doing.READ_FILE)
    signed = replace(checked, signed_off_by="Kim")
    assert next_steps.next_step(signed, replace(NOW, files=1)) == NextStep(Doing.MOVE, Station.READY)
    blank = replace(signed, played_minutes=None)
    assert next_steps.next_step(blank, replace(NOW, files=1)) == NextStep(Doing.SETTLE)


def test_after_a_good_look_at_a_splice_the_tape_may_go_on_and_nothing_is_left_to_do(file_desk: Desk) -> None:
    desk = file_desk
    code = desk.book(line(findings=(Finding.SNAPPED,))).tapes[0].code
    desk.shop.run(tapes.move, code, Station.LOOKED_OVER)
    tape = desk.shop.run(tapes.move, code, Station.AT_THE_BENCH)
    assert [each.code for each in next_steps.still_to_do(tape)] == ["splice"]
    assert next_steps.next_step(tape, NOW) == NextStep(Doing.SPLICE)
    tape = desk.shop.run(repair_record.splice, code, at_minutes=5.0, cut_cm=1.0, joined_with=Join.TAPE)
    assert next_steps.still_to_do(tape) == ()
    assert next_steps.next_step(tape, NOW) == NextStep(Doing.GOOD_AFTER_REPAIR)
    bad = desk.shop.run(repair_attempts.look, code, Look.AGAIN)
    assert [each.code for each in next_steps.still_to_do(bad)] == ["splice"], "it has to be done again"
    good = desk.shop.run(repair_attempts.look, code, Look.OK)
    assert next_steps.next_step(good, NOW) == NextStep(Doing.MOVE, Station.CLEARED_TO_PLAY)


def test_a_splice_to_the_leader_anchors_the_tape_again(tape: TapeRecord) -> None:
    loose = as_found(tape, Finding.OFF_HUB, station=Station.AT_THE_BENCH)
    assert [each.code for each in next_steps.still_to_do(loose)] == ["re-anchor"]
    joined = replace(loose, splices=(replace(JOINT, joined_with=Join.LEADER),))
    assert next_steps.still_to_do(joined) == ()


def test_a_donor_shell_brings_its_own_lid(tape: TapeRecord) -> None:
    found = as_found(tape, Finding.LID_DAMAGED, station=Station.AT_THE_BENCH, tried=(SWAPPED,))
    assert next_steps.still_to_do(found) == ()


@pytest.mark.parametrize("found", FOUND, ids=[each.value for each in FOUND])
def test_whoever_follows_it_comes_to_an_end_without_a_refusal(file_desk: Desk, found: Finding) -> None:
    """The services say so themselves, as they are asked by the window."""
    desk = file_desk
    (tape,) = desk.shop.ask(tapes.at_work)
    tape = desk.shop.run(repair_record.find, tape.code, (found,))
    for _ in range(12):
        step = next_steps.next_step(tape, NOW)
        if step is None:
            break
        tape = follow(desk, tape, step)
    else:
        pytest.fail(f"round and round: {tape.station}")
    assert tape.is_done or tape.station is Station.ASKING_THE_CUSTOMER
    assert (tape.station is Station.READY) is (
        tape.verdict.outcome is not Outcome.CANNOT and not tape.verdict.hold
    )


def follow(desk: Desk, tape: TapeRecord, step: NextStep) -> TapeRecord:
    """Do what the leading button says, as a person would."""
    run, code = desk.shop.run, tape.code
    if step.doing is Doing.SPLICE:
        return run(repair_record.splice, code, at_minutes=5.0, cut_cm=1.0, joined_with=Join.TAPE)
    if step.doing is Doing.REPAIR:
        (first, *_) = next_steps.still_to_do(tape)
        return run(repair_attempts.record, code, first.code, succeeded=True)
    if step.doing is Doing.GOOD_AFTER_REPAIR:
        return run(repair_attempts.look, code, Look.OK)
    if step.doing is Doing.LABEL_ON:
        return run(repair_record.mark, code)
    if step.doing is Doing.SETTLE:
        left = condition.verdict(tape.findings, tape.format)
        assert left.set_aside
        return run(tape_dispositions.settle, code, Disposition.CANNOT_BE_PLAYED)
    assert step.station is not None
    minutes = 60.0 if step.station is Station.BEING_CHECKED else None
    return run(tapes.move, code, step.station, minutes=minutes, counts_as_look=False)
