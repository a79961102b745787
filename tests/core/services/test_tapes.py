"""A tape goes from station to station in order, and never onto a machine it would harm."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from itertools import product

import pytest

from core.catalogue import acclimatisation, moves
from core.model.errors import Refused, WrongInput
from core.model.names import Finding, Join, TapeCode
from core.model.stations import ASIDE, Station, allows
from core.model.tape_records import TapeRecord
from core.services import deck_queue, decks, jobs, repair_record, tapes
from core.store import current_settings
from core.wording.locale_figures import tape_code
from tests.support.behind import behind
from tests.support.booked import Desk, line, quoted

STATIONS = [each for each in Station if each is not Station.HANDED_BACK]


def test_a_sound_tape_goes_down_the_line(desk: Desk) -> None:
    tape = desk.book(line()).tapes[0]
    for there in (
        Station.LOOKED_OVER,
        Station.CLEARED_TO_PLAY,
        Station.PLAYING,
        Station.BEING_CHECKED,
        Station.READY,
    ):
        desk.clock.go_on(minutes=10)
        minutes = 61.5 if there is Station.READY else None
        moved = desk.shop.run(tapes.move, tape.code, there, minutes=minutes)
        assert (moved.station, moved.since) == (there, desk.clock())
    assert desk.shop.ask(tapes.get, tape.code) == moved


@pytest.mark.parametrize(("here", "there"), [*product(STATIONS, Station)])
def test_only_the_allowed_moves_are_possible(here: Station, there: Station) -> None:
    tape = moves.Standing(TapeCode("0000180014"), line().format, here, ())
    if allows(here, there) and here is not there:
        moves.check(tape, there)
        return
    with pytest.raises(Refused) as told:
        moves.check(tape, there)
    assert "000018 001 4" in told.value.sentence


def test_a_wrong_move_says_why_and_where_it_may_go(desk: Desk) -> None:
    code = desk.book().tapes[0].code
    with pytest.raises(Refused) as told:
        desk.shop.run(tapes.move, code, Station.PLAYING)
    assert told.value.sentence == (
        f"Tape {tape_code(code)} is booked in; it cannot go to playing. From here it may go to looked-over, "
        "asking-the-customer, kept-apart, cannot-be-played."
    )
    assert desk.shop.ask(tapes.get, code).station is Station.BOOKED_IN


def test_only_a_pickup_hands_a_tape_back(desk: Desk) -> None:
    tape = desk.bring_to(desk.book().tapes[0], Station.READY)
    with pytest.raises(Refused, match="only by a pickup"):
        desk.shop.run(tapes.move, tape.code, Station.HANDED_BACK)


def test_a_refused_move_writes_down_nothing(desk: Desk) -> None:
    code = desk.book().tapes[0].code
    before = desk.shop.ask(tapes.history, code)
    with pytest.raises(Refused):
        desk.shop.run(tapes.move, code, Station.READY, findings=[Finding.CREASED], minutes=3)
    assert desk.shop.ask(tapes.get, code).findings == ()
    assert desk.shop.ask(tapes.history, code) == before


# --- from the cold -----------------------------------------------------------------------


def _cold(desk: Desk) -> TapeRecord:
    quote = quoted(desk.shop, line())
    cold = replace(quote, inventory=replace(quote.inventory, cold=True))
    return desk.shop.run(jobs.book, cold).tapes[0]


def test_a_tape_from_the_cold_rests_a_day_before_it_plays(desk: Desk) -> None:
    tape = _cold(desk)
    assert tape.rests_until == desk.clock() + timedelta(hours=24)
    assert desk.shop.ask(deck_queue.waiting)[0].rests_until == tape.rests_until
    desk.bring_to(tape, Station.CLEARED_TO_PLAY)
    with pytest.raises(Refused) as told:
        desk.shop.run(tapes.move, tape.code, Station.PLAYING)
    assert "came in cold and rests until Wednesday, March 4, 9:00\N{NO-BREAK SPACE}AM" in told.value.sentence
    assert acclimatisation.caution() in told.value.sentence
    assert desk.shop.ask(tapes.get, tape.code).rests_until == tape.rests_until
    desk.clock.go_on(hours=24)
    assert desk.shop.run(tapes.move, tape.code, Station.PLAYING).station is Station.PLAYING
    assert desk.shop.verify() == ()


def test_a_cold_tape_plays_early_when_somebody_says_why(desk: Desk) -> None:
    tape = _cold(desk)
    desk.bring_to(tape, Station.CLEARED_TO_PLAY)
    played = desk.shop.run(tapes.move, tape.code, Station.PLAYING, note="it was in the room all along")
    assert (played.station, played.rests_until) == (Station.PLAYING, None)
    last = desk.shop.ask(tapes.history, tape.code)[-1].words
    assert "before it had warmed up" in last
    assert "in the room all along" in last
    assert desk.shop.verify() == ()


def test_the_history_sees_a_rest_that_was_altered(desk: Desk) -> None:
    _cold(desk)
    with desk.shop.database.writing.begin() as connection:
        connection.execute(behind("UPDATE tapes SET rests_until = NULL"))
    assert any("rests_until" in problem for problem in desk.shop.verify())


# --- repairs -----------------------------------------------------------------------------


def _at_the_bench(desk: Desk, *findings: Finding) -> TapeRecord:
    tape = desk.book(line(findings=findings)).tapes[0]
    desk.shop.run(tapes.move, tape.code, Station.LOOKED_OVER)
    return desk.shop.run(tapes.move, tape.code, Station.AT_THE_BENCH)


@pytest.mark.parametrize("finding", [Finding.SHELL_BROKEN, Finding.LID_DAMAGED, Finding.OFF_HUB])
def test_an_open_repair_goes_by_the_bench(desk: Desk, finding: Finding) -> None:
    tape = desk.book(line(findings=[finding])).tapes[0]
    desk.shop.run(tapes.move, tape.code, Station.LOOKED_OVER)
    with pytest.raises(Refused, match="at-the-bench"):
        desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, tape.code, Station.AT_THE_BENCH)
    desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, tape.code, Station.PLAYING)


def test_a_snapped_tape_is_not_played_without_a_splice(desk: Desk) -> None:
    tape = _at_the_bench(desk, Finding.SNAPPED)
    with pytest.raises(Refused, match="no splice is recorded"):
        desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY)
    desk.shop.run(repair_record.splice, tape.code, at_minutes=3, cut_cm=1, joined_with=Join.TAPE)
    cleared = desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY)
    assert cleared.not_for_reuse


def test_the_bench_may_say_what_was_done_instead_of_a_splice(desk: Desk) -> None:
    tape = _at_the_bench(desk, Finding.SNAPPED)
    with pytest.raises(WrongInput, match="instead of a splice"):
        desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY, without_splice=" ")
    reason = "only the trailer had come off; re-clipped"
    moved = desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY, without_splice=reason)
    assert not moved.not_for_reuse
    assert reason in desk.shop.ask(tapes.history, tape.code)[-1].words


def test_a_tape_that_snaps_again_needs_another_splice(desk: Desk) -> None:
    tape = _at_the_bench(desk, Finding.SNAPPED)
    desk.shop.run(repair_record.splice, tape.code, at_minutes=3, cut_cm=1, joined_with=Join.TAPE)
    desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, tape.code, Station.PLAYING)
    desk.shop.run(tapes.move, tape.code, Station.AT_THE_BENCH, findings=[Finding.SNAPPED])
    with pytest.raises(Refused, match="no splice is recorded"):
        desk.shop.run(tapes.move, tape.code, Station.CLEARED_TO_PLAY)


def test_what_is_found_while_a_tape_waits_for_its_deck_stops_it(desk: Desk) -> None:
    tape = desk.bring_to(desk.book().tapes[0], Station.CLEARED_TO_PLAY)
    desk.shop.run(repair_record.find, tape.code, [Finding.LID_DAMAGED])
    with pytest.raises(Refused, match="needs a repair first"):
        desk.shop.run(tapes.move, tape.code, Station.PLAYING)


# --- what harms machines -----------------------------------------------------------------


@pytest.mark.parametrize("finding", [Finding.MOULD, Finding.STICKY])
def test_what_harms_machines_leaves_the_line(desk: Desk, finding: Finding) -> None:
    code = desk.book(line(findings=[finding])).tapes[0].code
    with pytest.raises(Refused, match="stays away from machines"):
        desk.shop.run(tapes.move, code, Station.LOOKED_OVER)
    for there in (*ASIDE, Station.KEPT_APART):
        desk.shop.run(tapes.move, code, there)
    for there in (Station.LOOKED_OVER, Station.AT_THE_BENCH):
        with pytest.raises(Refused, match="stays away from machines"):
            desk.shop.run(tapes.move, code, there)
    desk.shop.run(repair_record.clear_finding, code, finding, "cleaned and baked by a specialist")
    desk.shop.run(tapes.move, code, Station.LOOKED_OVER)


def test_mould_found_while_looking_over_is_written_down_first(desk: Desk) -> None:
    code = desk.book(line()).tapes[0].code
    seen = desk.shop.run(tapes.move, code, Station.LOOKED_OVER, findings=[Finding.MOULD])
    assert seen.findings == (Finding.MOULD,)
    assert seen.verdict.cautions
    with pytest.raises(Refused, match="mold"):
        desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, code, Station.KEPT_APART)


def test_a_bought_film_is_not_copied_unless_the_rights_are_shown(desk: Desk) -> None:
    code = desk.book(line(findings=[Finding.COMMERCIAL_RECORDING])).tapes[0].code
    desk.shop.run(tapes.move, code, Station.LOOKED_OVER)
    with pytest.raises(Refused, match="holds the rights"):
        desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    desk.shop.run(repair_record.clear_finding, code, Finding.COMMERCIAL_RECORDING, "contract shown")
    desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)


# --- decks and minutes -------------------------------------------------------------------


def test_no_deck_plays_two_tapes(desk: Desk) -> None:
    first, second = (desk.bring_to(tape, Station.CLEARED_TO_PLAY) for tape in desk.book(line(count=2)).tapes)
    desk.shop.run(tapes.move, first.code, Station.PLAYING, deck="VHS 1")
    with pytest.raises(Refused, match=f"playing tape {tape_code(first.code)}"):
        desk.shop.run(tapes.move, second.code, Station.PLAYING, deck="VHS 1")
    desk.shop.run(tapes.move, second.code, Station.PLAYING, deck="VHS 2")
    desk.shop.run(tapes.move, first.code, Station.BEING_CHECKED)
    desk.shop.run(tapes.move, second.code, Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, second.code, Station.PLAYING, deck="VHS 1")


def test_a_deck_plays_what_it_can_play(desk: Desk) -> None:
    tape = desk.bring_to(desk.book(line("minidv", marking="DVM60")).tapes[0], Station.CLEARED_TO_PLAY)
    with pytest.raises(Refused, match="does not play"):
        desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="VHS 1")
    with pytest.raises(WrongInput, match="this shop has VHS 1"):
        desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="VHS 9")
    with pytest.raises(WrongInput, match="starts playing"):
        desk.shop.run(tapes.move, tape.code, Station.AT_THE_BENCH, deck="MiniDV")
    assert desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="MiniDV").station is Station.PLAYING


def test_the_minutes_that_were_played_are_kept(desk: Desk) -> None:
    tape = desk.bring_to(desk.book().tapes[0], Station.PLAYING)
    assert desk.shop.run(tapes.move, tape.code, Station.BEING_CHECKED, minutes=87.5).played_minutes == 87.5
    assert desk.shop.run(tapes.move, tape.code, Station.READY).played_minutes == 87.5


@pytest.mark.parametrize("minutes", [0, -1, float("nan"), float("inf")])
def test_what_are_no_minutes_is_refused(desk: Desk, minutes: float) -> None:
    tape = desk.bring_to(desk.book().tapes[0], Station.PLAYING)
    with pytest.raises(WrongInput, match="minutes played"):
        desk.shop.run(tapes.move, tape.code, Station.BEING_CHECKED, minutes=minutes)


# --- lists -------------------------------------------------------------------------------


def test_the_bench_sees_what_is_still_to_be_done(desk: Desk) -> None:
    job, later = desk.book(line(count=3)), desk.book(line())
    desk.bring_to(job.tapes[0], Station.READY)
    desk.shop.run(tapes.move, job.tapes[2].code, Station.ASKING_THE_CUSTOMER)
    assert [tape.code for tape in desk.shop.ask(tapes.at_work)] == [
        job.tapes[1].code,
        job.tapes[2].code,
        later.tapes[0].code,
    ]


def test_a_code_nobody_has_is_named(desk: Desk) -> None:
    with pytest.raises(WrongInput, match="this shop has no tape"):
        desk.shop.ask(tapes.get, TapeCode("0000180014"))
    with pytest.raises(WrongInput, match="this shop has no tape"):
        desk.shop.run(tapes.move, TapeCode("0000180014"), Station.LOOKED_OVER)


def test_a_deck_out_of_service_plays_nothing(desk: Desk) -> None:
    from dataclasses import replace

    fitted = desk.shop.ask(current_settings.read)
    broken = tuple(replace(deck, in_service=deck.name != "VHS 1") for deck in fitted.decks)
    desk.shop.run(decks.refit, replace(fitted, decks=broken))
    tape = desk.bring_to(desk.book().tapes[0], Station.CLEARED_TO_PLAY)
    with pytest.raises(Refused, match="out of service"):
        desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="VHS 1")
