"""Whom to tell that an order is ready: the list, what came of it, reminders, unclaimed orders."""

from __future__ import annotations

import pytest

from core.model.errors import Refused, WrongInput
from core.model.handover_records import ToldHow, ToldResult
from core.model.job_records import Job
from core.model.names import CommandId, Join
from core.model.price_terms import StorageFee, StoragePeriod
from core.model.stations import Station
from core.services import repair_record, tapes
from core.services.after_ready import handover_wishes, telling, telling_text
from core.services.after_ready.telling import ToTell
from core.services.own_shop import shop_document
from core.services.records_door import Shop
from tests.support.behind import behind
from tests.support.booked import Desk, events, line
from tests.support.older import as_kept_before
from tests.support.postgres import postgres_url  # noqa: F401


def ready(desk: Desk, count: int = 1, **changes: object) -> Job:
    job = desk.book(line(count=count), **changes)
    for tape in job.tapes:
        desk.bring_to(tape, Station.READY)
    return job


def tell(desk: Desk, job: Job, result: ToldResult, how: ToldHow = ToldHow.PHONE) -> ToTell:
    return desk.shop.run(telling.tell, job.number, how, result)


def listed(desk: Desk) -> list[tuple[str, int | None]]:
    return [(each.job.number, each.round) for each in desk.shop.ask(telling.to_tell)]


def test_an_order_is_on_the_list_once_all_of_it_is_ready_and_until_somebody_is_told(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[0], Station.READY)
    assert listed(desk) == []
    desk.bring_to(job.tapes[1], Station.READY)
    assert listed(desk) == [(job.number, 0)]
    after = tell(desk, job, ToldResult.NO_ANSWER)
    assert (after.round, after.last_try and after.last_try.result) == (0, ToldResult.NO_ANSWER)
    assert listed(desk) == [(job.number, 0)]
    tell(desk, job, ToldResult.WRONG_NUMBER)
    assert listed(desk) == [(job.number, 0)]
    assert tell(desk, job, ToldResult.REACHED).round is None
    assert listed(desk) == []
    assert [each.by for each in desk.shop.ask(telling.of_job, job.number)] == ["Kim"] * 3
    assert len(events(desk.shop, "told")) == 3
    assert desk.shop.verify() == ()


@pytest.mark.parametrize("stops", ["label", Station.KEPT_APART, Station.ASKING_THE_CUSTOMER, Station.PLAYING])
def test_nobody_is_told_before_every_tape_may_leave(desk: Desk, stops: object) -> None:
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[0], Station.READY)
    if isinstance(stops, Station):
        (desk.bring_to if stops is Station.PLAYING else _move)(*_args(desk, job, stops))
    else:
        last = desk.bring_to(job.tapes[1], Station.READY)
        desk.shop.run(repair_record.splice, last.code, at_minutes=3.0, cut_cm=1.0, joined_with=Join.TAPE)
    assert listed(desk) == []
    with pytest.raises(Refused, match="Not everything on order"):
        tell(desk, job, ToldResult.REACHED)
    assert desk.shop.ask(telling.of_job, job.number) == ()


def _args(desk: Desk, job: Job, station: Station) -> tuple[object, ...]:
    return (job.tapes[1], station) if station is Station.PLAYING else (desk, job.tapes[1].code, station)


def _move(desk: Desk, code: object, station: Station) -> None:
    desk.shop.run(tapes.move, code, station)  # type: ignore[arg-type]


def test_reminders_grow_and_one_that_was_missed_is_not_made_up_for(desk: Desk) -> None:
    job = ready(desk)
    tell(desk, job, ToldResult.REACHED)
    seen = []
    for day in range(1, 61):
        desk.clock.go_on(days=1)
        (due,) = desk.shop.ask(telling.to_tell, everybody=True)
        assert due.days_waiting == day
        if due.round is not None and day != 7:  # the first is forgotten
            seen.append((day, due.round))
            tell(desk, job, ToldResult.LEFT_WORD)
        if 7 < day < 21 and due.round:
            assert due.round == 1
    assert seen == [(8, 1), (21, 2), (45, 3)]
    (due,) = desk.shop.ask(telling.to_tell)
    assert due.is_unclaimed
    assert due.round is None


def test_the_owner_chooses_the_days(desk: Desk) -> None:
    desk.shop.run(shop_document.set_texts, [("calls.reminders", "[2, 4]")])
    job = ready(desk)
    tell(desk, job, ToldResult.REACHED)
    desk.clock.go_on(days=2)
    assert listed(desk) == [(job.number, 1)]
    with pytest.raises(WrongInput, match="rising"):
        desk.shop.run(shop_document.set_texts, [("calls.reminders", "[4, 2]")])


