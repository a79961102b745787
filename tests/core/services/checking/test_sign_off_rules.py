"""What may be signed off by whom, and what a file is held against; on one kind of database."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.capture.check_records import Severity
from core.capture.file_report import PictureFormat
from core.model.deck_showing import Shown
from core.model.dispositions import Disposition
from core.model.errors import Refused, WrongInput
from core.model.names import FormatName, TapeCode, TvSystem
from core.model.own_shop.settings_records import Person
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import tape_dispositions, tapes
from core.services.checking import file_checking, sign_offs
from core.services.own_shop import people, settings_versions, shop_document
from core.store import current_settings
from core.store.unit import Unit
from tests.core.capture.copied_file import FILE, PAL_FILE, SQUEEZED, attach, played, sign
from tests.support.booked import Desk, line


@pytest.fixture
def desk(file_desk: Desk) -> Desk:
    return file_desk


@pytest.fixture
def code(desk: Desk) -> TapeCode:
    return played(desk)


def tape(desk: Desk, code: TapeCode) -> TapeRecord:
    return desk.shop.ask(tapes.get, code)


def ready(desk: Desk, code: TapeCode) -> TapeRecord:
    return desk.shop.run(tapes.move, code, Station.READY)


def test_what_is_not_copied_needs_no_sign_off(desk: Desk, code: TapeCode) -> None:
    attach(desk, code, replace(FILE, billable_minutes=0.0, keep_to=0.0))
    settled = desk.shop.run(tape_dispositions.settle, code, Disposition.NOTHING_ON_IT)
    assert (settled.station, settled.signed_off_by) == (Station.READY, None)


def test_each_finding_that_is_not_fine_is_accepted_one_by_one(desk: Desk, code: TapeCode) -> None:
    attach(desk, code, replace(SQUEEZED, sound_seconds=6000.3))
    found = desk.shop.ask(file_checking.check, code)
    assert [each.code for each in found.open] == ["aspect", "sound-length"]
    for some in ({}, {"aspect": ""}, {"sound_length": ""}):
        with pytest.raises(Refused, match="Accept each finding"):
            sign(desk, code, **some)
    assert tape(desk, code).signed_off_by is None
    done = sign(desk, code, aspect="wide screen at home", sound_length="")
    assert [(each.code, each.note) for each in done.signed.accepted] == [  # type: ignore[union-attr]
        ("aspect", "wide screen at home"),
        ("sound-length", ""),
    ]
    said = desk.shop.ask(tapes.history, code)[-1].words
    assert "wide screen at home" in said
    assert ready(desk, code).station is Station.READY


def test_a_stop_needs_why_it_may_stay_so(desk: Desk, code: TapeCode) -> None:
    attach(desk, code, PAL_FILE)
    (stop,) = desk.shop.ask(file_checking.check, code).open
    assert (stop.code, stop.severity) == ("tv-system", Severity.STOP)
    with pytest.raises(Refused, match="A reason is needed for tv-system"):
        sign(desk, code, tv_system=" ")
    assert sign(desk, code, tv_system="her set at home is PAL").is_signed_off


@pytest.mark.parametrize("wrong", ["size", "no-such", "aspect-2"])
def test_nothing_else_can_be_accepted(desk: Desk, code: TapeCode, wrong: str) -> None:
    attach(desk, code, SQUEEZED)
    with pytest.raises(WrongInput, match="aspect"):
        desk.shop.run(sign_offs.sign_off, code, name="Kim", accept={"aspect": "", wrong: ""})


def test_what_becomes_known_later_opens_it_again(desk: Desk, code: TapeCode) -> None:
    """Signed off as NTSC; played once more, the deck says PAL."""
    attach(desk, code)
    sign(desk, code)
    desk.shop.run(tapes.move, code, Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, code, Station.PLAYING)
    desk.shop.run(tapes.move, code, Station.BEING_CHECKED, minutes=100.0, shown=Shown(tv=TvSystem.PAL))
    with pytest.raises(Refused, match="tv-system"):
        ready(desk, code)


def test_a_file_read_before_its_format_was_kept_is_read_again(desk: Desk, code: TapeCode) -> None:
    attach(desk, code, replace(FILE, picture=None, picture_seconds=None, sound_seconds=None))
    (open_,) = desk.shop.ask(file_checking.check, code).open
    assert open_.code == "measured"
    attach(desk, code, replace(FILE, billable_minutes=90.0, name="renamed.mp4"))
    assert desk.shop.ask(file_checking.check, code).open == ()
    assert tape(desk, code).played_minutes == 100.0
    assert desk.shop.verify() == ()


def test_it_needs_a_name_a_file_and_a_tape_that_has_played(desk: Desk, code: TapeCode) -> None:
    with pytest.raises(Refused, match="no file"):
        sign(desk, code)
    attach(desk, code)
    with pytest.raises(WrongInput, match="signed off by"):
        sign(desk, code, name="  ")
    sign(desk, code)
    with pytest.raises(Refused, match="already, by Kim"):
        sign(desk, code, name="Lou")
    other = desk.bring_to(desk.book(line()).tapes[0], Station.PLAYING).code
    attach(desk, other, SQUEEZED)
    with pytest.raises(Refused, match="once it is being checked"):
        sign(desk, other, aspect="")


def test_where_people_work_by_name_one_of_them_signs(desk: Desk, code: TapeCode) -> None:
    attach(desk, code)
    desk.shop.run(_hire, "Kim", "Lou")
    desk.shop.run(people.set_pin, "Lou", "2468")
    with pytest.raises(WrongInput, match="Kim, Lou"):
        sign(desk, code, name="Nobody")
    with pytest.raises(Refused, match="Sign in as Lou"):
        sign(desk, code, name="Lou")
    assert sign(desk, code, name="Kim").is_signed_off


def _hire(unit: Unit, *names: str) -> None:
    settings = current_settings.read(unit)
    staff = tuple(Person(name, frozenset({"settings"})) for name in names)
    settings_versions.change(unit, replace(settings, staff=staff), needs=None)


def test_a_shop_may_want_a_file_of_every_tape(desk: Desk, code: TapeCode) -> None:
    desk.shop.run(shop_document.set_texts, [("work.file_for_ready", "true")])
    with pytest.raises(Refused, match="wants one before a tape is ready"):
        ready(desk, code)
    attach(desk, code)
    sign(desk, code)
    assert ready(desk, code).station is Station.READY
    film = desk.book(line("super-8", marking=None, speed=None)).tapes[0]
    assert desk.bring_to(film, Station.READY).station is Station.READY


def test_film_and_sound_are_held_against_no_tv_system(desk: Desk) -> None:
    for name, pictures in (("super-8", True), ("audio-cassette", False)):
        one = desk.book(line(name, marking=None, speed=None)).tapes[0]
        desk.bring_to(one, Station.BEING_CHECKED)
        sha = ("1a" if pictures else "1b") * 32
        report = replace(FILE, sha256=sha, billable_minutes=10.0, picture=PictureFormat(1440, 1080, (18, 1)))
        attach(desk, one.code, report if pictures else replace(report, has_picture=False, picture=None))
        codes = {each.check.value for each in desk.shop.ask(file_checking.check, one.code).findings}
        assert not codes & {"tv-system", "size", "frame-rate", "aspect", "picture"}, name


def test_a_tape_recorded_in_high_definition_is_held_against_that(desk: Desk) -> None:
    hdv = replace(line("minidv", marking=None, speed=None), recorded_as=FormatName("hdv"))
    one = desk.book(hdv).tapes[0]
    desk.bring_to(one, Station.BEING_CHECKED)
    attach(
        desk,
        one.code,
        replace(FILE, billable_minutes=50.0, picture=PictureFormat(1440, 1080, (30000, 1001), (4, 3))),
    )
    assert desk.shop.ask(file_checking.check, one.code).open == ()
