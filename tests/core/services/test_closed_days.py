"""Days the shop is shut, by plan or not, and days taken back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from core.model.errors import Refused, WrongInput
from core.services import closed_days, deck_queue, decks, event_counts, jobs, promises
from core.services.event_counts import TimeOff
from core.services.records_door import Shop
from core.store import current_settings, engines
from tests.support.behind import behind
from tests.support.booked import Desk, line, quoted
from tests.support.older import as_kept_before

NEW_YEAR = date(2027, 1, 1)


def test_a_day_the_shop_stayed_shut_is_counted_and_left_out_of_the_plan(desk: Desk) -> None:
    today = desk.clock().date()
    fitted = desk.shop.run(closed_days.stayed_shut, today, "a burst pipe")
    assert today in fitted.closed_days
    assert [(each.day, each.words) for each in desk.shop.ask(event_counts.shut_days)] == [
        (today, "a burst pipe")
    ]
    for day, why, wrong in (
        (today, "again", "to be open"),
        (today + timedelta(days=9), "a wedding", "up to tomorrow"),
        (today + timedelta(days=1), " ", "say why"),
    ):
        with pytest.raises(WrongInput, match=wrong):
            desk.shop.run(closed_days.stayed_shut, day, why)


def test_a_day_shut_may_be_taken_back_and_shut_again(desk: Desk) -> None:
    """Somebody came to open after all; nothing is counted then, and the record of it stays."""
    today = desk.clock().date()
    desk.shop.run(closed_days.stayed_shut, today, "a burst pipe")
    fitted = desk.shop.run(closed_days.open_after_all, [today], "the plumber was quick")
    assert today not in fitted.closed_days
    assert desk.shop.ask(event_counts.shut_days) == ()
    assert desk.shop.ask(event_counts.counted).shut_days == 0
    desk.shop.run(closed_days.stayed_shut, today, "it burst again")
    assert [each.words for each in desk.shop.ask(event_counts.shut_days)] == ["it burst again"]
    assert desk.shop.verify() == ()


def test_taking_a_shut_day_back_brings_the_date_back(desk: Desk) -> None:
    before = quoted(desk.shop, line()).promise
    today = desk.clock().date()
    for day in (today, today + timedelta(days=1)):
        desk.shop.run(closed_days.stayed_shut, day, "flu")
    assert quoted(desk.shop, line()).promise.day != before.day
    for day in (today, today + timedelta(days=1)):
        desk.shop.run(closed_days.open_after_all, [day])
    assert quoted(desk.shop, line()).promise.chances == before.chances


def test_a_holiday_of_the_shop_is_planned_with_its_reason_and_not_counted(desk: Desk) -> None:
    first = desk.clock().date() + timedelta(days=7)
    fitted = desk.shop.run(closed_days.plan, first, first + timedelta(days=6), "spring holiday")
    assert len(fitted.closed_days) == 6, "the Sunday is shut anyway"
    (off,) = desk.shop.ask(event_counts.days_off)
    assert (off.words, off.is_planned) == ("spring holiday", True)
    assert off.days == tuple(sorted(fitted.closed_days))
    assert desk.shop.ask(event_counts.shut_days) == ()
    desk.shop.run(closed_days.open_after_all, [first])
    (left,) = desk.shop.ask(event_counts.days_off)
    assert left.days == off.days[1:]
    desk.shop.run(closed_days.open_after_all, left.days)
    assert desk.shop.ask(current_settings.read).closed_days == frozenset()


def test_a_closed_day_of_the_fittings_alone_has_no_reason(desk: Desk) -> None:
    fitted, day = desk.shop.ask(current_settings.read), desk.clock().date()
    desk.shop.run(decks.refit, replace(fitted, closed_days=frozenset({day})))
    assert desk.shop.ask(event_counts.days_off) == (TimeOff((day,), "", is_planned=True),)


def test_a_promise_under_review_feels_a_planned_holiday(desk: Desk) -> None:
    job = desk.book(line(count=4))
    assert job.promise.day is not None
    desk.shop.run(closed_days.plan, desk.clock().date(), job.promise.day, "a wedding")
    (kept,) = desk.shop.ask(promises.under_review)
    assert kept.is_at_risk
    assert kept.chance == 0.0


def test_days_off_that_cannot_be_are_refused(desk: Desk) -> None:
    today = desk.clock().date()
    for first, last, words, wrong in (
        (today, today, " ", "say why"),
        (today, today - timedelta(days=1), "so", "not before the first"),
        (today - timedelta(days=9), today - timedelta(days=8), "so", "from today on"),
        (today, today + timedelta(days=5000), "so", "within 730 days"),
    ):
        with pytest.raises(WrongInput, match=wrong):
            desk.shop.run(closed_days.plan, first, last, words)
    with pytest.raises(Refused, match="already closed on Friday, January 1"):
        desk.shop.run(closed_days.plan, NEW_YEAR, NEW_YEAR, "a rest")
    with pytest.raises(Refused, match=r"a public holiday .New Year's Day"):
        desk.shop.run(closed_days.open_after_all, [NEW_YEAR])
    with pytest.raises(Refused, match="the shop is not closed then"):
        desk.shop.run(closed_days.open_after_all, [today])
    assert desk.shop.ask(current_settings.read).closed_days == frozenset()


def test_what_was_said_of_days_is_never_changed(desk: Desk) -> None:
    desk.shop.run(closed_days.stayed_shut, desk.clock().date(), "flu")
    with pytest.raises(Exception, match="append-only"), desk.shop.database.writing.begin() as connection:
        connection.execute(behind("UPDATE day_events SET words = 'none'"))


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path_factory.mktemp("old") / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))


def test_shut_days_of_an_older_shop_are_found_again(desk: Desk, older: str) -> None:
    job = desk.book(line())
    as_kept_before(desk, older, "0005")
    old = engines.open_database(older)
    with old.writing.begin() as connection:
        for day, why in (("2026-02-03", "a burst pipe"), ("2026-02-02", "flu")):
            row = {"day": day, "why": why, "at": "2026-02-02T15:00:00.000000Z"}
            connection.execute(behind("INSERT INTO shut_days VALUES (:day, :why, :at, 'Kim')"), row)
    old.close()

    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        assert [each.words for each in shop.ask(event_counts.shut_days)] == ["flu", "a burst pipe"]
        assert [each.rests_until for each in shop.ask(jobs.get, job.number).tapes] == [None]
        assert shop.ask(deck_queue.waiting)[0].code == job.tapes[0].code
        assert shop.verify() == ()