def test_who_came_for_a_part_knows_about_the_rest(desk: Desk) -> None:
    job = ready(desk, 2)
    desk.hand_back(job, [job.tapes[0].code])
    assert listed(desk) == []
    desk.clock.go_on(days=7)
    assert listed(desk) == [(job.number, 1)]


def test_an_order_worked_on_again_is_told_again(desk: Desk) -> None:
    job = ready(desk)
    tell(desk, job, ToldResult.REACHED)
    desk.clock.go_on(days=1)
    desk.shop.run(tapes.move, job.tapes[0].code, Station.BEING_CHECKED)
    assert listed(desk) == []
    desk.clock.go_on(hours=1)
    desk.shop.run(tapes.move, job.tapes[0].code, Station.READY)
    assert listed(desk) == [(job.number, 0)]


def test_keeping_it_is_counted_from_the_day_they_were_told_and_the_law_goes_first(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    fee = StorageFee(100, StoragePeriod.DAY, 30)
    real = telling.storage_charge
    monkeypatch.setattr(telling, "_storage", lambda _, waiting: real(fee, waiting))
    job = ready(desk)
    desk.clock.go_on(days=100)
    assert desk.shop.ask(telling.one, job.number).storage_minor == 0
    tell(desk, job, ToldResult.NO_ANSWER)
    desk.clock.go_on(days=5)
    tell(desk, job, ToldResult.LEFT_WORD)
    desk.clock.go_on(days=33)
    due = desk.shop.ask(telling.one, job.number)
    assert (due.days_waiting, due.storage_minor) == (33, 300)
    assert "law on unclaimed goods goes first" in telling_text.storage_words(due)


def test_the_same_command_is_carried_out_once(desk: Desk) -> None:
    job, once = ready(desk), CommandId("once")
    for _ in range(2):
        desk.shop.once(once, telling.tell, job.number, ToldHow.PHONE, ToldResult.REACHED)
    assert len(desk.shop.ask(telling.of_job, job.number)) == 1
    with pytest.raises(Refused, match="used for something else"):
        desk.shop.once(once, telling.tell, job.number, ToldHow.PHONE, ToldResult.NO_ANSWER)


def test_an_answer_that_a_way_cannot_have_is_refused(desk: Desk) -> None:
    job = ready(desk)
    with pytest.raises(WrongInput, match="sent, wrong-number"):
        tell(desk, job, ToldResult.REACHED, ToldHow.EMAIL)
    assert listed(desk) == [(job.number, 0)]


def test_the_text_says_what_is_ready_and_links_to_the_programs_there_are(desk: Desk) -> None:
    job = ready(desk)
    ready_text = desk.shop.ask(telling_text.text, job.number)
    assert job.number in ready_text.subject
    assert "everything on it can be picked up" in ready_text.body
    assert "We are open now, until" in ready_text.body
    assert ready_text.links[ToldHow.PHONE] == "tel:+13035550142"
    assert ready_text.links[ToldHow.MESSAGE].startswith("sms:+13035550142?body=Hello%20Ada")
    assert ToldHow.EMAIL not in ready_text.links
    tell(desk, job, ToldResult.REACHED)
    desk.clock.go_on(days=7)
    assert "still waits for you" in desk.shop.ask(telling_text.text, job.number).body


def test_a_shop_from_before_tells_its_customers(desk: Desk, older: str) -> None:
    job = ready(desk)
    as_kept_before(desk, older, "0009")
    with Shop.open(older, clock=desk.clock, who="Kim", create=False) as shop:
        assert [each.job.number for each in shop.ask(telling.to_tell)] == [job.number]
        shop.run(telling.tell, job.number, ToldHow.PHONE, ToldResult.REACHED)
        shop.run(handover_wishes.wish, job.number, collector="Bea Fenwick")
        assert shop.ask(telling.to_tell) == ()
        assert shop.verify() == ()
        for table in ("told", "handover_wishes"):
            with pytest.raises(Exception, match="append-only"), shop.database.writing.begin() as connection:
                connection.execute(behind(f"UPDATE {table} SET at = at"))


@pytest.fixture
def older(request: pytest.FixtureRequest, desk: Desk, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of an empty database of the same kind as the desk's."""
    if desk.kind == "sqlite":
        return str(tmp_path_factory.mktemp("old") / "old.sqlite")
    return str(request.getfixturevalue("postgres_url"))
