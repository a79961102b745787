"""A place or a time measured beyond the printed end of a tape: kept, told, and believed of that tape."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.cli import json_answers, plain_answers
from core.model.errors import Unconfirmed
from core.model.names import Join, Speed, TapeCode, TvSystem
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.playtime import tape_doubts
from core.services import deck_queue, recordings, repair_record, tapes
from tests.core.services.test_recordings import REPORT
from tests.support.booked import Desk, line

PAL = TvSystem.PAL


def booked(desk: Desk, marking: str, tv: TvSystem = TvSystem.NTSC) -> TapeCode:
    job = desk.book(replace(line(marking=marking, speed=Speed.SP), tv=tv, fill=1.0))
    desk.allow(job, 10_000_000)  # so that the price stops nothing
    return job.tapes[0].code


def spliced(desk: Desk, code: TapeCode, **at: object) -> TapeRecord:
    return desk.shop.run(repair_record.splice, code, cut_cm=1, joined_with=Join.TAPE, **at)  # type: ignore[arg-type]


def believed(desk: Desk, code: TapeCode) -> float:
    (tape,) = (each for each in desk.shop.ask(deck_queue.waiting) if each.code == code)
    return tape.minutes.likely


def test_a_splice_at_249_minutes_of_an_e_240_is_kept_without_a_word(desk: Desk) -> None:
    """348 and 352 m are printed of it: 248 and 251 minutes."""
    code = booked(desk, "E-240", PAL)
    made = spliced(desk, code, at_minutes=249)

    assert made.splices[0].at_minutes == 249
    assert tape_doubts.of_tape(made) == ()


def test_a_splice_beyond_what_is_printed_is_kept_told_and_believed(desk: Desk) -> None:
    code = booked(desk, "E-240", PAL)
    before = believed(desk, code)
    made = spliced(desk, code, at_minutes=255)

    assert made.splices[0].at_minutes == 255
    (doubt,) = json_answers.tape(made)["doubts"]  # type: ignore[misc]
    assert "255 minutes" in doubt
    assert f"! {doubt}" in plain_answers.tape(made)
    assert before < 251
    assert made.minutes.likely == pytest.approx(255)
    assert believed(desk, code) == pytest.approx(255)


def test_a_splice_in_metres_beyond_what_is_printed_is_kept_told_and_believed(desk: Desk) -> None:
    code = booked(desk, "T-120")
    made = spliced(desk, code, at_metres=260)

    assert "260 meters" in tape_doubts.of_tape(made)[0]
    assert believed(desk, code) == pytest.approx(260 / 0.03335 / 60, abs=0.01)


def test_a_splice_struck_out_is_believed_no_longer(desk: Desk) -> None:
    code = booked(desk, "E-240", PAL)
    before = believed(desk, code)
    spliced(desk, code, at_minutes=255)
    made = desk.shop.run(repair_record.undo_splice, code, because="read off the wrong tape")

    assert tape_doubts.of_tape(made) == ()
    assert believed(desk, code) == before == made.minutes.likely


def test_800_minutes_of_a_t_30_are_asked_before_they_are_kept(desk: Desk) -> None:
    code = booked(desk, "T-30")
    tape = desk.bring_to(desk.shop.ask(tapes.get, code), Station.PLAYING)
    with pytest.raises(Unconfirmed, match=r"33\.5 minutes at most"):
        desk.shop.run(tapes.move, code, Station.BEING_CHECKED, minutes=800.0)
    assert desk.shop.ask(tapes.get, code) == tape

    kept = desk.shop.run(tapes.move, code, Station.BEING_CHECKED, minutes=800.0, sure=True)
    assert kept.played_minutes == 800
    assert "800 minutes" in tape_doubts.of_tape(kept)[0]


def test_a_splice_and_a_file_far_beyond_the_end_are_asked_in_the_same_way(desk: Desk) -> None:
    code = booked(desk, "T-30")
    desk.bring_to(desk.shop.ask(tapes.get, code), Station.BEING_CHECKED)
    long = replace(REPORT, billable_minutes=800.0)
    with pytest.raises(Unconfirmed):
        spliced(desk, code, at_minutes=800)
    with pytest.raises(Unconfirmed):
        desk.shop.run(recordings.attach, code, long)
    assert desk.shop.ask(tapes.get, code).splices == ()
    assert desk.shop.ask(recordings.of_tape, code) == ()

    assert spliced(desk, code, at_minutes=800, sure=True).splices[0].at_minutes == 800
    desk.shop.run(recordings.attach, code, long, sure=True)
    assert desk.shop.ask(tapes.get, code).played_minutes == 800


def test_minutes_that_only_a_slower_speed_gives_are_told_and_not_asked(desk: Desk) -> None:
    """95 minutes are a T-30 at EP: whoever said SP may have been wrong."""
    code = booked(desk, "T-30")
    desk.bring_to(desk.shop.ask(tapes.get, code), Station.PLAYING)
    kept = desk.shop.run(tapes.move, code, Station.BEING_CHECKED, minutes=95.0)

    assert kept.played_minutes == 95
    assert len(tape_doubts.of_tape(kept)) == 1
