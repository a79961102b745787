"""Copied files are checked and signed off by name before a tape is ready; withdrawn with the reason."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy.exc import DBAPIError

from core.model.dispositions import Disposition
from core.model.errors import Refused, TapewrightError, WrongInput
from core.model.names import CommandId, TapeCode
from core.model.numbers import job_of
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import calls, jobs, recordings, tape_dispositions, tapes
from core.services.checking import file_checking, sign_offs
from core.services.records_door import Shop
from core.store.unit import Unit
from tests.core.capture.copied_file import FILE, SQUEEZED, attach, played, sign
from tests.support.behind import behind
from tests.support.booked import Desk, line
from tests.support.older import as_kept_before


@pytest.fixture
def code(desk: Desk) -> TapeCode:
    return played(desk)


def tape(desk: Desk, code: TapeCode) -> TapeRecord:
    return desk.shop.ask(tapes.get, code)


def ready(desk: Desk, code: TapeCode) -> TapeRecord:
    return desk.shop.run(tapes.move, code, Station.READY)


def test_a_tape_with_a_file_is_ready_once_somebody_signed_it_off(desk: Desk, code: TapeCode) -> None:
    attach(desk, code)
    with pytest.raises(Refused, match=f"sign-off {code} --by"):
        ready(desk, code)
    assert tape(desk, code).station is Station.BEING_CHECKED
    found = sign(desk, code)
    assert found.is_signed_off
    assert (found.signed.name, found.signed.by, found.signed.at) == ("Kim", "Kim", desk.clock())  # type: ignore[union-attr]
    after = ready(desk, code)
    assert (after.station, after.signed_off_by) == (Station.READY, "Kim")
    assert "copy signed off by Kim" in [each.words for each in desk.shop.ask(tapes.history, code)]
    assert desk.shop.verify() == ()


def test_minutes_read_off_a_deck_are_enough_without_a_file(desk: Desk, code: TapeCode) -> None:
    assert ready(desk, code).station is Station.READY


@pytest.mark.parametrize("disposition", [each for each in Disposition if each.is_copied])
def test_it_is_not_settled_as_copied_either(desk: Desk, code: TapeCode, disposition: Disposition) -> None:
    attach(desk, code)
    with pytest.raises(Refused, match="not signed off"):
        desk.shop.run(tape_dispositions.settle, code, disposition)
    sign(desk, code)
    assert desk.shop.run(tape_dispositions.settle, code, disposition).station is Station.READY


def test_a_file_that_comes_later_is_signed_off_too(desk: Desk, code: TapeCode) -> None:
    attach(desk, code)
    sign(desk, code)
    ready(desk, code)
    attach(desk, code, replace(SQUEEZED, seconds=60.0, keep_to=60.0, billable_minutes=1.0))
    (told,) = desk.shop.ask(calls.status, code)
    assert "being checked" in told.spoken
    back = tape(desk, code)
    assert (back.station, back.disposition, back.signed_off_by) == (Station.BEING_CHECKED, None, None)
    with pytest.raises(Refused, match="not signed off"):
        ready(desk, code)
    assert sign(desk, code, aspect_2="").is_signed_off
    assert ready(desk, code).station is Station.READY
    assert desk.shop.verify() == ()


def test_a_file_struck_out_leaves_the_other_signed(desk: Desk, code: TapeCode) -> None:
    attach(desk, code)
    sign(desk, code)
    attach(desk, code, SQUEEZED)
    desk.shop.run(recordings.strike, code, because="the wrong one")
    assert desk.shop.ask(file_checking.check, code).is_signed_off
    assert ready(desk, code).station is Station.READY


def test_the_same_command_signs_once_and_with_other_words_is_refused(desk: Desk, code: TapeCode) -> None:
    attach(desk, code, SQUEEZED)
    step, command = sign_offs.sign_off, CommandId("c-1")
    first = desk.shop.once(command, step, code, name="Kim", accept={"aspect": "wide"})
    again = desk.shop.once(command, step, code, name="Kim", accept={"aspect": "wide"})
    assert again.answer == first.answer
    for name, why in (("Lou", "wide"), ("Kim", "narrow")):
        with pytest.raises(Refused, match="c-1"):
            desk.shop.once(command, step, code, name=name, accept={"aspect": why})
    signed = [each for each in desk.shop.ask(tapes.history, code) if "signed off" in each.words]
    assert len(signed) == 1


def test_a_sign_off_is_withdrawn_with_its_reason_and_the_tape_checked_again(
    desk: Desk, code: TapeCode
) -> None:
    attach(desk, code)
    sign(desk, code)
    ready(desk, code)
    with pytest.raises(WrongInput, match="few words"):
        desk.shop.run(sign_offs.withdraw, code, because=" ")
    found = desk.shop.run(sign_offs.withdraw, code, because="the sound is off at the end")
    assert (found.is_signed_off, found.signed) == (False, None)
    back = tape(desk, code)
    assert (back.station, back.signed_off_by) == (Station.BEING_CHECKED, None)
    words = [each.words for each in desk.shop.ask(tapes.history, code)]
    assert "copy not signed off any more: the sound is off at the end" in words
    with pytest.raises(Refused, match="is not signed off"):
        desk.shop.run(sign_offs.withdraw, code, because="again")
    sign(desk, code)
    assert ready(desk, code).station is Station.READY
    assert desk.shop.verify() == ()


def test_a_sign_off_is_never_changed_and_an_altered_one_is_seen(desk: Desk, code: TapeCode) -> None:
    attach(desk, code)
    sign(desk, code)

    def alter(unit: Unit) -> None:
        unit.session.execute(behind("UPDATE sign_offs SET name = 'Lou'"))

    with pytest.raises((TapewrightError, DBAPIError)):
        desk.shop.run(alter)

    def around(unit: Unit) -> None:
        unit.session.execute(behind("UPDATE tapes SET signed_off_by = 'Lou'"))

    desk.shop.run(around)
    assert any("signed_off_by" in problem for problem in desk.shop.verify())


@pytest.mark.parametrize("revision", ["0003", "0009", "0012", "0013"])
def test_orders_from_before_stay_ready_and_open_ones_are_signed_off(
    request: pytest.FixtureRequest, desk: Desk, code: TapeCode, tmp_path: Path, revision: str
) -> None:
    is_file = desk.kind == "sqlite"
    older = str(tmp_path / "old.sqlite") if is_file else str(request.getfixturevalue("postgres_url"))
    attach(desk, code)
    done = desk.bring_to(desk.book(line()).tapes[0], Station.BEING_CHECKED)
    attach(desk, done.code, replace(FILE, sha256="5c" * 32))
    desk.shop.run(_as_before, done.code)
    as_kept_before(desk, older, revision)
    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        assert shop.ask(tapes.get, done.code).station is Station.READY
        assert shop.ask(tapes.get, done.code).disposition is Disposition.COPIED
        number = shop.ask(jobs.open_jobs)[-1].number
        assert shop.ask(jobs.reprice, number).due.likely > 0
        with pytest.raises(Refused, match="not signed off"):
            shop.run(tapes.move, code, Station.READY)
        shop.run(sign_offs.sign_off, code, name="Kim")
        assert shop.run(tapes.move, code, Station.READY).signed_off_by == "Kim"
        assert not [each for each in shop.verify() if done.code not in each.replace(" ", "")]


def _as_before(unit: Unit, code: TapeCode) -> None:
    """Ready with a file that nobody signed off, as it could be before."""
    unit.session.execute(behind("UPDATE tapes SET station = 'ready' WHERE code = :code"), {"code": code})


def test_what_was_accepted_goes_with_the_files_of_the_order(desk: Desk, code: TapeCode) -> None:
    attach(desk, code)
    attach(desk, code, replace(SQUEEZED, billable_minutes=1.0))
    number = job_of(code)
    assert [each.known for each in desk.shop.ask(recordings.of_job, number)] == [(), ()]
    sign(desk, code, aspect_2="for us alone")
    plain, squeezed = desk.shop.ask(recordings.of_job, number)
    assert plain.known == ()
    (words,) = squeezed.known
    assert "neither 4:3 nor 16:9" in words
    assert "for us alone" not in words
