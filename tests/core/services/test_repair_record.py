"""The repair record: every join, what it cost, and the mark that says never again."""

from __future__ import annotations

import pytest

from core.model.errors import Refused, WrongInput
from core.model.names import Finding, Join, Measure, Section, Speed, TapeCode
from core.model.stations import Station
from core.playtime import cuts
from core.services import repair_record, tapes
from tests.support.booked import Desk, line


@pytest.fixture
def code(desk: Desk) -> TapeCode:
    return desk.book(line(findings=[Finding.SNAPPED])).tapes[0].code


@pytest.mark.parametrize("join", Join)
def test_a_splice_is_kept_with_the_seconds_it_cost(desk: Desk, code: TapeCode, join: Join) -> None:
    tape = desk.shop.run(repair_record.splice, code, at_minutes=12.5, cut_cm=4, joined_with=join)
    lost = cuts.cut(tape.format, tape.draft.speed, tape.draft.tv, 4)
    (splice,) = tape.splices
    assert (splice.at_minutes, splice.cut_cm, splice.joined_with) == (12.5, 4, join)
    assert (splice.seconds_removed, splice.seconds_disturbed) == (
        lost.seconds_removed,
        lost.seconds_disturbed,
    )
    assert (splice.by, splice.at) == ("Kim", desk.clock())
    assert tape.not_for_reuse
    assert tape.marked_at is None


def test_a_clean_snap_loses_no_tape(desk: Desk, code: TapeCode) -> None:
    tape = desk.shop.run(repair_record.splice, code, at_minutes=0, cut_cm=0, joined_with=Join.TAPE)
    assert tape.splices[0].seconds_removed == 0
    assert tape.splices[0].seconds_disturbed > 0


@pytest.mark.parametrize("at_minutes", [-0.1, float("nan"), float("inf")])
def test_what_is_no_place_is_refused(desk: Desk, code: TapeCode, at_minutes: float) -> None:
    with pytest.raises(WrongInput, match="minutes from the start of the tape"):
        desk.shop.run(repair_record.splice, code, at_minutes=at_minutes, cut_cm=1, joined_with=Join.TAPE)
    assert desk.shop.ask(tapes.get, code).splices == ()


@pytest.mark.parametrize("cut_cm", [-1, 1001, float("nan"), float("inf")])
def test_a_cut_that_cannot_be_is_refused(desk: Desk, code: TapeCode, cut_cm: float) -> None:
    with pytest.raises(WrongInput, match="centimeters"):
        desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=cut_cm, joined_with=Join.TAPE)


def test_a_splice_may_be_recorded_wherever_the_tape_is(desk: Desk) -> None:
    tape = desk.bring_to(desk.book().tapes[0], Station.READY)
    assert desk.shop.run(
        repair_record.splice, tape.code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE
    ).not_for_reuse


