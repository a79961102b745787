"""What was tried on a tape, what it settled, and the look that a repair asks for before the tape may play."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.catalogue import condition
from core.model.agreement_records import Consent
from core.model.errors import Refused, WrongInput
from core.model.names import DonorPart, Finding, FormatName, Join, Look, Measure, TapeCode
from core.model.stations import Station
from core.services import donors, pickups, repair_attempts, repair_record, tapes
from core.services.agreement import agreements
from core.services.records_door import Shop
from core.store import schema
from tests.support.booked import Desk, line
from tests.support.older import as_kept_before

BENCH = (Station.LOOKED_OVER, Station.AT_THE_BENCH)


@pytest.fixture
def code(desk: Desk) -> TapeCode:
    """A tape at the bench, off its hub and in a broken shell."""
    found = desk.allow(desk.book(line(findings=[Finding.OFF_HUB, Finding.SHELL_BROKEN]))).tapes[0].code
    for station in BENCH:
        desk.shop.run(tapes.move, found, station)
    return found


def last_words(desk: Desk, code: TapeCode) -> str:
    return desk.shop.ask(tapes.history, code)[-1].words


def test_what_failed_is_kept_with_what_held(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_attempts.record, code, "re-anchor", succeeded=False, note="the clip is cracked")
    assert last_words(desk, code) == "re-anchor the leader: failed; the clip is cracked"
    tape = desk.shop.run(repair_attempts.record, code, "re-anchor", succeeded=True)
    assert [(each.code, each.succeeded, each.by) for each in tape.tried] == [
        ("re-anchor", False, "Kim"),
        ("re-anchor", True, "Kim"),
    ]
    assert desk.shop.verify() == ()


@pytest.mark.parametrize("repair", [each for each in condition.REPAIRS if each != "splice"])
def test_every_repair_of_the_bench_can_be_kept(desk: Desk, code: TapeCode, repair: str) -> None:
    (tried,) = desk.shop.run(repair_attempts.record, code, repair, succeeded=True).tried
    assert tried.words == condition.repair(repair, FormatName("vhs")).words


def test_a_splice_that_held_is_recorded_as_a_splice_and_one_that_failed_is_kept(
    desk: Desk, code: TapeCode
) -> None:
    with pytest.raises(Refused, match="recorded with its place"):
        desk.shop.run(repair_attempts.record, code, "splice", succeeded=True)
    assert desk.shop.run(repair_attempts.record, code, "splice", succeeded=False).tried[0].code == "splice"
    assert not desk.shop.ask(tapes.get, code).not_for_reuse


def test_what_is_no_repair_or_no_part_of_it_is_refused(desk: Desk, code: TapeCode) -> None:
    with pytest.raises(WrongInput, match="accepted: splice, re-anchor"):
        desk.shop.run(repair_attempts.record, code, "polish", succeeded=True)
    with pytest.raises(WrongInput, match="re-anchor takes no part"):
        desk.shop.run(repair_attempts.record, code, "re-anchor", succeeded=True, part=DonorPart.REEL)
    with pytest.raises(WrongInput, match="together with the part"):
        desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=True, from_elsewhere="a box")
    assert desk.shop.ask(tapes.get, code).tried == ()


def test_only_a_repair_that_held_lets_the_tape_go_on(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.SHELL_BROKEN])).tapes[0].code
    desk.shop.run(tapes.move, code, Station.LOOKED_OVER)
    desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=False)
    with pytest.raises(Refused, match="needs a repair first"):
        desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=True)
    assert desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY).station is Station.CLEARED_TO_PLAY


def test_a_repair_struck_out_is_open_again_and_its_part_is_back_on_the_shelf(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.SHELL_BROKEN])).tapes[0].code
    desk.shop.run(tapes.move, code, Station.LOOKED_OVER)
    desk.shop.run(donors.add, FormatName("vhs"), DonorPart.SHELL, 1)
    desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=True, part=DonorPart.SHELL)
    undone = desk.shop.run(repair_attempts.strike, code, because="it was the other tape")
    assert (undone.tried, undone.look_due) == ((), False)
    assert desk.shop.ask(donors.fitting, FormatName("vhs"))[DonorPart.SHELL] == 1
    assert "): it was the other tape" in last_words(desk, code)
    with pytest.raises(Refused, match="needs a repair first"):
        desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    with pytest.raises(Refused, match="no repair"):
        desk.shop.run(repair_attempts.strike, code, because="again")
    assert desk.shop.verify() == ()


# --- the look afterwards -----------------------------------------------------------------


def test_a_repaired_tape_is_looked_over_before_it_plays(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=True)
    assert desk.shop.ask(tapes.get, code).look_due
    with pytest.raises(Refused, match="nobody has looked it over since"):
        desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY, counts_as_look=False)
    looked = desk.shop.run(repair_attempts.look, code, Look.OK, note="the lid closes")
    assert looked.after_repair is not None
    assert (looked.after_repair.look, looked.after_repair.by) == (Look.OK, "Kim")
    assert looked.after_repair.at == desk.clock()
    assert last_words(desk, code) == "looked over after its repair: it may go on; the lid closes"
    moved = desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY, counts_as_look=False)
    assert moved.station is Station.CLEARED_TO_PLAY
    assert desk.shop.verify() == ()


def test_to_clear_a_spliced_tape_is_to_say_that_it_was_looked_at(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    cleared = desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    assert cleared.after_repair is not None
    assert (cleared.after_repair.look, cleared.after_repair.by) == (Look.OK, "Kim")
    assert "looked over after its repair with this move; it may go on" in last_words(desk, code)
    playing = desk.shop.run(tapes.move, code, Station.PLAYING)
    assert playing.station is Station.PLAYING
    assert "looked after repair" not in last_words(desk, code)
    assert desk.shop.verify() == ()


def test_what_has_to_be_done_again_does_not_reach_a_deck(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    desk.shop.run(repair_attempts.look, code, Look.AGAIN, note="the tape overhangs")
    with pytest.raises(Refused, match="has to be done again"):
        desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    assert desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY).station is Station.CLEARED_TO_PLAY


def test_a_new_repair_asks_for_a_new_look(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_attempts.record, code, "shell-swap", succeeded=True)
    desk.shop.run(repair_attempts.look, code, Look.OK)
    assert not desk.shop.ask(tapes.get, code).look_due
    assert desk.shop.run(repair_attempts.record, code, "re-anchor", succeeded=True).look_due


def test_no_look_is_due_without_a_repair_that_held(desk: Desk, code: TapeCode) -> None:
    for repair, held in (("re-anchor", False), ("inspect-sound", True)):
        assert not desk.shop.run(repair_attempts.record, code, repair, succeeded=held).look_due
    with pytest.raises(Refused, match="had no repair"):
        desk.shop.run(repair_attempts.look, code, Look.OK)


def test_when_the_only_splice_is_struck_out_there_is_nothing_to_look_at(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    assert not desk.shop.run(repair_record.undo_splice, code, because="the other tape").look_due


def test_nothing_is_repaired_on_a_tape_that_is_gone(desk: Desk) -> None:
    job = desk.book(line())
    code = desk.bring_to(job.tapes[0], Station.READY).code
    desk.hand_back(job)
    for step in (
        lambda: desk.shop.run(repair_attempts.record, code, "re-anchor", succeeded=True),
        lambda: desk.shop.run(repair_attempts.look, code, Look.OK),
        lambda: desk.shop.run(repair_attempts.strike, code, because="x"),
    ):
        with pytest.raises(Refused, match="handed back"):
            step()


# --- a shop from before ------------------------------------------------------------------


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path: Path) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))


def test_a_filled_shop_of_the_third_version_keeps_its_splices_marks_and_receipts(
    desk: Desk, older: str
) -> None:
    job = desk.allow(desk.book(line(findings=[Finding.SNAPPED]), line()))
    code = job.tapes[0].code
    desk.shop.run(repair_record.splice, code, at_minutes=12.5, cut_cm=2, joined_with=Join.LEADER)
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    desk.shop.run(repair_record.undo_splice, code, because="typed twice")
    desk.shop.run(repair_record.mark, code)
    desk.bring_to(job.tapes[1], Station.READY)
    receipt = desk.hand_back(job)
    as_kept_before(desk, older, "0003")

    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        tape = shop.ask(tapes.get, code)
        (splice,) = tape.splices
        assert (splice.at_minutes, splice.cut_cm, splice.measured) == (12.5, 2, Measure.MINUTES)
        assert (splice.at_metres, splice.section, splice.in_leader) == (None, None, False)
        assert [each.because for each in tape.struck] == ["typed twice"]
        assert tape.struck[0].by is None
        assert tape.marked_at is not None
        assert (tape.tried, tape.look_due, tape.label_astray) == ((), False, False)
        assert shop.ask(pickups.latest, job.number) == receipt
        assert shop.verify() == ()
        # And the new steps work on what was there.
        shop.run(agreements.agree, job.number, "do it all", Consent("Ada"), ceiling_minor=100_000)
        shop.run(donors.add, FormatName("vhs"), DonorPart.SHELL, 1)
        shop.run(repair_attempts.record, code, "shell-swap", succeeded=True, part=DonorPart.SHELL)
        for station in (*BENCH, Station.CLEARED_TO_PLAY):
            shop.run(tapes.move, code, station)
        assert shop.verify() == ()


def test_a_copy_of_the_old_file_is_kept(file_desk: Desk, tmp_path: Path) -> None:
    file_desk.book(line())
    old = tmp_path / "old.sqlite"
    as_kept_before(file_desk, str(old), "0003")
    Shop.open(old, create=False).close()
    assert list(tmp_path.glob(f"old-before-{schema.HEAD}*"))
