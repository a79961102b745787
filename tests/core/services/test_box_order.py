"""The order of the boxes: looked for, set as a step, felt by dates and bench, and taken back."""

from __future__ import annotations

from datetime import timedelta

import pytest

from core.model.errors import Refused, WrongInput
from core.model.names import JobNumber
from core.model.stations import Station
from core.services import box_order, deck_queue, decks_to_load, jobs, promises
from core.services.box_order import Proposal
from tests.support.behind import behind
from tests.support.booked import Desk, events, line


def crowd(desk: Desk) -> tuple[JobNumber, JobNumber]:
    """A long box that is in no hurry before a short one, both for the only MiniDV deck."""
    long = desk.book(line("minidv", count=14, marking="DVM60"), name="Longfellow")
    short = desk.book(line("minidv", marking="DVM60"), name="Short")
    later = desk.clock().date() + timedelta(days=30)
    desk.shop.run(promises.renew, long.number, "they are abroad until then", day=later)
    return long.number, short.number


def found(desk: Desk) -> Proposal:
    proposal = desk.shop.ask(box_order.question).answer()
    assert proposal is not None
    return proposal


def boxes(desk: Desk) -> list[str]:
    return list(dict.fromkeys(tape.job for tape in desk.shop.ask(deck_queue.waiting)))


def test_a_small_box_behind_a_long_one_is_found_to_go_first(desk: Desk) -> None:
    long, short = crowd(desk)
    proposal = found(desk)
    assert proposal.order == (short, long)
    first = proposal.changes[0]
    assert (first.number, first.customer) == (short, "Short")
    assert first.days > 0.5
    assert proposal.days > 0
    for change in proposal.changes:
        assert change.was is not None
        assert change.will is not None
        assert change.will >= change.was - 0.01, "a promise was harmed"


def test_the_order_set_is_the_one_decks_and_dates_work_by(desk: Desk) -> None:
    long, short = crowd(desk)
    before = {each.job.number: each.chance for each in desk.shop.ask(promises.under_review)}
    proposal = found(desk)
    desk.shop.run(box_order.put, proposal.order, proposal.seen)
    assert boxes(desk) == [short, long]
    after = {each.job.number: each.chance for each in desk.shop.ask(promises.under_review)}
    assert after == {each.number: each.will for each in proposal.changes}
    assert set(after) == set(before)
    for job in (long, short):
        for tape in desk.shop.ask(jobs.get, job).tapes:
            desk.bring_to(tape, Station.CLEARED_TO_PLAY)
    (up,) = desk.shop.ask(decks_to_load.read)
    assert up.tape is not None
    assert up.tape.code[:6] == short
    assert desk.shop.verify() == ()


def test_an_order_is_taken_back_by_another_step_and_both_stay_in_the_history(desk: Desk) -> None:
    long, short = crowd(desk)
    with pytest.raises(Refused, match="nothing to undo"):
        desk.shop.run(box_order.put_back)
    proposal = found(desk)
    desk.shop.run(box_order.put, proposal.order, proposal.seen)
    desk.shop.run(box_order.put_back)
    assert boxes(desk) == [long, short]
    desk.shop.run(box_order.put_back)
    assert boxes(desk) == [short, long]
    assert [each.words for each in events(desk.shop, "order-of-boxes")] == [
        "queue rearranged: 2 orders",
        "queue set back to the order before",
        "queue set back to the order before",
    ]
    with pytest.raises(Exception, match="append-only"), desk.shop.database.writing.begin() as connection:
        connection.execute(behind("DELETE FROM box_orders"))


def test_a_box_that_came_later_stands_behind_the_ordered_ones(desk: Desk) -> None:
    long, short = crowd(desk)
    proposal = found(desk)
    desk.shop.run(box_order.put, proposal.order, proposal.seen)
    later = desk.book(line("minidv", marking="DVM60")).number
    assert boxes(desk) == [short, long, later]


def test_an_order_worked_out_for_another_queue_is_refused(desk: Desk) -> None:
    crowd(desk)
    proposal = found(desk)
    desk.book(line("minidv", marking="DVM60"))
    with pytest.raises(Refused, match="has changed since"):
        desk.shop.run(box_order.put, proposal.order, proposal.seen)
    assert desk.shop.ask(deck_queue.box_order) == ()


def test_a_day_promised_again_meanwhile_makes_the_order_stale(desk: Desk) -> None:
    _, short = crowd(desk)
    proposal = found(desk)
    job = desk.shop.ask(jobs.get, short)
    assert job.promise.day is not None
    desk.shop.run(promises.renew, short, "they are in a hurry", day=desk.clock().date())
    with pytest.raises(Refused, match="has changed since"):
        desk.shop.run(box_order.put, proposal.order, proposal.seen)


def test_an_order_that_leaves_a_box_out_is_refused(desk: Desk) -> None:
    crowd(desk)
    proposal = found(desk)
    with pytest.raises(WrongInput, match="every order that is waiting"):
        desk.shop.run(box_order.put, proposal.order[:1], proposal.seen)


def test_a_search_that_is_stopped_answers_nothing(desk: Desk) -> None:
    crowd(desk)
    assert desk.shop.ask(box_order.question).answer(lambda: True) is None


def test_nothing_is_proposed_where_nothing_waits(desk: Desk) -> None:
    assert desk.shop.ask(box_order.question).answer() is None
    job = desk.book(line())
    assert desk.shop.ask(box_order.question).answer() is None
    assert boxes(desk) == [job.number]


def test_no_box_is_made_late_for_another(desk: Desk) -> None:
    """The long box was promised for the first day that is sure enough: it has nothing to give."""
    desk.book(line("minidv", count=14, marking="DVM60"))
    desk.book(line("minidv", marking="DVM60"))
    assert desk.shop.ask(box_order.question).answer() is None