def test_a_mark_is_confirmed_once(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    marked = desk.shop.run(repair_record.mark, code)
    lines = desk.shop.ask(tapes.history, code)
    desk.clock.go_on(hours=1)
    assert desk.shop.run(repair_record.mark, code) == marked
    assert desk.shop.ask(tapes.history, code) == lines
    assert lines[-1].words == "the not-for-reuse label is on the tape"


def test_a_second_splice_leaves_the_mark_on(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    marked = desk.shop.run(repair_record.mark, code)
    again = desk.shop.run(repair_record.splice, code, at_minutes=9, cut_cm=1, joined_with=Join.ADHESIVE)
    assert again.marked_at == marked.marked_at
    assert [each.at_minutes for each in again.splices] == [1, 9]


def test_a_tape_without_a_splice_needs_no_mark(desk: Desk) -> None:
    with pytest.raises(Refused, match="needs no label"):
        desk.shop.run(repair_record.mark, desk.book().tapes[0].code)


def test_a_splice_entered_by_mistake_is_struck_out_and_stays_readable(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(tapes.move, code, Station.LOOKED_OVER)
    desk.shop.run(tapes.move, code, Station.AT_THE_BENCH)
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    desk.shop.run(repair_record.mark, code)
    undone = desk.shop.run(repair_record.undo_splice, code, because="it was the other tape")
    assert (undone.splices, undone.not_for_reuse, undone.marked_at) == ((), False, None)
    words = [each.words for each in desk.shop.ask(tapes.history, code)]
    assert words[-1].startswith("splice at 1 min struck out: it was the other tape")
    assert words[-3].startswith("spliced at 1 minute,")
    with pytest.raises(Refused, match="no splice is recorded"):
        desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    assert desk.shop.verify() == ()


def test_only_the_last_of_two_splices_is_struck_out(desk: Desk, code: TapeCode) -> None:
    for at in (1, 2):
        desk.shop.run(repair_record.splice, code, at_minutes=at, cut_cm=1, joined_with=Join.TAPE)
    undone = desk.shop.run(repair_record.undo_splice, code, because="typed twice")
    assert [each.at_minutes for each in undone.splices] == [1]
    assert undone.not_for_reuse


def test_striking_out_needs_a_splice_and_a_reason(desk: Desk, code: TapeCode) -> None:
    with pytest.raises(Refused, match="no splice"):
        desk.shop.run(repair_record.undo_splice, code, because="a mistake")
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    with pytest.raises(WrongInput, match="struck out"):
        desk.shop.run(repair_record.undo_splice, code, because="  ")


def test_the_right_one_of_two_splices_is_struck_out_and_who_did_it_is_kept(
    desk: Desk, code: TapeCode
) -> None:
    for at in (1, 2):
        spliced = desk.shop.run(repair_record.splice, code, at_minutes=at, cut_cm=1, joined_with=Join.TAPE)
    first = spliced.splices[0]
    undone = desk.shop.run(repair_record.undo_splice, code, because="typed twice", which=first)
    assert [each.at_minutes for each in undone.splices] == [2]
    (struck,) = undone.struck
    assert (struck.splice, struck.by, struck.because) == (first, "Kim", "typed twice")
    with pytest.raises(Refused, match="already struck out"):
        desk.shop.run(repair_record.undo_splice, code, because="typed twice", which=first)
    assert desk.shop.verify() == ()


def test_a_place_in_metres_is_kept_as_it_was_measured(desk: Desk, code: TapeCode) -> None:
    tape = desk.shop.run(repair_record.splice, code, at_metres=30.0, cut_cm=2, joined_with=Join.TAPE)
    (splice,) = tape.splices
    # VHS SP: 30 m at 33.35 mm/s (IEC 60774).
    assert splice.at_minutes == pytest.approx(14.99, abs=0.01)
    assert (splice.at_metres, splice.measured, splice.reckoned) == (30.0, Measure.METRES, None)
    assert "spliced at 30 meters" in desk.shop.ask(tapes.history, code)[-1].words
    assert desk.shop.verify() == ()


def test_while_the_speed_is_not_known_place_and_loss_are_ranges(desk: Desk) -> None:
    code = desk.book(line(speed=None)).tapes[0].code
    (splice,) = desk.shop.run(
        repair_record.splice, code, at_metres=100.0, cut_cm=10, joined_with=Join.TAPE
    ).splices
    assert splice.reckoned is not None
    assert splice.reckoned.low < splice.reckoned.high
    assert splice.removed is not None
    assert splice.removed.low < splice.removed.high
    assert splice.disturbed is not None
    assert splice.seconds_removed == splice.removed.likely


@pytest.mark.parametrize("given", [{}, {"at_minutes": 1.0, "at_metres": 2.0}])
def test_a_place_is_told_in_one_way(desk: Desk, code: TapeCode, given: dict[str, float]) -> None:
    with pytest.raises(WrongInput, match="either minutes or meters"):
        desk.shop.run(repair_record.splice, code, cut_cm=1, joined_with=Join.TAPE, **given)


def test_a_joint_in_the_leader_loses_nothing_but_is_not_for_reuse(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.OFF_HUB], speed=Speed.SP)).tapes[0].code
    tape = desk.shop.run(repair_record.splice, code, at_minutes=0, cut_cm=3, joined_with=Join.LEADER)
    (splice,) = tape.splices
    assert splice.in_leader
    assert (splice.seconds_removed, splice.seconds_disturbed, splice.removed) == (0, 0, None)
    assert tape.not_for_reuse
    assert "in the clear leader" in desk.shop.ask(tapes.history, code)[-1].words


def test_a_tail_of_splicing_tape_may_lie_in_the_leader_too(desk: Desk, code: TapeCode) -> None:
    (splice,) = desk.shop.run(
        repair_record.splice, code, at_minutes=0, cut_cm=1, joined_with=Join.TAPE, section=Section.LEADER
    ).splices
    assert splice.in_leader
    with pytest.raises(WrongInput, match="leader lies at the two ends"):
        desk.shop.run(
            repair_record.splice, code, at_minutes=50, cut_cm=1, joined_with=Join.TAPE, section=Section.LEADER
        )


def test_joints_are_told_from_the_head_of_the_tape(desk: Desk, code: TapeCode) -> None:
    for at in (40, 2, 17):
        tape = desk.shop.run(repair_record.splice, code, at_minutes=at, cut_cm=1, joined_with=Join.TAPE)
    assert [each.at_minutes for each in tape.splices] == [40, 2, 17]
    assert [each.at_minutes for each in tape.joints] == [2, 17, 40]


def test_a_label_that_was_put_on_in_error_has_to_come_off(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    desk.shop.run(repair_record.mark, code)
    undone = desk.shop.run(repair_record.undo_splice, code, because="the other tape")
    assert undone.label_astray
    assert "label has to come off" in desk.shop.ask(tapes.history, code)[-1].words
    off = desk.shop.run(repair_record.take_label_off, code)
    assert not off.label_astray
    assert desk.shop.ask(tapes.history, code)[-1].by == "Kim"
    with pytest.raises(Refused, match="no label"):
        desk.shop.run(repair_record.take_label_off, code)
    assert desk.shop.verify() == ()


def test_without_a_label_on_it_nothing_has_to_come_off(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    undone = desk.shop.run(repair_record.undo_splice, code, because="the other tape")
    assert not undone.label_astray
    assert not undone.not_for_reuse


def test_a_new_splice_makes_an_astray_label_right_but_it_is_confirmed_anew(
    desk: Desk, code: TapeCode
) -> None:
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    desk.shop.run(repair_record.mark, code)
    desk.shop.run(repair_record.undo_splice, code, because="wrong place")
    again = desk.shop.run(repair_record.splice, code, at_minutes=9, cut_cm=1, joined_with=Join.TAPE)
    assert (again.label_astray, again.not_for_reuse, again.marked_at) == (False, True, None)


def test_what_is_found_changes_what_is_expected(desk: Desk) -> None:
    tape = desk.book(line()).tapes[0]
    found = desk.shop.run(
        repair_record.find, tape.code, [Finding.SNAPPED, Finding.SNAPPED], note="at the clip"
    )
    assert found.findings == (Finding.SNAPPED,)
    assert found.verdict != tape.verdict
    said = [each.words for each in desk.shop.ask(tapes.history, tape.code)]
    assert "found: snapped; at the clip" in said


def test_a_finding_is_cleared_with_a_reason(desk: Desk, code: TapeCode) -> None:
    with pytest.raises(WrongInput, match="finding is cleared"):
        desk.shop.run(repair_record.clear_finding, code, Finding.SNAPPED, "")
    with pytest.raises(Refused, match="no finding"):
        desk.shop.run(repair_record.clear_finding, code, Finding.MOULD, "washed")
    cleared = desk.shop.run(repair_record.clear_finding, code, Finding.SNAPPED, "it was only the leader")
    assert cleared.findings == ()
    assert cleared.verdict.repairs == ()


def test_nothing_is_added_to_a_tape_that_is_gone(desk: Desk) -> None:
    job = desk.book(line())
    code = desk.bring_to(job.tapes[0], Station.READY).code
    desk.hand_back(job)
    for step in (
        lambda: desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE),
        lambda: desk.shop.run(repair_record.mark, code),
        lambda: desk.shop.run(repair_record.find, code, [Finding.MOULD]),
        lambda: desk.shop.run(tapes.move, code, Station.BEING_CHECKED),
    ):
        with pytest.raises(Refused, match=r"handed back|left the shop"):
            step()
