"""The repair record: every join, what it cost, and the mark that says never again."""

from __future__ import annotations

import pytest

from core import bench, cuts, tapes
from core.errors import Refused, WrongInput
from core.names import Finding, Join, TapeCode
from core.stations import Station
from tests.support.booked import Desk, line


@pytest.fixture
def code(desk: Desk) -> TapeCode:
    return desk.book(line(findings=[Finding.SNAPPED])).tapes[0].code


@pytest.mark.parametrize("join", Join)
def test_a_splice_is_kept_with_the_seconds_it_cost(desk: Desk, code: TapeCode, join: Join) -> None:
    tape = desk.shop.run(bench.splice, code, at_minutes=12.5, cut_cm=4, joined_with=join)
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
    tape = desk.shop.run(bench.splice, code, at_minutes=0, cut_cm=0, joined_with=Join.TAPE)
    assert tape.splices[0].seconds_removed == 0
    assert tape.splices[0].seconds_disturbed > 0


@pytest.mark.parametrize("at_minutes", [-0.1, 200, float("nan"), float("inf")])
def test_a_place_off_the_tape_is_refused(desk: Desk, code: TapeCode, at_minutes: float) -> None:
    with pytest.raises(WrongInput, match="minutes from the head"):
        desk.shop.run(bench.splice, code, at_minutes=at_minutes, cut_cm=1, joined_with=Join.TAPE)
    assert desk.shop.ask(tapes.get, code).splices == ()


@pytest.mark.parametrize("cut_cm", [-1, 1001, float("nan"), float("inf")])
def test_a_cut_that_cannot_be_is_refused(desk: Desk, code: TapeCode, cut_cm: float) -> None:
    with pytest.raises(WrongInput, match="centimetres"):
        desk.shop.run(bench.splice, code, at_minutes=1, cut_cm=cut_cm, joined_with=Join.TAPE)


def test_a_splice_may_be_recorded_wherever_the_tape_is(desk: Desk) -> None:
    tape = desk.bring_to(desk.book().tapes[0], Station.READY)
    assert desk.shop.run(bench.splice, tape.code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE).not_for_reuse


def test_a_mark_is_confirmed_once(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(bench.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    marked = desk.shop.run(bench.mark, code)
    lines = desk.shop.ask(tapes.history, code)
    desk.clock.go_on(hours=1)
    assert desk.shop.run(bench.mark, code) == marked
    assert desk.shop.ask(tapes.history, code) == lines
    assert lines[-1].words == "the not-for-reuse label is on the cassette"


def test_a_second_splice_leaves_the_mark_on(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(bench.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    marked = desk.shop.run(bench.mark, code)
    again = desk.shop.run(bench.splice, code, at_minutes=9, cut_cm=1, joined_with=Join.ADHESIVE)
    assert again.marked_at == marked.marked_at
    assert [each.at_minutes for each in again.splices] == [1, 9]


def test_a_tape_without_a_splice_needs_no_mark(desk: Desk) -> None:
    with pytest.raises(Refused, match="needs no mark"):
        desk.shop.run(bench.mark, desk.book().tapes[0].code)


def test_a_splice_entered_by_mistake_is_struck_out_and_stays_readable(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(tapes.move, code, Station.LOOKED_OVER)
    desk.shop.run(tapes.move, code, Station.AT_THE_BENCH)
    desk.shop.run(bench.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    desk.shop.run(bench.mark, code)
    undone = desk.shop.run(bench.undo_splice, code, because="it was the other tape")
    assert (undone.splices, undone.not_for_reuse, undone.marked_at) == ((), False, None)
    words = [each.words for each in desk.shop.ask(tapes.history, code)]
    assert words[-1] == "splice at 1 minutes struck out: it was the other tape"
    assert words[-3].startswith("spliced at 1 minutes")
    with pytest.raises(Refused, match="no splice is recorded"):
        desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    assert desk.shop.verify() == ()


def test_only_the_last_of_two_splices_is_struck_out(desk: Desk, code: TapeCode) -> None:
    for at in (1, 2):
        desk.shop.run(bench.splice, code, at_minutes=at, cut_cm=1, joined_with=Join.TAPE)
    undone = desk.shop.run(bench.undo_splice, code, because="typed twice")
    assert [each.at_minutes for each in undone.splices] == [1]
    assert undone.not_for_reuse


def test_striking_out_needs_a_splice_and_a_reason(desk: Desk, code: TapeCode) -> None:
    with pytest.raises(Refused, match="no splice"):
        desk.shop.run(bench.undo_splice, code, because="a mistake")
    desk.shop.run(bench.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    with pytest.raises(WrongInput, match="struck out"):
        desk.shop.run(bench.undo_splice, code, because="  ")


def test_what_is_found_changes_what_is_expected(desk: Desk) -> None:
    tape = desk.book(line()).tapes[0]
    found = desk.shop.run(bench.find, tape.code, [Finding.SNAPPED, Finding.SNAPPED], note="at the clip")
    assert found.findings == (Finding.SNAPPED,)
    assert found.verdict != tape.verdict
    assert desk.shop.ask(tapes.history, tape.code)[-1].words == "seen: snapped; at the clip"


def test_a_finding_is_cleared_with_a_reason(desk: Desk, code: TapeCode) -> None:
    with pytest.raises(WrongInput, match="finding is cleared"):
        desk.shop.run(bench.clear_finding, code, Finding.SNAPPED, "")
    with pytest.raises(Refused, match="no finding"):
        desk.shop.run(bench.clear_finding, code, Finding.MOULD, "washed")
    cleared = desk.shop.run(bench.clear_finding, code, Finding.SNAPPED, "it was only the leader")
    assert cleared.findings == ()
    assert cleared.verdict.repairs == ()


def test_nothing_is_added_to_a_tape_that_is_gone(desk: Desk) -> None:
    job = desk.book(line())
    code = desk.bring_to(job.tapes[0], Station.READY).code
    desk.hand_back(job)
    for step in (
        lambda: desk.shop.run(bench.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE),
        lambda: desk.shop.run(bench.mark, code),
        lambda: desk.shop.run(bench.find, code, [Finding.MOULD]),
        lambda: desk.shop.run(tapes.move, code, Station.BEING_CHECKED),
    ):
        with pytest.raises(Refused, match=r"handed back|left the shop"):
            step()
