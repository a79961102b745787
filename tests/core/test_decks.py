"""The shop's fittings, the queue before its decks, and which promises want a call."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core import decks, fittings, tapes
from core.errors import Refused, WrongInput
from core.names import Finding
from core.stations import Station
from tests.support.booked import Desk, line


def test_a_new_shop_has_the_fittings_of_its_file(desk: Desk) -> None:
    assert desk.shop.ask(decks.fittings) == fittings.new_shop()


def test_changed_fittings_are_kept_exactly(desk: Desk) -> None:
    changed = replace(desk.shop.ask(decks.fittings), people=4, confidence=0.95)
    desk.shop.run(decks.refit, changed)
    assert desk.shop.ask(decks.fittings) == changed
    desk.shop.run(decks.refit, replace(changed, people=1))
    assert desk.shop.ask(decks.fittings).people == 1
    assert desk.shop.verify() == ()


def test_fittings_that_cannot_be_are_refused(desk: Desk) -> None:
    before = desk.shop.ask(decks.fittings)
    with pytest.raises(WrongInput, match="people"):
        desk.shop.run(decks.refit, replace(before, people=0))
    assert desk.shop.ask(decks.fittings) == before


def test_a_deck_does_not_go_while_it_plays(desk: Desk) -> None:
    tape = desk.bring_to(desk.book().tapes[0], Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, tape.code, Station.PLAYING, deck="VHS 1")
    before = desk.shop.ask(decks.fittings)
    fewer = replace(before, decks=tuple(deck for deck in before.decks if deck.name != "VHS 1"))
    with pytest.raises(Refused, match=f"VHS 1 is playing tape {tape.code}"):
        desk.shop.run(decks.refit, fewer)


def test_the_queue_holds_what_is_not_ready_in_the_order_it_came(desk: Desk) -> None:
    first, rush = desk.book(line(count=2), line(findings=[Finding.SNAPPED])), desk.book(line())
    desk.bring_to(first.tapes[0], Station.READY)
    desk.bring_to(first.tapes[1], Station.PLAYING)
    queue = desk.shop.ask(decks.queue)
    assert [tape.code for tape in queue] == [first.tapes[1].code, first.tapes[2].code, rush.tapes[0].code]
    assert queue[0].station is Station.PLAYING
    assert queue[0].bench_minutes == 0
    assert queue[1].bench_minutes > 0


def test_a_promise_that_is_kept_is_not_at_risk(desk: Desk) -> None:
    job = desk.book()
    (kept,) = desk.shop.ask(decks.promises)
    assert (kept.job, kept.promise) == (job, job.promise)
    assert kept.chance == pytest.approx(job.promise.stated, abs=0.05)
    assert not kept.is_at_risk


def test_a_deck_that_fails_puts_promises_at_risk(desk: Desk) -> None:
    jobs_booked = [desk.book(line(count=3)) for _ in range(3)]
    fitted = desk.shop.ask(decks.fittings)
    only_one = tuple(replace(deck, in_service=deck.name == "S-VHS") for deck in fitted.decks)
    desk.shop.run(decks.refit, replace(fitted, decks=only_one))
    kept = desk.shop.ask(decks.promises)
    assert {each.job.number for each in kept if each.is_at_risk} <= {job.number for job in jobs_booked}
    assert any(each.is_at_risk for each in kept)
    assert [each.chance for each in kept] == sorted(each.chance or 0 for each in kept)


def test_what_is_ready_keeps_its_promise(desk: Desk) -> None:
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.READY)
    desk.clock.go_on(days=60)
    (kept,) = desk.shop.ask(decks.promises)
    assert (kept.chance, kept.is_at_risk, kept.now) == (1.0, False, None)


def test_a_job_that_went_home_is_in_no_list(desk: Desk) -> None:
    job = desk.book(line())
    desk.hand_back(job, [desk.bring_to(job.tapes[0], Station.READY).code])
    assert desk.shop.ask(decks.promises) == ()
    assert desk.shop.ask(decks.queue) == ()
