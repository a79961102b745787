"""What the decks showed is kept, and the shop learns from it; nothing that cannot be gets in."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy.exc import DBAPIError

from core.model.deck_showing import NOTHING, Shown
from core.model.errors import WrongInput
from core.model.names import FormatName, Speed, TvSystem
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.playtime.habits import STARTING
from core.services import deck_queue, tapes
from core.services.records_door import Shop
from core.store import schema
from core.store.unit import Unit
from tests.support.behind import behind
from tests.support.booked import Desk, line
from tests.support.older import as_kept_before

EP = Shown(speed=Speed.EP)


def compact(count: int = 1) -> object:
    return line("vhs-c", count, marking="TC-30", speed=None)


def play(desk: Desk, tape: TapeRecord, minutes: float, shown: Shown = NOTHING) -> None:
    desk.bring_to(tape, Station.BEING_CHECKED, minutes=minutes, shown=shown)


def test_a_finished_capture_is_kept_with_what_the_deck_showed(desk: Desk) -> None:
    job = desk.book(compact())  # type: ignore[arg-type]
    play(desk, job.tapes[0], 80.0, EP)

    (played,) = desk.shop.ask(deck_queue.played)
    assert (played.minutes, played.speed, played.known.format) == (80.0, Speed.EP, "vhs-c")
    assert "the deck showed EP" in desk.shop.ask(tapes.history, job.tapes[0].code)[-1].words
    assert desk.shop.verify() == ()


def test_the_shop_says_what_it_has_seen(desk: Desk) -> None:
    assert desk.shop.ask(deck_queue.evidence) == ()
    assert desk.shop.ask(deck_queue.habits) is STARTING
    for n in range(3):
        job = desk.book(compact(), name=f"Customer {'ABC'[n]}")  # type: ignore[arg-type]
        play(desk, job.tapes[0], *((80.0, EP) if n else (28.0, Shown(speed=Speed.SP))))

    sentences = [each.sentence for each in desk.shop.ask(deck_queue.evidence)]
    assert "2 of your last 3 VHS-C (NTSC) were EP." in sentences


def test_a_tape_played_moves_what_is_believed_of_its_siblings_in_the_queue(desk: Desk) -> None:
    job = desk.book(compact(3))  # type: ignore[arg-type]
    other = desk.book(compact(1), name="Somebody Else")  # type: ignore[arg-type]

    def likely(code: str) -> float:
        return next(each.minutes.likely for each in desk.shop.ask(deck_queue.waiting) if each.code == code)

    before, elsewhere = likely(job.tapes[1].code), likely(other.tapes[0].code)
    play(desk, job.tapes[0], 90.0, EP)

    assert likely(job.tapes[1].code) > 1.3 * before
    assert elsewhere <= likely(other.tapes[0].code) < likely(job.tapes[1].code)


def test_a_tape_played_again_counts_once_as_it_was_the_last_time(desk: Desk) -> None:
    job = desk.book(compact())  # type: ignore[arg-type]
    tape = job.tapes[0]
    play(desk, tape, 12.0)
    for station in (Station.CLEARED_TO_PLAY, Station.PLAYING):
        desk.shop.run(tapes.move, tape.code, station)
    desk.shop.run(tapes.move, tape.code, Station.BEING_CHECKED, minutes=80.0, shown=EP)

    assert [played.minutes for played in desk.shop.ask(deck_queue.played)] == [80.0]


@pytest.mark.parametrize(
    ("shown", "place"),
    [
        (Shown(speed=Speed.B2), "speed"),
        (Shown(recorded_as=FormatName("hi8")), "recorded_as"),
        (Shown(speed=Speed.EP, tv=TvSystem.PAL), "speed"),
    ],
)
def test_what_this_tape_cannot_be_is_refused_and_nothing_changes(
    desk: Desk, shown: Shown, place: str
) -> None:
    job = desk.book(compact())  # type: ignore[arg-type]
    desk.bring_to(job.tapes[0], Station.PLAYING)
    with pytest.raises(WrongInput) as refused:
        desk.shop.run(tapes.move, job.tapes[0].code, Station.BEING_CHECKED, minutes=30.0, shown=shown)
    assert refused.value.place == place
    assert desk.shop.ask(deck_queue.played) == ()
    assert desk.shop.ask(tapes.get, job.tapes[0].code).station is Station.PLAYING


def test_what_the_deck_showed_comes_with_the_minutes(desk: Desk) -> None:
    job = desk.book(compact())  # type: ignore[arg-type]
    desk.bring_to(job.tapes[0], Station.PLAYING)
    with pytest.raises(WrongInput, match="together with the minutes"):
        desk.shop.run(tapes.move, job.tapes[0].code, Station.BEING_CHECKED, shown=EP)


@pytest.mark.parametrize("deed", ["UPDATE captures SET minutes = 1", "DELETE FROM captures"])
def test_captures_are_never_changed(desk: Desk, deed: str) -> None:
    play(desk, desk.book(compact()).tapes[0], 80.0, EP)  # type: ignore[arg-type]

    def tamper(unit: Unit) -> None:
        unit.session.execute(behind(deed))

    with pytest.raises(Exception, match="append-only") as refused:
        desk.shop.run(tamper)
    assert isinstance(refused.value, DBAPIError) or refused.value.__cause__ is not None


def test_a_filled_shop_of_the_first_version_is_brought_up_and_keeps_everything(
    file_desk: Desk, tmp_path: Path
) -> None:
    job = file_desk.book(compact(2))  # type: ignore[arg-type]
    old = tmp_path / "old.sqlite"
    as_kept_before(file_desk, str(old), "0001")

    with Shop.open(old, clock=file_desk.clock) as shop:
        assert shop.ask(tapes.get, job.tapes[1].code).station is Station.BOOKED_IN
        assert shop.verify() == ()
        assert shop.ask(deck_queue.played) == ()
    assert list(tmp_path.glob(f"old-before-{schema.HEAD}*"))
