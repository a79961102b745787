"""Files in the shop's books: attached to the right tape, charged by their minutes, struck out."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from core.capture.file_report import Report, Sound, Stretch, StretchKind
from core.model.deck_showing import NOTHING, Shown
from core.model.errors import Refused, Unconfirmed, WrongInput
from core.model.names import Speed, TapeCode
from core.model.stations import Station
from core.services import deck_queue, jobs, recordings, tapes
from core.store.unit import Unit
from core.wording.locale_figures import tape_code
from tests.support.behind import behind
from tests.support.booked import Desk, line

REPORT = Report(
    name="tape 1.mp4",
    size_bytes=4_690_980_000,
    sha256="ab" * 32,
    seconds=6105.2,
    has_picture=True,
    sound=Sound.PARTLY,
    stretches=(Stretch(StretchKind.BLUE, 0.0, 12.4), Stretch(StretchKind.SILENT, 0.0, 12.4)),
    keep_from=11.4,
    keep_to=6105.2,
    billable_minutes=101.56,
    remarks=("The sound is missing in places: 0:21 to 0:33.",),
)


def checked(desk: Desk, station: Station = Station.BEING_CHECKED) -> tuple[TapeCode, TapeCode]:
    """Two tapes of one job, the first brought to ``station``."""
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[0], station)
    return job.tapes[0].code, job.tapes[1].code


def test_an_attached_file_is_kept_whole_with_who_and_when(desk: Desk) -> None:
    code, _ = checked(desk)
    kept = desk.shop.run(recordings.attach, code, REPORT)

    assert (kept.tape, kept.report, kept.by, kept.at) == (code, REPORT, "Kim", desk.clock())
    assert desk.shop.ask(recordings.of_tape, code) == (kept,)
    assert desk.shop.verify() == ()


def test_its_minutes_become_those_the_tape_played(desk: Desk) -> None:
    code, _ = checked(desk)
    desk.shop.run(recordings.attach, code, REPORT)

    assert desk.shop.ask(tapes.get, code).played_minutes == 101.56
    last = desk.shop.ask(tapes.history, code)[-1].words
    assert last == "copied to tape 1.mp4, 1:41:45 long, 101.6 min to charge"


def test_two_files_of_one_tape_add_up(desk: Desk) -> None:
    code, _ = checked(desk)
    desk.shop.run(recordings.attach, code, REPORT)
    desk.shop.run(recordings.attach, code, replace(REPORT, sha256="cd" * 32, billable_minutes=8.0))

    assert desk.shop.ask(tapes.get, code).played_minutes == pytest.approx(109.56)
    assert len(desk.shop.ask(recordings.of_tape, code)) == 2
    assert desk.shop.verify() == ()


def test_the_same_file_twice_is_one(desk: Desk) -> None:
    code, _ = checked(desk)
    first = desk.shop.run(recordings.attach, code, REPORT)

    assert desk.shop.run(recordings.attach, code, REPORT) == first
    assert desk.shop.ask(tapes.get, code).played_minutes == 101.56


def test_one_file_cannot_come_from_two_tapes(desk: Desk) -> None:
    code, other = checked(desk)
    desk.bring_to(desk.shop.ask(tapes.get, other), Station.BEING_CHECKED)
    desk.shop.run(recordings.attach, code, REPORT)

    with pytest.raises(Refused, match=f"already attached to tape {tape_code(code)}"):
        desk.shop.run(recordings.attach, other, REPORT)
    assert desk.shop.ask(recordings.of_tape, other) == ()


@pytest.mark.parametrize("station", [Station.BOOKED_IN, Station.CLEARED_TO_PLAY])
def test_a_tape_that_has_not_played_has_no_file(desk: Desk, station: Station) -> None:
    code, _ = checked(desk, station)

    with pytest.raises(Refused, match=r"has played .one that is playing, being checked, or ready"):
        desk.shop.run(recordings.attach, code, REPORT)


def test_far_more_minutes_than_a_tape_can_hold_are_asked_and_nothing_is_kept_before(desk: Desk) -> None:
    code, _ = checked(desk)

    with pytest.raises(Unconfirmed, match="Nothing was saved yet"):
        desk.shop.run(recordings.attach, code, replace(REPORT, billable_minutes=5000.0))
    assert desk.shop.ask(recordings.of_tape, code) == ()
    assert desk.shop.ask(tapes.get, code).played_minutes is None


def test_a_blank_tape_leaves_the_minutes_open(desk: Desk) -> None:
    code, _ = checked(desk)
    desk.shop.run(recordings.attach, code, replace(REPORT, billable_minutes=0.0))

    assert desk.shop.ask(tapes.get, code).played_minutes is None


def test_a_file_struck_out_is_gone_with_its_minutes_and_the_history_keeps_why(desk: Desk) -> None:
    code, other = checked(desk)
    desk.shop.run(recordings.attach, code, REPORT)
    left = desk.shop.run(recordings.strike, code, because="wrong box")

    assert left == desk.shop.ask(recordings.of_tape, code) == ()
    assert desk.shop.ask(tapes.get, code).played_minutes is None
    assert desk.shop.ask(tapes.history, code)[-1].words == "tape 1.mp4 is not its file: wrong box"
    desk.bring_to(desk.shop.ask(tapes.get, other), Station.BEING_CHECKED)
    assert desk.shop.run(recordings.attach, other, REPORT).tape == other
    assert desk.shop.verify() == ()


def test_without_a_file_the_minutes_read_off_the_deck_count_again(desk: Desk) -> None:
    job = desk.book(line())
    code = desk.bring_to(job.tapes[0], Station.PLAYING).code
    desk.shop.run(tapes.move, code, Station.BEING_CHECKED, minutes=97.0)
    desk.shop.run(recordings.attach, code, REPORT)
    desk.shop.run(recordings.strike, code, because="recorded again")

    assert desk.shop.ask(tapes.get, code).played_minutes == 97.0
    assert desk.shop.verify() == ()


def learned(desk: Desk) -> list[tuple[float, Speed | None]]:
    """What the shop learns from: minutes and speed of every tape that played."""
    return [(each.minutes, each.speed) for each in desk.shop.ask(deck_queue.played)]


def played(desk: Desk, minutes: float | None = 97.0) -> TapeCode:
    """A tape that has played in LP, as the deck showed."""
    code = desk.bring_to(desk.book(line(speed=None)).tapes[0], Station.PLAYING).code
    shown = Shown(speed=Speed.LP) if minutes is not None else NOTHING
    desk.shop.run(tapes.move, code, Station.BEING_CHECKED, minutes=minutes, shown=shown)
    return code


def test_the_shop_learns_the_exact_minutes_of_a_file_and_the_speed_of_the_deck(desk: Desk) -> None:
    code = played(desk)
    assert learned(desk) == [(97.0, Speed.LP)]

    desk.shop.run(recordings.attach, code, REPORT)
    desk.shop.run(recordings.attach, code, REPORT)

    assert learned(desk) == [(101.56, Speed.LP)]
    assert desk.shop.verify() == ()


def test_a_file_taken_back_takes_back_what_was_learned_from_it(desk: Desk) -> None:
    code = played(desk)
    desk.shop.run(recordings.attach, code, REPORT)
    desk.shop.run(recordings.strike, code, because="the wrong one")
    assert learned(desk) == [(97.0, Speed.LP)]

    desk.shop.run(recordings.attach, code, replace(REPORT, sha256="cd" * 32, billable_minutes=99.5))
    assert learned(desk) == [(99.5, Speed.LP)]


def test_a_tape_whose_minutes_nobody_read_off_teaches_by_its_file(desk: Desk) -> None:
    code = played(desk, minutes=None)
    assert learned(desk) == []
    desk.shop.run(recordings.attach, code, REPORT)
    assert learned(desk) == [(101.56, None)]

    desk.shop.run(recordings.strike, code, because="the wrong one")
    assert learned(desk) == []


def test_minutes_read_off_a_deck_later_do_not_displace_those_of_the_file(desk: Desk) -> None:
    code = desk.bring_to(desk.book(line()).tapes[0], Station.PLAYING).code
    desk.shop.run(recordings.attach, code, REPORT)
    after = desk.shop.run(tapes.move, code, Station.BEING_CHECKED, minutes=118.0)

    assert after.played_minutes == 101.56
    assert learned(desk) == [(101.56, None)]
    said = desk.shop.ask(tapes.history, code)[-1].words
    assert "118 min read off the deck; the length of its file counts" in said
    desk.shop.run(recordings.strike, code, because="the wrong one")
    assert desk.shop.ask(tapes.get, code).played_minutes == 118.0
    assert desk.shop.verify() == ()


def test_a_file_of_an_older_tape_keeps_the_order_in_which_tapes_played(desk: Desk) -> None:
    first = played(desk)
    desk.clock.now += timedelta(hours=1)
    played(desk, minutes=60.0)
    desk.clock.now += timedelta(hours=1)
    desk.shop.run(recordings.attach, first, REPORT)

    assert learned(desk) == [(101.56, Speed.LP), (60.0, Speed.LP)]


def test_striking_out_needs_a_file_and_a_reason(desk: Desk) -> None:
    code, _ = checked(desk)

    with pytest.raises(Refused, match="no file"):
        desk.shop.run(recordings.strike, code, because="wrong box")
    desk.shop.run(recordings.attach, code, REPORT)
    with pytest.raises(WrongInput, match="a few words"):
        desk.shop.run(recordings.strike, code, because="  ")


def test_the_files_of_a_job_come_tape_by_tape(desk: Desk) -> None:
    code, other = checked(desk)
    desk.bring_to(desk.shop.ask(tapes.get, other), Station.BEING_CHECKED)
    desk.shop.run(recordings.attach, other, replace(REPORT, sha256="ef" * 32))
    desk.shop.run(recordings.attach, code, REPORT)
    number = desk.shop.ask(jobs.open_jobs)[0].number

    assert [each.tape for each in desk.shop.ask(recordings.of_job, number)] == [code, other]


def test_an_altered_checksum_is_seen(desk: Desk) -> None:
    code, _ = checked(desk)
    desk.shop.run(recordings.attach, code, REPORT)

    def alter(unit: Unit) -> None:
        unit.session.execute(behind(f"UPDATE recordings SET sha256 = '{'0' * 64}'"))

    desk.shop.run(alter)
    assert any("“files”" in problem for problem in desk.shop.verify())
