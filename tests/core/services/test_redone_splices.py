"""A splice made again because the first one was bad: the customer agreed to one and pays for one."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.model.errors import Refused
from core.model.job_records import Job
from core.model.names import Finding, Join, Look, TapeCode
from core.model.stations import Station
from core.papers.handover import receipt
from core.services import jobs, repair_attempts, repair_record, tapes
from core.services.agreement import ceiling_watch
from core.services.records_door import Shop
from core.store import current_settings
from tests.support import pdf
from tests.support.booked import Desk, line
from tests.support.older import as_kept_before


@pytest.fixture
def job(desk: Desk) -> Job:
    return desk.book(line(findings=[Finding.SNAPPED]))


def splice(desk: Desk, job: Job, *, join: Join = Join.TAPE, redone: bool | None = None) -> bool:
    """Whether the splice that was recorded counts as redone."""
    step = repair_record.splice
    code = job.tapes[0].code
    tape = desk.shop.run(step, code, at_minutes=12, cut_cm=2, joined_with=join, redone=redone)
    return tape.splices[-1].redone


def look(desk: Desk, job: Job, verdict: Look) -> None:
    desk.shop.run(repair_attempts.look, job.tapes[0].code, verdict)


def splice_again(desk: Desk, job: Job) -> None:
    splice(desk, job)
    look(desk, job, Look.AGAIN)
    assert splice(desk, job)


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path: Path) -> str:
    """The address of an empty database of the same kind as the desk's."""
    return (
        str(tmp_path / "old.sqlite")
        if desk.kind == "sqlite"
        else str(request.getfixturevalue("postgres_url"))
    )


def test_a_splice_made_again_after_a_bad_look_is_charged_once(desk: Desk, job: Job) -> None:
    splice(desk, job)
    once = desk.shop.ask(jobs.reprice, job.number)
    assert not any(each.code.startswith("redone") for each in once.charges)
    look(desk, job, Look.AGAIN)
    assert splice(desk, job)
    twice = desk.shop.ask(jobs.reprice, job.number)
    assert twice.gross == once.gross
    (repair,) = [each for each in twice.charges if each.code == "repair-splice"]
    assert repair.quantity == "1"
    assert desk.shop.verify() == ()


def test_what_is_given_away_is_shown_with_nothing_to_pay(desk: Desk, job: Job) -> None:
    splice_again(desk, job)
    (given,) = [
        each for each in desk.shop.ask(jobs.reprice, job.number).charges if each.code == "redone-splice"
    ]
    assert (given.amount.low, given.amount.high, given.unit_minor) == (0, 0, 0)
    assert "redone, no charge" in given.text
    assert "no charge" in desk.shop.ask(tapes.history, job.tapes[0].code)[-1].words


def test_the_receipt_says_it_beside_the_splice_and_in_the_price(desk: Desk, job: Job) -> None:
    splice_again(desk, job)
    code = job.tapes[0].code
    desk.shop.run(repair_record.mark, code)
    look(desk, job, Look.OK)
    desk.bring_to(job.tapes[0], Station.READY)
    handed = desk.hand_back(job)
    words = pdf.words(receipt.render(handed, desk.shop.ask(current_settings.read).front))
    assert words.count("This splice was redone; no charge.") == 1
    assert "redone, no charge (VHS T-120)" in words


def test_nobody_is_asked_about_a_price_that_did_not_change(desk: Desk, job: Job) -> None:
    before = desk.shop.ask(ceiling_watch.standing, job.number).stands_minor
    for _ in range(3):
        splice(desk, job)
        look(desk, job, Look.AGAIN)
    splice(desk, job)
    now = desk.shop.ask(ceiling_watch.standing, job.number)
    assert (now.stands_minor, now.over_minor) == (before, 0)
    assert desk.shop.ask(tapes.get, job.tapes[0].code).station is not Station.ASKING_THE_CUSTOMER


def test_after_a_good_look_another_splice_is_another_repair(desk: Desk, job: Job) -> None:
    desk.allow(job)
    splice(desk, job)
    look(desk, job, Look.OK)
    assert not splice(desk, job)
    (repair,) = [
        each for each in desk.shop.ask(jobs.reprice, job.number).charges if each.code == "repair-splice"
    ]
    assert repair.quantity == "2"


def test_somebody_may_say_that_it_was_another_repair_or_that_it_was_not(desk: Desk, job: Job) -> None:
    desk.allow(job)
    splice(desk, job)
    look(desk, job, Look.AGAIN)
    assert not splice(desk, job, redone=False)
    look(desk, job, Look.OK)
    assert splice(desk, job, redone=True)


def test_a_bad_splice_may_be_redone_at_the_leader_without_a_charge(desk: Desk, job: Job) -> None:
    splice(desk, job)
    before = desk.shop.ask(jobs.reprice, job.number).gross
    look(desk, job, Look.AGAIN)
    assert splice(desk, job, join=Join.LEADER)
    price = desk.shop.ask(jobs.reprice, job.number)
    assert price.gross == before
    assert [each.code for each in price.charges if each.code.startswith("redone")] == ["redone-re-anchor"]


def test_the_first_splice_is_never_redone(desk: Desk, job: Job) -> None:
    with pytest.raises(Refused, match="no splice to redo"):
        splice(desk, job, redone=True)
    assert not splice(desk, job)


def test_what_was_agreed_is_paid_once_though_the_first_entry_is_struck_out(desk: Desk, job: Job) -> None:
    splice_again(desk, job)
    first = desk.shop.ask(tapes.get, job.tapes[0].code).splices[0]
    desk.shop.run(repair_record.undo_splice, job.tapes[0].code, because="never held", which=first)
    charges = desk.shop.ask(jobs.reprice, job.number).charges
    assert [each.quantity for each in charges if each.code == "repair-splice"] == ["1"]
    assert not any(each.code.startswith("redone") for each in charges)


def test_a_splice_kept_before_was_made_once(desk: Desk, job: Job, older: str) -> None:
    splice(desk, job)
    before = desk.shop.ask(jobs.reprice, job.number).gross
    as_kept_before(desk, older, "0013")
    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        assert shop.verify() == ()
        assert not shop.ask(tapes.get, TapeCode(job.tapes[0].code)).splices[0].redone
        assert shop.ask(jobs.reprice, job.number).gross == before
