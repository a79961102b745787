"""What became of each tape: settled, charged, handed back by it, and opened again."""

from __future__ import annotations

import pytest

from core.catalogue.formats import catalogue
from core.model.dispositions import Disposition
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import Finding, Join
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import incidents, jobs, pickups, repair_record, tape_dispositions, tapes
from core.services.records_door import Shop
from core.store.tables import TapeRow
from core.store.unit import Unit
from tests.support.booked import Desk, line
from tests.support.older import as_kept_before

UNCOPIED = [each for each in Disposition if not each.is_copied]
PLAIN = [each for each in UNCOPIED if not each.needs_incident]


def settled(desk: Desk, tape: TapeRecord, disposition: Disposition, **more: object) -> TapeRecord:
    more = {"note": "the shelf fell"} | more if disposition.needs_incident else more
    return desk.shop.run(tape_dispositions.settle, tape.code, disposition, **more)  # type: ignore[arg-type]


def charged(desk: Desk, job: Job) -> dict[str, int]:
    return {each.code: each.amount.likely for each in desk.shop.ask(jobs.reprice, job.number).charges}


def test_a_tape_is_ready_with_its_minutes_or_with_what_became_of_it(desk: Desk) -> None:
    tape = desk.bring_to(desk.book(line()).tapes[0], Station.BEING_CHECKED)
    with pytest.raises(Refused, match="no minutes and no file"):
        desk.shop.run(tapes.move, tape.code, Station.READY)
    assert desk.shop.ask(tapes.get, tape.code) == tape
    ready = desk.shop.run(tapes.move, tape.code, Station.READY, minutes=58.5)
    assert (ready.station, ready.disposition) == (Station.READY, Disposition.COPIED)
    assert desk.shop.verify() == ()


@pytest.mark.parametrize("disposition", PLAIN)
@pytest.mark.parametrize("here", [Station.BOOKED_IN, Station.PLAYING, Station.BEING_CHECKED])
def test_a_tape_that_was_not_copied_goes_home_from_wherever_it_is(
    desk: Desk, here: Station, disposition: Disposition
) -> None:
    job = desk.book(line())
    tape = settled(desk, desk.bring_to(job.tapes[0], here), disposition)
    assert (tape.disposition, tape.station, tape.deck) == (disposition, disposition.station, None)
    handed = desk.hand_back(job)
    assert [each.disposition for each in handed.handed_back] == [disposition]
    assert not any(each.code.startswith("capture-") for each in handed.final.charges)
    assert desk.shop.verify() == ()


@pytest.mark.parametrize("disposition", UNCOPIED)
def test_nobody_is_charged_for_a_tape_that_was_not_copied(desk: Desk, disposition: Disposition) -> None:
    job = desk.book(line(count=2), line("hi8", marking="P6-120", findings=[Finding.SNAPPED]))
    desk.bring_to(job.tapes[0], Station.READY, minutes=60)
    with_all = charged(desk, job)
    settled(desk, job.tapes[2], disposition)
    left = charged(desk, job)
    assert "capture-hi8" in with_all
    assert left.keys() == with_all.keys() - {"capture-hi8", "repair-splice"} | {"not-played"}
    assert left["not-played"] == 0


def test_a_copied_tape_needs_minutes_on_record(desk: Desk) -> None:
    job = desk.book(line())
    with pytest.raises(Refused, match="no minutes and no file"):
        settled(desk, job.tapes[0], Disposition.COPIED_IN_PART)
    tape = desk.bring_to(job.tapes[0], Station.BEING_CHECKED)
    desk.shop.run(tapes.move, tape.code, Station.READY, minutes=31)
    assert settled(desk, tape, Disposition.COPIED_IN_PART).disposition is Disposition.COPIED_IN_PART
    assert desk.shop.ask(jobs.reprice, job.number).charges[0].quantity == "2 × 30 min"


def test_what_is_settled_is_not_settled_otherwise_before_it_is_opened_again(desk: Desk) -> None:
    tape = settled(desk, desk.book(line()).tapes[0], Disposition.NOT_WANTED)
    for step in (Disposition.NOT_WANTED, Disposition.NOTHING_ON_IT):
        with pytest.raises(Refused, match="settled already"):
            settled(desk, tape, step)
    with pytest.raises(Refused, match="settled already"):
        desk.shop.run(tapes.move, tape.code, Station.BEING_CHECKED)
    with pytest.raises(WrongInput):
        desk.shop.run(tape_dispositions.reopen, tape.code, because=" ")
    again = desk.shop.run(tape_dispositions.reopen, tape.code, because="she wants it after all")
    assert (again.station, again.disposition) == (Station.LOOKED_OVER, None)
    with pytest.raises(Refused, match="Nobody has settled"):
        desk.shop.run(tape_dispositions.reopen, tape.code, because="again")
    told = [each.words for each in desk.shop.ask(tapes.history, tape.code)]
    assert told[1:] == ["settled: not wanted", "no longer not wanted: she wants it after all"]
    assert desk.shop.verify() == ()


