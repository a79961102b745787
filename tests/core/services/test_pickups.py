"""Tapes go back one by one, signed for, and never a spliced one without its mark."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import Join, TapeCode
from core.model.signatures import Signature
from core.model.stations import Station
from core.services import jobs, pickups, repair_record, tapes
from tests.support.booked import Desk, command, line


def _ready(desk: Desk, count: int = 3, ready: int = 2) -> Job:
    job = desk.book(line(count=count))
    for tape in job.tapes[:ready]:
        desk.bring_to(tape, Station.READY, minutes=60)
    return desk.shop.ask(jobs.get, job.number)


def test_everything_that_is_ready_goes_back(desk: Desk) -> None:
    job = _ready(desk)
    pickup = desk.hand_back(job)
    assert [tape.code for tape in pickup.handed_back] == [tape.code for tape in job.tapes[:2]]
    assert [tape.code for tape in pickup.still_here] == [job.tapes[2].code]
    assert (pickup.at, pickup.by, pickup.signature) == (desk.clock(), "Kim", desk.signature)
    assert {tape.station for tape in pickup.handed_back} == {Station.HANDED_BACK}
    assert desk.shop.ask(jobs.get, job.number) == pickup.job


def test_what_is_owed_is_the_final_price_less_what_was_paid(desk: Desk) -> None:
    job = _ready(desk, count=1, ready=1)
    price = desk.shop.ask(jobs.reprice, job.number)
    pickup = desk.hand_back(job, paid_minor=1000)
    assert pickup.final == price
    assert pickup.final.gross.is_one_figure
    assert (pickup.paid_minor, pickup.due_minor) == (1000, price.gross.likely - 1000)
    assert [(each.kind, each.minor) for each in pickup.job.payments] == [("balance", 1000)]


@pytest.mark.parametrize("paid", [-1, 10_000_000])
def test_nobody_pays_less_than_nothing_or_more_than_is_owed(desk: Desk, paid: int) -> None:
    job = _ready(desk)
    with pytest.raises(WrongInput, match="paid"):
        desk.hand_back(job, paid_minor=paid)
    assert desk.shop.ask(jobs.get, job.number) == job


def test_the_copies_go_with_the_first_tapes_once_they_hold_all(desk: Desk) -> None:
    job = _ready(desk, count=2, ready=2)
    assert job.copies
    first = desk.hand_back(job, [job.tapes[0].code])
    assert [copy.id for copy in first.copies] == [copy.id for copy in job.copies]
    second = desk.hand_back(job, [job.tapes[1].code])
    assert second.copies == ()
    assert all(copy.handed_back_at == first.at for copy in second.job.copies)


def test_a_copy_waits_for_the_tapes_that_are_still_to_come(desk: Desk) -> None:
    job = _ready(desk)
    assert desk.hand_back(job).copies == ()
    desk.bring_to(job.tapes[2], Station.READY)
    assert [copy.id for copy in desk.hand_back(job).copies] == [copy.id for copy in job.copies]


def test_copies_may_be_kept_for_the_last_pickup(desk: Desk) -> None:
    job = _ready(desk, count=2, ready=2)
    assert desk.hand_back(job, [job.tapes[0].code], copies=()).copies == ()
    assert len(desk.hand_back(job).copies) == len(job.copies)


def test_a_copy_is_handed_over_once(desk: Desk) -> None:
    job = _ready(desk, count=2, ready=2)
    piece = job.copies[0].id
    desk.hand_back(job, [job.tapes[0].code], copies=[piece])
    with pytest.raises(Refused, match="was handed over"):
        desk.hand_back(job, [job.tapes[1].code], copies=[piece])
    with pytest.raises(WrongInput, match="copy"):
        desk.hand_back(job, [job.tapes[1].code], copies=[piece + 99])


# --- the mark ----------------------------------------------------------------------------


def test_a_spliced_tape_without_its_mark_stays_and_so_does_the_rest(desk: Desk) -> None:
    job = _ready(desk)
    code = job.tapes[1].code
    desk.shop.run(repair_record.splice, code, at_minutes=1, cut_cm=1, joined_with=Join.TAPE)
    before = desk.shop.ask(jobs.get, job.number)
    for codes in (None, [code], [job.tapes[0].code, code]):
        with pytest.raises(Refused, match=f"is spliced.*mark {code}"):
            desk.hand_back(job, codes)
    assert desk.shop.ask(jobs.get, job.number) == before
    desk.hand_back(job, [job.tapes[0].code])
    desk.shop.run(repair_record.mark, code)
    assert desk.hand_back(job).handed_back[0].not_for_reuse


def test_a_tape_that_could_not_be_played_goes_home_as_well(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.shop.run(tapes.move, job.tapes[0].code, Station.CANNOT_BE_PLAYED)
    desk.shop.run(tapes.move, job.tapes[1].code, Station.KEPT_APART)
    pickup = desk.hand_back(job)
    assert len(pickup.handed_back) == 2
    assert not any(
        charge.code.startswith("capture") and charge.amount.high for charge in pickup.final.charges
    )


# --- what is refused ---------------------------------------------------------------------


def test_a_second_pickup_says_when_and_to_whom(desk: Desk) -> None:
    job = _ready(desk)
    code = job.tapes[0].code
    desk.hand_back(job, [code])
    desk.clock.go_on(days=2)
    with pytest.raises(Refused, match=r"Ada Fenwick signed for it on Tuesday, March 3 at 9:00.AM; Kim"):
        desk.hand_back(job, [code])


def test_a_pickup_of_a_finished_job_says_so(desk: Desk) -> None:
    job = _ready(desk, count=1, ready=1)
    desk.hand_back(job)
    with pytest.raises(Refused, match="All tapes on order 000018 are already home"):
        desk.hand_back(job)


def test_a_tape_that_is_not_ready_stays(desk: Desk) -> None:
    job = _ready(desk)
    with pytest.raises(Refused, match="is booked in"):
        desk.hand_back(job, [job.tapes[2].code])
    with pytest.raises(Refused, match="No tape on order"):
        desk.hand_back(desk.book())


def test_a_tape_of_another_job_stays(desk: Desk) -> None:
    job, other = _ready(desk), _ready(desk)
    with pytest.raises(Refused, match=f"is on order {other.number}, not on order {job.number}"):
        desk.hand_back(job, [job.tapes[0].code, other.tapes[0].code])
    assert desk.shop.ask(jobs.get, job.number) == job


def test_a_code_that_was_mistyped_is_named(desk: Desk) -> None:
    with pytest.raises(WrongInput, match="tape code"):
        desk.hand_back(_ready(desk), [TapeCode("0000180015")])


def test_nothing_chosen_is_no_pickup(desk: Desk) -> None:
    with pytest.raises(Refused, match="Nothing"):
        desk.hand_back(_ready(desk), [], copies=[])


def test_a_tape_scanned_twice_goes_once(desk: Desk) -> None:
    job = _ready(desk)
    assert len(desk.hand_back(job, [job.tapes[0].code] * 2).handed_back) == 1


@pytest.mark.parametrize(
    ("signature", "place"),
    [(Signature(" "), "signed by"), (Signature("Ada", (((0.5, 1.5),),)), "signature")],
)
def test_somebody_signs(desk: Desk, signature: Signature, place: str) -> None:
    with pytest.raises(WrongInput, match=place):
        desk.hand_back(_ready(desk), signature=signature)


# --- once and for all --------------------------------------------------------------------


def test_the_same_command_twice_hands_back_once(desk: Desk) -> None:
    job, sent = _ready(desk), command()
    first = desk.hand_back(job, [job.tapes[0].code], paid_minor=500, command=sent)
    desk.hand_back(job, [job.tapes[1].code])
    assert desk.hand_back(job, [job.tapes[0].code], paid_minor=500, command=sent) == first
    assert desk.shop.ask(jobs.get, job.number).paid_minor == 500


def test_receipts_are_kept_as_they_were_signed(desk: Desk) -> None:
    job = _ready(desk)
    assert desk.shop.ask(pickups.latest, job.number) is None
    first = desk.hand_back(job, [job.tapes[0].code], signature=replace(desk.signature, name="Ben Fenwick"))
    second = desk.hand_back(job)
    assert desk.shop.ask(pickups.latest, job.number) == second
    assert desk.shop.ask(pickups.of_job, job.number) == (first, second)
    assert desk.shop.verify() == ()
