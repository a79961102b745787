"""Promises under review, said again with a reason, and judged when their day is over."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from core.cli import plain_answers
from core.model.agreement_records import Consent
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.promise_records import AS_PLANNED
from core.model.stations import Station
from core.promise import chances
from core.services import decks, jobs, promise_entries, promises, tapes
from core.services.agreement import agreements
from core.services.records_door import Shop
from core.store import current_settings
from core.wording.messages import say
from tests.support.behind import behind
from tests.support.booked import Desk, line
from tests.support.older import as_kept_before


def _ready(desk: Desk, job: Job) -> None:
    for tape in job.tapes:
        desk.bring_to(tape, Station.READY)


# --- under review ------------------------------------------------------------------------


def test_a_promise_that_is_kept_is_not_at_risk(desk: Desk) -> None:
    job = desk.book()
    (kept,) = desk.shop.ask(promises.under_review)
    assert (kept.job, kept.promise) == (job, job.promise)
    assert kept.chance == pytest.approx(job.promise.stated, abs=0.05)
    assert not kept.is_at_risk


def test_a_deck_that_fails_puts_promises_at_risk(desk: Desk) -> None:
    jobs_booked = [desk.book(line(count=3)) for _ in range(3)]
    fitted = desk.shop.ask(current_settings.read)
    only_one = tuple(replace(deck, in_service=deck.name == "S-VHS") for deck in fitted.decks)
    desk.shop.run(decks.refit, replace(fitted, decks=only_one))
    kept = desk.shop.ask(promises.under_review)
    assert {each.job.number for each in kept if each.is_at_risk} <= {job.number for job in jobs_booked}
    assert any(each.is_at_risk for each in kept)
    assert [each.chance for each in kept] == sorted(each.chance or 0 for each in kept)


def test_what_is_ready_is_no_promise_any_more(desk: Desk) -> None:
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.READY)
    desk.clock.go_on(days=60)
    (kept,) = desk.shop.ask(promises.under_review)
    assert (kept.chance, kept.is_at_risk, kept.now) == (None, False, None)


@pytest.mark.parametrize(
    ("aside", "told"),
    [
        (Station.CANNOT_BE_PLAYED, "ready_to_go"),
        (Station.KEPT_APART, "waits_for_owner"),
        (Station.ASKING_THE_CUSTOMER, "waits_for_owner"),
    ],
)
def test_a_box_for_which_all_is_done_is_ready_and_has_no_chance_to_tell(
    desk: Desk, aside: Station, told: str
) -> None:
    """The only tape that is not ready cannot be played, and the promised day has passed."""
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[0], Station.READY)
    desk.shop.run(tapes.move, job.tapes[1].code, aside)
    desk.write_copies(job.number)
    desk.clock.go_on(days=119)
    (kept,) = desk.shop.ask(promises.under_review)
    assert (kept.is_done, kept.chance, kept.is_at_risk, kept.held_by) == (True, None, False, ())
    assert say("cli", told) in plain_answers.promises([kept])
    assert chances.words(kept.promise.stated) not in plain_answers.promises([kept])


def test_a_box_that_is_being_checked_is_late_once_its_day_is_over(desk: Desk) -> None:
    """Nothing of it waits for a deck any more; still it is not ready."""
    job = desk.book(line())
    desk.bring_to(job.tapes[0], Station.BEING_CHECKED)
    (kept,) = desk.shop.ask(promises.under_review)
    assert (kept.chance, kept.is_at_risk) == (1.0, False)
    desk.clock.go_on(days=119)
    (kept,) = desk.shop.ask(promises.under_review)
    assert (kept.chance, kept.is_at_risk) == (0.0, True)


def test_a_job_that_went_home_is_in_no_list(desk: Desk) -> None:
    job = desk.book(line())
    desk.hand_back(job, [desk.bring_to(job.tapes[0], Station.READY).code])
    assert desk.shop.ask(promises.under_review) == ()


def test_a_promise_knows_the_shop_it_was_made_against(desk: Desk) -> None:
    first, second = desk.book(line(count=3)), desk.book(line())
    assert first.promise.basis is not None
    assert second.promise.basis is not None
    assert (first.promise.basis.tapes_waiting, second.promise.basis.tapes_waiting) == (0, 3)
    assert "VHS 1" in first.promise.basis.decks
    desk.shop.run(decks.broke_down, "VHS 1")
    changes = {kept.job.number: kept.changes for kept in desk.shop.ask(promises.under_review)}
    assert changes[second.number] == ("VHS 1 is out of service",)
    assert "4 tapes are waiting in the shop; there were 0 then" in changes[first.number]


def test_whoever_would_come_first_is_called_first(desk: Desk) -> None:
    booked = [desk.book(line(count=6), name=name) for name in ("Ada Fenwick", "Bo Ek", "Cy Dunn")]
    desk.clock.go_on(days=40)
    later = desk.book(line(), name="Di Eames")
    risky = [kept.job.number for kept in desk.shop.ask(promises.under_review) if kept.is_at_risk]
    assert risky == [job.number for job in booked]
    assert desk.shop.ask(promises.under_review)[-1].job.number == later.number


def test_the_earliest_day_is_called_before_a_later_one_that_is_less_sure(desk: Desk) -> None:
    """The customer of the first may stand at the counter sooner."""
    soon, lost = desk.book(line(count=9, speed=None)), desk.book(line(count=40), name="Bo Ek")
    day = next(chance.day for chance in soon.promise.chances if 0.05 < chance.by < 0.9)
    for job, later in ((soon, 0), (lost, 1)):
        said = replace(job.promise, day=day + timedelta(days=later), stated=1.0)
        desk.shop.run(agreements.agree, job.number, "so be it", Consent("Ada"), promise=said)
    first, second = desk.shop.ask(promises.under_review)
    assert [first.job.number, second.job.number] == [soon.number, lost.number]
    assert first.chance is not None
    assert second.chance is not None
    assert first.chance > second.chance


# --- what they teach ---------------------------------------------------------------------


def test_a_promise_not_yet_due_teaches_nothing_though_its_order_is_ready(desk: Desk) -> None:
    for _ in range(2):
        _ready(desk, desk.book(line()))
    assert desk.shop.ask(promises.reckoned).expected.recalibration == AS_PLANNED
    desk.clock.go_on(days=30)
    assert desk.shop.ask(promises.reckoned).expected.recalibration.promises == 2


def test_late_orders_move_new_dates_and_none_that_was_given(desk: Desk) -> None:
    late = [desk.book(line(count=2)) for _ in range(5)]
    desk.clock.go_on(days=9)
    given = desk.book(line(count=3))
    before = desk.shop.ask(jobs.get, given.number)
    desk.clock.go_on(days=6)
    learned = desk.shop.ask(promises.reckoned).expected.recalibration
    assert learned.promises >= len(late)
    assert learned.middle > 0.05
    assert desk.shop.ask(jobs.get, given.number).promise == before.promise == given.promise
    (again,) = [each for each in desk.shop.ask(promises.under_review) if each.job.number == given.number]
    assert again.promise == given.promise
    assert desk.shop.ask(promises.reckoned).expected.recalibration == learned
    new = desk.book(line(count=3)).promise.recalibrated
    assert new is not None
    assert new.middle > 0.05
    assert given.promise.recalibrated is not None
    assert given.promise.recalibrated.middle < new.middle


# --- said again --------------------------------------------------------------------------


def test_a_day_is_said_again_with_its_reason_and_the_old_one_stays_readable(desk: Desk) -> None:
    job = desk.book()
    desk.clock.go_on(days=20)
    again = desk.shop.run(promises.renew, job.number, "the deck was out", agreed_with="Ada, by phone")
    assert job.promise.day is not None
    assert again.promise.day is not None
    assert again.promise.day > job.promise.day
    assert again.quote.promise == job.quote.promise
    first, second = desk.shop.ask(promise_entries.said, job.number)
    assert (first.promise, first.reason) == (job.promise, "")
    assert (second.promise, second.reason, second.agreed_with, second.by) == (
        again.promise,
        "the deck was out",
        "Ada, by phone",
        "Kim",
    )
    told = [each.words for each in desk.shop.ask(jobs.history, job.number)]
    assert any("new date promised" in words and "the deck was out" in words for words in told)
    (kept,) = desk.shop.ask(promises.under_review)
    assert not kept.is_at_risk
    assert desk.shop.verify() == ()


def test_the_customer_may_rather_have_a_later_day(desk: Desk) -> None:
    job = desk.book()
    assert job.promise.day is not None
    wanted = next(day for n in range(5, 12) if (day := job.promise.day + timedelta(days=n)).weekday() == 2)
    again = desk.shop.run(promises.renew, job.number, "they are away", day=wanted)
    assert again.promise.day == wanted
    assert again.promise.stated >= job.promise.stated


def test_a_day_cannot_be_said_again_without_a_reason_or_into_the_past(desk: Desk) -> None:
    job = desk.book()
    with pytest.raises(WrongInput, match="reason"):
        desk.shop.run(promises.renew, job.number, "  ")
    for day in (desk.clock().date() - timedelta(days=1), desk.clock().date() + timedelta(days=3000)):
        with pytest.raises(WrongInput, match="day"):
            desk.shop.run(promises.renew, job.number, "why not", day=day)
    _ready(desk, job)
    with pytest.raises(Refused, match="nothing left to promise"):
        desk.shop.run(promises.renew, job.number, "why not")
    assert len(desk.shop.ask(promise_entries.said, job.number)) == 1


def test_what_is_agreed_by_phone_is_a_promise_too(desk: Desk) -> None:
    job = desk.book()
    assert job.promise.day is not None
    other = replace(job.promise, day=job.promise.day + timedelta(days=7))
    desk.shop.run(agreements.agree, job.number, "a week later", Consent("Ada"), promise=other)
    assert [each.promise for each in desk.shop.ask(promise_entries.said, job.number)] == [job.promise, other]


# --- judged ------------------------------------------------------------------------------


def test_a_promise_is_judged_when_its_day_is_over_and_not_before(desk: Desk) -> None:
    job = desk.book()
    _ready(desk, job)
    assert desk.shop.ask(promises.judged) == ()
    desk.clock.go_on(days=40)
    (found,) = desk.shop.ask(promises.judged)
    assert (found.number, found.kept, found.days_late) == (job.number, True, 0)


def test_a_box_that_is_not_ready_in_time_is_a_miss_with_its_reasons(desk: Desk) -> None:
    job = desk.book()
    desk.shop.run(decks.broke_down, "VHS 1", "a belt")
    desk.clock.go_on(days=20)
    (open_still,) = desk.shop.ask(promises.judged)
    assert (open_still.kept, open_still.ready_on) == (False, None)
    desk.shop.run(promises.renew, job.number, "the deck was out")
    _ready(desk, job)
    desk.clock.go_on(days=20)
    first, again = desk.shop.ask(promises.judged)
    assert (first.kept, again.kept) == (False, True)
    assert first.days_late > 10
    assert first.reasons == ("the deck was out", "VHS 1 broke down on Tuesday, March 3: a belt")
    assert desk.shop.ask(promises.record).late == (first,)


def test_a_box_is_ready_when_its_last_tape_is(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[0], Station.READY)
    desk.clock.go_on(days=2)
    desk.bring_to(job.tapes[1], Station.READY)
    desk.clock.go_on(hours=3)
    desk.shop.run(tapes.move, job.tapes[0].code, Station.BEING_CHECKED)
    desk.shop.run(tapes.move, job.tapes[0].code, Station.READY)
    desk.hand_back(job, [tape.code for tape in job.tapes])
    desk.clock.go_on(days=40)
    (found,) = desk.shop.ask(promises.judged)
    assert found.ready_at == desk.clock() - timedelta(days=40)
    told = [each.words for each in desk.shop.ask(jobs.history, job.number)]
    assert told.count("everything on this order is ready") == 2


def test_a_box_that_waits_for_its_owner_is_not_judged(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[0], Station.READY)
    desk.shop.run(tapes.move, job.tapes[1].code, Station.ASKING_THE_CUSTOMER)
    desk.clock.go_on(days=40)
    assert desk.shop.ask(promises.judged) == ()
    desk.shop.run(tapes.move, job.tapes[1].code, Station.LOOKED_OVER)
    assert [each.kept for each in desk.shop.ask(promises.judged)] == [False]


# --- a shop from before ------------------------------------------------------------------


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path: Path) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))


@pytest.mark.parametrize("revision", ["0003", "0004"])
def test_promises_of_an_older_shop_are_found_again(desk: Desk, older: str, revision: str) -> None:
    kept, late, agreed = desk.book(line()), desk.book(line(count=2)), desk.book(line())
    assert agreed.promise.day is not None
    another = replace(agreed.promise, day=agreed.promise.day + timedelta(days=7))
    desk.shop.run(agreements.agree, agreed.number, "a week later is fine", Consent("Ada"), promise=another)
    _ready(desk, kept)
    desk.hand_back(kept, [kept.tapes[0].code])
    desk.clock.go_on(days=30)
    _ready(desk, late)
    as_kept_before(desk, older, revision)

    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        assert [each.promise for each in shop.ask(promise_entries.said, agreed.number)] == [
            agreed.promise,
            another,
        ]
        assert shop.ask(promise_entries.said, agreed.number)[1].reason == "a week later is fine"
        assert shop.ask(promises.judged) == desk.shop.ask(promises.judged)
        assert [(each.number, each.kept) for each in shop.ask(promises.judged)] == [
            (kept.number, True),
            (late.number, False),
            (agreed.number, False),
            (agreed.number, False),
        ]
        assert shop.verify() == ()
        shop.run(promises.renew, agreed.number, "still waiting")
        with pytest.raises(Exception, match="append-only"), shop.database.writing.begin() as connection:
            connection.execute(behind("UPDATE promises SET reason = 'none'"))