def test_a_move_takes_back_what_a_move_said(desk: Desk) -> None:
    tape = desk.book(line()).tapes[0]
    aside = desk.shop.run(tapes.move, tape.code, Station.CANNOT_BE_PLAYED)
    assert aside.disposition is Disposition.CANNOT_BE_PLAYED
    assert desk.shop.run(tapes.move, tape.code, Station.LOOKED_OVER).disposition is None
    ready = desk.bring_to(desk.shop.ask(tapes.get, tape.code), Station.READY, minutes=20)
    assert desk.shop.run(tapes.move, ready.code, Station.BEING_CHECKED).disposition is None
    assert desk.shop.verify() == ()


@pytest.mark.parametrize("finding", [Finding.MOULD, Finding.STICKY])
def test_what_harms_other_tapes_stays_apart_until_it_goes_home(desk: Desk, finding: Finding) -> None:
    job = desk.book(line())
    desk.shop.run(tapes.move, job.tapes[0].code, Station.KEPT_APART, findings=[finding])
    tape = settled(desk, job.tapes[0], Disposition.NOT_WANTED)
    assert tape.station is Station.KEPT_APART
    assert desk.hand_back(job).handed_back[0].disposition is Disposition.NOT_WANTED


def test_a_tape_that_goes_home_from_apart_could_not_be_played(desk: Desk) -> None:
    job = desk.book(line())
    desk.shop.run(tapes.move, job.tapes[0].code, Station.KEPT_APART, findings=[Finding.MOULD])
    assert desk.hand_back(job).handed_back[0].disposition is Disposition.CANNOT_BE_PLAYED
    assert desk.shop.verify() == ()


# --- repairs that were done --------------------------------------------------------------


def splice(desk: Desk, tape: TapeRecord, joined: Join = Join.TAPE) -> None:
    desk.shop.run(repair_record.splice, tape.code, at_minutes=5, cut_cm=2, joined_with=joined)


def test_a_splice_made_at_the_bench_is_charged_by_the_book(desk: Desk) -> None:
    job = desk.book(line(), line("hi8", marking="P6-120"))
    assert "repair-splice" not in charged(desk, job)
    splice(desk, job.tapes[0])
    assert charged(desk, job)["repair-splice"] == 1800
    splice(desk, job.tapes[0])
    assert charged(desk, job)["repair-splice"] == 3600
    desk.shop.run(repair_record.undo_splice, job.tapes[0].code, because="mistyped")
    assert charged(desk, job)["repair-splice"] == 1800


def test_a_splice_that_was_agreed_on_is_charged_once(desk: Desk) -> None:
    job = desk.book(line(findings=[Finding.SNAPPED, Finding.CHEWED]))
    planned = charged(desk, job)
    assert (planned["repair-splice"], planned["repair-straighten"]) == (1800, 1500)
    splice(desk, job.tapes[0])
    assert charged(desk, job) == planned


@pytest.mark.parametrize(
    ("finding", "joined", "repairs"),
    [
        (Finding.CHEWED, Join.TAPE, {"repair-straighten"}),
        (Finding.OFF_HUB, Join.LEADER, {"repair-re-anchor"}),
        (Finding.OFF_HUB, Join.TAPE, {"repair-re-anchor"}),
        (Finding.REEL_BROKEN, Join.TAPE, {"repair-reel-swap"}),
    ],
)
def test_a_repair_that_may_need_a_splice_pays_for_it(
    desk: Desk, finding: Finding, joined: Join, repairs: set[str]
) -> None:
    job = desk.book(line(findings=[finding]))
    splice(desk, job.tapes[0], joined)
    for there in (Station.LOOKED_OVER, Station.AT_THE_BENCH, Station.CLEARED_TO_PLAY, Station.PLAYING):
        desk.shop.run(tapes.move, job.tapes[0].code, there)
    desk.shop.run(tapes.move, job.tapes[0].code, Station.BEING_CHECKED, minutes=50)
    desk.shop.run(tapes.move, job.tapes[0].code, Station.READY)
    assert {each for each in charged(desk, job) if each.startswith("repair-")} == repairs


def test_a_repair_that_was_declined_is_not_charged(desk: Desk) -> None:
    job = desk.book(line(findings=[Finding.SNAPPED]), line())
    assert "repair-splice" in charged(desk, job)
    settled(desk, job.tapes[0], Disposition.REPAIR_DECLINED)
    assert "repair-splice" not in charged(desk, job)


# --- as it was kept before ---------------------------------------------------------------


def _as_before(unit: Unit) -> None:
    for row in unit.session.query(TapeRow):
        row.disposition, row.note_is_told = None, None


def test_a_tape_kept_before_is_read_as_it_was(desk: Desk) -> None:
    job = desk.book(line(count=3))
    desk.shop.run(tapes.move, job.tapes[0].code, Station.CANNOT_BE_PLAYED, note="for us", tell=True)
    desk.bring_to(job.tapes[1], Station.READY, minutes=45)
    before = charged(desk, job)
    desk.shop.run(_as_before)
    found = desk.shop.ask(jobs.get, job.number)
    assert [each.disposition for each in found.tapes] == [
        Disposition.CANNOT_BE_PLAYED,
        Disposition.COPIED,
        None,
    ]
    assert [each.told_note for each in found.tapes] == ["", "", ""]
    assert charged(desk, job) == before


def test_a_tape_called_ready_before_without_minutes_waits_for_a_word(desk: Desk) -> None:
    def as_before(unit: Unit) -> None:
        for row in unit.session.query(TapeRow):
            row.station = Station.READY

    job = desk.book(line())
    desk.shop.run(as_before)
    with pytest.raises(Refused, match="nobody has said what became of it"):
        desk.hand_back(job)
    settled(desk, job.tapes[0], Disposition.NOTHING_ON_IT)
    assert desk.hand_back(job).still_here == ()


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path_factory.mktemp("old") / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))


@pytest.mark.parametrize("revision", ["0001", "0003", "0004", "0006", "0008", "0009"])
def test_a_shop_of_any_earlier_version_opens_and_settles(desk: Desk, older: str, revision: str) -> None:
    job, gone = desk.book(line(count=3)), desk.book(line())
    desk.shop.run(tapes.move, job.tapes[0].code, Station.CANNOT_BE_PLAYED, note="for us")
    desk.bring_to(job.tapes[1], Station.READY, minutes=45)
    desk.bring_to(gone.tapes[0], Station.READY, minutes=30)
    desk.hand_back(gone)
    before = charged(desk, job)
    as_kept_before(desk, older, revision)
    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        assert shop.verify() == ()
        found = shop.ask(jobs.get, job.number).tapes
        assert [each.disposition for each in found] == [
            *(Disposition.CANNOT_BE_PLAYED, Disposition.COPIED, None)
        ]
        assert [each.told_note for each in found] == ["", "", ""]
        price = shop.ask(jobs.reprice, job.number)
        assert {each.code: each.amount.likely for each in price.charges} == before
        assert shop.ask(jobs.get, gone.number).tapes[0].disposition is Disposition.COPIED
        shop.run(tape_dispositions.settle, found[2].code, Disposition.LOST, note="not on its shelf")
        assert shop.verify() == ()


# --- lost and damaged --------------------------------------------------------------------


@pytest.mark.parametrize("disposition", [Disposition.LOST, Disposition.DAMAGED])
def test_what_happened_here_is_written_down_first(desk: Desk, disposition: Disposition) -> None:
    job = desk.book(line(count=2))
    with pytest.raises(WrongInput, match="say what happened"):
        desk.shop.run(tape_dispositions.settle, job.tapes[0].code, disposition)
    tape = settled(desk, job.tapes[0], disposition, note="fell behind the shelf", tell=True)
    assert (tape.station, tape.note) == (Station.ASKING_THE_CUSTOMER, "")
    found = desk.shop.ask(incidents.of_tape, tape.code)
    assert found is not None
    assert (found.opening.words, found.is_open) == ("fell behind the shelf", True)
    with pytest.raises(Refused):
        desk.shop.run(
            pickups.hand_back,
            job.number,
            codes=[tape.code],
            copies=None,
            signature=desk.signature,
        )
    assert desk.shop.verify() == ()


def test_a_lost_tape_that_is_found_again_goes_back_to_work(desk: Desk) -> None:
    tape = settled(desk, desk.book(line()).tapes[0], Disposition.LOST)
    again = desk.shop.run(tape_dispositions.reopen, tape.code, because="it lay in another box")
    assert (again.station, again.disposition) == (Station.LOOKED_OVER, None)
    found = desk.shop.ask(incidents.of_tape, tape.code)
    assert found is not None
    assert not found.is_open
    assert desk.shop.verify() == ()


def test_film_and_pictures_are_counted_and_need_no_minutes(desk: Desk) -> None:
    counted = next(name for name in catalogue().names if catalogue().format(name).record.amount is not None)
    job = desk.book(line(counted, marking=None, speed=None))
    ready = desk.bring_to(job.tapes[0], Station.BEING_CHECKED)
    ready = desk.shop.run(tapes.move, ready.code, Station.READY)
    assert (ready.played_minutes, ready.disposition) == (None, Disposition.COPIED)
    assert desk.hand_back(job).handed_back[0].disposition is Disposition.COPIED
